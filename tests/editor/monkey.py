"""A monkey at the window: random keys, clicks, wheels and commands, the same for one seed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from random import Random

from PySide6.QtCore import QPoint, QPointF, QSize, Qt
from PySide6.QtGui import QAction, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

from authoring.editor.shell import MainWindow
from authoring.editor.theme import SCALES, ThemeName
from tests.editor.whole import ROOM_KEYS, focus_of, keep_active, settle

_KEYS = (
    Qt.Key.Key_Tab,
    Qt.Key.Key_Backtab,
    Qt.Key.Key_Return,
    Qt.Key.Key_Enter,
    Qt.Key.Key_Escape,
    Qt.Key.Key_Space,
    Qt.Key.Key_Left,
    Qt.Key.Key_Right,
    Qt.Key.Key_Up,
    Qt.Key.Key_Down,
    Qt.Key.Key_Home,
    Qt.Key.Key_End,
    Qt.Key.Key_PageUp,
    Qt.Key.Key_PageDown,
    Qt.Key.Key_Insert,
    Qt.Key.Key_Delete,
    Qt.Key.Key_Backspace,
    Qt.Key.Key_F1,
    Qt.Key.Key_F2,
    Qt.Key.Key_F6,
    Qt.Key.Key_F8,
    Qt.Key.Key_A,
    Qt.Key.Key_B,
    Qt.Key.Key_D,
    Qt.Key.Key_G,
    Qt.Key.Key_H,
    Qt.Key.Key_K,
    Qt.Key.Key_L,
    Qt.Key.Key_O,
    Qt.Key.Key_P,
    Qt.Key.Key_W,
    Qt.Key.Key_1,
    Qt.Key.Key_9,
    Qt.Key.Key_Plus,
    Qt.Key.Key_Minus,
    Qt.Key.Key_Comma,
)
_HELD = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
)
_TYPED = (
    "3 x 8-12, rest 90 s, 3/wk",
    "5 x 45 s hold",
    "12,10,8",
    "-1",
    "9999999999",
    "1,5",
    "2026-02-31",
    "Rise slowly. Keep your heel over your toes.",
    "مرحبا بالعالم",
    "naïve — “quoted” 🦶",
    "<b>not markup</b> & {name} %s",
    "   ",
)


class Monkey:
    """Does one random thing after the other, and notes each before it is done."""

    def __init__(self, window: MainWindow, seed: int, diary: Path) -> None:
        self._window = window
        self._random = Random(seed)
        self._diary = diary.open("w", encoding="utf-8", buffering=1)
        self.last: list[str] = []
        self._doings: dict[Callable[[], None], int] = {
            self._key: 20,
            self._shortcut: 22,
            self._type: 10,
            self._click: 22,
            self._other_click: 5,
            self._drag: 3,
            self._wheel: 5,
            self._command: 14,
            self._room: 4,
            self._history: 10,
            self._look: 1,
            self._resize: 1,
            self._wait: 2,
        }

    def act(self) -> None:
        """Do one thing."""
        doing = self._random.choices([*self._doings], [*self._doings.values()])[0]
        keep_active(self._window)
        doing()
        settle()

    def close(self) -> None:
        """Put away what is open over the window, and the diary."""
        for _ in range(20):
            over = QApplication.activePopupWidget() or QApplication.activeModalWidget()
            if over is None:
                break
            over.close()
            QApplication.processEvents()
        self._diary.close()

    def _note(self, words: str) -> None:
        self._diary.write(words + "\n")
        self.last = [*self.last[-19:], words]

    def _pick(self, choices: list[QAction]) -> QAction | None:
        return self._random.choice(choices) if choices else None

    def _target(self) -> QWidget:
        top = QApplication.activePopupWidget() or QApplication.activeModalWidget()
        return top or self._window

    # ---- keys -------------------------------------------------------------------

    def _press(self, key: Qt.Key, held: Qt.KeyboardModifier) -> None:
        target = focus_of(self._window)
        self._note(f"key {key.name} {held.name} on {_name(target)}")
        QTest.keyClick(target, key, held)

    def _key(self) -> None:
        key = self._random.choice(_KEYS)
        held = self._random.choice(_HELD)
        self._press(key, held)

    def _shortcut(self) -> None:
        keys = [
            shortcut
            for action in self._window.commands()
            for shortcut in action.shortcuts()
            if shortcut[0].key() <= Qt.Key.Key_F35
        ]
        if keys:
            pressed = self._random.choice(keys)[0]
            self._press(pressed.key(), pressed.keyboardModifiers())

    def _type(self) -> None:
        target = focus_of(self._window)
        words = self._random.choice(_TYPED)
        self._note(f"type {words!r} on {_name(target)}")
        for letter in words[: self._random.randint(1, 30)]:
            if letter.isascii():
                QTest.keyClicks(focus_of(self._window), letter)
            else:
                QTest.keyEvent(QTest.KeyAction.Click, focus_of(self._window), "x")

    # ---- mouse ------------------------------------------------------------------

    def _spot(self) -> tuple[QWidget, QPoint]:
        """A random point, and the widget that is there."""
        top = self._target()
        at = QPoint(
            self._random.randrange(max(1, top.width())),
            self._random.randrange(max(1, top.height())),
        )
        child = top.childAt(at)
        # Qt's own inner widgets come and go unseen by the binding, which may then give out
        # a dead one that lived at the same place, even one of another kind.
        if not isinstance(child, QWidget) or not isValid(child):
            return top, at
        return child, child.mapFrom(top, at)

    def _click(self) -> None:
        widget, at = self._spot()
        self._note(f"click {_name(widget)} at {at.toTuple()}")
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at)

    def _other_click(self) -> None:
        widget, at = self._spot()
        if self._random.random() < 0.5:
            self._note(f"double click {_name(widget)} at {at.toTuple()}")
            QTest.mouseDClick(widget, Qt.MouseButton.LeftButton, pos=at)
        else:
            self._note(f"right click {_name(widget)} at {at.toTuple()}")
            QTest.mouseClick(widget, Qt.MouseButton.RightButton, pos=at)

    def _drag(self) -> None:
        widget, at = self._spot()
        by = QPoint(self._random.randint(-200, 200), self._random.randint(-200, 200))
        self._note(f"drag {_name(widget)} from {at.toTuple()} by {by.toTuple()}")
        QTest.mousePress(widget, Qt.MouseButton.LeftButton, pos=at)
        QTest.mouseMove(widget, at + by)
        QTest.mouseRelease(widget, Qt.MouseButton.LeftButton, pos=at + by)

    def _wheel(self) -> None:
        widget, at = self._spot()
        turn = self._random.choice((-240, -120, 120, 240))
        held = self._random.choice(_HELD)
        self._note(f"wheel {turn} {held.name} over {_name(widget)}")
        event = QWheelEvent(
            QPointF(at),
            QPointF(widget.mapToGlobal(at)),
            QPoint(),
            QPoint(0, turn),
            Qt.MouseButton.NoButton,
            held,
            Qt.ScrollPhase.NoScrollPhase,
            False,
        )
        QApplication.sendEvent(widget, event)

    # ---- commands ---------------------------------------------------------------

    def _command(self) -> None:
        actions = [
            action
            for action in self._window.commands()
            if action.isEnabled() and action.menu() is None
        ]
        action = self._pick(actions)
        if action is not None and QApplication.activeModalWidget() is None:
            self._note(f"command {action.text()}")
            action.trigger()

    def _room(self) -> None:
        key = self._random.choice(ROOM_KEYS)
        if QApplication.activeModalWidget() is None:
            self._note(f"room {key}")
            self._window.show_room(key)

    def _history(self) -> None:
        document = self._window.session.document
        steps = self._random.randint(1, 4)
        back = self._random.random() < 0.6
        self._note(f"{'undo' if back else 'redo'} {steps} times")
        for _ in range(steps):
            (document.undo if back else document.redo)()

    def _look(self) -> None:
        settings = self._window.settings
        match self._random.randrange(3):
            case 0:
                theme = self._random.choice(list(ThemeName))
                self._note(f"theme {theme}")
                settings.theme = theme
            case 1:
                scale = self._random.choice(SCALES)
                self._note(f"scale {scale}")
                settings.scale = scale
            case _:
                app = QApplication.instance()
                assert isinstance(app, QApplication)
                turned = self._random.choice(
                    (Qt.LayoutDirection.LeftToRight, Qt.LayoutDirection.RightToLeft)
                )
                self._note(f"direction {turned.name}")
                app.setLayoutDirection(turned)

    def _resize(self) -> None:
        size = QSize(self._random.randint(300, 2600), self._random.randint(200, 1500))
        self._note(f"resize {size.toTuple()}")
        self._window.resize(size)

    def _wait(self) -> None:
        wait_ms = self._random.choice((20, 60, 250))
        self._note(f"wait {wait_ms} ms")
        QTest.qWait(wait_ms)


def _name(widget: QWidget) -> str:
    return f"{type(widget).__name__} {widget.accessibleName() or widget.objectName()}".strip()
