"""The border between two stages: what leads on, and what leads back."""

from __future__ import annotations

from attrs import frozen
from PySide6.QtCore import QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from authoring.editor.parts.icons import Icon, paint_icon
from authoring.editor.parts.own_order import draw_words
from authoring.editor.stage_map.gate_layout import PAD, Criteria, Fonts, Row, lay_rows
from authoring.editor.theme import Theme, Type, theme


@frozen
class GateFace:
    """What a border shows: its criteria, and in brief where there is little room."""

    stage_id: str
    title: str
    criteria: Criteria
    brief: Criteria
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

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.pressed.emit(self.stage_id)
        if event.button() == Qt.MouseButton.RightButton:
            self.menu_wanted.emit(self.stage_id, event.globalPosition().toPoint())

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        self.opened.emit(self.stage_id)

    def sizeHint(self) -> QSize:
        return QSize(theme().px(148), theme().px(130))

    def paintEvent(self, _event: QPaintEvent) -> None:
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
        on, back = face.criteria.move_on, face.criteria.step_back
        for icon, count in ((Icon.FORWARD, len(on)), (Icon.BACK, len(back))):
            if count:
                paint_icon(painter, self._spot(y, used), self._turned(icon))
                at = QRectF(0, y, self.width(), used.px(18)).adjusted(used.px(8), 0, -used.px(8), 0)
                painter.drawText(at, int(Qt.AlignmentFlag.AlignTrailing), str(count))
                y += used.px(24)

    def _paint_all(self, painter: QPainter, used: Theme, face: GateFace) -> None:
        y, fonts = used.px(10), Fonts.of(used)
        painter.setFont(fonts.strong)
        painter.setPen(used.colour("ink"))
        paint_icon(painter, self._spot(y, used), self._turned(Icon.FORWARD))
        painter.drawText(self._beside(y, used), int(Qt.AlignmentFlag.AlignLeading), face.title)
        for row in lay_rows(face.criteria, face.brief, self.width(), self.height(), used):
            self._paint_row(painter, used, fonts, row)

    def _paint_row(self, painter: QPainter, used: Theme, fonts: Fonts, row: Row) -> None:
        colour = used.colour("soft" if row.back else "ink")
        painter.setPen(colour)
        left = used.px(PAD)
        if row.first:
            paint_icon(painter, self._spot(row.top, used), self._turned(Icon.BACK), colour)
        if row.back:
            left = used.px(30)
        if row.column:
            painter.setFont(fonts.strong)
            at = self._at(left, row.top, row.column, fonts.line)
            painter.drawText(at, int(Qt.AlignmentFlag.AlignTrailing), row.value)
            left += row.column + used.px(6)
        for index, line in enumerate(row.lines):
            for run in line:
                painter.setFont(fonts.strong if run.strong else fonts.plain)
                begin = left + run.left
                at = self._at(begin, row.top + index * fonts.line, self.width(), fonts.line)
                draw_words(painter, at, int(Qt.AlignmentFlag.AlignLeading), run.words)

    def _at(self, left: int, top: int, width: int, height: int) -> QRectF:
        """A line that begins so far from the leading edge."""
        at = QRectF(left, top, width, height)
        if self.layoutDirection() == Qt.LayoutDirection.RightToLeft:
            at.moveRight(self.width() - left)
        return at

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
