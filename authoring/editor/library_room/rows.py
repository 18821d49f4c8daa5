"""A list of two-line rows, each made when it is seen: results, work, matches, words, terms."""

from __future__ import annotations

from collections.abc import Callable

from attrs import field, frozen
from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QFrame, QListView, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from authoring.editor.library_room.faces import EMPTY, Line
from authoring.editor.library_room.painting import (
    columns,
    font_of,
    paint_box,
    paint_ground,
    paint_marked,
    paint_tag,
    paint_words,
    tag_width,
    width_of,
)
from authoring.editor.parts.marks import Mark, mark_words, paint_mark
from authoring.editor.theme import Type, theme

_Index = QModelIndex | QPersistentModelIndex
_HEIGHT, _LOW = 54, 34
_FAR = 230


@frozen
class Row:
    """What one row says.

    Attributes:
        title: first line.
        below: second line.
        lead: what the second line is ("Step").
        far, far_below: second text at the side where reading ends.
        tag: a word in an outline, after ``far``.
        mark: a mark before the words; its word is spoken.
        checked: whether the row's box is ticked; None for a row without a box.
        warns: whether ``far_below`` asks for attention.
        spoken: the row as a screen reader says it.
    """

    title: Line
    below: Line = EMPTY
    lead: str = ""
    far: str = ""
    far_below: str = ""
    tag: str = ""
    mark: Mark | None = None
    checked: bool | None = None
    warns: bool = False
    spoken: str = field(default="")

    @property
    def says(self) -> str:
        """What a screen reader says."""
        if self.spoken:
            return self.spoken
        word = mark_words(self.mark) if self.mark is not None else ""
        below = f"{self.lead}: {self.below.words}" if self.lead else self.below.words
        parts = (word, self.title.words, self.tag, below, self.far, self.far_below)
        return ". ".join(part.rstrip(".") for part in parts if part)


class RowModel(QAbstractListModel):
    """Rows that are made when they are asked for."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._count = 0
        self._make: Callable[[int], Row] = lambda _row: Row(EMPTY)
        self._rows: dict[int, Row] = {}

    def show_rows(self, count: int, make: Callable[[int], Row]) -> None:
        """Show so many rows."""
        self.beginResetModel()
        self._count, self._make, self._rows = count, make, {}
        self.endResetModel()

    def renew(self, row: int) -> None:
        """Make a row anew."""
        self._rows.pop(row, None)
        self.dataChanged.emit(self.index(row, 0), self.index(row, 0))

    def renew_all(self) -> None:
        """Make all rows anew; their number is the same."""
        self._rows = {}
        if self._count:
            self.dataChanged.emit(self.index(0, 0), self.index(self._count - 1, 0))

    def row(self, number: int) -> Row:
        """A row."""
        if number not in self._rows:
            self._rows[number] = self._make(number)
        return self._rows[number]

    def rowCount(self, parent: _Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else self._count

    def flags(self, index: _Index) -> Qt.ItemFlag:
        base = super().flags(index)
        if index.isValid() and self.row(index.row()).checked is not None:
            return base | Qt.ItemFlag.ItemIsUserCheckable
        return base

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        row = self.row(index.row())
        if role == Qt.ItemDataRole.DisplayRole:
            return row.title.words
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return row.says
        if role == Qt.ItemDataRole.ToolTipRole:
            lines = (row.title.words, row.below.words, row.far_below)
            return "\n".join(line for line in lines if line)
        if role == Qt.ItemDataRole.CheckStateRole and row.checked is not None:
            return Qt.CheckState.Checked if row.checked else Qt.CheckState.Unchecked
        return None


class RowPainter(QStyledItemDelegate):
    """Box or mark, two lines of words, two lines at the far side."""

    def __init__(self, parent: QWidget, *, low: bool, far: int) -> None:
        super().__init__(parent)
        self._low, self._far = low, far

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        return QSize(0, theme().px(_LOW if self._low else _HEIGHT))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        model = index.model()
        if not isinstance(model, RowModel):
            return
        row, used, direction = model.row(index.row()), theme(), option.direction
        painter.save()
        whole = paint_ground(painter, option)
        inside = whole.adjusted(used.px(14), used.px(5), -used.px(12), -used.px(5))
        gap = used.px(10)
        if row.checked is not None or row.mark is not None:
            spot, inside = columns(inside, (used.px(18), -1), gap, direction)
            _paint_spot(painter, spot, row)
        far = min(_far_width(row), used.px(self._far), inside.width() * 0.45)
        near, side = columns(inside, (-1, far), gap, direction)
        if self._low:
            title = font_of(Type.BODY)
            paint_marked(painter, near, row.title.words, row.title.marks, title, "ink", direction)
            paint_words(painter, side, row.far, font_of(Type.SMALL), "soft", far=True)
        else:
            self._paint_two(painter, near, side, row, direction)
        painter.restore()

    def _paint_two(
        self,
        painter: QPainter,
        near: QRectF,
        side: QRectF,
        row: Row,
        direction: Qt.LayoutDirection,
    ) -> None:
        top, bottom = _halves(near)
        title = font_of(Type.BODY, strong=True)
        paint_marked(painter, top, row.title.words, row.title.marks, title, "ink", direction)
        small, strong = font_of(Type.SMALL), font_of(Type.SMALL, strong=True)
        if row.lead:
            wide = width_of(row.lead, strong)
            lead, bottom = columns(bottom, (wide, -1), theme().px(8), direction)
            paint_words(painter, lead, row.lead, strong, "soft")
        paint_marked(painter, bottom, row.below.words, row.below.marks, small, "soft", direction)
        far, far_below = _halves(side)
        if row.tag:
            far, tag = columns(far, (-1, tag_width(row.tag)), theme().px(8), direction)
            paint_tag(painter, tag, row.tag)
        paint_words(painter, far, row.far, small, "soft", far=True)
        font, token = (strong, "care") if row.warns else (small, "soft")
        paint_words(painter, far_below, row.far_below, font, token, far=True)


def _far_width(row: Row) -> float:
    """Room that the far side needs."""
    small = font_of(Type.SMALL)
    first = width_of(row.far, small)
    if row.tag:
        first += tag_width(row.tag) + theme().px(8)
    font = font_of(Type.SMALL, strong=row.warns)
    return max(first, width_of(row.far_below, font))


def _paint_spot(painter: QPainter, at: QRectF, row: Row) -> None:
    if row.checked is not None:
        paint_box(painter, at, is_on=row.checked)
    elif row.mark is not None:
        size = theme().px(15)
        spot = QRectF(0, 0, size, size)
        spot.moveCenter(at.center())
        paint_mark(painter, spot, row.mark)


def _halves(at: QRectF) -> tuple[QRectF, QRectF]:
    half = at.height() / 2
    top = QRectF(at.left(), at.top(), at.width(), half)
    return top, top.translated(0, half)


class RowList(QListView):
    """Rows to choose from; Enter or a double click asks for one, Space ticks its box.

    Signals:
        wanted(row): go there.
        shown(row): it is the current one; -1 for none.
        ticked(row): its box was ticked or unticked.
    """

    wanted = Signal(int)
    shown = Signal(int)
    ticked = Signal(int)

    def __init__(self, name: str, *, low: bool = False, far: int = _FAR) -> None:
        """Args:
        name: what screen readers call the list.
        low: one line a row.
        far: most room at the far side.
        """
        super().__init__()
        self.rows = RowModel(self)
        self.setModel(self.rows)
        self.setItemDelegate(RowPainter(self, low=low, far=far))
        self.setAccessibleName(name)
        self.setProperty("pane", True)
        self.setProperty("bare", True)
        self.setUniformItemSizes(True)
        self.setMouseTracking(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.activated.connect(lambda index: self.wanted.emit(index.row()))
        self.selectionModel().currentChanged.connect(
            lambda current, _before: self.shown.emit(current.row())
        )

    @property
    def current(self) -> int:
        """The chosen row, -1 for none."""
        return self.currentIndex().row()

    def choose(self, row: int) -> None:
        """Choose a row, or the last where there are fewer."""
        last = self.rows.rowCount() - 1
        if last >= 0:
            self.setCurrentIndex(self.rows.index(min(max(row, 0), last), 0))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and self._has_box(self.current):
            self.ticked.emit(self.current)
            return
        super().keyPressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        index = self.indexAt(event.position().toPoint())
        if event.button() == Qt.MouseButton.LeftButton and self._has_box(index.row()):
            at, wide = self.visualRect(index), theme().px(40)
            x = event.position().x() - at.left()
            turned = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
            if (at.width() - x if turned else x) <= wide:
                self.ticked.emit(index.row())

    def _has_box(self, row: int) -> bool:
        return 0 <= row < self.rows.rowCount() and self.rows.row(row).checked is not None
