"""Choosing a card: type a part of its name, or begin a new one."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen
from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QDialog, QLineEdit, QListView, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.editor.workshop.words import card_title, text_words
from authoring.model.library import Library

_STEPS = {
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_PageDown: 8,
    Qt.Key.Key_PageUp: -8,
}
_Index = QModelIndex | QPersistentModelIndex


@frozen
class CardLine:
    """A card in the list: its title, and what it is found by."""

    card: str
    title: str
    trade: str
    folded: str


def card_lines(library: Library, language: str = "") -> list[CardLine]:
    """Every card of a library by title."""
    lines = []
    for card in library.cards.values():
        title = card_title(card, language)
        trade = text_words(card.trade_name, language, card.language)
        lines.append(CardLine(card.id, title, trade, f"{title} {trade}".casefold()))
    return sorted(lines, key=lambda line: line.title.casefold())


def fitting(lines: Sequence[CardLine], typed: str) -> list[CardLine]:
    """The cards whose names hold every word that was typed, beginnings of titles first."""
    wanted = typed.casefold().split()
    fits = [line for line in lines if all(word in line.folded for word in wanted)]
    if not wanted:
        return fits
    return sorted(fits, key=lambda line: not line.title.casefold().startswith(wanted[0]))


class _Model(QAbstractListModel):
    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.lines: list[CardLine] = []

    def show_lines(self, lines: list[CardLine]) -> None:
        self.beginResetModel()
        self.lines = lines
        self.endResetModel()

    def rowCount(self, parent: _Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.lines)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        line = self.lines[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return f"{line.title} · {line.trade}" if line.trade else line.title
        return None


class CardChooser(QDialog):
    """A field and the cards that fit it.

    Signals:
        chosen(card id)
        new_wanted(title): "" where nothing was typed.
    """

    chosen = Signal(str)
    new_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Choose a card"))
        self._all: list[CardLine] = []
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr("Type a part of the name"))
        self.field.setAccessibleName(tr("Card: type a part of the name"))
        self.list = QListView()
        self.list.setAccessibleName(tr("Cards"))
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setUniformItemSizes(True)
        self.model = _Model(self)
        self.list.setModel(self.model)
        self.none = label(tr("No card has this name."), Type.SMALL, soft=True)
        self.new_button = QPushButton()
        layout = QVBoxLayout(self)
        gap = theme().px(12)
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.setSpacing(theme().px(8))
        for part in (self.field, self.list, self.none, self.new_button):
            layout.addWidget(part)
        self.resize(theme().px(520), theme().px(460))
        self.field.textChanged.connect(self._filter)
        self.list.clicked.connect(lambda _index: self._choose())
        self.new_button.clicked.connect(self._begin)
        self.new_button.setAutoDefault(False)

    def open_over(self, lines: list[CardLine], current: str) -> None:
        """Open the list with the current card chosen."""
        self._all = lines
        self.field.clear()
        self._filter("")
        rows = [i for i, line in enumerate(self.model.lines) if line.card == current]
        if rows:
            self.list.setCurrentIndex(self.model.index(rows[0], 0))
        self.open()
        self.field.setFocus()

    def _filter(self, typed: str) -> None:
        lines = fitting(self._all, typed)
        self.model.show_lines(lines)
        self.none.setVisible(not lines)
        words = typed.strip()
        self.new_button.setText(tr("New card “{title}”", title=words) if words else tr("New card"))
        if lines:
            self.list.setCurrentIndex(self.model.index(0, 0))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _STEPS.get(Qt.Key(event.key()))
        enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if step is not None and self.model.lines:
            row = self.list.currentIndex().row() + step
            row = min(max(row, 0), len(self.model.lines) - 1)
            self.list.setCurrentIndex(self.model.index(row, 0))
        elif enter and self.new_button.hasFocus():
            self._begin()
        elif enter:
            self._choose()
        else:
            super().keyPressEvent(event)

    def _choose(self) -> None:
        row = self.list.currentIndex().row()
        if 0 <= row < len(self.model.lines):
            card = self.model.lines[row].card
            self.accept()
            self.chosen.emit(card)

    def _begin(self) -> None:
        title = self.field.text().strip()
        self.accept()
        self.new_wanted.emit(title)
