"""What the room says while the library has no card."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.empty_page import EmptyPage


class NoCards(QWidget):
    """Says what a card is, and begins the first one.

    Signals:
        new_wanted()
    """

    new_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        words = tr(
            "A card is one exercise that any protocol can use. Its ladder holds the ways "
            "to do it: harder ones above, easier ones below, holds beside those that move."
        )
        self.new_button = QPushButton(tr("New card"))
        self.new_button.clicked.connect(self.new_wanted)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(EmptyPage(tr("No card yet"), words, self.new_button))
