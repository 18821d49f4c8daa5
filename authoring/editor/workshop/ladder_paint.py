"""How a rung is painted: the plate with its number, and the arms from it to the cells."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPen

from authoring.editor.i18n import ltr
from authoring.editor.parts.gauge import rung_sign
from authoring.editor.theme import Type, theme, tokens

PLATE = QSize(58, 56)
"""Size of a rung's plate without a word on load."""

STILE = 19
"""Distance of each stile from the middle."""


_LINE = 17


def plate_rect(width: int, top: int, height: int, lines: int = 0) -> QRect:
    """Where the plate of a rung lies in a ladder of this width.

    Args:
        lines: how many small lines stand under its number.
    """
    used = theme()
    wanted = PLATE.height() if not lines else 32 + lines * _LINE
    size = QSize(used.px(PLATE.width()), min(used.px(wanted), height))
    plate = QRect(QPoint(0, 0), size)
    plate.moveCenter(QPoint(width // 2, top + height // 2))
    return plate


def paint_plate_of_rung(
    painter: QPainter,
    plate: QRect,
    rung: int,
    below: Sequence[str] = (),
    *,
    chosen: bool,
    over: bool,
    empty: bool,
) -> None:
    """Paint a plate.

    Args:
        below: small lines under the number; what has no room is left out.
        chosen: the variant that is written stands on the rung.
        over: a variant is being carried over it.
        empty: nothing stands on it.
    """
    used = theme()
    edge = "accent" if chosen or over else "edge"
    painter.setPen(QPen(used.colour(edge), used.px(2 if over else 1)))
    painter.setBrush(used.colour("fill" if chosen else "wash" if over else "sheet"))
    radius = used.px(tokens()["radius_px"]["control"])
    painter.drawRoundedRect(QRectF(plate), radius, radius)
    font = used.font(Type.TITLE if plate.height() >= used.px(50) else Type.STRONG)
    font.setBold(True)
    painter.setFont(font)
    painter.setPen(used.colour("on-accent" if chosen else "soft" if empty else "ink"))
    painter.setLayoutDirection(Qt.LayoutDirection.LeftToRight)
    line = used.px(_LINE)
    shown = below[: max(0, (plate.height() - used.px(28)) // line)]
    number = plate.adjusted(0, 0, 0, -len(shown) * line - (used.px(2) if shown else 0))
    painter.drawText(number, Qt.AlignmentFlag.AlignCenter, ltr(rung_sign(rung)))
    painter.setFont(used.font(Type.SMALL))
    for index, words in enumerate(shown):
        at = QRect(plate.left(), number.bottom() + 1 + index * line, plate.width(), line)
        painter.drawText(at, Qt.AlignmentFlag.AlignCenter, words)


def paint_arm(painter: QPainter, cell: QRect, plate: QRect, *, chosen: bool) -> None:
    """Paint the rung from a cell to its plate, or to the stile where the cell is in a stack."""
    used = theme()
    y = cell.center().y()
    leading = cell.center().x() < plate.center().x()
    near = cell.right() if leading else cell.left()
    stile = plate.center().x() + (-used.px(STILE) if leading else used.px(STILE))
    inner = plate.left() if leading else plate.right()
    goal = inner if plate.top() <= y <= plate.bottom() else stile
    width = used.px(tokens()["line_px"]["rung"]) if chosen else 1.6 * used.scale
    pen = QPen(used.colour("accent" if chosen else "edge"), width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.drawLine(QPointF(near, y), QPointF(goal, y))
