"""Another look is put on in steps; rooms are prepared before anybody opens them."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication, QPlainTextEdit
from pytestqt.qtbot import QtBot

from authoring.editor.appearance import Appearance
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.theme import ThemeName, theme
from tests.editor.whole import ROOM_KEYS


@pytest.fixture
def stepping(appearance: Appearance) -> Iterator[Appearance]:
    appearance.in_steps = True
    yield appearance
    appearance.in_steps = False


def test_another_size_brings_the_open_room_back(
    stepping: Appearance, window: MainWindow, settings: Settings, qtbot: QtBot
) -> None:
    window.show_room("cards")
    before = window.room
    settings.scale = 1.15
    settings.scale = 1.3
    assert window.room is before
    qtbot.waitUntil(lambda: theme().scale == 1.3 and bool(window.room.title()), timeout=5000)
    assert window.room is not before
    assert window.room.isVisible()
    assert window.header.button("cards").isChecked()


def test_colours_change_around_a_text_that_is_being_written(
    stepping: Appearance, window: MainWindow, settings: Settings, qtbot: QtBot
) -> None:
    window.show_room("cards")
    window.activateWindow()
    room = window.room
    text = next(one for one in room.findChildren(QPlainTextEdit) if one.isVisible())
    text.setFocus()
    settings.theme = ThemeName.DARK
    qtbot.waitUntil(lambda: theme().name == "dark", timeout=5000)
    qtbot.wait(30)
    assert window.room is room
    assert QApplication.focusWidget() is text


def test_the_other_rooms_are_made_while_nothing_is_to_be_done(
    window: MainWindow, qtbot: QtBot
) -> None:
    window.show_room("protocols")
    assert window.shelf.keys == ("protocols",)
    window.shelf.prepare()
    qtbot.waitUntil(lambda: set(window.shelf.keys) == set(ROOM_KEYS), timeout=10_000)
    assert window.room.isVisible()
