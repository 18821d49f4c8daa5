"""The form of a variant and of the whole card, driven as a person would."""

from collections.abc import Callable
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QTextCharFormat
from PySide6.QtWidgets import (
    QApplication,
    QLineEdit,
)
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.messages import Message
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.word_marks import marks_of
from authoring.editor.place import Place
from authoring.editor.shell import MainWindow
from authoring.editor.spelling.shelf import shelf_of
from authoring.editor.workshop.cautions_field import CautionsField
from authoring.editor.workshop.ladder_model import Side
from authoring.editor.workshop.room import WorkshopRoom
from authoring.model.card import HoldDetail
from authoring.model.vocabulary import CautionKind, Mode, Urgency
from tests.editor.conftest import HEEL, words
from tests.editor.workshop.driving import card, focused_name, form, said, text, write_step

Key, Mod = Qt.Key, Qt.KeyboardModifier


def test_typing_is_one_step_of_undo_with_a_name(room: WorkshopRoom, qtbot: QtBot) -> None:
    before = room.session.library
    edit = text(room, "steps[0]").edit
    edit.setFocus()
    edit.selectAll()
    qtbot.keyClicks(edit, "Rise.")
    assert card(room).variants[0].steps[0] == words("Rise.")
    assert room.session.document.undo_name == "Edit “Steps”"
    room.session.document.undo()
    assert room.session.library == before
    assert edit.toPlainText() == "Push up onto your toes."


def test_enter_in_a_step_adds_the_next(
    room: WorkshopRoom, press: Callable[..., None], qtbot: QtBot
) -> None:
    text(room, "steps[0]").edit.setFocus()
    press(Key.Key_Return)
    qtbot.keyClicks(QApplication.focusWidget(), "Wait.")
    assert [s.best("en", "en") for s in card(room).variants[0].steps] == [
        "Push up onto your toes.",
        "Wait.",
        "Lower slowly.",
    ]


def test_a_variant_becomes_a_hold_and_moves_to_the_other_side(
    room: WorkshopRoom, qtbot: QtBot, press: Callable[..., None]
) -> None:
    field: Any = form(room).fields.fields["mode"]
    field.kinds.button(Mode.DYNAMIC).setFocus()
    press(Key.Key_Right)
    held = card(room).variants[0]
    assert (held.mode, held.hold) == (Mode.ISOMETRIC, HoldDetail(stands_in_for=("one-leg",)))
    cell = room.bench.ladder.cell("two-legs")
    assert cell is not None
    assert cell.spot.side is Side.HOLDING
    assert form(room).fields.rows["hold"].isVisible()
    room.session.document.undo()
    assert not form(room).fields.rows["hold"].isVisible()


def test_where_a_hold_is_held_is_written_in_place(room: WorkshopRoom, qtbot: QtBot) -> None:
    field: Any = form(room).fields.fields["mode"]
    qtbot.mouseClick(field.kinds.button(Mode.ISOMETRIC), Qt.MouseButton.LeftButton)
    inner: Any = form(room).fields.fields["hold"]
    where = inner.inner.fields["where"].edit
    where.setFocus()
    qtbot.keyClicks(where, "halfway up")
    hold = card(room).variants[0].hold
    assert hold is not None
    assert hold.where == words("halfway up")


def test_a_dose_is_typed_as_the_trade_writes_it(room: WorkshopRoom, qtbot: QtBot) -> None:
    row = form(room).fields.rows["dose"]
    (line,) = row.findChildren(QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "5 x 45 s hold")
    cell = room.bench.ladder.cell("two-legs")
    assert cell is not None
    assert cell.accessibleName() == "Two legs, moving, as named, 5 by 45 s hold"
    line.selectAll()
    qtbot.keyClicks(line, "3 x ?")
    assert row.fault
    assert cell.accessibleName() != ""


def test_what_was_typed_wrongly_does_not_follow_to_another_variant(
    room: WorkshopRoom, qtbot: QtBot, press: Callable[..., None]
) -> None:
    row = form(room).fields.rows["dose"]
    (line,) = row.findChildren(QLineEdit)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "3 x ?")
    press(Key.Key_Up, Mod.ControlModifier)
    assert row.fault == ""
    assert line.text() == "3 x 8-12"


def test_a_caution_is_added_written_and_removed(room: WorkshopRoom, qtbot: QtBot) -> None:
    field: Any = form(room).fields.fields["cautions"]
    stop = next(a for a in field.menu.actions() if a.text().startswith("Stop sign"))
    stop.trigger()
    assert focused_name() == "Text"
    qtbot.keyClicks(QApplication.focusWidget(), "Sudden pain like a kick.")
    (caution,) = card(room).variants[0].cautions
    assert (caution.kind, caution.urgency) == (CautionKind.STOP_SIGN, Urgency.STOP_EXERCISE)
    assert caution.text == words("Sudden pain like a kick.")
    row = field.rows[0]
    assert (row.word.text(), row.text.text(), row.when.text()) == (
        "Stop",
        "Sudden pain like a kick.",
        "always",
    )
    qtbot.mouseClick(row.remove, Qt.MouseButton.LeftButton)
    assert card(room).variants[0].cautions == ()
    assert room.session.document.undo_name == "Edit “Cautions”"


def test_kit_is_picked_by_name_and_keeps_its_details(room: WorkshopRoom, qtbot: QtBot) -> None:
    row = form(room).fields.rows["equipment"]
    (line,) = row.findChildren(QLineEdit)
    line.setFocus()
    qtbot.keyClicks(line, "chair")
    assert [need.kit for need in card(room).variants[0].equipment] == ["chair"]


def test_rare_fields_stand_behind_one_button(room: WorkshopRoom, qtbot: QtBot) -> None:
    qtbot.mouseClick(form(room).more_button, Qt.MouseButton.LeftButton)
    more = form(room).more
    assert more is not None
    assert {"supports", "limbs", "sources"} <= set(more._fields)


def test_the_whole_card_is_edited_beside_its_variants(room: WorkshopRoom, qtbot: QtBot) -> None:
    which = room.bench.form.which
    qtbot.mouseClick(which.button("card"), Qt.MouseButton.LeftButton)
    whole = room.bench.form.card_form
    assert whole is not None
    qtbot.waitUntil(lambda: whole.chunks.is_done)
    owner: Any = whole.fields.fields["owner"]
    owner.line.setFocus()
    qtbot.keyClicks(owner.line, "Jo Larkfield")
    assert card(room).owner == "Jo Larkfield"
    assert "Owner: Jo Larkfield" in said(room.bench.side)
    assert room.session.document.undo_name == "Edit “Owner”"


def check(path: str, sentence: str) -> CheckResult:
    return CheckResult("x", Strength.SHOULD, path, sentence, "Mend it.", Subject.CARD, HEEL)


def show_results(room: WorkshopRoom, *results: CheckResult) -> None:
    room.session.checks.task.cancel()
    room.session.checks._take(results)


def test_a_check_stands_beside_its_field_on_its_cell_and_in_the_list(room: WorkshopRoom) -> None:
    show_results(room, check("variants[0].steps[1]", "Step 2 does two things."))
    assert form(room).fields.rows["steps"].fault == "Step 2 does two things."
    cell = room.bench.ladder.cell("two-legs")
    assert cell is not None
    assert cell.accessibleName() == "Two legs, moving, as named, 3 by 8 to 12, 1 check"
    assert "Step 2 does two things." in said(room.bench.side.checks)


@pytest.mark.parametrize(
    ("path", "name", "title"),
    [
        ("variants[1].steps[1]", "Steps 2", "One leg"),
        ("variants[0].name", "Name", "Two legs"),
        ("purpose", "Purpose", "Two legs"),
    ],
)
def test_a_check_jumps_to_its_field(
    room: WorkshopRoom, window: MainWindow, path: str, name: str, title: str
) -> None:
    window.show_room("protocols")
    room.session.go_to(Place(Subject.CARD, HEEL, path))
    assert window.room is room
    assert focused_name() == name
    assert text(room, "name").edit.toPlainText() == title


def underlined(field: TextField) -> list[str]:
    block = field.edit.document().firstBlock()
    none = QTextCharFormat.UnderlineStyle.NoUnderline
    return [
        block.text()[span.start : span.start + span.length]
        for span in block.layout().formats()
        if span.format.underlineStyle() != none
    ]


def test_hard_words_are_underlined_and_alt_u_puts_plain_ones_in(
    room: WorkshopRoom, qtbot: QtBot, press: Callable[..., None]
) -> None:
    write_step(room, "Ask your physician.", qtbot)
    assert underlined(text(room, "steps[0]")) == ["physician"]
    words_said = said(room.bench.side.reading)
    assert "Step 1" in words_said
    assert "“physician” may be hard. Try “doctor”." in words_said
    press(Key.Key_U, Mod.AltModifier)
    assert card(room).variants[0].steps[0] == words("Ask your doctor.")
    assert room.session.document.undo_name == "Use “doctor”"
    room.session.document.undo()
    assert card(room).variants[0].steps[0] == words("Ask your physician.")


def test_a_hard_word_and_a_misspelt_one_are_both_underlined(
    room: WorkshopRoom, qtbot: QtBot
) -> None:
    step = text(room, "steps[0]")
    qtbot.waitUntil(lambda: shelf_of(room.session).has_looked("en"))
    write_step(room, "Ask yuor physician.", qtbot)
    assert underlined(step) == ["yuor", "physician"]
    marks_of(step.edit).rehighlight()
    assert underlined(step) == ["yuor", "physician"]


def test_hard_words_are_underlined_in_an_open_caution(room: WorkshopRoom, qtbot: QtBot) -> None:
    field = form(room).fields.fields["cautions"]
    assert isinstance(field, CautionsField)
    field.add(CautionKind.STOP_SIGN)
    opened = field.rows[-1].form
    assert opened is not None
    first = opened.findChildren(TextField)[0]
    qtbot.keyClicks(first.edit, "Ask your physician.")
    assert underlined(first) == ["physician"]


def test_alt_u_says_where_it_has_nothing_to_do(
    room: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    press(Key.Key_U, Mod.AltModifier)
    assert told[-1].sentence == "There are no plain words to put in here."


def test_a_text_too_short_for_a_grade_says_so(room: WorkshopRoom, qtbot: QtBot) -> None:
    write_step(room, "Rise.", qtbot)
    assert room.bench.side.reading.of_what.text() == "8 words so far; a grade needs 100."
