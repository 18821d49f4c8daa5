"""The head of a stage: number, name, lead, usual weeks, how long and how often."""

from __future__ import annotations

from attrs import frozen
from PySide6.QtCore import QPoint, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from authoring.editor.parts.own_order import draw_words
from authoring.editor.stage_map.wrapping import wrap
from authoring.editor.theme import Type, theme


@frozen
class StageFace:
    """What a head shows."""

    stage_id: str
    number: int
    name: str
    lead: str
    facts: tuple[str, ...]
    spoken: str


class HeadView(QWidget):
    """One head.

    Signals:
        pressed(id), reached(id), opened(id): as for an entry.
        menu_wanted(id, global position).
    """

    pressed = Signal(str)
    reached = Signal(str)
    opened = Signal(str)
    menu_wanted = Signal(str, QPoint)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._face: StageFace | None = None
        self._selected = False

    @property
    def stage_id(self) -> str:
        """Id of the stage shown, "" before there is one."""
        return self._face.stage_id if self._face is not None else ""

    def show_face(self, face: StageFace) -> None:
        """Show a stage."""
        if face != self._face:
            self._face = face
            self.setAccessibleName(face.spoken)
            self.update()

    def select(self, selected: bool) -> None:
        """Show whether it is selected."""
        if selected != self._selected:
            self._selected = selected
            self.update()

    def focus_rect(self) -> QRect:
        """A little inside, so that the ring does not lie on the neighbour."""
        inset = theme().px(6)
        return self.rect().adjusted(inset, inset, -inset, -inset)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.reached.emit(self.stage_id)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.pressed.emit(self.stage_id)
        if event.button() == Qt.MouseButton.RightButton:
            self.menu_wanted.emit(self.stage_id, event.globalPosition().toPoint())

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        self.opened.emit(self.stage_id)

    def paintEvent(self, _event: QPaintEvent) -> None:
        face, used = self._face, theme()
        if face is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setLayoutDirection(self.layoutDirection())
        pad = used.px(14)
        if self._selected:
            painter.setPen(QPen(used.colour("accent"), 2))
            painter.setBrush(used.colour("wash"))
            inside = QRectF(self.focus_rect()).adjusted(1, 1, -1, -1)
            painter.drawRoundedRect(inside, used.px(4), used.px(4))
        width = self.width() - 2 * pad
        lead = int(Qt.AlignmentFlag.AlignLeading | Qt.AlignmentFlag.AlignTop)
        y = used.px(8)
        painter.setPen(used.colour("accent"))
        painter.setFont(used.font(Type.DISPLAY))
        painter.drawText(
            QRectF(pad, y, width, used.line_height(Type.DISPLAY)), lead, str(face.number)
        )
        y += used.line_height(Type.DISPLAY)
        small = used.line_height(Type.SMALL)
        taken = y + used.line_height(Type.HEADING) + len(face.facts) * small + used.px(8)
        most = max(2, (self.height() - taken) // small)
        rows = [(Type.HEADING, "ink", face.name, 1), (Type.SMALL, "soft", face.lead, most)]
        rows += [(Type.SMALL, "ink", fact, 1) for fact in face.facts]
        for style, token, words, most in rows:
            font = used.font(style)
            painter.setFont(font)
            painter.setPen(used.colour(token))
            for line in wrap(words, font, width, most) if words else []:
                draw_words(painter, QRectF(pad, y, width, used.line_height(style)), lead, line)
                y += used.line_height(style)
        painter.end()
