"""What a card touches, other cards, and what holds for everybody."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from authoring.checks.result import Subject
from authoring.editor.library_edits import with_protocol, without_card, without_protocol
from authoring.editor.place import Place
from authoring.editor.shell import MainWindow
from authoring.editor.workshop.ladder_cell import LadderCell
from authoring.editor.workshop.ladder_model import Side
from authoring.editor.workshop.room import WorkshopRoom
from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.text import Text
from authoring.model.vocabulary import Status
from tests.editor.conftest import ANKLE, HEEL, SQUAT, words
from tests.editor.workshop.driving import card, focused_name, form, said, text, write_step

Key, Mod = Qt.Key, Qt.KeyboardModifier


def test_where_it_is_used_is_told_and_leads_there(
    room: WorkshopRoom, qtbot: QtBot, window: MainWindow
) -> None:
    write_step(room, "Rise.", qtbot)
    uses = room.bench.side.uses
    line = next(b for b in uses.findChildren(QAbstractButton) if "exercise 1" in b.text())
    assert line.accessibleName() == (
        "Ankle sprain, invented: Stage 1, exercise 1: starts with this. Draft"
    )
    with qtbot.waitSignal(room.session.place_asked) as asked:
        qtbot.mouseClick(line, Qt.MouseButton.LeftButton)
    assert asked.args == [Place(Subject.PROTOCOL, ANKLE, "stages[0].blocks[0].entries[0]")]


def approve(library: Library) -> Library:
    return with_protocol(library, evolve(library.protocols[ANKLE], status=Status.APPROVED))


def test_an_edit_that_reaches_an_approved_protocol_says_so_before(
    room: WorkshopRoom, qtbot: QtBot
) -> None:
    room.session.document.edit("Approve", approve)
    write_step(room, "Rise.", qtbot)
    assert said(room.bench.side.changes)[1:] == [
        "1 approved protocol will ask for a fresh look.",
        "Versions approved before keep the card as it was.",
        "Not saved yet, and changes Ankle sprain, invented.",
    ]


def test_another_card_is_chosen_by_typing_a_part_of_its_name(
    room: WorkshopRoom, press: Callable[..., None], qtbot: QtBot
) -> None:
    press(Key.Key_J, Mod.ControlModifier)
    chooser = room.on_cards.chooser
    assert chooser is not None
    qtbot.keyClicks(chooser.field, "squ")
    assert [line.title for line in chooser.model.lines] == ["Squat"]
    qtbot.keyClick(chooser.field, Key.Key_Return)
    assert room.session.card_id == SQUAT
    assert room.title() == "Squat"
    assert room.bench.title_row.title.accessibleName() == "Card: Squat. Choose another"


def test_a_new_card_begins_with_the_words_that_were_typed(
    room: WorkshopRoom, press: Callable[..., None], qtbot: QtBot
) -> None:
    press(Key.Key_J, Mod.ControlModifier)
    chooser = room.on_cards.chooser
    assert chooser is not None
    qtbot.keyClicks(chooser.field, "Step down")
    assert chooser.none.isVisible()
    assert chooser.new_button.text() == "New card “Step down”"
    qtbot.mouseClick(chooser.new_button, Qt.MouseButton.LeftButton)
    made = card(room)
    assert (made.title, made.slug) == (words("Step down"), "step-down")
    assert [(v.rung, v.name) for v in made.variants] == [(0, words("Step down"))]
    assert focused_name() == "Name"
    assert room.session.document.undo_name == "New card “Step down”"


def test_a_library_without_cards_says_what_a_card_is_and_begins_one(
    room: WorkshopRoom, qtbot: QtBot
) -> None:
    def without(library: Library) -> Library:
        library = without_protocol(library, ANKLE)
        return without_card(without_card(library, HEEL), SQUAT)

    room.session.document.edit("Remove all", without)
    assert room.empty.isVisible()
    assert "No card yet" in said(room.empty)
    qtbot.mouseClick(room.empty.new_button, Qt.MouseButton.LeftButton)
    assert card(room).title == words("New exercise")
    assert room.bench.isVisible()


def test_a_card_without_variants_offers_rung_0(
    room: WorkshopRoom, qtbot: QtBot, press: Callable[..., None]
) -> None:
    room.session.document.edit_card("Empty", HEEL, lambda one: evolve(one, variants=()))
    assert room.bench.pane.note.text() == ("Begin on rung 0: the exercise as the card is named.")
    cell = room.bench.ladder.free_cell(0, Side.MOVING)
    assert isinstance(cell, LadderCell)
    qtbot.mouseClick(cell, Qt.MouseButton.LeftButton)
    assert [(v.rung, v.name) for v in card(room).variants] == [(0, words("Heel raise"))]


def test_every_control_has_a_name(room: WorkshopRoom, qtbot: QtBot) -> None:
    room.bench.form.show_part("card")
    whole = room.bench.form.card_form
    assert whole is not None
    whole.chunks.finish()
    form(room).open_more()
    for control in room.findChildren(QWidget):
        takes = isinstance(control, QLineEdit | QPlainTextEdit | QComboBox | QAbstractButton)
        inner = isinstance(control.parentWidget(), QComboBox)
        if takes and not inner and not control.isHidden():
            own = control.text() if isinstance(control, QAbstractButton) else ""
            assert control.accessibleName() or own, (type(control), control.parentWidget())


def test_arrows_follow_the_direction_of_reading(
    room: WorkshopRoom, press: Callable[..., None]
) -> None:
    room.setLayoutDirection(Qt.LayoutDirection.RightToLeft)
    press(Key.Key_Left)
    assert focused_name() == "Add a hold, as named"


def test_texts_are_edited_in_another_language(room: WorkshopRoom, qtbot: QtBot) -> None:
    room.session.edit_texts_in("de")
    edit = text(room, "name").edit
    assert edit.placeholderText() == "Two legs"
    edit.setFocus()
    qtbot.keyClicks(edit, "Zwei Beine")
    assert card(room).variants[0].name == Text({"en": "Two legs", "de": "Zwei Beine"})
    assert room.bench.ladder.cell("two-legs").text() == "Zwei Beine"  # type: ignore[union-attr]
