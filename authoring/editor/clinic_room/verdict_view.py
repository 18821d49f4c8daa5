"""Live verdicts on a brand: samples of its colours, each with its ratio in words."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QLabel, QSizePolicy, QWidget

from authoring.checks.contrast import Verdict
from authoring.editor.clinic_room.verdicts import Pair, pairs
from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark, MarkView
from authoring.editor.theme import Type, theme
from authoring.model.clinic import Brand

_MARKS = {
    Verdict.AAA: Mark.GOOD,
    Verdict.AA: Mark.GOOD,
    Verdict.LARGE_ONLY: Mark.SHOULD,
    Verdict.FAILS: Mark.MUST,
}


class _Sample(QWidget):
    """A few signs in one colour on another, in the clinic's font."""

    def __init__(self) -> None:
        super().__init__()
        self._colours = ("#000000", "#FFFFFF")
        self._family = ""
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(theme().px(104), theme().px(32))

    def show_pair(self, colour: str, background: str, family: str) -> None:
        """Show these colours."""
        self._colours, self._family = (colour, background), family
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        at = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter = QPainter(self)
        painter.fillRect(at, QColor(self._colours[1]))
        painter.setPen(QPen(used.colour("edge"), 1))
        painter.drawRect(at)
        font = QFont(self._family)
        font.setPixelSize(used.px(15))
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(QColor(self._colours[0]))
        painter.drawText(at, int(Qt.AlignmentFlag.AlignCenter), tr("3 sets of 10"))
        painter.end()


class VerdictView(QWidget):
    """Every pair of colours that the brand puts on the page, and whether it can be read."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Can it be read?"))
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(theme().px(12))
        self._grid.setVerticalSpacing(theme().px(8))
        self._grid.setColumnStretch(1, 3)
        self._grid.setColumnStretch(3, 4)
        self._rows: list[tuple[_Sample, MarkView, QLabel, QLabel]] = []
        self.sentences: tuple[str, ...] = ()

    def show_brand(self, brand: Brand) -> None:
        """Judge these colours."""
        found = pairs(brand)
        for index, pair in enumerate(found):
            if index == len(self._rows):
                self._add()
            self._show(index, pair, brand.font)
        self.sentences = tuple(f"{pair.where}: {pair.sentence}" for pair in found)

    def _add(self) -> None:
        row = len(self._rows)
        sample, mark = _Sample(), MarkView(Mark.GOOD, size=16)
        where = label(style=Type.STRONG, wrap=True)
        words = label(style=Type.SMALL, wrap=True)
        middle = Qt.AlignmentFlag.AlignVCenter
        for column, part in enumerate((sample, where, mark)):
            self._grid.addWidget(part, row, column, middle)
        self._grid.addWidget(words, row, 3)
        self._rows.append((sample, mark, where, words))

    def _show(self, index: int, pair: Pair, family: str) -> None:
        sample, mark, where, words = self._rows[index]
        sample.show_pair(pair.colour, pair.background, family)
        sample.setAccessibleName(tr("Sample: {where}", where=pair.where))
        mark.show_mark(_MARKS[pair.verdict])
        where.setText(pair.where)
        words.setText(pair.sentence)
        words.setAccessibleName(f"{pair.where}: {pair.sentence}")
