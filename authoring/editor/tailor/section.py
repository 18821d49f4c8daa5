"""What the parts of the left pane share: a heading, and a way to offer an answer."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.editor.parts.labels import label
from authoring.editor.tailor.desk import Desk
from authoring.editor.theme import Type, theme
from authoring.model.patient import Presentation


class Section(QWidget):
    """A part of the questions. It shows the desk's work and offers answers to it."""

    def __init__(self, desk: Desk, title: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(0, 0, 0, 0)
        self.rows.setSpacing(theme().px(4))
        if title:
            self.head = label(title, Type.STRONG)
            self.rows.addWidget(self.head)

    def show_work(self) -> None:
        """Show the work as it stands."""

    def answer(
        self, name: str, change: Callable[[Presentation], Presentation], merge_key: str = ""
    ) -> None:
        """Offer a fact about the patient."""
        self.desk.answer(name, change, merge_key)
