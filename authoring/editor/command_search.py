"""The command search: one field that finds cards, stages, protocols and commands."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from attrs import frozen
from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import QDialog, QLineEdit, QListView, QVBoxLayout, QWidget

from authoring.checks.result import Subject
from authoring.editor.commands import shown_keys
from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.place import Place
from authoring.editor.theme import Type, theme
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol

_MOST_SHOWN = 60
_STEPS = {
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_PageDown: 8,
    Qt.Key.Key_PageUp: -8,
}
_Index = QModelIndex | QPersistentModelIndex


@frozen
class Found:
    """One thing that can be found.

    Attributes:
        words: its name.
        kind: what it is, in words ("Card", "Command").
        folded: its name for comparing.
        goal: the action to run, or the place to go to.
        keys: the keys of a command, "" for none.
    """

    words: str
    kind: str
    folded: str
    goal: QAction | Place
    keys: str = ""


def findable(library: Library, actions: Sequence[QAction], places: Places) -> tuple[Found, ...]:
    """Everything that can be found: commands that can be used now, cards, protocols, stages."""
    return (*_commands(actions), *places.of(library))


def _commands(actions: Sequence[QAction]) -> Iterator[Found]:
    seen: set[str] = set()
    for action in actions:
        words = action.text().replace("&", "")
        if words and action.isEnabled() and not action.menu() and words not in seen:
            seen.add(words)
            yield Found(words, tr("Command"), words.casefold(), action, shown_keys(action))


class Places:
    """Cards, protocols and stages; only those that an edit touched are read anew."""

    def __init__(self) -> None:
        self._known: dict[str, tuple[object, tuple[Found, ...]]] = {}

    def of(self, library: Library) -> tuple[Found, ...]:
        """Every place of a library."""
        own = library.manifest.language
        known, self._known = self._known, {}
        nouns: list[Card | Protocol] = [*library.cards.values(), *library.protocols.values()]
        for noun in nouns:
            last = known.get(noun.id)
            if last is None or last[0] is not noun:
                found = _card(noun, own) if isinstance(noun, Card) else _protocol(noun, own)
                last = (noun, tuple(found))
            self._known[noun.id] = last
        return tuple(one for _, several in self._known.values() for one in several)


def _card(card: Card, own: str) -> Iterator[Found]:
    words = card.title.best(own, card.language)
    trade = card.trade_name.best(own, card.language) if card.trade_name else ""
    yield Found(words, tr("Card"), f"{words} {trade}".casefold(), Place(Subject.CARD, card.id))


def _protocol(protocol: Protocol, own: str) -> Iterator[Found]:
    words = protocol.title.best(own, protocol.language)
    yield Found(words, tr("Protocol"), words.casefold(), Place(Subject.PROTOCOL, protocol.id))
    for index, stage in enumerate(protocol.stages):
        name = stage.name.best(own, protocol.language)
        place = Place(Subject.PROTOCOL, protocol.id, f"stages[{index}]")
        line = tr("{stage}, {protocol}", stage=name, protocol=words)
        yield Found(line, tr("Stage {n}", n=index + 1), line.casefold(), place)


def matches(found: Sequence[Found], query: str, most: int = _MOST_SHOWN) -> list[Found]:
    """What fits every word of a query, beginnings of names first."""
    wanted = query.casefold().split()
    if not wanted:
        return [item for item in found if isinstance(item.goal, QAction)][:most]
    fits = [item for item in found if all(word in item.folded for word in wanted)]
    return sorted(fits, key=lambda item: _rank(item, wanted))[:most]


def _rank(item: Found, wanted: Sequence[str]) -> tuple[int, int, str]:
    first = item.folded.startswith(wanted[0])
    begins = all(any(part.startswith(word) for part in item.folded.split()) for word in wanted)
    return (0 if first else 1 if begins else 2, len(item.folded), item.folded)


class FoundModel(QAbstractListModel):
    """The things found, for a list view."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.items: list[Found] = []

    def show_items(self, items: list[Found]) -> None:
        """Show these."""
        self.beginResetModel()
        self.items = items
        self.endResetModel()

    def rowCount(self, parent: _Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.items)

    def data(self, index: _Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        item = self.items[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return " · ".join(part for part in (item.words, item.kind, item.keys) if part)
        return None


class CommandSearch(QDialog):
    """The search itself: type, choose with the arrows, open with Enter, leave with Esc."""

    def __init__(
        self,
        found: Callable[[], Sequence[Found]],
        go_to: Callable[[Place], None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Find"))
        self._collect, self._go_to = found, go_to
        self._found: Sequence[Found] = ()
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr("Find a card, stage or command"))
        self.field.setAccessibleName(tr("Find a card, stage or command"))
        self.list = QListView()
        self.list.setAccessibleName(tr("Found"))
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setUniformItemSizes(True)
        self.model = FoundModel(self)
        self.list.setModel(self.model)
        self._none = label(tr("Nothing has this name."), Type.SMALL, soft=True)
        layout = QVBoxLayout(self)
        gap = theme().px(12)
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.setSpacing(theme().px(8))
        for part in (self.field, self.list, self._none):
            layout.addWidget(part)
        self.resize(theme().px(560), theme().px(420))
        self.field.textChanged.connect(self._search)
        self.list.clicked.connect(lambda _index: self._choose())

    def open_with(self, query: str = "") -> None:
        """Open the search, everything there is at hand."""
        self._found = self._collect()
        self.field.setText(query)
        self._search(query)
        self.open()
        self.field.setFocus()
        self.field.selectAll()

    def _search(self, query: str) -> None:
        items = matches(self._found, query)
        self.model.show_items(items)
        self._none.setVisible(not items)
        if items:
            self.list.setCurrentIndex(self.model.index(0, 0))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = _STEPS.get(Qt.Key(event.key()))
        if step is not None and self.model.items:
            row = self.list.currentIndex().row() + step
            row = min(max(row, 0), len(self.model.items) - 1)
            self.list.setCurrentIndex(self.model.index(row, 0))
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._choose()
        else:
            super().keyPressEvent(event)

    def _choose(self) -> None:
        row = self.list.currentIndex().row()
        if not 0 <= row < len(self.model.items):
            return
        goal = self.model.items[row].goal
        self.accept()
        if isinstance(goal, QAction):
            goal.trigger()
        else:
            self._go_to(goal)
