"""The border between two stages: what leads on, and what leads back."""

from __future__ import annotations

from attrs import frozen
from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics, QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.icons import Icon, paint_icon
from authoring.editor.theme import Theme, Type, theme


@frozen
class GateFace:
    """What a border shows: criteria as (value, what is measured)."""

    stage_id: str
    title: str
    move_on: tuple[tuple[str, str], ...]
    step_back: tuple[tuple[str, str], ...]
    folded: bool
    spoken: str


class GateView(QWidget):
    """The head of one border.

    Signals:
        pressed(stage id), opened(stage id), fold_wanted(stage id).
    """

    pressed = Signal(str)
    opened = Signal(str)
    menu_wanted = Signal(str, QPoint)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._face: GateFace | None = None

    @property
    def stage_id(self) -> str:
        """Id of the stage before the border, "" before there is one."""
        return self._face.stage_id if self._face is not None else ""

    def show_face(self, face: GateFace) -> None:
        """Show a border."""
        if face != self._face:
            self._face = face
            self.setAccessibleName(face.spoken)
            self.setToolTip(face.spoken)
            self.update()

    def focus_rect(self) -> QRect:
        """A little inside the border."""
        inset = theme().px(6)
        return self.rect().adjusted(inset, inset, -inset, -inset)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802
        self.pressed.emit(self.stage_id)
        if event.button() == Qt.MouseButton.RightButton:
            self.menu_wanted.emit(self.stage_id, event.globalPosition().toPoint())

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:  # noqa: N802
        self.opened.emit(self.stage_id)

    def sizeHint(self) -> QSize:  # noqa: N802
        return QSize(theme().px(148), theme().px(130))

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802
        face, used = self._face, theme()
        if face is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setLayoutDirection(self.layoutDirection())
        if face.folded:
            self._paint_counts(painter, used, face)
        else:
            self._paint_all(painter, used, face)
        painter.end()

    def _paint_counts(self, painter: QPainter, used: Theme, face: GateFace) -> None:
        painter.setFont(used.font(Type.STRONG))
        painter.setPen(used.colour("ink"))
        y = used.px(12)
        for icon, count in ((Icon.FORWARD, len(face.move_on)), (Icon.BACK, len(face.step_back))):
            if count:
                paint_icon(painter, self._spot(y, used), self._turned(icon))
                at = QRectF(0, y, self.width(), used.px(18)).adjusted(used.px(8), 0, -used.px(8), 0)
                painter.drawText(at, int(Qt.AlignmentFlag.AlignTrailing), str(count))
                y += used.px(24)

    def _paint_all(self, painter: QPainter, used: Theme, face: GateFace) -> None:
        y = used.px(10)
        small, pad = used.line_height(Type.SMALL), used.px(8)
        painter.setFont(_small_strong(used))
        painter.setPen(used.colour("ink"))
        paint_icon(painter, self._spot(y, used), self._turned(Icon.FORWARD))
        painter.drawText(self._beside(y, used), int(Qt.AlignmentFlag.AlignLeading), face.title)
        y += small + used.px(4)
        rest = self.height() - y - (small if face.step_back else 0) - used.px(4)
        shown = max(1, int(rest // small))
        for value, what in self._shown(face.move_on, shown):
            self._criterion(painter, used, y, value, what)
            y += small
        for value, what in face.step_back[:1]:
            painter.setPen(used.colour("soft"))
            paint_icon(painter, self._spot(y, used), self._turned(Icon.BACK), used.colour("soft"))
            painter.setFont(used.font(Type.SMALL))
            at = self._beside(y, used)
            more = len(face.step_back) - 1
            words = " ".join(filter(None, (value, what)))
            words = tr("{what}, {n} more", what=words, n=more) if more else words
            cut = QFontMetrics(painter.font()).elidedText(
                words, Qt.TextElideMode.ElideRight, int(at.width())
            )
            painter.drawText(at, int(Qt.AlignmentFlag.AlignLeading), cut)
            y += small + pad

    @staticmethod
    def _shown(criteria: tuple[tuple[str, str], ...], most: int) -> list[tuple[str, str]]:
        if len(criteria) <= most:
            return list(criteria)
        rest = len(criteria) - most + 1
        return [*criteria[: most - 1], ("", tr("{n} more", n=rest))]

    def _criterion(self, painter: QPainter, used: Theme, y: float, value: str, what: str) -> None:
        pad, gap = used.px(8), used.px(5)
        painter.setPen(used.colour("ink"))
        painter.setFont(_small_strong(used))
        share = used.px(46) if value else 0
        share = max(share, QFontMetrics(painter.font()).horizontalAdvance(value) if value else 0)
        mirrored = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        first = QRectF(pad, y, share, used.line_height(Type.SMALL))
        rest = QRectF(
            pad + share + (gap if value else 0),
            y,
            self.width() - 2 * pad - share - gap,
            first.height(),
        )
        if mirrored:
            first.moveRight(self.width() - first.left())
            rest.moveRight(self.width() - rest.left())
        painter.drawText(first, int(Qt.AlignmentFlag.AlignTrailing), value)
        painter.setFont(used.font(Type.SMALL))
        cut = QFontMetrics(painter.font()).elidedText(
            what, Qt.TextElideMode.ElideRight, int(rest.width())
        )
        painter.drawText(rest, int(Qt.AlignmentFlag.AlignLeading), cut)

    def _turned(self, icon: Icon) -> Icon:
        if self.layoutDirection() != Qt.LayoutDirection.RightToLeft:
            return icon
        return {Icon.FORWARD: Icon.BACK, Icon.BACK: Icon.FORWARD}[icon]

    def _spot(self, y: float, used: Theme) -> QRectF:
        size = used.px(16)
        spot = QRectF(used.px(8), y + used.px(1), size, size)
        if self.layoutDirection() == Qt.LayoutDirection.RightToLeft:
            spot.moveRight(self.width() - used.px(8))
        return spot

    def _beside(self, y: float, used: Theme) -> QRectF:
        at = QRectF(used.px(30), y, self.width() - used.px(38), used.line_height(Type.SMALL))
        if self.layoutDirection() == Qt.LayoutDirection.RightToLeft:
            at.moveRight(self.width() - used.px(30))
        return at


def _small_strong(used: Theme) -> QFont:
    font = used.font(Type.STRONG)
    font.setPixelSize(used.font(Type.SMALL).pixelSize())
    return font
