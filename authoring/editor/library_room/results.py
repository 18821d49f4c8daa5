"""The list of what was found: ten thousand rows, each made when it is seen."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFontMetricsF, QPainter
from PySide6.QtWidgets import QFrame, QListView, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from authoring.editor.i18n import tr
from authoring.editor.library_room.edits import noun_of
from authoring.editor.library_room.faces import Face, face_of
from authoring.editor.library_room.painting import (
    columns,
    font_of,
    paint_ground,
    paint_marked,
    paint_tag,
    paint_words,
    tag_width,
)
from authoring.editor.search.index import Found
from authoring.editor.search.pieces import Terms, terms_of
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import words_of
from authoring.model.library import Library

_Index = QModelIndex | QPersistentModelIndex
_ROW = 54
_FAR = 230


class ResultModel(QAbstractListModel):
    """What was found, best first."""

    def __init__(self, today: dt.date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self._found = Found()
        self._library: Library | None = None
        self._terms: Terms = {}
        self._faces: dict[str, Face] = {}

    def show_found(self, found: Found, library: Library) -> None:
        """Show what a query found in a library."""
        self.beginResetModel()
        if found.wanted != self._found.wanted or library is not self._library:
            self._faces = {}
        if library is not self._library:
            self._terms = terms_of(library)
        self._found, self._library = found, library
        self.endResetModel()

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of the rows."""
        return self._found.ids

    def row_of(self, noun_id: str) -> int:
        """The row of a card or protocol, -1 for none."""
        return self.ids.index(noun_id) if noun_id in self.ids else -1

    def face(self, row: int) -> Face | None:
        """What a row says; None where its noun is gone meanwhile."""
        key = self.ids[row]
        if key not in self._faces and self._library is not None:
            noun = noun_of(self._library, key)
            if noun is None:
                return None
            self._faces[key] = face_of(
                noun, self._library, self._terms, self._found.wanted, self._today
            )
        return self._faces.get(key)

    def rowCount(self, parent: _Index | None = None) -> int:  # noqa: N802
        return 0 if parent is not None and parent.isValid() else len(self.ids)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        face = self.face(index.row())
        if face is None:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return face.title.words
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return face.spoken
        if role == Qt.ItemDataRole.ToolTipRole:
            return face.below.words
        return None


class ResultPainter(QStyledItemDelegate):
    """Title and what matched; kind, status, regions and review at the far side."""

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:  # noqa: N802
        return QSize(0, theme().px(_ROW))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        model = index.model()
        face = model.face(index.row()) if isinstance(model, ResultModel) else None
        if face is None:
            return
        used, direction = theme(), option.direction
        painter.save()
        whole = paint_ground(painter, option)
        inside = whole.adjusted(used.px(14), used.px(6), -used.px(12), -used.px(6))
        far = min(used.px(_FAR), inside.width() * 0.4)
        near, side = columns(inside, (-1, far), used.px(12), direction)
        top, bottom = _halves(near)
        title = font_of(Type.BODY, strong=True)
        paint_marked(painter, top, face.title.words, face.title.marks, title, "ink", direction)
        self._paint_below(painter, bottom, face, direction)
        self._paint_side(painter, side, face, direction)
        painter.restore()

    def _paint_below(
        self, painter: QPainter, at: QRectF, face: Face, direction: Qt.LayoutDirection
    ) -> None:
        small = font_of(Type.SMALL)
        if not face.lead:
            paint_words(painter, at, face.below.words, small, "soft")
            return
        strong = font_of(Type.SMALL, strong=True)
        wide = QFontMetricsF(strong).horizontalAdvance(face.lead) + 1
        lead, rest = columns(at, (wide, -1), theme().px(8), direction)
        paint_words(painter, lead, face.lead, strong, "soft")
        below = face.below
        paint_marked(painter, rest, below.words, below.marks, small, "soft", direction)

    def _paint_side(
        self, painter: QPainter, at: QRectF, face: Face, direction: Qt.LayoutDirection
    ) -> None:
        top, bottom = _halves(at)
        small = font_of(Type.SMALL)
        if face.status is not None:
            words = words_of(face.status)
            kind, tag = columns(top, (-1, tag_width(words)), theme().px(8), direction)
            paint_words(painter, kind, face.kind, small, "soft", far=True)
            paint_tag(painter, tag, words)
        else:
            words = f"{face.kind} · {face.regions}" if face.regions else face.kind
            paint_words(painter, top, words, small, "soft", far=True)
        font = font_of(Type.SMALL, strong=face.is_overdue)
        paint_words(
            painter, bottom, face.review, font, "care" if face.is_overdue else "soft", far=True
        )


def _halves(at: QRectF) -> tuple[QRectF, QRectF]:
    half = at.height() / 2
    top = QRectF(at.left(), at.top(), at.width(), half)
    return top, top.translated(0, half)


class ResultList(QListView):
    """The results; Enter or a double click opens one.

    Signals:
        wanted(row): open it.
        shown(row): it is the current one; -1 for none.
    """

    wanted = Signal(int)
    shown = Signal(int)

    def __init__(self, today: dt.date) -> None:
        super().__init__()
        self.results = ResultModel(today, self)
        self.setModel(self.results)
        self.setItemDelegate(ResultPainter(self))
        self.setAccessibleName(tr("Found cards and protocols"))
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

    def show_found(self, found: Found, library: Library) -> None:
        """Show what was found; the chosen row stays chosen where it is still there."""
        chosen = self.current_id
        self.results.show_found(found, library)
        row = max(self.results.row_of(chosen), 0)
        if found.ids:
            self.choose(row)
        else:
            self.shown.emit(-1)

    @property
    def current_id(self) -> str:
        """Id of the chosen row, "" for none."""
        row = self.currentIndex().row()
        return self.results.ids[row] if 0 <= row < len(self.results.ids) else ""

    def choose(self, row: int) -> None:
        """Choose a row."""
        self.setCurrentIndex(self.results.index(row, 0))
