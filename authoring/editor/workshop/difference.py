"""In what a variant differs from the one it was made from."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme


class DifferenceStrip(QFrame):
    """Names the variant that this one was made from, and the fields that differ.

    Signals:
        only_wanted(bool): show the fields that differ alone, or all.
        ended(): the comparison is not wanted any more.
    """

    only_wanted = Signal(bool)
    ended = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("gate", True)
        self.words = label(style=Type.STRONG, wrap=True)
        self.fields = label(style=Type.SMALL, wrap=True)
        self.only = QPushButton(tr("Only the differences"))
        self.only.setCheckable(True)
        self.close_button = QPushButton("×")
        self.close_button.setAccessibleName(tr("Stop comparing"))
        for button in (self.only, self.close_button):
            button.setProperty("quiet", True)
            button.setProperty("small", True)
        used = theme()
        said = QVBoxLayout()
        said.setSpacing(0)
        said.addWidget(self.words)
        said.addWidget(self.fields)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(used.px(12), used.px(8), used.px(8), used.px(8))
        layout.setSpacing(used.px(8))
        layout.addLayout(said, 1)
        layout.addWidget(self.only, 0, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(self.close_button, 0, Qt.AlignmentFlag.AlignTop)
        self.only.toggled.connect(self.only_wanted)
        self.close_button.clicked.connect(self.ended)
        self.hide()

    def show_difference(self, source: str, fields: Sequence[str]) -> None:
        """Say in what it differs.

        Args:
            source: name of the variant that it was made from.
            fields: names of the fields that differ, in words.
        """
        self.words.setText(tr("Made from “{name}”", name=source))
        said = ", ".join(fields)
        self.fields.setText(
            tr("Differs in: {fields}", fields=said) if said else tr("Nothing differs yet.")
        )
        self.show()
