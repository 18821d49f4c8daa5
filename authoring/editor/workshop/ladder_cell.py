"""Cells of the ladder: a variant, and a free place."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFont,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
)
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.gauge import rung_words
from authoring.editor.parts.icons import Icon, icon_of_mode, paint_icon
from authoring.editor.parts.marks import mark_of_strength, paint_mark
from authoring.editor.parts.own_order import draw_words
from authoring.editor.parts.plate import paint_plate
from authoring.editor.theme import Theme, Type, theme, tokens
from authoring.editor.workshop.ladder_model import Side, Spot
from authoring.editor.workshop.words import CellFace, add_words

LEAST_HEIGHT = 58
_PLATE = QSize(46, 62)
_MOST_LINES = 3
_ROOM_FOR_PLATE = 160
"""Cells narrower than this leave the picture out."""

_PASSED_ON = (
    Qt.Key.Key_Up,
    Qt.Key.Key_Down,
    Qt.Key.Key_Left,
    Qt.Key.Key_Right,
    Qt.Key.Key_Return,
    Qt.Key.Key_Enter,
    Qt.Key.Key_Escape,
)


class LadderCell(QAbstractButton):
    """What all cells share: the ladder sees their arrow keys."""

    def __init__(self, spot: Spot, parent: QWidget) -> None:
        super().__init__(parent)
        self.spot = spot
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in _PASSED_ON:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def sizeHint(self) -> QSize:
        return QSize(theme().px(186), theme().px(LEAST_HEIGHT))


class VariantCell(LadderCell):
    """A variant. It can be carried to another rung by the mouse.

    Signals:
        opened(id): double click.
        menu_wanted(id, global position).
        carried(id, centre in the ladder): it is being carried.
        dropped(id, centre in the ladder): it was let go.
    """

    opened = Signal(str)
    menu_wanted = Signal(str, QPoint)
    carried = Signal(str, QPoint)
    dropped = Signal(str, QPoint)

    def __init__(self, spot: Spot, parent: QWidget) -> None:
        super().__init__(spot, parent)
        self.setCheckable(True)
        self._face: CellFace | None = None
        self._picture: QPixmap | None = None
        self._plates = False
        self._grip: QPoint | None = None
        self.is_carried = False

    @property
    def face(self) -> CellFace | None:
        """What is shown."""
        return self._face

    def show_face(self, face: CellFace, picture: QPixmap | None, *, plates: bool) -> None:
        """Show another state.

        Args:
            plates: whether the ladder has pictures, and so a plate in every cell.
        """
        if (face, picture, plates) == (self._face, self._picture, self._plates):
            return
        self._face, self._picture, self._plates = face, picture, plates
        self.setText(face.name)
        self.setAccessibleName(face.spoken)
        self.setToolTip(face.name)
        self.update()

    def height_for(self, width: int) -> int:
        """How high it must be at a width, for its picture and all lines of its name."""
        used = theme()
        shows_plate = self._plates and width >= used.px(_ROOM_FOR_PLATE)
        taken = used.px(_PLATE.width() + 10) if shows_plate else 0
        name = self._face.name if self._face is not None else ""
        room = width - 2 * used.px(8) - taken
        marked = used.px(18) if self._face is not None and self._face.strength else 0
        size = used.font(Type.ENTRY).pixelSize()
        lines = _wrapped(name, size, room, _MOST_LINES, marked)
        words = (len(lines) + 1) * used.line_height(Type.ENTRY) + used.px(4 + 2 * 8)
        return max(words, used.px(_PLATE.height() + 16) if shows_plate else 0)

    def select(self, chosen: bool) -> None:
        """Show as the one that is edited; only that one is a stop of Tab."""
        self.setChecked(chosen)
        policy = Qt.FocusPolicy.StrongFocus if chosen else Qt.FocusPolicy.ClickFocus
        self.setFocusPolicy(policy)

    def nextCheckState(self) -> None:
        """A click chooses; the ladder says which cell is checked."""

    # ---- the mouse ------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._grip = event.position().toPoint()
        super().mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._grip is None or not event.buttons() & Qt.MouseButton.LeftButton:
            super().mouseMoveEvent(event)
            return
        step = event.position().toPoint() - self._grip
        if self.is_carried or step.manhattanLength() >= QApplication.startDragDistance():
            if not self.is_carried:
                self.is_carried = True
                self.setDown(False)
                self.raise_()
            self.move(self.x(), self.y() + step.y())
            self.carried.emit(self.spot.variant, self.geometry().center())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._grip = None
        if self.is_carried:
            self.is_carried = False
            self.dropped.emit(self.spot.variant, self.geometry().center())
            return
        super().mouseReleaseEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        super().mouseDoubleClickEvent(event)
        self.opened.emit(self.spot.variant)

    def let_go(self) -> None:
        """Stop being carried."""
        self._grip, self.is_carried = None, False

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        self.menu_wanted.emit(self.spot.variant, event.globalPos())

    # ---- painting ---------------------------------------------------------------

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._face is None:
            return
        used, chosen = theme(), self.isChecked()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        width = tokens()["line_px"]["selected" if chosen else "hair"]
        edge = "accent" if chosen else "ink" if self.underMouse() else "rule"
        painter.setPen(QPen(used.colour(edge), used.px(width)))
        painter.setBrush(used.colour("wash" if chosen else "sheet"))
        inset = used.px(width) / 2
        radius = used.px(tokens()["radius_px"]["entry"])
        painter.drawRoundedRect(
            QRectF(self.rect()).adjusted(inset, inset, -inset, -inset), radius, radius
        )
        self._paint_face(painter, used, self._face)
        painter.end()

    def _paint_face(self, painter: QPainter, used: Theme, face: CellFace) -> None:
        gap = used.px(8)
        inside = self.rect().adjusted(gap, gap, -gap, -gap)
        rtl = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        if self._plates and self.width() >= used.px(_ROOM_FOR_PLATE):
            size = _PLATE * used.scale
            left = inside.right() + 1 - size.width() if rtl else inside.left()
            top = self.rect().center().y() - size.height() // 2
            paint_plate(painter, QRect(QPoint(left, top), size), self._picture, tr("No picture"))
            taken = size.width() + used.px(10)
            inside.adjust(0 if rtl else taken, 0, -taken if rtl else 0, 0)
        if face.strength is not None:
            side = used.px(14)
            left = inside.left() if rtl else inside.right() + 1 - side
            mark = QRectF(left, inside.top(), side, side)
            paint_mark(painter, mark, mark_of_strength(face.strength))
        self._paint_words(painter, used, face, inside, rtl)

    def _paint_words(
        self, painter: QPainter, used: Theme, face: CellFace, at: QRect, rtl: bool
    ) -> None:
        line = used.line_height(Type.ENTRY)
        marked = used.px(18) if face.strength is not None else 0
        font = used.font(Type.ENTRY)
        lines = _wrapped(face.name, font.pixelSize(), at.width(), _MOST_LINES, marked)
        top = at.top() + max(0, (at.height() - (len(lines) + 1) * line - used.px(4)) // 2)
        painter.setFont(font)
        painter.setPen(used.colour("ink"))
        flags = Qt.AlignmentFlag.AlignVCenter | (
            Qt.AlignmentFlag.AlignRight if rtl else Qt.AlignmentFlag.AlignLeft
        )
        absolute = flags | Qt.AlignmentFlag.AlignAbsolute
        for words in lines:
            shift = marked if words is lines[0] else 0
            row = QRect(at.left() + (shift if rtl else 0), top, at.width() - shift, line)
            draw_words(painter, row, absolute, words)
            top += line
        top += used.px(4)
        icon = used.px(14)
        left = at.right() + 1 - icon if rtl else at.left()
        paint_icon(painter, QRectF(left, top + 1, icon, icon), icon_of_mode(face.mode))
        body = used.font(Type.BODY)
        body.setPixelSize(used.px(14))
        painter.setFont(body)
        taken = icon + used.px(6)
        row = at.adjusted(0 if rtl else taken, 0, -taken if rtl else 0, 0)
        row = QRect(row.left(), top, row.width(), line)
        words = QFontMetrics(body).elidedText(face.dose, Qt.TextElideMode.ElideRight, row.width())
        painter.setPen(used.colour("ink" if face.dose else "soft"))
        painter.setLayoutDirection(Qt.LayoutDirection.LeftToRight)
        painter.drawText(row, absolute, words)


@lru_cache(maxsize=4096)
def _wrapped(words: str, size: int, width: int, most: int, first_less: int) -> tuple[str, ...]:
    font = theme().font(Type.ENTRY)
    font.setPixelSize(size)
    return tuple(wrapped(words, font, width, most, first_less=first_less))


def wrapped(words: str, font: QFont, width: int, most: int, *, first_less: int = 0) -> list[str]:
    """Words in at most so many lines; the last one is shortened where more would be needed."""
    metrics = QFontMetrics(font)
    lines = [""]
    for word in words.split():
        room = width - (first_less if len(lines) == 1 else 0)
        longer = f"{lines[-1]} {word}".strip()
        if not lines[-1] or metrics.horizontalAdvance(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    if len(lines) > most:
        lines = [*lines[: most - 1], " ".join(lines[most - 1 :])]
    elide = Qt.TextElideMode.ElideRight
    return [metrics.elidedText(line, elide, width) for line in lines]


class FreeCell(LadderCell):
    """A free place on a rung: a dashed outline that offers to add a variant."""

    def __init__(self, spot: Spot, parent: QWidget) -> None:
        super().__init__(spot, parent)
        self.setText(add_words(spot.side))
        self.setAccessibleName(f"{add_words(spot.side)}, {rung_words(spot.rung)}")

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        hot = self.underMouse()
        pen = QPen(used.colour("ink" if hot else "edge"), 1, Qt.PenStyle.DashLine)
        painter.setPen(pen)
        if hot:
            painter.setBrush(used.colour("wash"))
        radius = used.px(tokens()["radius_px"]["entry"])
        half = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.drawRoundedRect(half, radius, radius)
        painter.setPen(used.colour("ink" if hot else "soft"))
        painter.setFont(used.font(Type.SMALL))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())
        painter.end()


def icon_of_side(side: Side) -> Icon:
    """The icon above a side of the ladder."""
    return Icon.HOLDING if side is Side.HOLDING else Icon.MOVING
