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

    Where an earlier choice has that letter already, the next letter of the words does it.

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
        self._of_letter: dict[str, V] = {}
        for choice in choices:
            letters = (one for one in choice[1].casefold() if one.isalpha())
            free = next((one for one in letters if one not in self._of_letter), "")
            self._of_letter[free] = choice[0]

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.text().casefold() in self._of_letter:
            if event.type() == QEvent.Type.ShortcutOverride:
                event.accept()  # a single letter of the room would take it
                return True
            if event.type() == QEvent.Type.KeyPress and event.text():
                self._take(self._of_letter[event.text().casefold()])
                return True
        return super().eventFilter(watched, event)

    def _take(self, value: V) -> None:
        self.choose(value)
        self.button(value).setFocus()
        self.chosen.emit(value)
        self.typed.emit()
