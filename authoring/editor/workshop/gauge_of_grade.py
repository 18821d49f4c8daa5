"""The reading grade on a scale of school years, with the advised one marked."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from authoring.checks.readability import ADVISED_GRADE
from authoring.editor.i18n import tr
from authoring.editor.theme import Type, theme

LOWEST, HIGHEST = 1, 12


class GradeScale(QWidget):
    """A scale from 1 to 12: a tall tick at the target, a pointer at the grade."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grade: float | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.show_grade(None)

    def show_grade(self, grade: float | None) -> None:
        """Show a grade, or none."""
        self._grade = grade
        target = round(ADVISED_GRADE)
        words = tr("Scale of school years, target {n} or below", n=target)
        if grade is not None:
            words = tr("{scale}; here {grade}", scale=words, grade=round(grade, 1))
        self.setAccessibleName(words)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(theme().px(200), theme().px(44))

    def _x(self, grade: float) -> float:
        inset = theme().px(8)
        inside = self.width() - 2 * inset
        held = min(max(grade, LOWEST), HIGHEST)
        share = (held - LOWEST) / (HIGHEST - LOWEST)
        if self.layoutDirection() == Qt.LayoutDirection.RightToLeft:
            share = 1 - share
        return inset + share * inside

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        base, target = used.px(22), ADVISED_GRADE
        painter.setPen(QPen(used.colour("edge"), 1.5 * used.scale))
        painter.drawLine(QPointF(0, base), QPointF(self.width(), base))
        for grade in range(LOWEST, HIGHEST + 1):
            x, tall = self._x(grade), used.px(16 if grade in (LOWEST, HIGHEST) else 11)
            painter.drawLine(QPointF(x, base - tall), QPointF(x, base))
        painter.setPen(QPen(used.colour("good"), used.px(3)))
        x = self._x(target)
        painter.drawLine(QPointF(x, base - used.px(21)), QPointF(x, base))
        self._paint_words(painter)
        if self._grade is not None:
            x = self._x(self._grade)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(used.colour("ink"))
            low, wide = base + used.px(11), used.px(6)
            tip = QPointF(x, base + used.px(2))
            painter.drawPolygon(QPolygonF([tip, QPointF(x - wide, low), QPointF(x + wide, low)]))
        painter.end()

    def _paint_words(self, painter: QPainter) -> None:
        used = theme()
        painter.setFont(used.font(Type.SMALL))
        height = used.line_height(Type.SMALL)
        top = self.height() - height
        wide = used.px(90)
        painter.setPen(used.colour("soft"))
        for grade in (LOWEST, HIGHEST):
            x = min(max(self._x(grade), used.px(8)), self.width() - used.px(8))
            at = QRectF(x - wide / 2, top, wide, height)
            painter.drawText(at, Qt.AlignmentFlag.AlignCenter, str(grade))
        bold = used.font(Type.SMALL)
        bold.setBold(True)
        painter.setFont(bold)
        painter.setPen(used.colour("good"))
        # The words end at the tick, so that the pointer has room beside them.
        x = self._x(ADVISED_GRADE)
        rtl = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        at = QRectF(x if rtl else x - wide, top, wide, height)
        side = Qt.AlignmentFlag.AlignLeft if rtl else Qt.AlignmentFlag.AlignRight
        words = tr("target {n}", n=round(ADVISED_GRADE))
        painter.drawText(
            at, side | Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignAbsolute, words
        )
