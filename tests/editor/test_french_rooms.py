"""Every room in French: nothing on the screen, nor what is read aloud, stays English."""

import datetime as dt
from collections.abc import Iterator

import pytest
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLabel, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from authoring.editor import i18n
from authoring.editor.catalogue import LOCALES, read
from authoring.editor.i18n import day_words
from authoring.editor.parts.labels import key_words
from authoring.editor.rooms import ROOMS
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow

NAMES_OF_THE_CLINIC = frozenset({"Chair", "Load", "Step", "Standing"})
"""Words of the library itself, which stay in its own language."""

ENGLISH = {
    message.id if isinstance(message.id, str) else message.id[0]
    for message in read(LOCALES / "fr.po", "fr")
    if message.id and message.id != message.string
} - NAMES_OF_THE_CLINIC


def words_of(root: QWidget) -> Iterator[str]:
    for widget in (root, *root.findChildren(QWidget)):
        yield widget.accessibleName()
        yield widget.accessibleDescription()
        yield widget.toolTip()
        yield widget.windowTitle()
        if isinstance(widget, QLabel | QAbstractButton):
            yield widget.text()
        if isinstance(widget, QLineEdit):
            yield widget.placeholderText()
        if isinstance(widget, QComboBox):
            yield from (widget.itemText(at) for at in range(widget.count()))


def words_of_menus(bar: QWidget) -> Iterator[str]:
    for action in bar.actions():
        yield action.text()
        if isinstance(action, QAction) and isinstance(menu := action.menu(), QWidget):
            yield from words_of_menus(menu)


@pytest.fixture
def french(window: MainWindow, settings: Settings) -> MainWindow:
    settings.language = "fr"
    return window


@pytest.mark.parametrize("key", [room.key for room in ROOMS])
def test_a_room_is_french_throughout(french: MainWindow, qtbot: QtBot, key: str) -> None:
    french.show_room(key)
    qtbot.wait(50)
    shown = {*words_of(french), *words_of_menus(french.menuBar())} - {""}
    assert "É&dition" in shown
    assert shown & ENGLISH == set()


@pytest.mark.usefixtures("french")
def test_the_toolkit_s_own_words_are_french_too(qtbot: QtBot) -> None:
    field = QLineEdit("mots")
    qtbot.addWidget(field)
    menu = field.createStandardContextMenu()
    said = [action.text().partition("\t")[0].replace("&", "") for action in menu.actions()]
    menu.deleteLater()
    assert {"Copier", "Coller", "Tout sélectionner"} <= set(said)


def test_the_toolkit_speaks_english_again_with_the_interface(
    french: MainWindow, settings: Settings, qtbot: QtBot
) -> None:
    settings.language = "en"
    field = QLineEdit("words")
    qtbot.addWidget(field)
    menu = field.createStandardContextMenu()
    said = {action.text().partition("\t")[0].replace("&", "") for action in menu.actions()}
    menu.deleteLater()
    assert "Copy" in said
    assert french.room is not None


@pytest.mark.parametrize(
    ("language", "day", "keys"),
    [
        # Dates by CLDR ("d MMMM y" in both); keys as French keyboards name them.
        ("en", "3 May 2030", "Ctrl Del"),
        ("fr", "3 mai 2030", "Ctrl Suppr"),
    ],
)
def test_days_and_keys_are_written_as_readers_know_them(language: str, day: str, keys: str) -> None:
    i18n.use(language)
    try:
        assert day_words(dt.date(2030, 5, 3)) == day
        assert key_words("Ctrl Del") == keys
        assert key_words("Ctrl Z") == "Ctrl Z"
    finally:
        i18n.use("en")
