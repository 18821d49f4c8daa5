"""Tab goes through what is seen as it is laid out, however late it was made."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from authoring.editor.shell import MainWindow
from authoring.editor.stage_map.room import StageMapRoom
from authoring.editor.tab_walk import walk


class Window(QWidget):
    def focusNextPrevChild(self, ahead: bool) -> bool:
        return walk(self, ahead=ahead)


def field(name: str) -> QLineEdit:
    made = QLineEdit()
    made.setObjectName(name)
    return made


@pytest.fixture
def form(qtbot: QtBot) -> Window:
    """A form whose middle row was made last."""
    made = Window()
    layout = QVBoxLayout(made)
    layout.addWidget(field("first"))
    row = QHBoxLayout()
    layout.addLayout(row)
    grid = QGridLayout()
    grid.addWidget(field("lower"), 1, 0)
    grid.addWidget(field("upper right"), 0, 1)
    grid.addWidget(field("upper left"), 0, 0)
    layout.addLayout(grid)
    row.addWidget(field("second"))
    row.addWidget(field("third"))
    hidden, off = field("hidden"), field("off")
    layout.insertWidget(1, hidden)
    layout.insertWidget(1, off)
    hidden.hide()
    off.setEnabled(False)
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitExposed(made)
    return made


def first_of(window: QWidget) -> QLineEdit:
    found = window.findChild(QLineEdit, "first")
    assert isinstance(found, QLineEdit)
    return found


def names(window: QWidget, key: Qt.Key, count: int) -> list[str]:
    found = []
    for _ in range(count):
        focus = QApplication.focusWidget()
        assert focus is not None
        found.append(focus.objectName())
        QTest.keyClick(focus, key)
    return found


ORDER = ["first", "second", "third", "upper left", "upper right", "lower"]


def test_tab_comes_to_what_stands_beside_several_rows_after_them(qtbot: QtBot) -> None:
    made = Window()
    grid = QGridLayout(made)
    grid.addWidget(field("beside"), 0, 1, 2, 1)
    upper = field("upper")
    grid.addWidget(upper, 0, 0)
    grid.addWidget(field("lower"), 1, 0)
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitExposed(made)
    upper.setFocus()
    qtbot.waitUntil(upper.hasFocus)
    assert names(made, Qt.Key.Key_Tab, 4) == ["upper", "lower", "beside", "upper"]


def test_tab_follows_the_layout_round_and_round(form: Window) -> None:
    first_of(form).setFocus()
    assert names(form, Qt.Key.Key_Tab, 7) == [*ORDER, "first"]


def test_shift_tab_goes_the_same_way_back(form: Window) -> None:
    first_of(form).setFocus()
    assert names(form, Qt.Key.Key_Backtab, 7) == ["first", *reversed(ORDER[1:]), "first"]


def test_what_tab_leads_to_is_scrolled_into_sight(qtbot: QtBot) -> None:
    made, area, inside = Window(), QScrollArea(), QWidget()
    layout = QVBoxLayout(inside)
    buttons = [QPushButton(str(number)) for number in range(40)]
    for button in buttons:
        layout.addWidget(button)
    area.setWidget(inside)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    outer = QVBoxLayout(made)
    start = field("before")
    outer.addWidget(start)
    outer.addWidget(area)
    qtbot.addWidget(made)
    made.resize(300, 240)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    start.setFocus()
    QTest.keyClick(start, Qt.Key.Key_Backtab)
    assert QApplication.focusWidget() is buttons[-1]
    assert not buttons[-1].visibleRegion().isEmpty()


def test_the_map_is_one_stop_and_f6_leads_to_it(window: MainWindow, qtbot: QtBot) -> None:
    room = window.room
    assert isinstance(room, StageMapRoom)
    window.activateWindow()
    room.selecting.entry("heel-2")
    here = room.map.board.view("heel-2")
    assert here is not None
    room.bar.handout.setFocus()
    QTest.keyClick(room.bar.handout, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is here
    QTest.keyClick(here, Qt.Key.Key_Backtab)
    assert QApplication.focusWidget() is room.bar.handout
    window.next_pane()
    assert QApplication.focusWidget() is here
