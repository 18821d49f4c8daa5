"""Painted words that keep the order of their own language on a screen of the other direction."""

from __future__ import annotations

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QTextOption

Flag = Qt.AlignmentFlag


def draw_words(painter: QPainter, at: QRect | QRectF, flags: int, words: str) -> None:
    """Paint one line. From right to left, an English sentence still ends with its full stop.

    Args:
        flags: alignment; leading and trailing follow the painter's direction.
    """
    room = QRectF(at)
    if painter.layoutDirection() != Qt.LayoutDirection.RightToLeft:
        painter.drawText(room, flags, words)
        return
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.NoWrap)
    option.setTextDirection(Qt.LayoutDirection.LayoutDirectionAuto)
    option.setAlignment(_from_the_right(Flag(flags)))
    painter.drawText(room, words, option)


def _from_the_right(asked: Qt.AlignmentFlag) -> Qt.AlignmentFlag:
    """The alignment with its sides as they are on the screen."""
    if asked & Flag.AlignAbsolute:
        return asked
    up = asked & Flag.AlignVertical_Mask
    if asked & Flag.AlignHCenter:
        return up | Flag.AlignHCenter
    side = Flag.AlignLeft if asked & Flag.AlignTrailing else Flag.AlignRight
    return up | side | Flag.AlignAbsolute
