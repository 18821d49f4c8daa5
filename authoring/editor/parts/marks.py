"""Marks, painted on a 16 grid.

Two families that are never mixed up, each mark with a word or a name beside it:
cautions are a square with a bar (stop), a half-filled diamond (care) and a ring with
a dot (note); Protocol checks are page tabs with a notched foot, full (must), half
full (should) and empty (may).
"""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPainterPath, QPaintEvent, QPen, QPixmap
from PySide6.QtWidgets import QSizePolicy, QWidget

from authoring.checks.result import Strength
from authoring.editor.i18n import tr
from authoring.editor.theme import Theme, theme
from authoring.model.vocabulary import CautionKind

GRID = 16


class Mark(StrEnum):
    """Every mark there is."""

    STOP = "stop"
    CARE = "care"
    NOTE = "note"
    MUST = "must"
    SHOULD = "should"
    MAY = "may"
    GOOD = "good"


def mark_of_strength(strength: Strength) -> Mark:
    """The mark of a Protocol check's strength."""
    return {Strength.MUST: Mark.MUST, Strength.SHOULD: Mark.SHOULD, Strength.MAY: Mark.MAY}[
        strength
    ]


def mark_of_caution(kind: CautionKind) -> Mark:
    """The mark of a kind of caution: what stops, what asks for care, what is to be known."""
    return {
        CautionKind.CONTRAINDICATION: Mark.STOP,
        CautionKind.STOP_SIGN: Mark.STOP,
        CautionKind.PRECAUTION: Mark.CARE,
        CautionKind.EXPECTED_RESPONSE: Mark.NOTE,
    }[kind]


def mark_words(mark: Mark) -> str:
    """The word that stands beside a mark in lists."""
    return {
        Mark.STOP: tr("Stop"),
        Mark.CARE: tr("Care"),
        Mark.NOTE: tr("Note"),
        Mark.MUST: tr("Must"),
        Mark.SHOULD: tr("Should"),
        Mark.MAY: tr("May"),
        Mark.GOOD: tr("In order"),
    }[mark]


# ---- painting -----------------------------------------------------------------------


def paint_mark(painter: QPainter, at: QRectF, mark: Mark, used: Theme | None = None) -> None:
    """Paint a mark as large as fits the middle of a rectangle."""
    used = used or theme()
    side = min(at.width(), at.height())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(at.center() - QPointF(side / 2, side / 2))
    painter.scale(side / GRID, side / GRID)
    _PAINTERS[mark](painter, used)
    painter.restore()


def _pen(colour: QColor, width: float) -> QPen:
    return QPen(
        colour, width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.MiterJoin
    )


def _stop(painter: QPainter, used: Theme) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(used.colour("stop"))
    painter.drawRoundedRect(QRectF(0.5, 0.5, 15, 15), 1.2, 1.2)
    painter.fillRect(QRectF(3.5, 6.6, 9, 2.8), used.colour("sheet"))


def _care(painter: QPainter, used: Theme) -> None:
    colour = used.colour("care")
    whole = QPainterPath(QPointF(8, 0.9))
    for x, y in ((15.1, 8.0), (8.0, 15.1), (0.9, 8.0)):
        whole.lineTo(x, y)
    whole.closeSubpath()
    upper = QPainterPath()
    upper.addRect(QRectF(0, 0, 16, 8))
    painter.fillPath(whole, used.colour("sheet"))
    painter.fillPath(whole.intersected(upper), colour)
    painter.setPen(_pen(colour, 1.7))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(whole)


def _note(painter: QPainter, used: Theme) -> None:
    colour = used.colour("note")
    painter.setPen(_pen(colour, 1.7))
    painter.setBrush(used.colour("sheet"))
    painter.drawEllipse(QPointF(8, 8), 6.8, 6.8)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawEllipse(QPointF(8, 8), 2.5, 2.5)


def _tab() -> QPainterPath:
    path = QPainterPath(QPointF(3, 1))
    for x, y in ((13.0, 1.0), (13.0, 15.0), (8.0, 10.8), (3.0, 15.0)):
        path.lineTo(x, y)
    path.closeSubpath()
    return path


def _paint_tab(painter: QPainter, used: Theme, filled: float) -> None:
    colour = used.colour("ink")
    whole, part = _tab(), QPainterPath()
    part.addRect(QRectF(0, 0, 16, filled))
    painter.fillPath(whole, used.colour("sheet"))
    painter.fillPath(whole.intersected(part), colour)
    painter.setPen(_pen(colour, 1.6))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(whole)


def _must(painter: QPainter, used: Theme) -> None:
    _paint_tab(painter, used, 16)


def _should(painter: QPainter, used: Theme) -> None:
    _paint_tab(painter, used, 6.6)


def _may(painter: QPainter, used: Theme) -> None:
    _paint_tab(painter, used, 0)


def _good(painter: QPainter, used: Theme) -> None:
    painter.setPen(_pen(used.colour("good"), 2.4))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolyline([QPointF(1.6, 8.6), QPointF(5.8, 13), QPointF(14.4, 2.8)])


_PAINTERS: dict[Mark, Callable[[QPainter, Theme], None]] = {
    Mark.STOP: _stop,
    Mark.CARE: _care,
    Mark.NOTE: _note,
    Mark.MUST: _must,
    Mark.SHOULD: _should,
    Mark.MAY: _may,
    Mark.GOOD: _good,
}


def pixmap(size_px: int, ratio: float, paint: Callable[[QPainter, QRectF], None]) -> QPixmap:
    """A picture of ``size_px`` logical pixels, painted at the screen's pixel ratio."""
    made = QPixmap(QSize(size_px, size_px) * ratio)
    made.setDevicePixelRatio(ratio)
    made.fill(Qt.GlobalColor.transparent)
    painter = QPainter(made)
    paint(painter, QRectF(0, 0, size_px, size_px))
    painter.end()
    return made


def mark_icon(mark: Mark, ratio: float = 2.0) -> QIcon:
    """A mark as an icon, for lists and buttons."""
    return QIcon(pixmap(theme().px(GRID), ratio, lambda p, at: paint_mark(p, at, mark)))


class Painted(QWidget):
    """A small square that paints itself; its name is what screen readers say."""

    def __init__(
        self,
        paint: Callable[[QPainter, QRectF], None],
        name: str,
        *,
        size: int = GRID,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._paint = paint
        self._size = size
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        side = theme().px(self._size)
        return QSize(side, side)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        self._paint(painter, QRectF(self.rect()))
        painter.end()


class MarkView(Painted):
    """A mark on its own; put its word beside it."""

    def __init__(self, mark: Mark, *, size: int = 18, parent: QWidget | None = None) -> None:
        super().__init__(
            lambda painter, at: paint_mark(painter, at, self.mark),
            mark_words(mark),
            size=size,
            parent=parent,
        )
        self.mark = mark

    def show_mark(self, mark: Mark) -> None:
        """Show another mark."""
        self.mark = mark
        self.setAccessibleName(mark_words(mark))
        self.update()
