"""Icons for the kind of work, on a 16 grid: 1.9 line, square ends, in the colour of text."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.marks import GRID, Painted, pixmap
from authoring.editor.theme import theme
from authoring.model.vocabulary import Mode


class Icon(StrEnum):
    """Every icon there is."""

    MOVING = "moving"
    HOLDING = "holding"
    BALANCE = "balance"
    PACED = "paced"
    JUMP = "jump"
    STRETCH = "stretch"
    CIRCLE = "circle"
    CONTROL = "control"
    BREATH = "breath"
    FORWARD = "forward"
    BACK = "back"
    LADDER = "ladder"


def icon_of_mode(mode: Mode) -> Icon:
    """The icon of a kind of work."""
    return {
        Mode.DYNAMIC: Icon.MOVING,
        Mode.ISOMETRIC: Icon.HOLDING,
        Mode.PLYOMETRIC: Icon.JUMP,
        Mode.BALANCE: Icon.BALANCE,
        Mode.STRETCH: Icon.STRETCH,
        Mode.MOBILITY: Icon.CIRCLE,
        Mode.MOTOR_CONTROL: Icon.CONTROL,
        Mode.CARDIO: Icon.PACED,
        Mode.BREATHING: Icon.BREATH,
    }[mode]


def mode_words(mode: Mode) -> str:
    """A kind of work in words."""
    return {
        Mode.DYNAMIC: tr("Moving"),
        Mode.ISOMETRIC: tr("Holding"),
        Mode.PLYOMETRIC: tr("Jumping"),
        Mode.BALANCE: tr("Balance"),
        Mode.STRETCH: tr("Stretching"),
        Mode.MOBILITY: tr("Loosening"),
        Mode.MOTOR_CONTROL: tr("Movement control"),
        Mode.CARDIO: tr("Paced"),
        Mode.BREATHING: tr("Breathing"),
    }[mode]


def paint_icon(painter: QPainter, at: QRectF, icon: Icon, colour: QColor | None = None) -> None:
    """Paint an icon as large as fits the middle of a rectangle, in ``ink`` unless told."""
    side = min(at.width(), at.height())
    used = theme().colour("ink") if colour is None else colour
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(at.center() - QPointF(side / 2, side / 2))
    painter.scale(side / GRID, side / GRID)
    painter.setPen(
        QPen(used, 1.9, Qt.PenStyle.SolidLine, Qt.PenCapStyle.SquareCap, Qt.PenJoinStyle.MiterJoin)
    )
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _PAINTERS[icon](painter, used)
    painter.restore()


def _lines(*points: tuple[float, float, float, float]) -> Callable[[QPainter, QColor], None]:
    def paint(painter: QPainter, _colour: QColor) -> None:
        for x1, y1, x2, y2 in points:
            painter.drawLine(QPointF(x1, y1), QPointF(x2, y2))

    return paint


def _chain(*points: tuple[float, float]) -> Callable[[QPainter, QColor], None]:
    def paint(painter: QPainter, _colour: QColor) -> None:
        painter.drawPolyline([QPointF(x, y) for x, y in points])

    return paint


def _head(painter: QPainter, colour: QColor, *points: tuple[float, float]) -> None:
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
    painter.restore()


def _moving(painter: QPainter, colour: QColor) -> None:
    path = QPainterPath(QPointF(3, 13))
    path.cubicTo(3.4, 8, 6.5, 4.6, 11, 4)
    painter.drawPath(path)
    _head(painter, colour, (10, 0.6), (15.4, 3.6), (10.6, 7.8))
    _head(painter, colour, (1, 10.4), (6.4, 12.6), (2.2, 15.8))


def _jump(painter: QPainter, colour: QColor) -> None:
    painter.drawLine(QPointF(2, 14.5), QPointF(14, 14.5))
    painter.drawLine(QPointF(8, 11), QPointF(8, 5))
    _head(painter, colour, (4, 6), (8, 0.6), (12, 6))


def _stretch(painter: QPainter, colour: QColor) -> None:
    painter.drawLine(QPointF(4.5, 8), QPointF(11.5, 8))
    _head(painter, colour, (5.4, 4), (0.4, 8), (5.4, 12))
    _head(painter, colour, (10.6, 4), (15.6, 8), (10.6, 12))


def _circle(painter: QPainter, colour: QColor) -> None:
    painter.drawArc(QRectF(2.4, 2.4, 11.2, 11.2), 70 * 16, 280 * 16)
    _head(painter, colour, (8.6, -0.2), (14, 3.2), (8.9, 6.6))


def _control(painter: QPainter, colour: QColor) -> None:
    painter.drawEllipse(QPointF(8, 8), 3.4, 3.4)
    _lines((8, 1.4, 8, 3), (8, 13, 8, 14.6), (1.4, 8, 3, 8), (13, 8, 14.6, 8))(painter, colour)


def _breath(painter: QPainter, _colour: QColor) -> None:
    for top in (5.0, 11.0):
        path = QPainterPath(QPointF(1.5, top))
        path.cubicTo(4.5, top - 4.4, 5.5, top - 4.4, 8, top)
        path.cubicTo(10.5, top + 4.4, 11.5, top + 4.4, 14.5, top)
        painter.drawPath(path)


def _arrow(painter: QPainter, _colour: QColor) -> None:
    painter.drawLine(QPointF(2, 8), QPointF(13, 8))
    painter.drawPolyline([QPointF(8.8, 3.4), QPointF(13.6, 8), QPointF(8.8, 12.6)])


def _back(painter: QPainter, colour: QColor) -> None:
    painter.save()
    painter.translate(GRID, 0)
    painter.scale(-1, 1)
    _arrow(painter, colour)
    painter.restore()


def _ladder(painter: QPainter, _colour: QColor) -> None:
    used = theme()
    _lines((4, 1, 4, 15), (12, 1, 12, 15), (4, 7.5, 12, 7.5), (4, 11.5, 12, 11.5))(painter, _colour)
    painter.fillRect(QRectF(1.5, 2, 13, 3), used.colour("accent"))


_PAINTERS: dict[Icon, Callable[[QPainter, QColor], None]] = {
    Icon.MOVING: _moving,
    Icon.HOLDING: _lines((3, 2.5, 3, 13.5), (13, 2.5, 13, 13.5), (3, 8, 13, 8)),
    Icon.BALANCE: _lines((8, 2, 8, 10), (3.5, 10, 12.5, 10), (5.5, 14, 10.5, 14)),
    Icon.PACED: _chain(
        (1.5, 13), (1.5, 4), (5.5, 4), (5.5, 12), (8, 12), (8, 4), (12, 4), (12, 13), (14.5, 13)
    ),
    Icon.JUMP: _jump,
    Icon.STRETCH: _stretch,
    Icon.CIRCLE: _circle,
    Icon.CONTROL: _control,
    Icon.BREATH: _breath,
    Icon.FORWARD: _arrow,
    Icon.BACK: _back,
    Icon.LADDER: _ladder,
}


def as_icon(icon: Icon, ratio: float = 2.0) -> QIcon:
    """An icon for a button or a list; made anew when the theme changes."""
    return QIcon(pixmap(theme().px(GRID), ratio, lambda p, at: paint_icon(p, at, icon)))


class IconView(Painted):
    """An icon on its own; ``name`` is what screen readers say."""

    def __init__(
        self, icon: Icon, name: str, *, size: int = GRID, parent: QWidget | None = None
    ) -> None:
        super().__init__(
            lambda painter, at: paint_icon(painter, at, icon), name, size=size, parent=parent
        )
