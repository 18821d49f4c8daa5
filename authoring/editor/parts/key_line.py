"""The strip at the foot of the window: keys for what has the focus, and the saved state."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QFrame, QHBoxLayout, QSizePolicy, QWidget

from authoring.editor.parts.labels import KeyCap, label
from authoring.editor.room import KeyHint
from authoring.editor.theme import Type, theme


class KeyLine(QFrame):
    """Keys with what they do, from the start of the line; a state at its end."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("keyline")
        self._layout = QHBoxLayout(self)
        side = theme().px(24)
        self._layout.setContentsMargins(side, 0, side, 0)
        self._layout.setSpacing(theme().px(16))
        self.setFixedHeight(theme().px(28))
        self._hints = QWidget()
        self._hints.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._row = QHBoxLayout(self._hints)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(theme().px(16))
        self._state = label(style=Type.SMALL)
        self._layout.addWidget(self._hints, 1)
        self._layout.addWidget(self._state)
        self._shown: tuple[KeyHint, ...] = ()

    @property
    def hints(self) -> tuple[KeyHint, ...]:
        """The keys that are shown."""
        return self._shown

    @property
    def state(self) -> str:
        """The words at the end."""
        return self._state.text()

    def show_hints(self, hints: Sequence[KeyHint]) -> None:
        """Show these keys."""
        if tuple(hints) == self._shown:
            return
        self._shown = tuple(hints)
        while (item := self._row.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.deleteLater()
        for hint in hints:
            pair = QWidget()
            inner = QHBoxLayout(pair)
            inner.setContentsMargins(0, 0, 0, 0)
            inner.setSpacing(theme().px(6))
            inner.addWidget(KeyCap(hint.keys))
            inner.addWidget(label(hint.does, Type.SMALL))
            self._row.addWidget(pair)
        self._row.addStretch(1)

    def show_state(self, words: str) -> None:
        """Say whether the work is saved."""
        self._state.setText(words)
