"""A titled part of the right column, whose lines are made anew when they change."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from authoring.editor.parts.labels import label, line
from authoring.editor.parts.marks import Mark, MarkView
from authoring.editor.theme import Type, theme


class Section(QWidget):
    """A heading and lines below it.

    Signals:
        emptied_of_focus(): the line that had the focus is gone.
    """

    emptied_of_focus = Signal()

    def __init__(self, title: str, *, ruled: bool = True, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(title)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(theme().px(8))
        if ruled:
            outer.addWidget(line())
            outer.addSpacing(theme().px(4))
        outer.addWidget(label(title, Type.HEADING))
        self.head = QVBoxLayout()
        self.head.setSpacing(theme().px(4))
        outer.addLayout(self.head)
        self._lines = QVBoxLayout()
        self._lines.setSpacing(theme().px(8))
        outer.addLayout(self._lines)

    def clear(self) -> None:
        """Take all lines away."""
        lost = False
        while (item := self._lines.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                lost = lost or widget.isAncestorOf(self.focusWidget() or self)
                widget.hide()
                widget.deleteLater()
        if lost:
            self.emptied_of_focus.emit()

    def add(self, widget: QWidget) -> None:
        """Add a line."""
        self._lines.addWidget(widget)

    def say(self, words: str, *, soft: bool = False, mark: Mark | None = None) -> QLabel:
        """Add a line of words, with a mark before it where one is given."""
        said = label(words, Type.BODY, soft=soft, wrap=True)
        if mark is None:
            self.add(said)
            return said
        row = QWidget()
        layout = QHBoxLayout(row)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(8))
        layout.addWidget(MarkView(mark, size=16), 0, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(said, 1)
        self.add(row)
        return said
