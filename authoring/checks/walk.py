"""Everything that stands in a file, gathered in one pass, each with its place.

The walk follows the fields of the nouns and their facts, so that a field added to
the model is seen by the checks at once.
"""

from __future__ import annotations

import re
from typing import TypeAlias, TypeVar, cast

from attrs import field, frozen

from authoring.model.base import SLUG, Fact, Node, fact_of, fields
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind

_N = TypeVar("_N", bound=Node)


@frozen
class PlacedText:
    """A text, the class and field that hold it, and its place."""

    path: str
    text: Text
    holder: type[Node]
    name: str


@frozen
class TermUse:
    """A term that a file refers to."""

    path: str
    kind: TermKind
    id: str


@frozen
class Walk:
    """What one noun holds, in the order of its file. The noun itself is among ``nodes``."""

    texts: list[PlacedText] = field(factory=list)
    terms: list[TermUse] = field(factory=list)
    ids: list[tuple[str, str]] = field(factory=list)
    by_class: dict[type[Node], list[tuple[str, Node]]] = field(factory=dict)

    def nodes(self, cls: type[_N]) -> list[tuple[str, _N]]:
        """Values of exactly this class, each with its place."""
        return cast("list[tuple[str, _N]]", self.by_class.get(cls, []))


def walk(root: Node, path: str = "") -> Walk:
    """Everything in a noun; places start with ``path``, the place of the noun itself."""
    found = Walk()
    _visit(root, path, found)
    return found


def at(path: str, name: str) -> str:
    """The place of a field of what stands at ``path``."""
    return f"{path}.{name}" if path else name


_PLAIN = re.compile(r"\b(int|float|bool|date)\b")


_Plan: TypeAlias = tuple[tuple[str, Fact, bool], ...]
_PLANS: dict[type[Node], _Plan] = {}


def _plan(cls: type[Node]) -> _Plan:
    """Fields that can hold what the walk looks for, and whether each is an own id."""
    if cls not in _PLANS:
        _PLANS[cls] = tuple(
            (found.name, fact_of(found), found.name == "id" and fact_of(found).pattern == SLUG)
            for found in fields(cls)
            if found.name != "extra" and not _PLAIN.search(str(found.type))
        )
    return _PLANS[cls]


def _visit(node: Node, path: str, found: Walk) -> None:
    cls = type(node)
    found.by_class.setdefault(cls, []).append((path, node))
    start = f"{path}." if path else ""
    for name, known, own_id in _plan(cls):
        value = getattr(node, name)
        if value is None:
            continue
        if type(value) is tuple:
            if value:
                _visit_items(value, start + name, cls, name, known, found)
        elif type(value) is Text:
            found.texts.append(PlacedText(start + name, value, cls, name))
        elif type(value) is str:
            if own_id:
                found.ids.append((start + name, value))
            elif known.term:
                found.terms.append(TermUse(start + name, TermKind(known.term), value))
        elif isinstance(value, Node):
            _visit(value, start + name, found)


def _visit_items(
    items: tuple[object, ...], path: str, holder: type[Node], name: str, known: Fact, found: Walk
) -> None:
    for place, item in enumerate(items):
        if isinstance(item, Node):
            _visit(item, f"{path}[{place}]", found)
        elif type(item) is Text:
            found.texts.append(PlacedText(f"{path}[{place}]", item, holder, name))
        elif known.term and type(item) is str:
            found.terms.append(TermUse(f"{path}[{place}]", TermKind(known.term), item))
