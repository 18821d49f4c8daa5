"""Every room for people who do not see it, use no mouse, or read from right to left."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QLineEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from authoring.editor.appearance import Appearance
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.stage_map.room import StageMapRoom
from authoring.editor.stage_map.target import ABOUT
from tests.editor.conftest import no_checks
from tests.editor.whole import ROOM_KEYS, Dialogs, keep_active, larkfield, whole_window
from tests.editor.whole_keyboard import spoken

LEAST_PX = 24
"""Least size of a target: WCAG 2.2, criterion 2.5.8."""


@pytest.fixture
def clinic(
    tmp_path: Path, settings: Settings, appearance: Appearance, monkeypatch: pytest.MonkeyPatch
) -> Iterator[MainWindow]:
    Dialogs(monkeypatch)
    folder = larkfield(tmp_path / "larkfield")
    with whole_window(folder, settings, appearance, tmp_path / "data", no_checks) as window:
        window.resize(1366, 768)
        yield window


def stops(window: MainWindow) -> list[QWidget]:
    """What Tab should reach in the open room and around it."""
    return [
        one
        for one in window.findChildren(QWidget)
        if one.isVisible()
        and one.isEnabled()
        and one.focusPolicy() & Qt.FocusPolicy.TabFocus
        and one.focusProxy() is None
    ]


def row_of(widget: QWidget) -> FieldRow | None:
    """The outermost field that a control stands in."""
    found, above = None, widget.parentWidget()
    while above is not None:
        found = above if isinstance(above, FieldRow) else found
        above = above.parentWidget()
    return found


def walked(window: MainWindow) -> list[QWidget]:
    """What Tab does reach, from the first room's button round to it again."""
    first = window.header.button(ROOM_KEYS[0])
    first.setFocus()
    found: list[QWidget] = [first]
    for _ in range(600):
        focus = QApplication.focusWidget()
        assert focus is not None, f"after “{spoken(found[-1])}” nothing has the focus"
        QTest.keyClick(focus, Qt.Key.Key_Tab)
        focus = QApplication.focusWidget()
        assert focus is not None, f"after “{spoken(found[-1])}” nothing has the focus"
        if focus is first:
            return found
        found.append(focus)
    raise AssertionError("Tab goes round without an end")


@pytest.mark.parametrize("key", ROOM_KEYS)
def test_every_control_of_every_room_has_a_name_for_readers(
    clinic: MainWindow, qtbot: QtBot, key: str
) -> None:
    clinic.show_room(key)
    qtbot.wait(300)
    found = stops(clinic)
    nameless = [
        f"{type(one).__name__} in {type(one.parent()).__name__}" for one in found if not spoken(one)
    ]
    assert not nameless
    assert len(found) > 8


@pytest.mark.parametrize("key", ROOM_KEYS)
def test_every_target_of_every_room_has_room_for_a_finger(
    clinic: MainWindow, qtbot: QtBot, key: str
) -> None:
    clinic.show_room(key)
    qtbot.wait(300)
    kinds = QAbstractButton | QComboBox | QLineEdit
    small = [
        f"{spoken(one)}: {one.width()} by {one.height()}"
        for one in clinic.findChildren(QWidget)
        if isinstance(one, kinds)
        and one.isVisible()
        and not isinstance(one.parent(), QAbstractScrollArea)
        and one.objectName() != "qt_menubar_ext_button"
        and min(one.width(), one.height()) < LEAST_PX
    ]
    assert not small


@pytest.mark.parametrize("key", ROOM_KEYS)
def test_tab_reaches_all_of_every_room_and_never_loses_the_focus(
    clinic: MainWindow, qtbot: QtBot, key: str
) -> None:
    clinic.show_room(key)
    qtbot.wait(300)
    keep_active(clinic)
    missed = set(stops(clinic)) - set(walked(clinic))
    assert not [f"{type(one).__name__} {spoken(one)}" for one in missed]


@pytest.mark.parametrize("key", ROOM_KEYS)
def test_opening_a_room_puts_the_focus_into_it(clinic: MainWindow, qtbot: QtBot, key: str) -> None:
    other = ROOM_KEYS[0] if key != ROOM_KEYS[0] else ROOM_KEYS[1]
    clinic.show_room(other)
    clinic.show_room(key)
    qtbot.wait(50)
    keep_active(clinic)
    focus = QApplication.focusWidget()
    assert focus is not None
    assert focus is clinic.room or clinic.room.isAncestorOf(focus)


def test_the_form_beside_the_map_is_named_and_reached_in_the_order_it_stands(
    clinic: MainWindow, qtbot: QtBot
) -> None:
    room = clinic.room
    assert isinstance(room, StageMapRoom)
    room.open_target(ABOUT)
    qtbot.wait(600)
    keep_active(clinic)
    inside = [one for one in walked(clinic) if room.details.isAncestorOf(one)]
    assert all(map(spoken, inside))
    assert not set(stops(clinic)) - set(walked(clinic))
    rows = [row for row in map(row_of, inside) if row is not None]
    tops = [row.mapTo(room.details, QPoint()).y() for row in rows]
    assert len(inside) > 60
    assert tops == sorted(tops)


@pytest.mark.parametrize("key", ROOM_KEYS)
@pytest.mark.parametrize("scale", [1.15, 1.3])
def test_large_text_fits_a_small_screen_in_every_room(
    clinic: MainWindow, qtbot: QtBot, key: str, scale: float
) -> None:
    clinic.settings.scale = scale
    clinic.show_room(key)
    qtbot.wait(100)
    clinic.resize(1366, 768)
    assert (clinic.width(), clinic.height()) == (1366, 768)
