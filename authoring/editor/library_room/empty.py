"""What stands where there is nothing to list: a heading that says so, and what to do."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme


class EmptyPage(QWidget):
    """A heading, a sentence or two, and buttons."""

    def __init__(self, *buttons: QPushButton, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        used = theme()
        self._title = label(style=Type.HEADING, wrap=True)
        self._words = label(soft=True, wrap=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(used.px(24), used.px(24), used.px(24), used.px(24))
        layout.setSpacing(used.px(12))
        layout.addWidget(self._title)
        layout.addWidget(self._words)
        row = QHBoxLayout()
        row.setSpacing(used.px(8))
        for button in buttons:
            row.addWidget(button)
        row.addStretch(1)
        layout.addLayout(row)
        layout.addStretch(1)

    @property
    def title(self) -> str:
        """The heading."""
        return self._title.text()

    @property
    def words(self) -> str:
        """The sentences."""
        return self._words.text()

    def say(self, title: str, words: str = "") -> None:
        """Say this."""
        self._title.setText(title)
        self._words.setText(words)
