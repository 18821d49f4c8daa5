"""One entry on the map: gauge, number, name, dose, marks. Painted; drags itself."""

from __future__ import annotations

from attrs import frozen
from PySide6.QtCore import QMimeData, QPoint, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QDrag,
    QEnterEvent,
    QFocusEvent,
    QFont,
    QFontMetrics,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QApplication, QWidget

from authoring.checks.result import Strength
from authoring.editor.parts.gauge import paint_gauge
from authoring.editor.parts.icons import icon_of_mode, paint_icon
from authoring.editor.parts.marks import mark_of_strength, paint_mark
from authoring.editor.parts.own_order import draw_words
from authoring.editor.parts.plate import paint_plate
from authoring.editor.stage_map.geometry import gauge_rect
from authoring.editor.stage_map.model import Cell
from authoring.editor.stage_map.wrapping import wrap
from authoring.editor.theme import Theme, Type, theme, tokens
from authoring.editor.thumbnails import Thumbnails, shown_on_plate

_PLATE_WIDTH = 38

ENTRY_MIME = "application/x-rungbook-entry-id"


@frozen
class EntryFace:
    """What an entry shows.

    Attributes:
        strength: of its most serious check, None for none.
        was: the rung of the entry it builds on, where the card is the same.
        plates: whether the map has pictures, and so a plate in every entry.
    """

    cell: Cell
    name: str
    dose: str
    block: str
    spoken: str
    strength: Strength | None
    was: int | None
    plates: bool


class EntryView(QWidget):
    """One entry.

    Signals:
        pressed(id): the user put the hand on it.
        reached(id): Tab came to it.
        opened(id): double click.
        menu_wanted(id, global position).
    """

    pressed = Signal(str)
    reached = Signal(str)
    opened = Signal(str)
    menu_wanted = Signal(str, QPoint)

    def __init__(self, thumbnails: Thumbnails, parent: QWidget) -> None:
        super().__init__(parent)
        self._thumbnails = thumbnails
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
        self._face: EntryFace | None = None
        self._selected = False
        self._grabbed_at: QPoint | None = None

    @property
    def entry_id(self) -> str:
        """Id of the entry shown, "" before there is one."""
        return self._face.cell.entry.id if self._face is not None else ""

    @property
    def face(self) -> EntryFace | None:
        """What is shown."""
        return self._face

    def show_face(self, face: EntryFace) -> None:
        """Show an entry."""
        if face != self._face:
            self._face = face
            self.setAccessibleName(face.spoken)
            self.setToolTip(f"{face.cell.number} {face.name}\n{face.dose}")
            self.update()

    def select(self, selected: bool) -> None:
        """Show whether it is selected."""
        if selected != self._selected:
            self._selected = selected
            self.update()

    def dose_rect(self) -> QRect:
        """Where the dose stands, for editing in place."""
        return self._places(theme()).dose.toRect()

    def focus_rect(self) -> QRect:
        """Around the whole entry, the check's mark left out."""
        return self.rect()

    @property
    def _mirrored(self) -> bool:
        return self.layoutDirection() == Qt.LayoutDirection.RightToLeft

    def _places(self, used: Theme) -> _Places:
        plates = self._face is not None and self._face.plates
        return _Places.of(QRectF(self.rect()), used, self._mirrored, plates=plates)

    # ---- mouse ------------------------------------------------------------------

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.reached.emit(self.entry_id)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._grabbed_at = event.position().toPoint()
        self.pressed.emit(self.entry_id)
        if event.button() == Qt.MouseButton.RightButton:
            self.menu_wanted.emit(self.entry_id, event.globalPosition().toPoint())

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:
        self.opened.emit(self.entry_id)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._grabbed_at is None or not event.buttons() & Qt.MouseButton.LeftButton:
            return
        far = event.position().toPoint() - self._grabbed_at
        if far.manhattanLength() < QApplication.startDragDistance():
            return
        drag = QDrag(self)
        data = QMimeData()
        data.setData(ENTRY_MIME, self.entry_id.encode())
        drag.setMimeData(data)
        drag.setPixmap(self.grab())
        drag.setHotSpot(self._grabbed_at)
        self._grabbed_at = None
        drag.exec(Qt.DropAction.MoveAction)

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        self._grabbed_at = None

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        self.update()

    # ---- painting ---------------------------------------------------------------

    def sizeHint(self) -> QSize:
        return QSize(theme().px(196), theme().px(78))

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._face is None:
            return
        used = theme()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setLayoutDirection(self.layoutDirection())
        self._paint_sheet(painter, used)
        places = self._places(used)
        cell = self._face.cell
        if cell.variant is not None:
            paint_gauge(painter, places.gauge, cell.rungs, cell.variant.rung, self._face.was)
        if self._face.plates:
            self._paint_plate(painter, cell, places)
        self._paint_words(painter, used, places)
        if self._face.strength is not None:
            paint_mark(painter, places.mark, mark_of_strength(self._face.strength))
        painter.end()

    def _paint_sheet(self, painter: QPainter, used: Theme) -> None:
        lines = tokens()["line_px"]
        if self._selected:
            colour, width = "accent", lines["selected"]
        else:
            colour, width = ("edge" if self.underMouse() else "rule"), lines["hair"]
        painter.setPen(QPen(used.colour(colour), width))
        painter.setBrush(used.colour("wash" if self._selected else "sheet"))
        inset = width / 2
        radius = used.px(tokens()["radius_px"]["entry"])
        area = QRectF(self.rect()).adjusted(inset, inset, -inset, -inset)
        painter.drawRoundedRect(area, radius, radius)

    def _paint_plate(self, painter: QPainter, cell: Cell, places: _Places) -> None:
        """The picture; seen for the first time, it is asked for, and so only what is in sight."""
        at = places.plate.toRect()
        picture = self._thumbnails.of(shown_on_plate(cell.variant), max(at.width(), at.height()))
        paint_plate(painter, at, picture, "")
        used = theme()
        tab = QRectF(places.number)
        tab.setWidth(QFontMetrics(used.font(Type.ENTRY)).horizontalAdvance(str(cell.number)))
        if self._mirrored:
            tab.moveRight(places.number.right())
        tab = tab.adjusted(-used.px(3), -used.px(1), used.px(3), 0)
        painter.fillRect(tab, used.colour("wash" if self._selected else "sheet"))

    def _paint_words(self, painter: QPainter, used: Theme, places: _Places) -> None:
        face = self._face
        if face is None:
            return
        strong = used.font(Type.ENTRY)
        lead = Qt.AlignmentFlag.AlignLeading | Qt.AlignmentFlag.AlignTop
        painter.setFont(strong)
        painter.setPen(used.colour("ink"))
        painter.drawText(places.number, int(lead), str(face.cell.number))
        room = places.name
        if face.strength is not None:  # the check's mark stands at the end of the first line
            room = _rest(room, used.px(18), not self._mirrored)
        lines = wrap(face.name, strong, int(room.width()))
        for index, line in enumerate(lines):
            height = used.line_height(Type.ENTRY)
            at = QRectF(room.left(), room.top() + index * height, room.width(), height)
            draw_words(painter, at, int(lead), line)
        if face.cell.variant is not None:
            paint_icon(painter, places.icon, icon_of_mode(face.cell.variant.mode))
        self._paint_dose(painter, used, places, short_name=len(lines) == 1)

    def _paint_dose(
        self, painter: QPainter, used: Theme, places: _Places, *, short_name: bool
    ) -> None:
        """The dose on one line, or two where the name leaves room; what block it is in."""
        face = self._face
        if face is None:
            return
        plain, small = _entry_font(used), used.font(Type.SMALL)
        room, height = places.dose, used.line_height(Type.ENTRY)
        doses = wrap(face.dose, plain, int(room.width()), 2 if short_name else 1)
        painter.setFont(plain)
        painter.setPen(used.colour("ink"))
        middle = Qt.AlignmentFlag.AlignVCenter
        for index, words in enumerate(doses):
            up = (len(doses) - 1 - index) * height
            line = room.translated(0, -up)
            draw_words(painter, line, int(Qt.AlignmentFlag.AlignLeading | middle), words)
        if not face.block:
            return
        at, side = places.block, Qt.AlignmentFlag.AlignLeading
        if not short_name or len(doses) > 1:  # its line is taken: it goes to the end of the last
            taken = QFontMetrics(plain).horizontalAdvance(doses[-1]) + used.px(8)
            at, side = _rest(room, taken, self._mirrored), Qt.AlignmentFlag.AlignTrailing
        painter.setFont(small)
        painter.setPen(used.colour("soft"))
        draw_words(painter, at, int(side | middle), _cut(face.block, small, at))


def _entry_font(used: Theme) -> QFont:
    font = used.font(Type.BODY)
    font.setPixelSize(used.font(Type.ENTRY).pixelSize())
    return font


def _rest(room: QRectF, taken: float, mirrored: bool) -> QRectF:
    """What is left of a line whose beginning is taken."""
    if mirrored:
        return room.adjusted(0, 0, -min(taken, room.width()), 0)
    return room.adjusted(min(taken, room.width()), 0, 0, 0)


def _cut(words: str, font: QFont, room: QRectF) -> str:
    metrics = QFontMetrics(font)
    return metrics.elidedText(words, Qt.TextElideMode.ElideRight, int(room.width()))


@frozen
class _Places:
    """Where the parts of an entry lie."""

    gauge: QRectF
    plate: QRectF
    number: QRectF
    name: QRectF
    icon: QRectF
    dose: QRectF
    block: QRectF
    mark: QRectF

    @classmethod
    def of(cls, area: QRectF, used: Theme, mirrored: bool, *, plates: bool) -> _Places:
        gauge = gauge_rect(area, used, mirrored=False)
        left = gauge.right() + used.px(6)
        plate = QRectF(left, gauge.top(), used.px(_PLATE_WIDTH), gauge.height())
        if plates:
            left = plate.right() + used.px(7)
        right = area.right() - used.px(8)
        number_width = used.px(24)
        top = area.top() + used.px(7)
        line = used.line_height(Type.ENTRY)
        name_left = left if plates else left + number_width
        icon = used.px(14)
        dose_left, dose_right = left + used.px(18), area.right() - used.px(3)
        dose_top = area.bottom() - used.px(8) - line
        places = cls(
            gauge=gauge,
            plate=plate,
            number=QRectF(plate.left() if plates else left, top, number_width, line),
            name=QRectF(name_left, top, right - name_left, 2 * line),
            icon=QRectF(left, dose_top + (line - icon) / 2, icon, icon),
            dose=QRectF(dose_left, dose_top, dose_right - dose_left, line),
            block=QRectF(dose_left, dose_top - line + used.px(2), right - dose_left, line),
            mark=QRectF(
                area.right() - used.px(22), area.top() + used.px(4), used.px(16), used.px(16)
            ),
        )
        return places._flipped(area) if mirrored else places

    def _flipped(self, area: QRectF) -> _Places:
        def flip(rect: QRectF) -> QRectF:
            left = area.right() - (rect.right() - area.left())
            return QRectF(left, rect.top(), rect.width(), rect.height())

        return _Places(
            *(
                flip(rect)
                for rect in (
                    self.gauge,
                    self.plate,
                    self.number,
                    self.name,
                    self.icon,
                    self.dose,
                    self.block,
                    self.mark,
                )
            )
        )
