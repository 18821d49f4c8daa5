"""Progression lines: the rows of the stage map.

A line is all entries that links join, so every entry stands in exactly one. An entry that
no link touches is a line of its own, unless it belongs to an either/or choice: then it
stands with the entries it can be chosen instead of.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import attrs

from authoring.model.card import Card
from authoring.model.edits.outcome import refuse
from authoring.model.protocol import Entry, Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Region


@attrs.frozen
class Link:
    """One entry building on another."""

    base: str
    entry: str


@attrs.frozen
class Line:
    """One row of the stage map.

    Attributes:
        cells: for each stage, the ids of the line's entries in it, in order.
        links: which entry builds on which, in order.
    """

    cells: tuple[tuple[str, ...], ...]
    links: tuple[Link, ...]

    @property
    def entries(self) -> tuple[str, ...]:
        """Ids of the line's entries in order."""
        return tuple(entry for cell in self.cells for entry in cell)

    @property
    def first(self) -> str:
        """Id of the first entry; it names the line as long as it stands first."""
        return self.entries[0]

    @property
    def span(self) -> tuple[int, int]:
        """Indexes of the first and last stage with an entry of the line."""
        filled = [index for index, cell in enumerate(self.cells) if cell]
        return filled[0], filled[-1]


class _Families:
    """Which entries belong together (union-find); the earliest stands for its family."""

    def __init__(self, order: Iterable[str]) -> None:
        self._place = {key: place for place, key in enumerate(order)}
        self._head = {key: key for key in self._place}

    def head(self, key: str) -> str:
        while self._head[key] != key:
            self._head[key] = self._head[self._head[key]]
            key = self._head[key]
        return key

    def join(self, one: str, other: str) -> None:
        first, second = sorted((self.head(one), self.head(other)), key=self._place.__getitem__)
        self._head[second] = first


def progression_lines(protocol: Protocol) -> tuple[Line, ...]:
    """The lines of a protocol, ordered by their first entry.

    A link to an entry that there is not joins nothing.
    """
    entries = {entry.id: entry for entry in protocol.entries()}
    families = _Families(entries)
    linked: set[str] = set()
    for entry in entries.values():
        if entry.builds_on in entries and entry.builds_on != entry.id:
            families.join(entry.id, entry.builds_on)
            linked |= {entry.id, entry.builds_on}
    _join_choices(protocol, families, linked)
    members: dict[str, list[list[str]]] = {}
    for index, stage in enumerate(protocol.stages):
        for entry in stage.entries():
            head = families.head(entry.id)
            members.setdefault(head, [[] for _ in protocol.stages])[index].append(entry.id)
    return tuple(_line(cells, entries) for cells in members.values())


def _join_choices(protocol: Protocol, families: _Families, linked: set[str]) -> None:
    """Unlinked entries of a choice join its first linked entry, else its first entry."""
    for stage in protocol.stages:
        for block in stage.blocks:
            for choice in block.choices:
                chosen = [entry.id for entry in block.entries if entry.choice == choice.id]
                anchor = next((key for key in chosen if key in linked), chosen[0] if chosen else "")
                for key in chosen:
                    if key not in linked:
                        families.join(key, anchor)


def _line(cells: list[list[str]], entries: Mapping[str, Entry]) -> Line:
    ids = [key for cell in cells for key in cell]
    links = (
        Link(base, key)
        for key in ids
        if (base := entries[key].builds_on) is not None and base in entries and base != key
    )
    return Line(tuple(map(tuple, cells)), tuple(links))


def line_of(protocol: Protocol, entry: str) -> Line:
    """The line that an entry stands in; refused where there is no such entry."""
    for line in progression_lines(protocol):
        if entry in line.entries:
            return line
    raise refuse("This protocol has no exercise “{id}”.", id=entry)


# ---- names ---------------------------------------------------------------------------


@attrs.frozen
class LineName:
    """What a line is called: words, or parts of the body, whichever is there.

    Attributes:
        words: a title or the name of a purpose, or None.
        language: tag of the words' own language.
        regions: parts of the body, where there are no words.
    """

    words: Text | None
    language: str
    regions: tuple[Region, ...] = ()


def line_name(
    protocol: Protocol,
    line: Line,
    *,
    cards: Mapping[str, Card],
    purposes: Mapping[str, Text] | None = None,
    library_language: str = "",
) -> LineName:
    """The name of a line.

    The title of its card where all entries are of one card; else the first purpose that all
    its cards share; else the parts of the body they share; else the first card's title.

    Args:
        purposes: names of the library's purposes by id, in ``library_language``.
    """
    ids = set(line.entries)
    used = dict.fromkeys(entry.card for entry in protocol.entries() if entry.id in ids)
    found = [cards[card_id] for card_id in used if card_id in cards]
    if not found:
        return LineName(None, protocol.language)
    title = LineName(found[0].title, found[0].language)
    if len(found) == 1:
        return title
    for purpose in found[0].purposes:
        name = (purposes or {}).get(purpose)
        if name is not None and all(purpose in card.purposes for card in found):
            return LineName(name, library_language)
    shared = tuple(
        region for region in found[0].regions if all(region in card.regions for card in found)
    )
    return LineName(None, "", shared) if shared else title


# ---- rows ------------------------------------------------------------------------------


def packed_rows(
    protocol: Protocol, lines: Iterable[Line], *, cards: Mapping[str, Card]
) -> tuple[tuple[Line, ...], ...]:
    """Lines laid into rows: those that train the same and never meet in a stage share one.

    "The same" is the first purpose of the line's first card, or its first part of the body
    where it has none. Within a row lines stand in the order of their stages.
    """
    by_id = {entry.id: entry for entry in protocol.entries()}
    rows: list[tuple[str, list[Line]]] = []
    for line in lines:
        aim = _aim(cards.get(by_id[line.first].card))
        home = next(
            (row for kept, row in rows if aim and kept == aim and row[-1].span[1] < line.span[0]),
            None,
        )
        if home is None:
            rows.append((aim, [line]))
        else:
            home.append(line)
    return tuple(tuple(row) for _, row in rows)


def _aim(card: Card | None) -> str:
    if card is None:
        return ""
    if card.purposes:
        return f"purpose {card.purposes[0]}"
    return f"region {card.regions[0]}" if card.regions else ""
