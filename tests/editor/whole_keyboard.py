"""A person at the keyboard: every key press is counted, and grouped into actions."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from authoring.editor.shell import MainWindow
from tests.editor.whole import focus_of, keep_active

PLAIN = Qt.KeyboardModifier.NoModifier
MOST_TABS = 400


def spoken(widget: QWidget) -> str:
    """What a screen reader calls a widget."""
    interface = QAccessible.queryAccessibleInterface(widget)
    return "" if interface is None else interface.text(QAccessible.Text.Name)


class Keyboard:
    """Presses keys in a window.

    An action is one command by its keys, one text typed, one choice taken, or one walk by
    Tab to the next field.
    """

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        self.actions: list[str] = []
        self.presses = 0

    def _press(self, key: Qt.Key, held: Qt.KeyboardModifier = PLAIN) -> None:
        keep_active(self._window)
        self.presses += 1
        QTest.keyClick(focus_of(self._window), key, held)
        QApplication.processEvents()

    def command(self, name: str, key: Qt.Key, held: Qt.KeyboardModifier = PLAIN) -> None:
        """Run a command by its keys."""
        self.actions.append(name)
        self._press(key, held)

    def type(self, words: str, *, replacing: bool = False) -> None:
        """Type a text into what has the focus."""
        self.actions.append(f"type “{words}”")
        if replacing:
            self._press(Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
        for letter in words:
            keep_active(self._window)
            self.presses += 1
            QTest.keyClicks(focus_of(self._window), letter)
        QApplication.processEvents()

    def take(self) -> None:
        """Press Enter on what was typed or chosen."""
        self.actions.append("Enter")
        self._press(Qt.Key.Key_Return)

    def go_to(self, name: str, *, back: bool = False) -> QWidget:
        """Press Tab until a control whose name ends so has the focus."""
        self.actions.append(f"Tab to “{name}”")
        seen: list[str] = []
        for _ in range(MOST_TABS):
            focus = QApplication.focusWidget()
            found = spoken(focus) if focus is not None else "nothing"
            if focus is not None and found.endswith(name):
                return focus
            seen.append(found)
            held = Qt.KeyboardModifier.ShiftModifier if back else PLAIN
            self._press(Qt.Key.Key_Backtab if back else Qt.Key.Key_Tab, held)
        raise AssertionError(f"Tab never reaches “{name}”; it goes through {seen}")
