"""The bands of a pain rule on the 0-10 scale."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from authoring.dosage.pain import zones
from authoring.editor.clinic_room import bands as edits
from authoring.editor.clinic_room.bands import Bands
from authoring.editor.edit_words import refusal
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.choices import ChoiceField
from authoring.editor.parts.fields.lines import NumberField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import words_of
from authoring.model.base import Fact, ModelError, evolve
from authoring.model.pain import PainBand
from authoring.model.vocabulary import PainAction

_FINE = frozenset({"carry_on", "stay"})


def _tone(action: PainAction) -> str:
    """The wash behind a band: fine, take care or stop; its number and words say it, too."""
    if action.value in _FINE:
        return "good-wash"
    return "stop-wash" if action.value.startswith("stop") else "care-wash"


class BandBar(QWidget):
    """The scale from 0 to 10, its bands side by side."""

    def __init__(self) -> None:
        super().__init__()
        self._bands: Bands = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(theme().px(320), theme().px(32))

    def show_bands(self, bands: Bands) -> None:
        """Show these."""
        self._bands = bands
        found = zones(bands)
        words = [
            tr("{low} to {high}: {action}", low=z.low, high=z.high, action=words_of(z.band.action))
            for z in found
        ]
        self.setAccessibleName(", ".join(words))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.setFont(used.font(Type.SMALL))
        turned = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        wide, high = (self.width() - 1) / 11, self.height() - 1
        for zone in zones(self._bands):
            for number in range(zone.low, zone.high + 1):
                column = 10 - number if turned else number
                at = QRectF(column * wide, 0, wide, high)
                painter.fillRect(at, used.colour(_tone(zone.band.action)))
                painter.setPen(used.colour("ink"))
                painter.drawText(at, int(Qt.AlignmentFlag.AlignCenter), str(number))
            first = 10 - zone.high if turned else zone.low
            count = zone.high - zone.low + 1
            painter.setPen(QPen(used.colour("edge"), 1))
            painter.drawRect(QRectF(first * wide, 0, count * wide, high))
        painter.end()


class _Row:
    """The controls of one band."""

    def __init__(self, context: FormContext) -> None:
        self.span = label(style=Type.STRONG)
        self.span.setMinimumSize(theme().px(72), theme().px(32))
        self.top = NumberField(Fact(doc="", low=0, high=10))
        self.top.line.setMaximumWidth(theme().px(64))
        self.action = ChoiceField(PainAction)
        self.words = TextField(context.own, context.language, optional=True)
        self.words.mark_spelling(context.session)
        self.remove = QPushButton("×")
        self.remove.setProperty("quiet", True)
        self.remove.setProperty("small", True)

    def parts(self) -> tuple[QWidget, ...]:
        """In reading order."""
        return (self.span, self.top, self.action, self.words, self.remove)


class BandsField(ValueField):
    """A tuple of bands: where each ends, what to do in it, and its own words."""

    def __init__(self, context: FormContext, *, fewest: int = 1) -> None:
        super().__init__()
        self._context, self._fewest = context, fewest
        self._name = ""
        self.value = ()
        self.edit_name = ""
        self.bar = BandBar()
        self.layout_.addWidget(self.bar)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(theme().px(8))
        self._grid.setVerticalSpacing(theme().px(4))
        self._grid.setColumnStretch(3, 1)
        heads = (tr("Pain"), tr("Up to"), tr("What to do"), tr("In your own words"))
        self._heads = [label(words, Type.SMALL, soft=True) for words in heads]
        for column, head in enumerate(self._heads):
            self._grid.addWidget(head, 0, column)
        self.layout_.addLayout(self._grid)
        self.rows: list[_Row] = []
        self.add_button = QPushButton(tr("Add a band"))
        self.add_button.setProperty("quiet", True)
        self.add_button.clicked.connect(self._add)
        foot = QHBoxLayout()
        foot.addWidget(self.add_button)
        foot.addStretch(1)
        self.layout_.addLayout(foot)
        self.setFocusProxy(self.add_button)

    def show_value(self, value: Any) -> None:
        """Show bands."""
        self.value = tuple(value)
        while len(self.rows) > len(self.value):
            for part in self.rows.pop().parts():
                part.hide()
                part.deleteLater()
        while len(self.rows) < len(self.value):
            self._new_row()
        for head in self._heads:
            head.setVisible(bool(self.value))
        self.bar.setVisible(bool(self.value))
        self.bar.show_bands(self.value)
        for index, band in enumerate(self.value):
            self._show_row(index, band)
        self.add_button.setEnabled(len(self.value) < edits.MOST)
        self._say("")

    def _show_row(self, index: int, band: PainBand) -> None:
        row, last = self.rows[index], index == len(self.value) - 1
        row.span.setText(edits.span_words(self.value, index))
        row.top.show_value(band.up_to)
        row.top.line.setEnabled(not last)
        row.action.show_value(band.action)
        if row.words.value != band.words:
            row.words.show_value(band.words)
        row.remove.setEnabled(len(self.value) > self._fewest)
        self._name_row(index)

    def name_controls(self, name: str, description: str = "") -> None:
        """Name each row by its number."""
        self._name = name
        self.add_button.setAccessibleName(tr("{field}: add a band", field=name))
        self.add_button.setAccessibleDescription(description)
        for index in range(len(self.rows)):
            self._name_row(index)

    def _name_row(self, index: int) -> None:
        row = self.rows[index]
        name = tr("{field}, band {n}", field=self._name, n=index + 1)
        row.top.name_controls(f"{name}: {tr('Up to')}")
        row.action.name_controls(f"{name}: {tr('What to do')}")
        row.words.name_controls(f"{name}: {tr('In your own words')}")
        row.remove.setAccessibleName(tr("{field}: remove", field=name))

    def _new_row(self) -> None:
        index = len(self.rows)
        row = _Row(self._context)
        row.top.edited.connect(lambda top: self._take_top(index, top))
        row.top.faulted.connect(self._say)
        row.top.ended.connect(self._left_top)
        row.action.edited.connect(lambda action: self._take(index, None, action=action))
        row.words.edited.connect(lambda words: self._take(index, f"words{index}", words=words))
        row.words.ended.connect(self.ended)
        row.remove.clicked.connect(lambda: self._remove(index))
        self.rows.append(row)
        for column, part in enumerate(row.parts()):
            self._grid.addWidget(part, index + 1, column, Qt.AlignmentFlag.AlignTop)

    # ---- edits ------------------------------------------------------------------

    def _take_top(self, index: int, top: float) -> None:
        try:
            bands = edits.with_top(self.value, index, top)
        except ModelError as error:
            self.refuse(refusal(error))
            return
        self._give(bands, f"top{index}", tr("Move the end of a band"))

    def _left_top(self) -> None:
        if self.fault:
            self.show_value(self.value)
        self.ended.emit()

    def _take(self, index: int, key: str | None, **changes: Any) -> None:
        bands = edits.with_band(self.value, index, evolve(self.value[index], **changes))
        self._give(bands, key, tr("Edit a band"))

    def _add(self) -> None:
        self._give(edits.with_more(self.value), None, tr("Add a band"))

    def _remove(self, index: int) -> None:
        self._give(edits.without(self.value, index), None, tr("Remove a band"))
        self.add_button.setFocus()

    def _give(self, bands: Bands, key: str | None, name: str) -> None:
        self.edit_key, self.edit_name = key, name
        self.offer(bands)
        self.show_value(bands)
