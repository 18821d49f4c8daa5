"""Reasons in the open: one wrapped line each, with a mark where a rule was set aside."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark, MarkView
from authoring.editor.theme import Type, theme


class ReasonLines(QWidget):
    """Sentences below each other, each with a mark or none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(theme().px(8))
        self._grid.setVerticalSpacing(theme().px(4))
        self._grid.setColumnStretch(1, 1)
        self.sentences: tuple[str, ...] = ()
        self._shown: tuple[tuple[str, Mark | None, bool], ...] = ()

    def show_lines(self, lines: Sequence[tuple[str, Mark | None, bool]]) -> None:
        """Show (sentence, mark, bold) lines."""
        if tuple(lines) == self._shown:
            return
        self._shown = tuple(lines)
        self.sentences = tuple(words for words, _, _ in lines)
        while (taken := self._grid.takeAt(0)) is not None:
            widget = taken.widget()
            if widget is not None:
                widget.deleteLater()
        for at, (words, mark, bold) in enumerate(self._shown):
            line = label(words, Type.STRONG if bold else Type.SMALL, wrap=True)
            if mark is not None:
                view = MarkView(mark, size=14)
                self._grid.addWidget(view, at, 0, Qt.AlignmentFlag.AlignTop)
                self._grid.addWidget(line, at, 1)
            else:
                self._grid.addWidget(line, at, 0, 1, 2)
        if not self._shown:
            self.hide()
        elif self.parentWidget() is not None:  # without one it would be a window
            self.show()
