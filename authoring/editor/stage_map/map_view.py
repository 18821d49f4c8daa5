"""The map with its fixed heads: they stay in sight while the body scrolls under them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QPoint, QRect, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QScrollArea, QWidget
from shiboken6 import isValid

from authoring.editor.stage_map.board import Board
from authoring.editor.stage_map.entry_view import EntryFace
from authoring.editor.stage_map.gate_layout import needed_height
from authoring.editor.stage_map.gate_view import GateFace, GateView
from authoring.editor.stage_map.geometry import Geometry
from authoring.editor.stage_map.head_view import HeadView, StageFace
from authoring.editor.stage_map.names_view import NamesView
from authoring.editor.theme import theme
from authoring.editor.thumbnails import Thumbnails

_NAMES = 112
_HEADS = 152
_HEADS_SHARE = 0.42
"""The most of the map's height that its heads take, for what they have to say."""


class _Strip(QWidget):
    """The moving content of the head strip, with the gates' ground painted."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.gates: tuple[QRect, ...] = ()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        for gate in self.gates:
            at = QRect(gate.x(), 0, gate.width(), self.height())
            painter.fillRect(at, used.colour("gate"))
            painter.setPen(QPen(used.colour("edge"), 1))
            painter.drawLine(at.topLeft(), at.bottomLeft())
            painter.drawLine(at.topRight(), at.bottomRight())
        painter.end()


class MapView(QWidget):
    """Heads, names and body in step.

    Signals:
        stage_pressed(id), stage_reached(id), stage_opened(id).
        gate_pressed(stage id), gate_opened(stage id).
        menu_wanted(kind, id, global position): kind is "stage" or "gate".
        room_changed(): there is more or less room than before.
        entered(): the focus is to come to the map.
    """

    stage_pressed = Signal(str)
    stage_reached = Signal(str)
    stage_opened = Signal(str)
    gate_pressed = Signal(str)
    gate_opened = Signal(str)
    menu_wanted = Signal(str, str, QPoint)
    room_changed = Signal()
    entered = Signal()

    def __init__(self, thumbnails: Thumbnails, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("pane", True)
        self.board = Board(thumbnails)
        self._scroll = QScrollArea(self)
        self._scroll.setWidget(self.board)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._head_clip = QWidget(self)
        self._strip = _Strip(self._head_clip)
        self._name_clip = QWidget(self)
        self.names = NamesView(self._name_clip)
        self.heads: dict[str, HeadView] = {}
        self.gates: dict[str, GateView] = {}
        self._heads = theme().px(_HEADS)
        self._stop: QWidget | None = None
        self._scroll.horizontalScrollBar().valueChanged.connect(self._follow)
        self._scroll.verticalScrollBar().valueChanged.connect(self._follow)

    @property
    def room(self) -> int:
        """Width that the body has without scrolling."""
        bar = self._scroll.verticalScrollBar().sizeHint().width()
        return max(0, self.width() - theme().px(_NAMES) - bar)

    # ---- showing --------------------------------------------------------------------

    def show_map(
        self,
        geometry: Geometry,
        entries: Mapping[str, EntryFace],
        words: Mapping[str, str],
        stages: Sequence[StageFace],
        gates: Sequence[GateFace],
    ) -> None:
        """Show a map; see :meth:`Board.show_map`."""
        self._strip.gates = geometry.gates
        height = self._heads = self._heads_height(gates, geometry)
        self._place()
        self._strip.resize(geometry.width, height)
        self._show_heads(stages, geometry, height)
        self._show_gates(gates, geometry, height)
        self.names.setFixedSize(theme().px(_NAMES), geometry.height)
        self.board.show_map(geometry, entries, words)
        self._strip.update()
        self._follow()

    def _heads_height(self, faces: Sequence[GateFace], geometry: Geometry) -> int:
        """As much as the fullest border needs, within its share of the map."""
        used = theme()
        least, most = used.px(_HEADS), int(self.height() * _HEADS_SHARE)
        wanted = [
            needed_height(face.criteria, gate.width(), used)
            for face, gate in zip(faces, geometry.gates, strict=True)
            if not face.folded
        ]
        return max(least, min([most, max(wanted, default=0)]))

    def _show_heads(self, stages: Sequence[StageFace], geometry: Geometry, height: int) -> None:
        wanted = {face.stage_id for face in stages}
        for gone in [key for key in self.heads if key not in wanted]:
            self.heads.pop(gone).deleteLater()
        for face, column in zip(stages, geometry.columns, strict=True):
            view = self.heads.get(face.stage_id)
            if view is None:
                view = self.heads[face.stage_id] = HeadView(self._strip)
                view.pressed.connect(self.stage_pressed)
                view.reached.connect(self.stage_reached)
                view.opened.connect(self.stage_opened)
                view.menu_wanted.connect(lambda key, at: self.menu_wanted.emit("stage", key, at))
            view.setGeometry(column.x(), 0, column.width(), height)
            view.show_face(face)
            view.show()

    def _show_gates(self, gates: Sequence[GateFace], geometry: Geometry, height: int) -> None:
        wanted = {face.stage_id for face in gates}
        for gone in [key for key in self.gates if key not in wanted]:
            self.gates.pop(gone).deleteLater()
        for face, gate in zip(gates, geometry.gates, strict=True):
            view = self.gates.get(face.stage_id)
            if view is None:
                view = self.gates[face.stage_id] = GateView(self._strip)
                view.pressed.connect(self.gate_pressed)
                view.opened.connect(self.gate_opened)
                view.menu_wanted.connect(lambda key, at: self.menu_wanted.emit("gate", key, at))
            view.setGeometry(gate.x() + 1, 0, gate.width() - 2, height)
            view.show_face(face)
            view.show()

    def enter(self) -> None:
        """Take the focus, as a pane."""
        self.entered.emit()

    def stop_at(self, view: QWidget | None) -> None:
        """Let Tab stop at one part of the map; the arrows go on from there."""
        self._stop = view
        parts = [*self.heads.values(), *self.gates.values(), *self.board.views()]
        for part in parts:
            click, strong = Qt.FocusPolicy.ClickFocus, Qt.FocusPolicy.StrongFocus
            part.setFocusPolicy(strong if part is view else click)

    def tab_parts(self) -> list[QWidget]:
        """The one part at which Tab stops."""
        return [] if self._stop is None or not isValid(self._stop) else [self._stop]

    def bring_into_view(self, entry_id: str) -> None:
        """Scroll so that an entry is seen."""
        view = self.board.view(entry_id)
        if view is not None:
            margin = theme().px(24)
            self._scroll.ensureWidgetVisible(view, margin, margin)

    def bring_stage_into_view(self, stage: int) -> None:
        """Scroll so that a stage is seen."""
        shown = self.board.geometry_shown
        if shown is not None and 0 <= stage < len(shown.columns):
            column = shown.columns[stage]
            half = column.width() // 2
            self._scroll.ensureVisible(column.center().x(), self._scroll.y(), half, 0)

    # ---- keeping in step --------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.room_changed.emit()
        self._place()

    def _place(self) -> None:
        names, heads = theme().px(_NAMES), self._heads
        width, height = self.width(), self.height()
        mirrored = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        left = 0 if mirrored else names
        self._scroll.setGeometry(left, heads, width - names, height - heads)
        self._head_clip.setGeometry(left, 0, width - names, heads)
        self._name_clip.setGeometry(width - names if mirrored else 0, heads, names, height - heads)
        self._follow()

    def _follow(self) -> None:
        body = self.board.pos()
        port = self._scroll.viewport().x()  # right to left, the bar stands before it
        self._strip.move(body.x() + port, 0)
        self.names.move(0, body.y())
