"""The drawing with its handles: dots that the mouse pulls and the arrow keys push."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QByteArray, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtWidgets import QSizePolicy, QWidget

from authoring.editor.i18n import tr
from authoring.editor.pose_room.seeing import Seen
from authoring.editor.pose_room.words import handle_words
from authoring.editor.theme import Type, theme
from authoring.figures.dragging import HANDLES, Handle
from authoring.figures.drawing import SCALE
from authoring.model.vocabulary import Side

_DOT = 24
_STEP_CM = 1.0
_LONG_STEP_CM = 5.0
_ARROWS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, 1.0),
    Qt.Key.Key_Down: (0.0, -1.0),
}


class HandleDot(QWidget):
    """One place that can be pulled.

    Signals:
        began(): the mouse took hold of it.
        moved(x, y): it is pulled to here from where it was taken, widget pixels.
        dropped(): the mouse let it go.
        pushed(right, up): an arrow key pushes it, cm.
        left(): the focus went elsewhere.
        freed(): Del asks that it rests on nothing any more.
    """

    began = Signal()
    moved = Signal(float, float)
    dropped = Signal()
    pushed = Signal(float, float)
    left = Signal()
    freed = Signal()

    def __init__(self, handle: Handle, parent: QWidget) -> None:
        super().__init__(parent)
        self.handle = handle
        self.resting = False
        self._from: QPointF | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.OpenHandCursor)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        words = handle_words(handle)
        self.setAccessibleName(words)
        self.setAccessibleDescription(tr("Arrow keys move it by 1 cm, with Shift by 5 cm."))
        self.setToolTip(words)
        self.resize(theme().px(_DOT), theme().px(_DOT))

    def put(self, at: QPointF) -> None:
        """Stand with the middle at a place of the canvas."""
        self.move(round(at.x() - self.width() / 2), round(at.y() - self.height() / 2))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() is Qt.MouseButton.LeftButton:
            self._from = self.mapToParent(event.position())
            self.setFocus(Qt.FocusReason.MouseFocusReason)
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
            self.began.emit()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._from is not None:
            by = self.mapToParent(event.position()) - self._from
            self.moved.emit(by.x(), by.y())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._from is not None and event.button() is Qt.MouseButton.LeftButton:
            self._from = None
            self.setCursor(Qt.CursorShape.OpenHandCursor)
            self.dropped.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        way = _ARROWS.get(Qt.Key(event.key()))
        if way is not None:
            long = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            step = _LONG_STEP_CM if long else _STEP_CM
            self.pushed.emit(way[0] * step, way[1] * step)
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.freed.emit()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.left.emit()
        self.update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        strong = self.hasFocus() or self.underMouse()
        size = used.px(13 if strong else 10)
        at = QRectF(0, 0, size, size)
        at.moveCenter(QPointF(self.rect().center()) + QPointF(0.5, 0.5))
        # On the light plate in every theme: its colours are not the theme's.
        fill = QColor("#6B2559") if strong else QColor(255, 255, 255, 235)
        painter.setPen(QPen(QColor("#6B2559"), used.px(2)))
        painter.setBrush(fill)
        if self.resting:
            painter.drawRect(at)  # what rests is square: it slides, or must be let go
        else:
            painter.drawEllipse(at)
        painter.end()


class PoseCanvas(QWidget):
    """The picture on its plate.

    Signals:
        pull_began(handle), pulled(right, up), dropped(): a pull with the mouse, cm.
        pushed(handle, right, up): a step with the keys, cm.
        left(): the focus went from a handle.
        freed(handle): a hand or foot is to rest on nothing.
    """

    pull_began = Signal(object)
    pulled = Signal(float, float)
    dropped = Signal()
    pushed = Signal(object, float, float)
    left = Signal()
    freed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(theme().px(260), theme().px(240))
        self._svg = QSvgRenderer(self)
        self._box = QRectF(0, 0, 1, 1)
        self._paper = QRectF()
        self._spots: Mapping[Handle, tuple[float, float]] = {}
        self._words = ""
        self._pulling = False
        self.dots = {handle: self._dot(handle) for handle in HANDLES}

    def _dot(self, handle: Handle) -> HandleDot:
        dot = HandleDot(handle, self)
        dot.hide()
        dot.began.connect(lambda: self._begin(handle))
        dot.moved.connect(self._pull)
        dot.dropped.connect(self._drop)
        dot.pushed.connect(lambda right, up: self.pushed.emit(handle, right, up))
        dot.left.connect(self.left)
        dot.freed.connect(lambda: self.freed.emit(handle))
        return dot

    def sizeHint(self) -> QSize:
        return QSize(theme().px(480), theme().px(420))

    # ---- showing ----------------------------------------------------------------

    def show_seen(self, seen: Seen, *, can_pull: bool, resting: frozenset[Handle]) -> None:
        """Show a drawing; the last one stays where there is none."""
        if seen.svg:
            self._svg.load(QByteArray(seen.svg))
            self._box = QRectF(*seen.box)
            if not self._pulling:
                self._paper = self._box
            self._spots = seen.spots
        self.setAccessibleName(seen.alt or tr("No drawing"))
        for handle, dot in self.dots.items():
            dot.setVisible(can_pull and handle in self._spots)
            if dot.resting is not (handle in resting):
                dot.resting = handle in resting
                dot.update()
        self._put_dots()
        self.update()

    def tab_parts(self) -> list[QWidget]:
        """The handles in the order in which Tab goes through them."""
        return list(self.dots.values())

    def raise_side(self, side: Side) -> None:
        """Put the handles of the near limbs on top of those of the far ones."""
        for handle, dot in self.dots.items():
            if handle.side is side:
                dot.raise_()

    def show_spots(self, spots: Mapping[Handle, tuple[float, float]]) -> None:
        """Move the handles ahead of the drawing."""
        self._spots = spots
        self._put_dots()

    def _begin(self, handle: Handle) -> None:
        self._pulling = True
        self.pull_began.emit(handle)

    def _pull(self, x: float, y: float) -> None:
        unit = self._scale() * SCALE
        self.pulled.emit(x / unit, -y / unit)

    def _drop(self) -> None:
        self._pulling = False
        self.dropped.emit()

    def _put_dots(self) -> None:
        for handle, spot in self._spots.items():
            self.dots[handle].put(self.at(spot))

    # ---- paper and widget ---------------------------------------------------------

    def _scale(self) -> float:
        """Pixels for a drawing unit."""
        pad = theme().px(12) * 2
        paper = self._paper if not self._paper.isEmpty() else QRectF(0, 0, 1, 1)
        wide, high = self.width() - pad, self.height() - pad
        return max(0.001, min(wide / paper.width(), high / paper.height()))

    def at(self, spot: tuple[float, float]) -> QPointF:
        """Where a place of the paper is on the widget."""
        middle, scale = self._paper.center(), self._scale()
        return QPointF(
            self.width() / 2 + (spot[0] - middle.x()) * scale,
            self.height() / 2 + (spot[1] - middle.y()) * scale,
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._put_dots()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(used.colour("rule"), 1))
        painter.setBrush(used.colour("plate"))
        painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        if self._svg.isValid():
            painter.setClipRect(self.rect().adjusted(1, 1, -1, -1))
            top_left = self.at((self._box.left(), self._box.top()))
            scale = self._scale()
            size = (self._box.width() * scale, self._box.height() * scale)
            self._svg.render(painter, QRectF(top_left.x(), top_left.y(), *size))
        else:
            painter.setPen(used.colour("soft"))
            painter.setFont(used.font(Type.BODY))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, tr("No drawing"))
        painter.end()
