"""The rung gauge: two stiles, a rung for each rung of the card, a thick one in use."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from authoring.editor.i18n import tr
from authoring.editor.theme import Theme, theme, tokens


def rung_words(rung: int) -> str:
    """A rung as it is said: "as named", "progression 1", "regression 2"."""
    if rung == 0:
        return tr("as named")
    if rung > 0:
        return tr("progression {n}", n=rung)
    return tr("regression {n}", n=-rung)


def rung_sign(rung: int) -> str:
    """A rung in figures: "0", "+1", "−2"."""
    return f"+{rung}" if rung > 0 else f"−{-rung}" if rung < 0 else "0"


def rung_height(rungs: Iterable[int], rung: int, at: QRectF, scale: float) -> float:
    """Where a rung lies between the top and bottom of a gauge, in its coordinates.

    Heights are true: rungs are as far apart as their numbers say, hardest at the top.
    """
    all_rungs = [*rungs, rung]
    low, high = min(all_rungs), max(all_rungs)
    inset = 5 * scale
    if low == high:
        return at.center().y()
    share = (high - rung) / (high - low)
    return at.top() + inset + share * (at.height() - 2 * inset)


def paint_gauge(
    painter: QPainter,
    at: QRectF,
    rungs: Iterable[int],
    rung: int,
    was: int | None = None,
    used: Theme | None = None,
) -> None:
    """Paint a gauge.

    Args:
        at: the whole of it; 20 wide is good.
        rungs: the rungs that the card has.
        rung: the one in use.
        was: where it was before, or None.
    """
    used = used or theme()
    have = sorted({*rungs, rung, *([] if was is None else [was])})
    thick = tokens()["line_px"]["rung"] * used.scale
    middle, half = at.center().x(), min(at.width() / 2, 9 * used.scale)
    stile = half * 0.58
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(used.colour("edge"), 1.5 * used.scale))
    for x in (middle - stile, middle + stile):
        painter.drawLine(QPointF(x, at.top()), QPointF(x, at.bottom()))
    for one in have:
        y = rung_height(have, one, at, used.scale)
        painter.drawLine(QPointF(middle - stile, y), QPointF(middle + stile, y))
    if was is not None and was != rung:
        y = rung_height(have, was, at, used.scale)
        hollow = QRectF(middle - half + 1, y - thick / 2, 2 * half - 2, thick)
        painter.setPen(QPen(used.colour("accent"), 1.6 * used.scale))
        painter.setBrush(used.colour("sheet"))
        painter.drawRect(hollow)
    y = rung_height(have, rung, at, used.scale)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(used.colour("accent"))
    painter.drawRoundedRect(QRectF(middle - half, y - thick / 2, 2 * half, thick), 1, 1)
    painter.restore()


class RungGauge(QWidget):
    """A gauge on its own."""

    def __init__(
        self,
        rungs: Iterable[int],
        rung: int,
        was: int | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        self.show_rung(rungs, rung, was)

    def show_rung(self, rungs: Iterable[int], rung: int, was: int | None = None) -> None:
        """Show another state."""
        self._state = (tuple(rungs), rung, was)
        low, high = min((*self._state[0], rung)), max((*self._state[0], rung))
        name = tr(
            "{rung}, of {low} to {high}",
            rung=rung_words(rung),
            low=rung_sign(low),
            high=rung_sign(high),
        )
        if was is not None and was != rung:
            name = tr("{gauge}; it was {rung}", gauge=name, rung=rung_words(was))
        self.setAccessibleName(name)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(theme().px(20), theme().px(62))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        paint_gauge(painter, QRectF(self.rect()), *self._state)
        painter.end()
