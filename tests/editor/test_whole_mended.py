"""What random events once broke stays mended."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot

from authoring.editor.messages import Message
from authoring.editor.session import Selection, Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.stage_map.room import StageMapRoom
from authoring.editor.stage_map.target import ABOUT, Target
from authoring.editor.workshop.room import WorkshopRoom
from tests.editor.conftest import HEEL
from tests.editor.whole import ROOM_KEYS, Strays


@pytest.fixture
def room(window: MainWindow, qtbot: QtBot) -> StageMapRoom:
    window.show_room("protocols")
    window.activateWindow()
    assert isinstance(window.room, StageMapRoom)
    window.room.selecting.entry("heel-1")
    return window.room


def field(room: StageMapRoom, name: str) -> QWidget:
    return next(
        one
        for one in room.details.findChildren(QWidget)
        if isinstance(one, QLineEdit | QPlainTextEdit) and one.accessibleName() == name
    )


def test_the_form_of_the_protocol_stays_while_its_title_is_typed(
    room: StageMapRoom, qtbot: QtBot
) -> None:
    room.open_target(ABOUT)
    title = field(room, "Title")
    title.setFocus()
    qtbot.keyClicks(title, "Hop")
    assert room.details.target == ABOUT
    assert room.title().endswith("Hop")
    assert room.session.selection == Selection("entry", ("heel-1",))


def test_the_form_of_a_border_stays_when_a_criterion_is_added(
    room: StageMapRoom, qtbot: QtBot
) -> None:
    room.menus.edit_gate()
    add = next(
        one for one in room.details.findChildren(QWidget) if one.accessibleName() == "Move on: add"
    )
    qtbot.keyClick(add, Qt.Key.Key_Space)
    qtbot.keyClick(add, Qt.Key.Key_Space)
    assert room.details.target == Target("gate", "settle")
    assert len(room.session.protocol.stages[0].move_on) == 2  # type: ignore[union-attr]


def test_details_of_what_an_undo_took_away_give_the_focus_back_to_the_map(
    room: StageMapRoom, qtbot: QtBot
) -> None:
    room.actions_of_map.add_stage()
    room.open_details()
    field(room, "Name").setFocus()
    room.session.document.undo()
    assert not room.details.isVisible()
    focus = room.window().focusWidget()
    assert focus is not None
    assert room.map.isAncestorOf(focus)


def test_rooms_that_were_built_anew_are_let_go(
    window: MainWindow, session: Session, settings: Settings, qtbot: QtBot
) -> None:
    for key in ROOM_KEYS:
        window.show_room(key)
    settings.scale = 1.15
    qtbot.wait(20)
    session.choose_card("")
    session.choose_card(HEEL)
    session.select(Selection("variant", ("one-leg",)))
    session.choose_protocol("")
    session.edit_texts_in("de")
    assert window.header.button(ROOM_KEYS[-1]).isChecked()


def in_menu(menu: QMenu) -> Iterator[str]:
    """What a menu and the menus in it offer."""
    for action in menu.actions():
        inner = action.menu()
        if isinstance(inner, QMenu):
            yield from in_menu(inner)
        elif not action.isSeparator():
            yield action.text()


def test_every_room_keeps_its_commands_while_others_are_open(
    window: MainWindow, qtbot: QtBot
) -> None:
    commands = {}
    for key in ROOM_KEYS:
        window.show_room(key)
        commands[key] = [action.text() for action in window.room.actions()]
    for key in ROOM_KEYS:
        window.show_room(key)
        assert [action.text() for action in window.room.actions()] == commands[key]
        assert sorted(in_menu(window.menus.room_menu)) == sorted(commands[key])
    assert len(commands["protocols"]) > 30


def test_the_keys_of_the_map_work_again_after_another_room(
    room: StageMapRoom, window: MainWindow, qtbot: QtBot
) -> None:
    window.show_room("cards")
    window.show_room("protocols")
    qtbot.keyClick(window.focusWidget() or window, Qt.Key.Key_F2)
    assert room.details.isVisible()


@pytest.mark.parametrize("key", ["Return", "Down", "Up", "Insert"])
def test_plain_keys_in_a_form_are_the_form_s_and_not_the_map_s(
    room: StageMapRoom, qtbot: QtBot, key: str
) -> None:
    room.open_target(ABOUT, "version")
    version = room.window().focusWidget()
    assert version is not None
    qtbot.keyClick(version, Qt.Key[f"Key_{key}"])
    assert room.window().focusWidget() is version
    assert room.details.target == ABOUT
    assert room.session.selection == Selection("entry", ("heel-1",))


def test_a_new_protocol_wants_its_title_first(room: StageMapRoom, qtbot: QtBot) -> None:
    room.bar.new_protocol()
    line = room.window().focusWidget()
    assert line is not None
    qtbot.keyClicks(line, "Wrist sprain")
    assert room.title() == "Wrist sprain"


def test_an_empty_clipboard_is_said_to_be_empty(room: StageMapRoom, told: list[Message]) -> None:
    QGuiApplication.clipboard().clear()
    room.menus.paste()
    assert told[-1].sentence == "There is nothing on the clipboard that fits here."


def test_the_program_ends_well_after_copying() -> None:
    code = (
        "from PySide6.QtWidgets import QApplication\n"
        "from authoring.editor.stage_map.clipboard import clip_data, clip_of\n"
        "from authoring.model.edits.clip import Clip\n"
        "app = QApplication([])\n"
        f"clip = Clip(source='{HEEL}', language='en', terms_language='en')\n"
        "app.clipboard().setMimeData(clip_data(clip, 'Heel raise'))\n"
        "assert app.clipboard().text() == 'Heel raise'\n"
        "assert clip_of(app.clipboard().mimeData()) == clip\n"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=Path(__file__).parents[2], check=False)
    assert done.returncode == 0


def test_a_stage_that_an_undo_took_away_is_not_copied(
    room: StageMapRoom, told: list[Message]
) -> None:
    room.actions_of_map.add_stage()
    selected = room.session.selection
    assert selected.kind == "stage"
    room.session.document.undo()
    room.session.select(selected)
    before = len(told)
    room.menus.copy()
    assert told[before:] == []


def test_a_stage_that_an_undo_took_away_is_not_moved(
    room: StageMapRoom, told: list[Message]
) -> None:
    room.actions_of_map.add_stage()
    gone = room.session.selection
    room.session.document.undo()
    room.session.select(gone)
    assert room.selecting.stage_id == "settle"
    before = room.session.library
    room.actions_of_map.move_stage(gone.ids[0], -1)
    assert room.session.library is before
    assert told[-1].sentence == f"This protocol has no stage “{gone.ids[0]}”."


def test_what_asks_before_a_used_variant_goes_is_one_window(
    window: MainWindow, qapp: QApplication
) -> None:
    window.show_room("cards")
    assert isinstance(window.room, WorkshopRoom)
    strays = Strays(qapp)
    window.room.on_ladder.remove()
    qapp.removeEventFilter(strays)
    dialog = window.room.on_ladder.dialog
    assert dialog is not None
    assert dialog.choice.isVisible()
    assert strays.found == []
    dialog.reject()
