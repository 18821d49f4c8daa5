"""The filters: one tree of headings and values to tick, each with how many it would leave."""

from __future__ import annotations

from collections.abc import Mapping

from immutabledict import immutabledict
from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPolygonF, QStandardItem, QStandardItemModel
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeView,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.painting import columns, font_of, paint_box, paint_words
from authoring.editor.library_room.words import facet_words, value_words
from authoring.editor.parts.labels import label
from authoring.editor.search.facets import CARD, PROTOCOL, Chosen, Facet, Review
from authoring.editor.search.index import Found
from authoring.editor.search.pieces import terms_of
from authoring.editor.theme import Type, theme
from authoring.model.library import Library
from authoring.model.vocabulary import Region, Status

_Index = QModelIndex | QPersistentModelIndex
_FACET, _VALUE, _COUNT = (Qt.ItemDataRole.UserRole + n for n in range(3))
_OPEN = (Facet.KIND, Facet.STATUS, Facet.REVIEW, Facet.REGION)
"""Filters that stand open at first."""
_ORDER: Mapping[Facet, tuple[str, ...]] = {
    Facet.KIND: (CARD, PROTOCOL),
    Facet.STATUS: tuple(Status),
    Facet.REVIEW: tuple(Review),
    Facet.REGION: tuple(Region),
}
"""Filters whose values have an order of their own; the others go by their words."""


class _Painter(QStyledItemDelegate):
    """Headings with a wedge, values with a box, counts at the far side."""

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        return QSize(0, theme().px(30 if not index.parent().isValid() else 26))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        used, direction = theme(), option.direction
        at = QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if option.state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(at, used.colour("wash"))
        inside = at.adjusted(used.px(10), 0, -used.px(10), 0)
        icon, words, count = columns(inside, (used.px(16), -1, used.px(34)), used.px(8), direction)
        if index.parent().isValid():
            paint_box(painter, icon, is_on=_is_on(index))
            font = font_of(Type.ENTRY)
        else:
            is_open = bool(option.state & QStyle.StateFlag.State_Open)
            _paint_wedge(painter, icon, is_open=is_open, direction=direction)
            font = font_of(Type.ENTRY, strong=True)
        paint_words(painter, words, str(index.data() or ""), font, "ink")
        number = str(index.data(_COUNT) or "")
        paint_words(painter, count, number, font_of(Type.SMALL), "soft", far=True)
        painter.restore()


def _is_on(index: _Index) -> bool:
    # Qt gives the state back as a number where it was set in C++.
    state = index.data(Qt.ItemDataRole.CheckStateRole)
    return state is not None and Qt.CheckState(state) == Qt.CheckState.Checked


def _paint_wedge(
    painter: QPainter, at: QRectF, *, is_open: bool, direction: Qt.LayoutDirection
) -> None:
    used = theme()
    middle, size = at.center(), used.px(4)
    points: tuple[tuple[float, float], ...]
    if is_open:
        points = ((-size, -size / 2), (size, -size / 2), (0, size / 2))
    elif direction == Qt.LayoutDirection.RightToLeft:
        points = ((size / 2, -size), (size / 2, size), (-size / 2, 0))
    else:
        points = ((-size / 2, -size), (-size / 2, size), (size / 2, 0))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(used.colour("soft"))
    painter.drawPolygon(QPolygonF([QPointF(middle.x() + x, middle.y() + y) for x, y in points]))


class FilterTree(QTreeView):
    """The tree itself; Space or Enter ticks, arrows open and close."""

    def __init__(self) -> None:
        super().__init__()
        self.setHeaderHidden(True)
        self.setRootIsDecorated(False)
        self.setIndentation(0)
        self.setItemDelegate(_Painter(self))
        self.setMouseTracking(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setProperty("bare", True)
        self.setExpandsOnDoubleClick(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName(tr("Filters"))
        self.clicked.connect(self.flip)

    def flip(self, index: QModelIndex) -> None:
        """Tick or untick a value; open or close a heading."""
        if not index.parent().isValid():
            self.setExpanded(index, not self.isExpanded(index))
            return
        new = Qt.CheckState.Unchecked if _is_on(index) else Qt.CheckState.Checked
        self.model().setData(index, new, Qt.ItemDataRole.CheckStateRole)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys = (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Select)
        if event.key() in keys and self.currentIndex().isValid():
            self.flip(self.currentIndex())
            return
        super().keyPressEvent(event)


class Filters(QFrame):
    """The panel of filters.

    Signals:
        chosen_changed(): the user ticked or cleared.
    """

    chosen_changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self.chosen: Chosen = immutabledict()
        self._showing = False
        self._items: dict[Facet, QStandardItem] = {}
        self._values: dict[Facet, dict[str, QStandardItem]] = {facet: {} for facet in Facet}
        self.model = QStandardItemModel(self)
        self.tree = FilterTree()
        self.tree.setModel(self.model)
        self.clear_button = QPushButton(tr("Clear"))
        self.clear_button.setProperty("quiet", True)
        self.clear_button.setProperty("small", True)
        self.clear_button.setAccessibleName(tr("Clear all filters"))
        self.clear_button.clicked.connect(self.clear)
        self._build()
        self.model.itemChanged.connect(self._on_tick)

    def _build(self) -> None:
        used = theme()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(0)
        head = QHBoxLayout()
        head.setContentsMargins(used.px(12), used.px(6), used.px(6), used.px(2))
        head.addWidget(label(tr("Filters"), Type.STRONG), 1)
        head.addWidget(self.clear_button)
        layout.addLayout(head)
        layout.addWidget(self.tree, 1)
        self.clear_button.setEnabled(False)
        for facet in Facet:
            item = QStandardItem(facet_words(facet))
            item.setData(facet.value, _FACET)
            item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            self._items[facet] = item
            self.model.appendRow(item)
        for facet in _OPEN:
            self.tree.setExpanded(self._items[facet].index(), True)

    # ---- showing -----------------------------------------------------------------

    def show_counts(self, found: Found, library: Library) -> None:
        """Show the values that a search left, and their counts."""
        language, terms = library.manifest.language, terms_of(library)
        self._showing = True
        for facet in Facet:
            counts = found.counts.get(facet, {})
            words = {value: value_words(facet, value, terms, language) for value in counts}
            self._show_facet(facet, counts, words)
            row = self._items[facet].row()
            self.tree.setRowHidden(row, QModelIndex(), not counts)
        self._showing = False

    def _show_facet(
        self, facet: Facet, counts: Mapping[str, int], words: Mapping[str, str]
    ) -> None:
        known = self._values[facet]
        order = sorted(counts, key=lambda value: (_rank(facet, value), words[value].casefold()))
        if list(known) != order or any(known[v].text() != words[v] for v in order):
            self._fill(facet, order, words)
            known = self._values[facet]
        chosen = self.chosen.get(facet, frozenset())
        for value, item in known.items():
            item.setData(counts[value], _COUNT)
            state = Qt.CheckState.Checked if value in chosen else Qt.CheckState.Unchecked
            item.setCheckState(state)
            said = tr_n("{what}, {n} found", "{what}, {n} found", counts[value], what=words[value])
            item.setData(said, Qt.ItemDataRole.AccessibleTextRole)
        number = len(chosen)
        head = self._items[facet]
        head.setData(tr_n("{n} on", "{n} on", number) if number else "", _COUNT)

    def _fill(self, facet: Facet, order: list[str], words: Mapping[str, str]) -> None:
        head = self._items[facet]
        here = self.tree.currentIndex()
        kept = here.data(_VALUE) if here.parent() == head.index() else None
        head.removeRows(0, head.rowCount())
        self._values[facet] = {}
        for value in order:
            item = QStandardItem(words[value])
            item.setData(facet.value, _FACET)
            item.setData(value, _VALUE)
            item.setCheckable(True)
            item.setEditable(False)
            item.setToolTip(words[value])
            self._values[facet][value] = item
            head.appendRow(item)
        if kept in self._values[facet]:
            self.tree.setCurrentIndex(self._values[facet][kept].index())

    # ---- choosing ----------------------------------------------------------------

    def _on_tick(self, item: QStandardItem) -> None:
        value = item.data(_VALUE)
        if self._showing or value is None:
            return
        facet = Facet(item.data(_FACET))
        chosen = set(self.chosen.get(facet, frozenset()))
        (chosen.add if item.checkState() == Qt.CheckState.Checked else chosen.discard)(value)
        self.choose(facet, frozenset(chosen))

    def choose(self, facet: Facet, values: frozenset[str]) -> None:
        """Let only these values of a filter through; none means all."""
        kept = {**self.chosen, facet: values}
        self.chosen = immutabledict({key: some for key, some in kept.items() if some})
        self.clear_button.setEnabled(bool(self.chosen))
        self.chosen_changed.emit()

    def clear(self) -> None:
        """Let everything through."""
        if self.chosen:
            self.chosen = immutabledict()
            self.clear_button.setEnabled(False)
            self.chosen_changed.emit()


def _rank(facet: Facet, value: str) -> int:
    order = _ORDER.get(facet, ())
    return order.index(value) if value in order else len(order)
