"""The names of the rows, beside the body."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from authoring.editor.parts.own_order import draw_words
from authoring.editor.stage_map.wrapping import wrap
from authoring.editor.theme import Type, theme


@frozen
class RowFace:
    """One row: its name, how many entries it has, top and height."""

    name: str
    count: str
    top: int
    height: int


class NamesView(QWidget):
    """All names."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._rows: tuple[RowFace, ...] = ()

    def show_rows(self, rows: Sequence[RowFace]) -> None:
        """Show these."""
        self._rows = tuple(rows)
        self.setAccessibleName("; ".join(f"{row.name}, {row.count}" for row in rows))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.setLayoutDirection(self.layoutDirection())
        lead = int(Qt.AlignmentFlag.AlignLeading | Qt.AlignmentFlag.AlignTop)
        width = self.width() - used.px(12)
        mirrored = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        left = used.px(12) if mirrored else 0
        for row in self._rows:
            painter.setPen(QPen(used.colour("rule"), 1))
            painter.drawLine(left, row.top, left + width, row.top)
            y = row.top + used.px(8)
            font = used.font(Type.STRONG)
            small = used.line_height(Type.SMALL)
            most = max(1, (row.height - used.px(10) - small) // used.line_height(Type.STRONG))
            painter.setFont(font)
            painter.setPen(used.colour("ink"))
            for line in wrap(row.name, font, width, most):
                at = QRectF(left, y, width, used.line_height(Type.STRONG))
                draw_words(painter, at, lead, line)
                y += used.line_height(Type.STRONG)
            painter.setFont(used.font(Type.SMALL))
            painter.setPen(used.colour("soft"))
            draw_words(
                painter, QRectF(left, y, width, used.line_height(Type.SMALL)), lead, row.count
            )
        painter.end()
