"""Differences and conflicts in the trade's words: where, what it is now, and what it was."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from immutabledict import immutabledict

from authoring.dosage.shorthand import write_dose
from authoring.exchange.compare import Change, Difference
from authoring.exchange.conflict import Conflict, ConflictKind
from authoring.exchange.criterion_words import criterion_words
from authoring.exchange.table import ROOT, WHOLE, Key, Table, table_of
from authoring.model.base import Node, fields, said
from authoring.model.dose import Dose
from authoring.model.load import IntRange
from authoring.model.protocol import Entry, Stage
from authoring.model.sentence import Sentence, opened, say
from authoring.model.text import Text

_LONGEST = 160


class Words:
    """Says what differs between two versions.

    Args:
        old, new: the versions; parts are named as the new one names them.
        cards: titles of cards by id; an exercise is called after its card.
    """

    def __init__(self, old: Node, new: Node, cards: Mapping[str, str] = immutabledict()) -> None:
        self._old, self._new = table_of(old), table_of(new)
        self._language = getattr(new, "language", "en")
        self._cards = cards

    def sentence(self, difference: Difference) -> Sentence:
        """One difference as one sentence, the place first."""
        what = self._what(difference)
        where = self._where(difference)
        return opened(say("{where}: {what}", where=where, what=what) if where else what)

    def conflict(self, conflict: Conflict) -> Sentence:
        """A conflict as one sentence with both sides."""
        name = self._called(conflict.key)
        match conflict.kind:
            case ConflictKind.DELETED:
                if conflict.mine is None:
                    return opened(say("{name} was deleted here and changed there.", name=name))
                return opened(say("{name} was changed here and deleted there.", name=name))
            case ConflictKind.PLACE:
                mine, theirs = (self._called(s[0]) for s in (conflict.mine, conflict.theirs))
                return opened(
                    say(
                        "{name} was moved to {mine} here and to {theirs} there.",
                        name=name,
                        mine=mine,
                        theirs=theirs,
                    )
                )
            case ConflictKind.ORDER:
                field = _field(conflict.field)
                return opened(
                    say(
                        "{name}: {field} were put in another order by both.", name=name, field=field
                    )
                )
            case ConflictKind.TOGETHER:
                return opened(say("{name}: both sides' changes don't go together.", name=name))
        mine, theirs = self.value(conflict.mine), self.value(conflict.theirs)
        if conflict.field == WHOLE:
            name, field = self._place_of(conflict.key), self._list_word(conflict.key)
        else:
            field = _field(conflict.field)
        return opened(
            say(
                "{name}: {field} is {mine} here and {theirs} there.",
                name=name,
                field=field,
                mine=mine,
                theirs=theirs,
            )
        )

    # ---- what ---------------------------------------------------------------------------

    def _what(self, found: Difference) -> Sentence:
        name = self._called(found.key)
        match found.change:
            case Change.ADDED:
                return say("{name} added.", name=self._called_in_place(found.key))
            case Change.REMOVED:
                return say("{name} removed.", name=self._called_in_place(found.key))
            case Change.MOVED:
                return self._moved(found, name)
            case Change.ORDER:
                return say("{field} in another order.", field=_field(found.field))
        was, now = self.value(found.old), self.value(found.new)
        field = self._list_word(found.key) if found.field == WHOLE else _field(found.field)
        return say("{field} {now}, was {was}.", field=field, now=now, was=was)

    def _moved(self, found: Difference, name: str) -> Sentence:
        tables = (self._old, self._new)
        tops = [self._top(found.key, table) for table in tables]
        if tops[0] == tops[1]:
            tops = [self._called(slot[0]) for slot in (found.old, found.new)]
        if tops[0] == tops[1]:
            tops = [_field(slot[1]) for slot in (found.old, found.new)]
        return say("{name} moved from {old} to {new}.", name=name, old=tops[0], new=tops[1])

    def value(self, value: Any) -> str:
        """A value of a field, in few words."""
        if value is None or value in ((), ""):
            return say("none")
        if isinstance(value, bool):
            return say("yes") if value else say("no")
        if isinstance(value, str | Text) and not isinstance(value, StrEnum):
            return _quoted(self._text(value))
        if isinstance(value, tuple):
            return _short(", ".join(map(self.value, value)))
        return self._noun(value) if isinstance(value, Node) else _plain(value)

    def _noun(self, value: Node) -> str:
        if isinstance(value, IntRange):
            return _range(value)
        if isinstance(value, Dose) and (short := write_dose(value, pretty=True)):
            return short
        return criterion_words(value, self._language) or self._fields(value)

    def _fields(self, value: Node) -> str:
        """A noun that has no shorthand: its given fields by name."""
        given = [
            f"{_field(field.name)} {self.value(getattr(value, field.name))}"
            for field in fields(type(value))
            if field.name not in ("id", "extra") and getattr(value, field.name) != field.default
        ]
        return _short(", ".join(given)) or say("none")

    # ---- where --------------------------------------------------------------------------

    def _where(self, found: Difference) -> str:
        if found.change in (Change.ADDED, Change.REMOVED) or found.key[0] == "Criterion":
            return self._place_of(found.key)
        if found.change is Change.MOVED:
            return ""
        return self._place_and_name(found.key)

    def _place_and_name(self, key: Key) -> str:
        if key == ROOT:
            return ""
        top, name = self._top(key, self._table(key)), self._called(key)
        return name if not top or top == name else f"{top}, {name}"

    def _place_of(self, key: Key) -> str:
        place = self._table(key).places.get(key)
        return self._place_and_name(place[0]) if place else ""

    def _table(self, key: Key) -> Table:
        return self._new if key in self._new.nodes else self._old

    def _top(self, key: Key, table: Table) -> str:
        above = [key, *table.above(key)]
        return self._called(above[-1], table) if key in table.places else ""

    def _list_word(self, key: Key) -> str:
        place = self._table(key).places.get(key)
        if place is None:
            return ""
        words = {
            "entry": say("entry criterion"),
            "move_on": say("move-on criterion"),
            "step_back": say("step-back criterion"),
        }
        return words.get(place[1], _field(place[1]))

    def _called_in_place(self, key: Key) -> str:
        if key[0] != "Criterion":
            return self._called(key)
        return f"{self._list_word(key)} {self._called(key)}"

    def _called(self, key: Key, table: Table | None = None) -> str:
        """What people call a part: a stage by its number, an exercise by its card."""
        if key == ROOT:
            return say("the document")
        table = table or self._table(key)
        node: Any = table.nodes[key]
        match node:
            case Stage():
                slot = table.places[key]
                return say("stage {n}", n=table.order[slot].index(key) + 1)
            case Entry() if node.card in self._cards:
                return self._cards[node.card]
        if words := criterion_words(node, self._language):
            return words
        for field in ("name", "title", "text", "question", "set_up", "finding", "words"):
            value = getattr(node, field, None)
            if value:
                return _short(self._text(value), 60)
        kind = key[0].split()[0].lower()
        return f"{kind} {key[1].replace('-', ' ')}"

    def _text(self, value: Text | str) -> str:
        return value if isinstance(value, str) else value.best(self._language, self._language)


def _field(name: str) -> str:
    return name.replace("_", " ")


def _short(words: str, most: int = _LONGEST) -> str:
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def _plain(value: object) -> str:
    """A number, a day or a value of a closed list."""
    if isinstance(value, int | float):
        return said(value)
    if isinstance(value, StrEnum):
        return _field(value.value)
    return value.isoformat() if isinstance(value, dt.date) else _short(str(value))


def _quoted(words: str) -> str:
    return f"“{_short(words)}”"


def _range(value: IntRange) -> str:
    high = getattr(value, "high", None)
    return f"{value.low}–{high}" if high is not None else f"{value.low}"
