"""The body of the map: gates, row lines and links painted, entries as widgets on top."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragMoveEvent,
    QDropEvent,
    QFontMetrics,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QLabel, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import key_words
from authoring.editor.parts.own_order import draw_words
from authoring.editor.stage_map.entry_view import ENTRY_MIME, EntryFace, EntryView
from authoring.editor.stage_map.geometry import Geometry, Thread
from authoring.editor.theme import Theme, Type, theme
from authoring.editor.thumbnails import Thumbnails


class Board(QWidget):
    """The body.

    Signals:
        entry_pressed(id), entry_reached(id), entry_opened(id), menu_wanted(id, global position).
        dropped(id, stage, row): an entry was dropped on a stage, near a row.
        nothing_pressed(): the empty ground was pressed.
    """

    entry_pressed = Signal(str)
    entry_reached = Signal(str)
    entry_opened = Signal(str)
    menu_wanted = Signal(str, QPoint)
    dropped = Signal(str, int, int)
    nothing_pressed = Signal()

    def __init__(self, thumbnails: Thumbnails, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._thumbnails = thumbnails
        thumbnails.drawn.connect(self._show_drawn)
        self.setAcceptDrops(True)
        self.geometry_shown: Geometry | None = None
        self._words: Mapping[str, str] = {}
        self._views: dict[str, EntryView] = {}
        self._ors: list[QLabel] = []
        self._selected = ""
        self._over = -1

    # ---- showing ------------------------------------------------------------------

    def show_map(
        self, geometry: Geometry, faces: Mapping[str, EntryFace], words: Mapping[str, str]
    ) -> None:
        """Show a map.

        Args:
            faces: what each entry shows, by id, in reading order.
            words: what each link says, by the id of the entry it leads to.
        """
        self.geometry_shown, self._words = geometry, words
        self.setFixedSize(geometry.width, geometry.height)
        for gone in [key for key in self._views if key not in faces]:
            self._views.pop(gone).deleteLater()
        for key, face in faces.items():
            view = self._views.get(key) or self._new_view(key)
            view.setGeometry(geometry.entries[key])
            view.show_face(face)
            view.show()
        self._show_ors(geometry)
        self.update()

    def _show_ors(self, geometry: Geometry) -> None:
        """A small "or" between the entries of a choice."""
        while len(self._ors) > len(geometry.ors):
            self._ors.pop().deleteLater()
        while len(self._ors) < len(geometry.ors):
            word = QLabel(tr("or"), self)
            word.setProperty("key", True)
            word.setAlignment(Qt.AlignmentFlag.AlignCenter)
            word.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self._ors.append(word)
        for word, at in zip(self._ors, geometry.ors, strict=True):
            word.setGeometry(at)
            word.show()
            word.raise_()

    def _show_drawn(self) -> None:
        for view in self._views.values():
            view.update()

    def _new_view(self, key: str) -> EntryView:
        view = EntryView(self._thumbnails, self)
        view.pressed.connect(self.entry_pressed)
        view.reached.connect(self.entry_reached)
        view.opened.connect(self.entry_opened)
        view.menu_wanted.connect(self.menu_wanted)
        self._views[key] = view
        return view

    def views(self) -> list[EntryView]:
        """The widgets of all entries."""
        return list(self._views.values())

    def view(self, entry_id: str) -> EntryView | None:
        """The widget of an entry, or None."""
        return self._views.get(entry_id)

    def select(self, entry_id: str) -> None:
        """Show an entry as selected, "" for none; its line is drawn strong."""
        self._selected = entry_id
        for key, view in self._views.items():
            view.select(key == entry_id)
        self.update()

    # ---- painting -------------------------------------------------------------------

    def paintEvent(self, _event: QPaintEvent) -> None:
        shown, used = self.geometry_shown, theme()
        if shown is None:
            return
        painter = QPainter(self)
        for gate in shown.gates:  # hairlines: smoothing would make them two pixels wide
            painter.fillRect(gate, used.colour("gate"))
            painter.setPen(QPen(used.colour("edge"), 1))
            painter.drawLine(gate.topLeft(), gate.bottomLeft())
            painter.drawLine(gate.topRight(), gate.bottomRight())
        painter.setPen(QPen(used.colour("rule"), 1))
        for top, _ in shown.rows:
            for column in shown.columns:
                painter.drawLine(QPoint(column.left(), top), QPoint(column.right(), top))
        if 0 <= self._over < len(shown.columns):
            painter.fillRect(shown.columns[self._over], used.colour("wash"))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_bare_stages(painter, used, shown)
        line = self._chosen_line(shown)
        for thread in sorted(shown.threads, key=lambda thread: thread.strand.entry in line):
            self._paint_thread(painter, used, thread, chosen=thread.strand.entry in line)
        painter.end()

    def _paint_bare_stages(self, painter: QPainter, used: Theme, shown: Geometry) -> None:
        """Say how a stage without any entry gets its first."""
        for column in shown.columns:
            if any(column.contains(entry.center()) for entry in shown.entries.values()):
                continue
            inset = used.px(6)
            at = column.adjusted(inset, inset, -inset, 0)
            at.setHeight(min(used.px(78), column.height() - 2 * inset))
            pen = QPen(used.colour("edge"), 1, Qt.PenStyle.DashLine)
            painter.setPen(pen)
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(QRectF(at).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)
            painter.setPen(used.colour("soft"))
            painter.setFont(used.font(Type.SMALL))
            words = tr("No exercise yet: choose the stage and press {key}", key=key_words("Ins"))
            flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
            pad = used.px(12)
            painter.drawText(QRectF(at).adjusted(pad, 0, -pad, 0), flags, words)

    def _chosen_line(self, shown: Geometry) -> set[str]:
        """Ids of the entries in the selected entry's line."""
        family = {self._selected}
        grown = True
        while grown:
            more = {
                end
                for thread in shown.threads
                for end in (thread.strand.base, thread.strand.entry)
                if thread.strand.base in family or thread.strand.entry in family
            }
            grown = not more <= family
            family |= more
        return family

    def _paint_thread(
        self, painter: QPainter, used: Theme, thread: Thread, *, chosen: bool
    ) -> None:
        colour = used.colour("accent" if chosen else "edge")
        pen = QPen(colour, used.px(3 if chosen else 2))
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        if thread.broken:
            pen.setDashPattern([1, 3])
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline([QPointF(point) for point in thread.points])
        words = self._words.get(thread.strand.entry, "")
        if not words or thread.words_at.isEmpty():
            return
        font = used.font(Type.STRONG if chosen else Type.SMALL)
        font.setPixelSize(used.font(Type.SMALL).pixelSize())
        painter.setFont(font)
        painter.setPen(used.colour("ink"))
        at = thread.words_at
        metrics = QFontMetrics(font)
        cut = metrics.elidedText(words, Qt.TextElideMode.ElideRight, int(at.width()))
        behind = QRectF(0, 0, metrics.horizontalAdvance(cut) + 6, metrics.height())
        behind.moveCenter(at.center())
        painter.fillRect(behind, used.colour("gate"))
        draw_words(painter, at, int(Qt.AlignmentFlag.AlignCenter), cut)

    # ---- mouse ------------------------------------------------------------------------

    def mousePressEvent(self, _event: QMouseEvent) -> None:
        self.nothing_pressed.emit()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasFormat(ENTRY_MIME):
            event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        stage, _ = self._under(event.position().toPoint())
        self._hover(stage)
        if stage >= 0:
            event.acceptProposedAction()
        else:
            event.ignore()

    def dragLeaveEvent(self, _event: object) -> None:
        self._hover(-1)

    def dropEvent(self, event: QDropEvent) -> None:
        stage, row = self._under(event.position().toPoint())
        self._hover(-1)
        if stage >= 0:
            entry = bytes(event.mimeData().data(ENTRY_MIME).data()).decode()
            event.acceptProposedAction()
            self.dropped.emit(entry, stage, row)

    def _hover(self, stage: int) -> None:
        if stage != self._over:
            self._over = stage
            self.update()

    def _under(self, at: QPoint) -> tuple[int, int]:
        """The stage and row under a point; -1 for a border."""
        shown = self.geometry_shown
        if shown is None:
            return -1, -1
        stage = next(
            (i for i, c in enumerate(shown.columns) if c.left() <= at.x() <= c.right()), -1
        )
        row = next(
            (i for i, (top, height) in enumerate(shown.rows) if top <= at.y() < top + height), -1
        )
        return stage, row
