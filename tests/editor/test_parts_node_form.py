"""Forms: every field of every noun can be edited, with limits said under the field."""

import datetime as dt
from collections.abc import Iterator
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.blanks import blank
from authoring.editor.form_context import FormContext
from authoring.editor.parts.marks import Mark
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.session import Session
from authoring.editor.shapes import shapes_of
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.caution import Caution
from authoring.model.clinic import Clinic
from authoring.model.dose import Dose
from authoring.model.library import LibraryFile
from authoring.model.load import IntRange
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, Urgency
from tests.editor.conftest import HEEL


def nouns() -> list[type[Node]]:
    """Every noun that a library's files hold, found from the four files."""
    found: dict[type[Node], None] = {}
    queue: list[Any] = [Card, Protocol, Clinic, LibraryFile]
    while queue:
        cls = queue.pop()
        if cls not in found:
            found[cls] = None
            queue += [t for shape in shapes_of(cls) for t in shape.types if issubclass(t, Node)]
    return sorted(found, key=lambda cls: cls.__name__)


@pytest.fixture
def context(session: Session) -> FormContext:
    return FormContext.of_card(session, HEEL)


def shown(form: NodeForm, qtbot: QtBot) -> NodeForm:
    qtbot.addWidget(form)
    form.show()
    qtbot.waitExposed(form)
    return form


def controls(form: QWidget) -> Iterator[QWidget]:
    for widget in form.findChildren(QWidget):
        if isinstance(widget, QLineEdit | QPlainTextEdit | QComboBox | QAbstractButton):
            yield widget


@pytest.mark.parametrize("cls", nouns(), ids=lambda cls: cls.__name__)
def test_every_field_of_every_noun_has_a_named_control(
    cls: type[Node], context: FormContext, qtbot: QtBot
) -> None:
    names = [shape.name for shape in shapes_of(cls)]
    form = shown(NodeForm(cls, blank(cls), context, only=names), qtbot)
    form.build_all()
    assert set(form._fields) == set(names)
    for control in controls(form):
        if not control.isHidden() and not isinstance(control.parentWidget(), QComboBox):
            own = control.text() if isinstance(control, QAbstractButton) else ""
            assert control.accessibleName() or own, control


def edits(form: NodeForm) -> list[tuple[Node, str, str]]:
    found: list[tuple[Node, str, str]] = []
    form.edited.connect(lambda node, name, key: found.append((node, name, key)))
    return found


def test_typing_gives_new_values_under_one_key(context: FormContext, qtbot: QtBot) -> None:
    card = context.root()
    assert isinstance(card, Card)
    form = shown(NodeForm(Card, card, context, only=("title", "owner")), qtbot)
    found = edits(form)
    control = form._fields["owner"].focusProxy()
    assert control is not None
    qtbot.keyClicks(control, "MO")
    last = found[-1][0]
    assert isinstance(last, Card)
    assert last.owner == "MO"
    assert [(name, key) for _, name, key in found] == [("Edit “Owner”", "owner")] * 2


def test_a_number_outside_its_limits_says_so_under_the_field(
    context: FormContext, qtbot: QtBot
) -> None:
    card = context.root()
    assert isinstance(card, Card)
    form = shown(NodeForm(type(card.variants[0]), card.variants[0], context), qtbot)
    found = edits(form)
    control = form._fields["rung"].focusProxy()
    assert isinstance(control, QLineEdit)
    control.selectAll()
    qtbot.keyClicks(control, "33")
    assert form._rows["rung"].fault == "Write a whole number from −20 to 20."
    assert control.property("fault")
    assert form._rows["rung"].fault in control.accessibleDescription()
    assert [node.rung for node, *_ in found if hasattr(node, "rung")] == [3]
    qtbot.keyClick(control, Qt.Key.Key_Backspace)
    assert form._rows["rung"].fault == ""


def test_what_does_not_go_with_another_field_is_said_and_waits(
    context: FormContext, qtbot: QtBot
) -> None:
    caution = Caution(id="pain", kind=CautionKind.PRECAUTION, text=Text.plain("Pain"))
    form = shown(NodeForm(Caution, caution, context), qtbot)
    found = edits(form)
    kind = form._fields["kind"].focusProxy()
    assert isinstance(kind, QComboBox)
    kind.setCurrentIndex(list(CautionKind).index(CautionKind.STOP_SIGN))
    kind.activated.emit(kind.currentIndex())
    assert not found
    assert (
        form._rows["urgency"].fault
        == "A stop sign has an urgency, and no other kind of caution has one."
    )
    urgency = form._fields["urgency"].focusProxy()
    assert isinstance(urgency, QComboBox)
    urgency.activated.emit(1)
    made = found[-1][0]
    assert isinstance(made, Caution)
    assert (made.kind, made.urgency) == (CautionKind.STOP_SIGN, Urgency.EMERGENCY)
    assert form._rows["urgency"].fault == ""


def test_steps_are_added_moved_and_removed_by_keyboard(context: FormContext, qtbot: QtBot) -> None:
    card = context.root()
    assert isinstance(card, Card)
    variant = card.variants[0]
    form = shown(NodeForm(type(variant), variant, context, only=("steps",)), qtbot)
    found = edits(form)

    def texts() -> list[str]:
        node = found[-1][0]
        return [step.values[""] for step in getattr(node, "steps", ())]

    field = form._fields["steps"]
    first = field.fields[0].focusProxy()  # type: ignore[attr-defined]
    first.setFocus()
    qtbot.keyClick(first, Qt.Key.Key_Return)
    second = field.fields[1].focusProxy()  # type: ignore[attr-defined]
    assert second.accessibleName() == "Steps 2"
    qtbot.keyClicks(second, "Wait.")
    assert texts() == ["Push up onto your toes.", "Wait.", "Lower slowly."]
    qtbot.keyClick(second, Qt.Key.Key_Up, Qt.KeyboardModifier.AltModifier)
    assert texts() == ["Wait.", "Push up onto your toes.", "Lower slowly."]
    moved = field.fields[0].focusProxy()  # type: ignore[attr-defined]
    for _ in range(6):
        qtbot.keyClick(moved, Qt.Key.Key_Backspace)
    assert texts() == ["Push up onto your toes.", "Lower slowly."]


def test_a_dose_is_typed_and_its_fault_names_the_mend(context: FormContext, qtbot: QtBot) -> None:
    card = context.root()
    assert isinstance(card, Card)
    variant = card.variants[0]
    form = shown(NodeForm(type(variant), variant, context, only=("dose",)), qtbot)
    found = edits(form)
    line = form._fields["dose"].row.focusProxy()  # type: ignore[attr-defined]
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "5 x 45 s hold")
    made = found[-1][0]
    dose = getattr(made, "dose", None)
    assert isinstance(dose, Dose)
    assert getattr(dose.work, "hold_s", ()) == (IntRange(low=45),)
    qtbot.keyClicks(line, " zz")
    assert form._rows["dose"].fault


def test_a_check_stands_under_its_field_with_its_mark(context: FormContext, qtbot: QtBot) -> None:
    card = context.root()
    assert isinstance(card, Card)
    form = shown(NodeForm(Card, card, context, only=("title", "purpose")), qtbot)
    result = CheckResult(
        "card-purpose",
        Strength.SHOULD,
        "purpose",
        "The card has no purpose.",
        "Write one line.",
        Subject.CARD,
        HEEL,
    )
    form.show_checks([result])
    row = form._rows["purpose"]
    assert row.fault == "The card has no purpose."
    assert row._fault._mark.mark is Mark.SHOULD
    form.show_checks([])
    assert row.fault == ""


def test_a_place_inside_closed_nouns_is_opened_and_focused(
    context: FormContext, qtbot: QtBot
) -> None:
    card = context.root()
    assert isinstance(card, Card)
    form = shown(NodeForm(Card, card, context), qtbot)
    form.focus_path("variants[1].steps[1]")
    focus = form.focusWidget()
    assert isinstance(focus, QPlainTextEdit)
    assert focus.toPlainText() == "Lower slowly."


def test_a_date_is_read_as_files_write_it(context: FormContext, qtbot: QtBot) -> None:
    card = context.root()
    assert isinstance(card, Card)
    form = shown(NodeForm(Card, card, context, only=("review_due",)), qtbot)
    found = edits(form)
    line = form._fields["review_due"].focusProxy()
    assert isinstance(line, QLineEdit)
    qtbot.keyClicks(line, "2027-3")
    assert form._rows["review_due"].fault == "Write the day as year, month, day: 2027-03-31."
    line.clear()
    qtbot.keyClicks(line, "2027-03-31")
    made = found[-1][0]
    assert isinstance(made, Card)
    assert made.review_due == dt.date(2027, 3, 31)
