"""All words of a noun at once, by the columns that the index weighs.

The same words as those of :func:`authoring.editor.search.pieces.pieces`, without the
places where they stand: reading ten thousand cards waits for this.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import ForwardRef, get_args

from attrs import field, frozen

from authoring.editor.search.pieces import (
    NO_WORDS,
    TOP,
    Noun,
    Part,
    TermKey,
    Terms,
    names_of,
)
from authoring.model.base import Fact, Node, fact_of, fields
from authoring.model.edits.tree import leaf_fields
from authoring.model.text import Text

COLUMNS: Mapping[Part, int] = {
    Part.TITLE: 0,
    Part.ALSO: 1,
    Part.NAME: 1,
    Part.PURPOSE: 2,
    Part.TERM: 2,
    Part.STEP: 3,
    Part.CUE: 3,
    Part.TEXT: 3,
    Part.REFERENCE: 4,
}
_INNER = COLUMNS[Part.TEXT]


@frozen
class Gathered:
    """The words of a noun.

    Attributes:
        columns: words by column, each term's names once.
        terms: the terms that are named.
    """

    columns: tuple[list[str], ...] = field(factory=lambda: ([], [], [], [], []))
    terms: set[TermKey] = field(factory=set)


def gather(noun: Noun, terms: Terms) -> Gathered:
    """All words of a noun in every language, the names and look-alikes of its terms too."""
    found = Gathered()
    for use in _uses(type(noun)):
        part = TOP.get(use[0])
        column = _INNER if part is None else COLUMNS[part]
        _take_all((use,), noun, column, 0, found)
    named = found.columns[COLUMNS[Part.TERM]]
    for key in found.terms:
        term = terms.get(key)
        named.extend((key[1].replace("-", " "),) if term is None else names_of(term))
    return found


_Use = tuple[str, str, bool]
"""A field: its name, the kind of term that its words name or "", whether it holds words."""


_USES: dict[type, tuple[_Use, ...]] = {}


def _uses(cls: type) -> tuple[_Use, ...]:
    """The fields of a noun that can hold words; none for anything that is no noun."""
    if cls not in _USES:
        _USES[cls] = tuple(_find_uses(cls)) if issubclass(cls, Node) else ()
    return _USES[cls]


def _find_uses(cls: type[Node]) -> Iterator[_Use]:
    kinds = {one.name: one.type for one in fields(cls)}
    for name, known in leaf_fields(cls):
        has_words = _holds_words(name, known)
        if _can_hold(kinds[name], has_words=has_words or bool(known.term), above=(cls,)):
            yield name, known.term or "", has_words


def _can_hold(kind: object, *, has_words: bool, above: tuple[type, ...]) -> bool:
    """Whether values of a type can hold words, themselves or further in.

    Args:
        has_words: whether strings and texts themselves count.
        above: the nouns that the type stands in.
    """
    parts = get_args(kind)
    if parts:
        return any(_can_hold(part, has_words=has_words, above=above) for part in parts)
    if isinstance(kind, str | ForwardRef):
        return True  # a name that nobody resolved: it may be anything
    if not isinstance(kind, type) or kind in above:
        return False
    if kind in (str, Text):
        return has_words
    if not issubclass(kind, Node):
        return False
    return any(
        _can_hold(
            inner.type,
            has_words=_holds_words(inner.name, fact_of(inner)) or bool(fact_of(inner).term),
            above=(*above, kind),
        )
        for inner in fields(kind)
        if inner.name != "extra"
    )


def _holds_words(name: str, known: Fact) -> bool:
    return not (known.pattern or known.points_to or name in NO_WORDS)


def _take_all(uses: Iterable[_Use], node: Node, column: int, depth: int, found: Gathered) -> None:
    """Take the words of a noun's fields; ``depth`` is the length of the noun's path."""
    for name, term, has_words in uses:
        value = getattr(node, name)
        if value is None or value == ():
            continue
        is_list = type(value) is tuple
        at = COLUMNS[Part.NAME] if name == "name" and depth == 2 and column == _INNER else column
        for item in value if is_list else (value,):
            kind = type(item)
            if kind is Text:
                if has_words:
                    found.columns[at].extend(filter(None, item.values.values()))
            elif kind is str:
                if term:
                    found.terms.add((term, item))
                elif has_words and item:
                    found.columns[at].append(item)
            elif inner := _uses(kind):
                _take_all(inner, item, column, depth + 1 + is_list, found)
