"""The ladder, driven as a person would: keys, mouse, sentences."""

from collections.abc import Callable

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import (
    QApplication,
)
from pytestqt.qtbot import QtBot

from authoring.editor.library_edits import without_protocol
from authoring.editor.messages import Message
from authoring.editor.workshop.ladder_cell import VariantCell
from authoring.editor.workshop.ladder_model import Side
from authoring.editor.workshop.room import WorkshopRoom
from authoring.model.card import HoldDetail
from authoring.model.vocabulary import Mode
from tests.editor.conftest import ANKLE, words
from tests.editor.workshop.driving import card, focused_name, form, names, pick, text

Key, Mod = Qt.Key, Qt.KeyboardModifier


def test_a_cell_says_to_a_screen_reader_what_its_height_says(room: WorkshopRoom) -> None:
    assert [cell.accessibleName() for cell in room.bench.ladder.cells()] == [
        "One leg, moving, progression 1, 3 by 8 to 12",
        "Add a hold, progression 1",
        "Two legs, moving, as named, 3 by 8 to 12",
        "Add a hold, as named",
    ]


def test_the_room_opens_with_the_focus_on_the_variant_that_is_written(room: WorkshopRoom) -> None:
    assert focused_name() == "Two legs, moving, as named, 3 by 8 to 12"


def test_only_the_variant_that_is_written_is_a_stop_of_tab(room: WorkshopRoom) -> None:
    stops = [
        cell.text()
        for cell in room.bench.ladder.cells()
        if cell.focusPolicy() & Qt.FocusPolicy.TabFocus
    ]
    assert stops == ["Two legs"]


def test_cells_are_large_enough_to_hit(room: WorkshopRoom) -> None:
    sizes = [cell.size() for cell in room.bench.ladder.cells()]
    assert min(min(size.width(), size.height()) for size in sizes) >= 24  # WCAG 2.2, 2.5.8


def test_arrows_walk_the_ladder_and_the_form_follows(
    room: WorkshopRoom, press: Callable[..., None]
) -> None:
    press(Key.Key_Up)
    assert text(room, "name").edit.toPlainText() == "One leg"
    press(Key.Key_Right)
    assert focused_name() == "Add a hold, progression 1"
    press(Key.Key_Down)
    press(Key.Key_Left)
    assert focused_name() == "Two legs, moving, as named, 3 by 8 to 12"
    assert text(room, "name").edit.toPlainText() == "Two legs"


def test_ctrl_up_walks_to_the_harder_one_from_inside_the_form(
    room: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    text(room, "start").edit.setFocus()
    press(Key.Key_Up, Mod.ControlModifier)
    assert text(room, "name").edit.toPlainText() == "One leg"
    assert text(room, "start").edit.hasFocus()
    press(Key.Key_Up, Mod.ControlModifier)
    assert told[-1].sentence == "Heel raise has no harder variant."


def test_ctrl_right_says_where_there_is_no_hold(
    room: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    press(Key.Key_Right, Mod.ControlModifier)
    assert told[-1].sentence == "Heel raise has no variant that is held."


def test_enter_goes_on_to_write_the_variant(room: WorkshopRoom, press: Callable[..., None]) -> None:
    press(Key.Key_Return)
    assert focused_name() == "Name"


def test_a_click_chooses_a_variant(room: WorkshopRoom, qtbot: QtBot) -> None:
    cell = room.bench.ladder.cell("one-leg")
    assert cell is not None
    qtbot.mouseClick(cell, Qt.MouseButton.LeftButton)
    assert cell.isChecked()
    assert room.session.selection.ids == ("one-leg",)


def test_ins_offers_copies_and_blanks(room: WorkshopRoom, press: Callable[..., None]) -> None:
    press(Key.Key_Insert)
    menu = room.on_ladder.menu
    assert menu is not None
    assert [action.text() for action in menu.actions() if action.text()] == [
        "A copy of “Two legs”, with only the differences",
        "One rung harder: progression 1",
        "One rung easier: regression 1",
        "An alternative on this rung",
        "Held instead of moved",
        "Blank, progression 1",
        "Blank, as named",
        "Blank, regression 1",
    ]
    menu.close()


def test_a_copy_is_written_by_its_differences(
    room: WorkshopRoom, press: Callable[..., None], qtbot: QtBot
) -> None:
    before = room.session.library
    press(Key.Key_Insert)
    pick(room, "One rung easier: regression 1")
    assert [(v.name.best("en", "en"), v.rung) for v in card(room).variants] == [
        ("Two legs, copy", -1),
        ("Two legs", 0),
        ("One leg", 1),
    ]
    assert focused_name() == "Name"
    qtbot.keyClicks(QApplication.focusWidget(), "Two legs, hands on a table")
    assert names(room)[0] == "Two legs, hands on a table"
    strip = form(room).strip
    assert strip.words.text() == "Made from “Two legs”"
    assert strip.fields.text() == "Differs in: Rung, Name"
    assert form(room).fields.rows["name"].label.text() == "Name · differs"
    assert form(room).fields.rows["steps"].label.text() == "Steps"
    room.session.document.undo()
    assert room.session.document.undo_name == "Add a copy"
    room.session.document.undo()
    assert room.session.library == before


def test_the_form_can_show_the_differences_alone(
    room: WorkshopRoom, press: Callable[..., None], qtbot: QtBot
) -> None:
    press(Key.Key_Insert)
    pick(room, "One rung harder: progression 1")
    qtbot.mouseClick(form(room).strip.only, Qt.MouseButton.LeftButton)
    rows = form(room).fields.rows
    assert [name for name, row in rows.items() if row.isVisible()] == ["name", "rung"]
    qtbot.mouseClick(form(room).strip.close_button, Qt.MouseButton.LeftButton)
    assert not form(room).strip.isVisible()
    assert rows["steps"].isVisible()


def test_a_hold_made_of_a_moving_variant_stands_in_for_it(
    room: WorkshopRoom, press: Callable[..., None]
) -> None:
    press(Key.Key_Right)
    press(Key.Key_Return)
    pick(room, "A copy of “Two legs”, with only the differences")
    held = card(room).variants[-2] if names(room)[-1] == "One leg" else card(room).variants[-1]
    assert (held.mode, held.rung, held.dose) == (Mode.ISOMETRIC, 0, None)
    assert held.hold == HoldDetail(stands_in_for=("two-legs",))


def test_a_free_place_takes_a_blank_hold(room: WorkshopRoom, press: Callable[..., None]) -> None:
    press(Key.Key_Up)
    press(Key.Key_Right)
    press(Key.Key_Return)
    pick(room, "A blank hold")
    assert focused_name() == "Name"
    assert room.bench.ladder.free_cell(1, Side.HOLDING) is None
    assert "New hold, holding, progression 1, no dose" in [
        cell.accessibleName() for cell in room.bench.ladder.cells()
    ]


def unused(room: WorkshopRoom) -> None:
    room.session.document.edit("Remove protocol", lambda lib: without_protocol(lib, ANKLE))


def test_del_removes_a_variant_and_offers_undo(
    room: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    unused(room)
    before = room.session.library
    press(Key.Key_Delete)
    assert names(room) == ["One leg"]
    assert focused_name() == "One leg, moving, progression 1, 3 by 8 to 12"
    assert (told[-1].sentence, told[-1].action_name) == ("“Two legs” is removed.", "Undo")
    assert told[-1].action is not None
    told[-1].action()
    assert room.session.library == before


def test_before_a_used_variant_goes_it_says_where_and_another_takes_its_place(
    room: WorkshopRoom, press: Callable[..., None], qtbot: QtBot
) -> None:
    before = room.session.library
    press(Key.Key_Delete)
    dialog = room.on_ladder.dialog
    assert dialog is not None
    assert dialog.uses.text() == "Ankle sprain, invented, exercise 1: starts with it."
    assert dialog.choice.combo.currentText() == "One leg"
    qtbot.mouseClick(dialog.remove_button, Qt.MouseButton.LeftButton)
    assert names(room) == ["One leg"]
    assert [e.start for e in room.session.library.protocols[ANKLE].entries()] == [
        "one-leg",
        "one-leg",
    ]
    room.session.document.undo()
    assert room.session.library == before


def test_del_in_a_text_removes_a_letter_and_no_variant(
    room: WorkshopRoom, press: Callable[..., None]
) -> None:
    edit = text(room, "name").edit
    edit.setFocus()
    press(Key.Key_Home, Mod.ControlModifier)
    press(Key.Key_Delete)
    assert names(room) == ["wo legs", "One leg"]


def test_alt_up_makes_a_variant_stand_higher(
    room: WorkshopRoom, press: Callable[..., None]
) -> None:
    press(Key.Key_Up, Mod.AltModifier)
    press(Key.Key_Up, Mod.AltModifier)
    assert [v.rung for v in card(room).variants] == [2, 1]
    assert room.session.document.undo_name == "Move to progression 2"
    assert focused_name() == "Two legs, moving, progression 2, 3 by 8 to 12"


def test_alt_up_in_a_step_moves_the_step_and_not_the_variant(
    room: WorkshopRoom, press: Callable[..., None]
) -> None:
    text(room, "steps[1]").edit.setFocus()
    press(Key.Key_Up, Mod.AltModifier)
    two = card(room).variants[0]
    assert two.rung == 0
    assert two.steps == (words("Lower slowly."), words("Push up onto your toes."))


def test_the_order_of_preference_on_a_rung_is_changed_by_keys(
    room: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    press(Key.Key_Up, Mod.AltModifier)
    both = Mod.AltModifier | Mod.ShiftModifier
    press(Key.Key_Down, both)
    assert names(room) == ["One leg", "Two legs"]
    press(Key.Key_Down, both)
    assert told[-1].sentence == "This variant is the last of its rung."


def carry(cell: VariantCell, by: int, qtbot: QtBot, *, let_go: bool = True) -> None:
    grip = cell.rect().center()
    qtbot.mousePress(cell, Qt.MouseButton.LeftButton, pos=grip)
    start, done = cell.y(), 0
    while done != by:
        step = max(-20, min(20, by - done))
        done += step
        # The cell moves with the mouse, so the mouse stays where it holds it.
        qtbot.mouseMove(cell, grip + QPoint(0, start + done - cell.y()))
    if let_go:
        qtbot.mouseRelease(cell, Qt.MouseButton.LeftButton, pos=grip)


def test_a_variant_is_carried_to_another_rung_by_the_mouse(
    room: WorkshopRoom, qtbot: QtBot
) -> None:
    ladder = room.bench.ladder
    one, two = ladder.cell("one-leg"), ladder.cell("two-legs")
    assert one is not None
    assert two is not None
    carry(two, one.y() - two.y(), qtbot)
    assert [v.rung for v in card(room).variants] == [1, 1]
    assert room.session.document.undo_name == "Move to progression 1"


def test_a_variant_carried_above_the_top_makes_a_new_rung(room: WorkshopRoom, qtbot: QtBot) -> None:
    two = room.bench.ladder.cell("two-legs")
    assert two is not None
    carry(two, -two.y() - 20, qtbot)
    assert [v.rung for v in card(room).variants] == [2, 1]


def test_esc_puts_a_carried_variant_back(
    room: WorkshopRoom, qtbot: QtBot, press: Callable[..., None]
) -> None:
    two = room.bench.ladder.cell("two-legs")
    assert two is not None
    at = two.pos()
    carry(two, -60, qtbot, let_go=False)
    press(Key.Key_Escape)
    qtbot.mouseRelease(two, Qt.MouseButton.LeftButton)
    assert two.pos() == at
    assert [v.rung for v in card(room).variants] == [0, 1]
