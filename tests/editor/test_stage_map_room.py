"""The stage map as a person uses it, mostly by keyboard."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from authoring.checks.result import Subject
from authoring.editor.place import Place
from authoring.editor.session import Selection
from authoring.editor.shell import MainWindow
from authoring.editor.stage_map.room import StageMapRoom
from authoring.editor.stage_map.target import Target
from authoring.model.base import evolve
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status

ALT, CTRL, SHIFT = (
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
)


@pytest.fixture
def room(window: MainWindow, qtbot: QtBot) -> StageMapRoom:
    window.show_room("protocols")
    window.show()
    qtbot.waitExposed(window)
    assert isinstance(window.room, StageMapRoom)
    window.room.selecting.entry("heel-1")
    return window.room


def protocol_of(room: StageMapRoom) -> Protocol:
    found = room.session.protocol
    assert found is not None
    return found


def press(qtbot: QtBot, room: StageMapRoom, key: Qt.Key, *held: Qt.KeyboardModifier) -> None:
    modifiers = Qt.KeyboardModifier.NoModifier
    for one in held:
        modifiers |= one
    widget = room.window().focusWidget() or room
    qtbot.keyClick(widget, key, modifiers)


def entries_of(room: StageMapRoom) -> list[list[str]]:
    return [[entry.id for entry in stage.entries()] for stage in protocol_of(room).stages]


def test_arrows_walk_and_the_selection_follows(room: StageMapRoom, qtbot: QtBot) -> None:
    press(qtbot, room, Qt.Key.Key_Right)
    assert room.session.selection == Selection("entry", ("heel-2",))
    press(qtbot, room, Qt.Key.Key_Up)
    assert room.session.selection == Selection("stage", ("load",))
    press(qtbot, room, Qt.Key.Key_Left)
    assert room.session.selection == Selection("gate", ("settle",))


def test_alt_arrows_move_an_entry_a_stage_and_undo_names_it(
    room: StageMapRoom, qtbot: QtBot
) -> None:
    before = protocol_of(room)
    press(qtbot, room, Qt.Key.Key_Right, ALT)
    assert entries_of(room)[0] == []
    assert "heel-1" in entries_of(room)[1]
    assert room.session.document.undo_name == "Move exercise"
    room.session.document.undo()
    assert protocol_of(room) == before


def test_alt_up_starts_harder_and_the_end_of_the_ladder_is_said(
    room: StageMapRoom, qtbot: QtBot
) -> None:
    press(qtbot, room, Qt.Key.Key_Up, ALT)
    assert protocol_of(room).stages[0].blocks[0].entries[0].start == "one-leg"
    press(qtbot, room, Qt.Key.Key_Up, ALT)
    window = room.window()
    assert isinstance(window, MainWindow)
    assert "harder" in window.toast.sentence


def test_a_dose_is_typed_as_the_trade_writes_it(room: StageMapRoom, qtbot: QtBot) -> None:
    press(qtbot, room, Qt.Key.Key_D)
    popup = room.menus.popup
    assert popup is not None
    line = popup.focusProxy()
    assert isinstance(line, QLineEdit)
    line.clear()
    qtbot.keyClicks(line, "5 x 45 s hold, rest 2 min")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    view = room.map.board.view("heel-1")
    assert view is not None
    assert view.face is not None
    assert " ".join(view.face.dose.split()) == "5 × 45 s"
    assert room.session.document.undo_name == "Edit dose"


def test_a_wrong_dose_says_what_and_keeps_the_old_one(room: StageMapRoom, qtbot: QtBot) -> None:
    before = protocol_of(room)
    press(qtbot, room, Qt.Key.Key_D)
    popup = room.menus.popup
    assert popup is not None
    line = popup.focusProxy()
    assert isinstance(line, QLineEdit)
    line.clear()
    qtbot.keyClicks(line, "3 x 8 bananas")
    assert popup.fault.sentence  # type: ignore[union-attr]
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert popup.isVisible()
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    assert not popup.isVisible()
    assert protocol_of(room) == before


def test_a_card_is_added_by_typing_part_of_its_name(room: StageMapRoom, qtbot: QtBot) -> None:
    press(qtbot, room, Qt.Key.Key_Insert)
    popup = room.menus.popup
    assert popup is not None
    qtbot.keyClicks(popup.filter, "squ")  # type: ignore[union-attr]
    qtbot.keyClick(popup.filter, Qt.Key.Key_Return)  # type: ignore[union-attr]
    assert len(entries_of(room)[0]) == 2
    added = entries_of(room)[0][1]
    assert room.session.selection == Selection("entry", (added,))


def test_remove_is_undone_rather_than_asked_about(room: StageMapRoom, qtbot: QtBot) -> None:
    press(qtbot, room, Qt.Key.Key_Delete)
    assert entries_of(room) == [[], ["heel-2"]]
    window = room.window()
    assert isinstance(window, MainWindow)
    assert window.toast.sentence == "Exercise removed."
    room.session.document.undo()
    assert entries_of(room) == [["heel-1"], ["heel-2"]]


def test_copy_and_paste_carry_text_for_other_programs(room: StageMapRoom, qtbot: QtBot) -> None:
    press(qtbot, room, Qt.Key.Key_C, CTRL)
    assert "3 sets of 8 to 12" in QGuiApplication.clipboard().text()
    press(qtbot, room, Qt.Key.Key_V, CTRL)
    assert len(entries_of(room)[0]) == 2


def test_a_stage_is_added_copied_and_removed(room: StageMapRoom, qtbot: QtBot) -> None:
    press(qtbot, room, Qt.Key.Key_N, CTRL, SHIFT)
    assert [s.name.best("en", "en") for s in protocol_of(room).stages][-1] == "New stage"
    press(qtbot, room, Qt.Key.Key_Delete)
    assert len(protocol_of(room).stages) == 2
    room.selecting.stage("load")
    press(qtbot, room, Qt.Key.Key_D, CTRL, SHIFT)
    assert len(protocol_of(room).stages) == 3


def test_every_field_is_one_key_away(room: StageMapRoom, qtbot: QtBot) -> None:
    press(qtbot, room, Qt.Key.Key_F2)
    assert room.details.isVisible()
    assert room.details.target == Target("entry", "heel-1")
    press(qtbot, room, Qt.Key.Key_Escape)
    assert not room.details.isVisible()


def test_a_check_jumps_to_its_field(room: StageMapRoom) -> None:
    protocol_id = room.session.protocol_id
    place = Place(Subject.PROTOCOL, protocol_id, "stages[1].blocks[0].entries[0].dose")
    room.session.go_to(place)
    assert room.session.selection == Selection("entry", ("heel-2",))
    assert room.details.target == Target("entry", "heel-2")


def test_borders_fold_to_a_count(room: StageMapRoom, qtbot: QtBot) -> None:
    shown = room.map.board.geometry_shown
    assert shown is not None
    before = shown.width
    press(qtbot, room, Qt.Key.Key_B)
    assert room.map.board.geometry_shown is not None
    assert room.map.board.geometry_shown.width < before


def test_changing_an_approved_protocol_makes_it_a_draft(room: StageMapRoom, qtbot: QtBot) -> None:
    document = room.session.document
    document.edit_protocol(
        "Approve", room.session.protocol_id, lambda p: evolve(p, status=Status.APPROVED)
    )
    press(qtbot, room, Qt.Key.Key_D, CTRL)
    assert protocol_of(room).status is Status.DRAFT
    window = room.window()
    assert isinstance(window, MainWindow)
    told = window.toast
    qtbot.waitUntil(lambda: told.sentence.startswith("This protocol was approved."))


def test_an_empty_library_teaches_and_begins_a_protocol(room: StageMapRoom) -> None:
    document = room.session.document
    document.edit("Remove", lambda library: evolve(library, protocols={}))
    assert room.empty.isVisible()
    room.bar.new_protocol()
    assert not room.empty.isVisible()
    assert room.title() == "New protocol"


def test_entries_and_heads_are_named_for_readers(room: StageMapRoom) -> None:
    view = room.map.board.view("heel-2")
    assert view is not None
    assert view.accessibleName().startswith("2, One leg, progression 1")
    assert room.map.heads["settle"].accessibleName().startswith("Stage 1, Settle")
