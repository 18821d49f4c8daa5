"""The room over a small library, and the keyboard."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QApplication,
)
from pytestqt.qtbot import QtBot

from authoring.editor.shell import MainWindow
from authoring.editor.workshop.room import WorkshopRoom

Key, Mod = Qt.Key, Qt.KeyboardModifier


@pytest.fixture
def room(window: MainWindow) -> WorkshopRoom:
    window.show_room("cards")
    assert isinstance(window.room, WorkshopRoom)
    return window.room


@pytest.fixture
def press(qtbot: QtBot) -> Callable[..., None]:
    """Press a key where the focus is."""

    def pressed(key: Qt.Key, modifier: Qt.KeyboardModifier = Mod.NoModifier) -> None:
        qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
        target = QApplication.focusWidget()
        qtbot.keyClick(target, key, modifier)

    return pressed
