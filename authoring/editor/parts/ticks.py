"""A tick box whose tick is painted from the tokens."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QCheckBox, QStyle, QStyleOptionButton

from authoring.editor.theme import theme


class Tick(QCheckBox):
    """A check box: a filled square with a tick when it is on, an empty one when it is off."""

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        option = QStyleOptionButton()
        self.initStyleOption(option)
        at = QRectF(
            self.style().subElementRect(QStyle.SubElement.SE_CheckBoxIndicator, option, self)
        )
        used = theme()
        side = min(at.width(), at.height())
        box = QRectF(0, 0, side - 1, side - 1)
        box.moveCenter(at.center())
        radius = used.px(3)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        edge = "rule" if not self.isEnabled() else "ink" if self.underMouse() else "edge"
        if self.isChecked():
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(used.colour("fill" if self.isEnabled() else "edge"))
            painter.drawRoundedRect(box, radius, radius)
            painter.setPen(QPen(used.colour("on-accent"), 0.14 * side))
            points = ((0.22, 0.52), (0.42, 0.72), (0.78, 0.28))
            painter.drawPolyline([box.topLeft() + QPointF(x * side, y * side) for x, y in points])
        else:
            painter.setPen(QPen(used.colour(edge), used.px(1.4)))
            painter.setBrush(used.colour("sheet"))
            painter.drawRoundedRect(box, radius, radius)
        painter.end()
