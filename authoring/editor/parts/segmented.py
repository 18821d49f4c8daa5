"""A row of buttons of which one is chosen."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, TypeVar

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFontMetrics, QIcon, QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from authoring.editor.theme import Type, theme

V = TypeVar("V")

_STEPS = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}


class Segmented(QWidget, Generic[V]):
    """One of a few values, all in sight. Arrow keys choose; Tab enters at the chosen one.

    Signals:
        chosen(value): the user chose; not sent by :meth:`choose`.
    """

    chosen = Signal(object)

    def __init__(
        self,
        name: str,
        choices: Sequence[tuple[V, str] | tuple[V, str, QIcon]],
        value: V | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Args:
        name: what screen readers call the row.
        choices: each value with its words, and an icon where there is one.
        value: the chosen one; None for none yet.
        """
        super().__init__(parent)
        self.setAccessibleName(name)
        self._values = [choice[0] for choice in choices]
        self._group = QButtonGroup(self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        for index, choice in enumerate(choices):
            button = QPushButton(choice[1])
            if len(choice) == 3:
                button.setIcon(choice[2])
            _write(button, choice[1])
            button.setCheckable(True)
            button.setProperty("segment", True)
            button.setAccessibleName(f"{name}: {choice[1]}")
            button.installEventFilter(self)
            self._group.addButton(button, index)
            layout.addWidget(button, 1)
        self._group.idClicked.connect(lambda index: self.chosen.emit(self._values[index]))
        self.choose(value)

    @property
    def value(self) -> V | None:
        """The chosen value, or None."""
        index = self._group.checkedId()
        return None if index < 0 else self._values[index]

    def choose(self, value: V | None) -> None:
        """Show a value as chosen, or none."""
        for index, known in enumerate(self._values):
            button = self._group.button(index)
            on = known == value
            self._group.setExclusive(on)
            button.setChecked(on)
            button.setFocusPolicy(self._policy(on or (value is None and index == 0)))
        self._group.setExclusive(True)

    @staticmethod
    def _policy(reachable: bool) -> Qt.FocusPolicy:
        return Qt.FocusPolicy.StrongFocus if reachable else Qt.FocusPolicy.ClickFocus

    def say(self, value: V, words: str) -> None:
        """Write other words on a value's button."""
        _write(self.button(value), words)

    def button(self, value: V) -> QPushButton:
        """The button of a value."""
        found = self._group.button(self._values.index(value))
        assert isinstance(found, QPushButton)  # noqa: S101 - narrows the type
        return found

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # Buttons of a group move the focus themselves, and not along the reading direction.
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            step = _STEPS.get(Qt.Key(event.key()))
            if step is not None:
                self._step(step, across=event.key() in (Qt.Key.Key_Left, Qt.Key.Key_Right))
                return True
        return super().eventFilter(watched, event)

    def _step(self, step: int, *, across: bool) -> None:
        if across and self.layoutDirection() == Qt.LayoutDirection.RightToLeft:
            step = -step
        now = max(self._group.checkedId(), 0)
        new = min(max(now + step, 0), len(self._values) - 1)
        if new != self._group.checkedId():
            self.choose(self._values[new])
            self.chosen.emit(self._values[new])
        self._group.button(new).setFocus()


def _write(button: QPushButton, words: str) -> None:
    """Words on a button that has room for them in bold, too: the chosen one's are."""
    bold = QFontMetrics(theme().font(Type.STRONG)).horizontalAdvance(words)
    icon = 0 if button.icon().isNull() else button.iconSize().width() + theme().px(4)
    button.setText(words)
    button.setMinimumWidth(bold + icon + theme().px(28))
