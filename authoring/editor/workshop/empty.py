"""What the room says while the library has no card."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme


class NoCards(QWidget):
    """Says what a card is, and begins the first one.

    Signals:
        new_wanted()
    """

    new_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        layout = QVBoxLayout(self)
        gap = theme().px(24)
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.setSpacing(theme().px(12))
        layout.addWidget(label(tr("No card yet"), Type.TITLE))
        layout.addWidget(
            label(
                tr(
                    "A card is one exercise that any protocol can use. Its ladder holds the ways "
                    "to do it: harder ones above, easier ones below, holds beside those that move."
                ),
                wrap=True,
            )
        )
        self.new_button = QPushButton(tr("New card"))
        self.new_button.setProperty("main", True)
        self.new_button.clicked.connect(self.new_wanted)
        layout.addWidget(self.new_button, 0, Qt.AlignmentFlag.AlignLeading)
        layout.addStretch(1)
