"""The window: it opens rooms, names undo, shows messages and finds things by name."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from pytestqt.qtbot import QtBot

from authoring.editor.document import Document
from authoring.editor.rooms import ROOMS
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.text import Text
from tests.editor.conftest import HEEL

pytestmark = pytest.mark.usefixtures("bare")


def renamed(card: Card) -> Card:
    return evolve(card, title=Text.plain("Calf raise"))


def test_the_window_says_whose_library_it_is(window: MainWindow) -> None:
    assert window.header.clinic == "Larkfield Movement Clinic"
    assert "Invented library" in window.windowTitle()


@pytest.mark.parametrize("entry", ROOMS, ids=lambda entry: entry.key)
def test_every_room_opens_by_its_keys(window: MainWindow, qtbot: QtBot, entry) -> None:
    digit = Qt.Key(ord(entry.keys[-1]))
    qtbot.keyClick(window, digit, Qt.KeyboardModifier.ControlModifier)
    assert window.header.button(entry.key).isChecked()
    assert window.header.button(entry.key).accessibleName() == f"Room: {entry.name}"


def test_the_edit_menu_names_what_undo_would_take_back(
    window: MainWindow, document: Document
) -> None:
    assert not window.menus.undo.isEnabled()
    document.edit_card("Rename card", HEEL, renamed)
    assert window.menus.undo.text() == "Undo “Rename card”"
    window.menus.undo.trigger()
    assert window.menus.redo.text() == "Redo “Rename card”"
    assert not document.is_dirty


def test_a_message_shows_and_its_action_runs(
    window: MainWindow, session: Session, document: Document
) -> None:
    document.edit_card("Rename card", HEEL, renamed)
    session.tell("The card has a new name.", "Undo", document.undo)
    assert window.toast.sentence == "The card has a new name."
    window.toast._action.click()
    assert document.library.cards[HEEL].title == Text.plain("Heel raise")
    assert window.toast.sentence == ""


def test_the_search_finds_a_card_and_opens_it(
    window: MainWindow, session: Session, qtbot: QtBot
) -> None:
    window.open_search()
    qtbot.keyClicks(window.search.field, "squa")
    assert [item.words for item in window.search.model.items] == ["Squat"]
    qtbot.keyClick(window.search.field, Qt.Key.Key_Return)
    assert session.card is not None
    assert session.card.title == Text.plain("Squat")
    assert window.header.button("cards").isChecked()


def test_the_search_runs_a_command(window: MainWindow, qtbot: QtBot) -> None:
    window.open_search()
    qtbot.keyClicks(window.search.field, "clinic")
    qtbot.keyClick(window.search.field, Qt.Key.Key_Return)
    assert window.header.button("clinic").isChecked()


def test_every_command_has_words_and_no_two_share_keys(window: MainWindow) -> None:
    commands: list[QAction] = window.menus.commands
    assert all(action.text() for action in commands)
    keys = [key.toString() for action in commands for key in action.shortcuts()]
    assert len(keys) == len(set(keys))
