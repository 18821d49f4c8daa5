"""The Protocol checks of a place, in one list that jumps there."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)

from authoring.checks.result import CheckResult, Strength
from authoring.editor.i18n import tr, tr_n
from authoring.editor.parts.labels import KeyCap, label
from authoring.editor.parts.marks import MarkView, mark_of_strength, mark_words, paint_mark
from authoring.editor.parts.own_order import draw_words
from authoring.editor.place import Place
from authoring.editor.place_words import where
from authoring.editor.sentences import said
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme

_Index = QModelIndex | QPersistentModelIndex
PlaceWords = Callable[[CheckResult], str]


class CheckModel(QAbstractListModel):
    """Results for a list view."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.results: tuple[CheckResult, ...] = ()
        self.place_words: PlaceWords = lambda result: result.path

    def show_results(self, results: Sequence[CheckResult]) -> None:
        """Show these."""
        self.beginResetModel()
        self.results = tuple(results)
        self.endResetModel()

    def rowCount(self, parent: _Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.results)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        result = self.results[index.row()]
        if role == Qt.ItemDataRole.AccessibleTextRole:
            word = mark_words(mark_of_strength(result.strength))
            return (
                f"{word}. {said(result.sentence)} {self.place_words(result)}. {said(result.mend)}"
            )
        if role == Qt.ItemDataRole.DisplayRole:
            return said(result.sentence)
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"{said(result.sentence)}\n{said(result.mend)}"
        return None


class _Painter(QStyledItemDelegate):
    """Mark, word, sentence, place and mend in five columns."""

    def sizeHint(self, option: QStyleOptionViewItem, index: _Index) -> QSize:
        return QSize(0, theme().px(30))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _Index) -> None:
        model = index.model()
        if not isinstance(model, CheckModel):
            return
        result, used = model.results[index.row()], theme()
        at = QRectF(option.rect)
        state = option.state
        painter.save()
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(at, used.colour("wash"))
        painter.setPen(used.colour("rule"))
        painter.drawLine(at.topLeft(), at.topRight())
        mark = mark_of_strength(result.strength)
        columns = _columns(at, option.direction)
        size = used.px(14)
        spot = QRectF(0, 0, size, size)
        spot.moveCenter(columns[0].center())
        paint_mark(painter, spot, mark)
        texts = (
            (mark_words(mark), Type.STRONG, "ink"),
            (said(result.sentence), Type.SMALL, "ink"),
            (model.place_words(result), Type.SMALL, "soft"),
            (said(result.mend), Type.SMALL, "ink"),
        )
        for rect, (words, style, token) in zip(columns[1:], texts, strict=True):
            font = used.font(style)
            font.setPixelSize(used.font(Type.SMALL).pixelSize())
            painter.setFont(font)
            painter.setPen(used.colour(token))
            shown = painter.fontMetrics().elidedText(
                words, Qt.TextElideMode.ElideRight, int(rect.width())
            )
            draw_words(painter, rect, int(Qt.AlignmentFlag.AlignVCenter), shown)
        painter.restore()


def _columns(at: QRectF, direction: Qt.LayoutDirection) -> list[QRectF]:
    used = theme()
    left, gap = used.px(10), used.px(12)
    fixed = [used.px(22), used.px(64)]
    rest = at.width() - left - sum(fixed) - 5 * gap
    widths = [*fixed, rest * 0.47, rest * 0.23, rest * 0.3]
    columns, x = [], at.left() + left
    for width in widths:
        columns.append(QRectF(x, at.top(), max(width, 0), at.height()))
        x += width + gap
    if direction == Qt.LayoutDirection.RightToLeft:
        for rect in columns:
            rect.moveRight(at.right() - (rect.left() - at.left()))
    return columns


class CheckStrip(QFrame):
    """A panel of Protocol checks: counts at its head, then a list; Enter or a click jumps.

    Args:
        session: whose checks.
        wanted: which results to show; None for all.
        place_words: how a result's place is said; None for the usual words.
    """

    def __init__(
        self,
        session: Session,
        wanted: Callable[[CheckResult], bool] | None = None,
        place_words: PlaceWords | None = None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        self.setProperty("pane", True)
        self._session = session
        self._wanted = wanted or (lambda _result: True)
        self.model = CheckModel(self)
        self.model.place_words = place_words or (lambda result: where(session.library, result))
        self.list = QListView()
        self.list.setAccessibleName(tr("Protocol checks"))
        self.list.setModel(self.model)
        self.list.setItemDelegate(_Painter(self))
        self.list.setUniformItemSizes(True)
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setProperty("bare", True)
        self.list.activated.connect(self._go)
        self.list.clicked.connect(self._go)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 1, 1, 1)
        layout.setSpacing(0)
        layout.addLayout(self._head())
        layout.addWidget(self.list, 1)
        session.checks.changed.connect(self.refresh)
        self.refresh()

    def _head(self) -> QHBoxLayout:
        used = theme()
        head = QHBoxLayout()
        head.setContentsMargins(used.px(12), used.px(6), used.px(12), used.px(6))
        head.setSpacing(used.px(8))
        head.addWidget(label(tr("Protocol checks"), Type.STRONG))
        head.addSpacing(used.px(8))
        self._counts = {}
        for strength in Strength:
            head.addWidget(MarkView(mark_of_strength(strength), size=16))
            self._counts[strength] = label(style=Type.SMALL)
            head.addWidget(self._counts[strength])
            head.addSpacing(used.px(8))
        head.addStretch(1)
        head.addWidget(label(tr("Next check"), Type.SMALL, soft=True))
        head.addWidget(KeyCap("F8"))
        return head

    def show_only(self, wanted: Callable[[CheckResult], bool]) -> None:
        """Show the results that are wanted from now on."""
        self._wanted = wanted
        self.refresh()

    def refresh(self) -> None:
        """Show the results as they are."""
        results = [result for result in self._session.checks.results if self._wanted(result)]
        self.model.show_results(results)
        self.list.setVisible(bool(results))
        words = {
            Strength.MUST: lambda n: tr_n("{n} must", "{n} must", n),
            Strength.SHOULD: lambda n: tr_n("{n} should", "{n} should", n),
            Strength.MAY: lambda n: tr_n("{n} may", "{n} may", n),
        }
        for strength, count in self._counts.items():
            number = sum(result.strength is strength for result in results)
            count.setText(words[strength](number))

    def _go(self, index: QModelIndex) -> None:
        self._session.go_to(Place.of(self.model.results[index.row()]))
