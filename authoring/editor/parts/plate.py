"""The light plate that a picture stands on in every theme."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPainter, QPen, QPixmap

from authoring.editor.theme import Type, theme


def paint_plate(painter: QPainter, at: QRect, picture: QPixmap | None, words: str) -> None:
    """Paint a plate with its picture, or an empty one that says so in words."""
    used = theme()
    painter.save()
    if picture is not None and not picture.isNull():
        painter.fillRect(at, used.colour("plate"))
        size = picture.deviceIndependentSize().toSize()
        size.scale(at.size(), Qt.AspectRatioMode.KeepAspectRatio)
        place = QRect(at.topLeft(), size)
        place.moveCenter(at.center())
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawPixmap(place, picture)
    else:
        painter.setPen(QPen(used.colour("edge"), 1, Qt.PenStyle.DashLine))
        painter.drawRect(at.adjusted(0, 0, -1, -1))
        painter.setPen(used.colour("soft"))
        painter.setFont(used.font(Type.SMALL))
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(at.adjusted(1, 1, -1, -1), flags, words)
    painter.restore()
