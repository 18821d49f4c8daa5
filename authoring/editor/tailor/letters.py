"""A row of choices that takes the first letter of a choice as its key."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from authoring.editor.parts.segmented import Segmented

V = TypeVar("V")


class Letters(Segmented[V]):
    """One of a few values; its first letter chooses it, and typing goes on in the next row.

    A letter that two choices share goes from one to the next.

    Signals:
        typed(): a value was chosen by its letter.
    """

    typed = Signal()

    def __init__(
        self,
        name: str,
        choices: Sequence[tuple[V, str]],
        value: V | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, choices, value, parent)
        self._words = [(choice[0], choice[1].casefold()) for choice in choices]

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.ShortcutOverride:
            if self._of_letter(event.text()):
                event.accept()  # a single letter of the room would take it
                return True
        elif isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            found = self._of_letter(event.text())
            if found:
                self._take(found)
                return True
        return super().eventFilter(watched, event)

    def _of_letter(self, letter: str) -> list[V]:
        if len(letter) != 1 or not letter.isalpha():
            return []
        return [value for value, words in self._words if words.startswith(letter.casefold())]

    def _take(self, found: list[V]) -> None:
        now = found.index(self.value) if self.value in found else -1
        value = found[(now + 1) % len(found)]
        self.choose(value)
        self.button(value).setFocus()
        self.chosen.emit(value)
        if len(found) == 1:
            self.typed.emit()
