"""A document laid out flat: its parts by identity, with what each holds and where it stands.

A part is a noun with an id: a stage, block, entry, variant, caution, term … What belongs
together stays one value: a dose and a criterion are never put together from two hands'
halves, since nobody would have written the result.
"""

from __future__ import annotations

from collections.abc import Iterator
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

from attrs import frozen

from authoring.model.base import Node, fields
from authoring.model.criterion import AllOf, AnyOf, InWords, Measured, TimePassed
from authoring.model.library import Term

Key = tuple[str, str, int]
"""Kind of part, its id, and which of several that wrongly share both (0 for the first)."""

Slot = tuple[Key, str]
"""A list of parts: the part that holds it, and its field."""

ROOT: Key = ("", "", 0)

_CRITERIA = (Measured, InWords, TimePassed, AllOf, AnyOf)

WHOLE = "*"
"""Field of a part that is one value."""


@frozen
class Table:
    """The parts of one document.

    Attributes:
        nodes: each part as it stands, with all inside it.
        atoms: fields of each part that hold no parts; of a criterion, the whole under ``WHOLE``.
        places: the list each part but the root stands in.
        order: the parts of each list.
    """

    nodes: dict[Key, Node]
    atoms: dict[Key, dict[str, Any]]
    places: dict[Key, Slot]
    order: dict[Slot, tuple[Key, ...]]

    def above(self, key: Key) -> Iterator[Key]:
        """The parts around a part, nearest first, without the root."""
        while key in self.places and (key := self.places[key][0]) != ROOT:
            yield key

    def below(self, key: Key) -> Iterator[Key]:
        """A part and all parts inside it, from the top."""
        yield key
        for field in part_fields(type(self.nodes[key])):
            for inner in self.order.get((key, field), ()):
                yield from self.below(inner)


_PART_FIELDS: dict[type[Node], tuple[str, ...]] = {}


def part_fields(cls: type[Node]) -> tuple[str, ...]:
    """Fields of a noun that hold lists of parts."""
    if cls not in _PART_FIELDS:
        _PART_FIELDS[cls] = _found_part_fields(cls)
    return _PART_FIELDS[cls]


def _found_part_fields(cls: type[Node]) -> tuple[str, ...]:
    if issubclass(cls, _CRITERIA):
        return ()
    hints = get_type_hints(cls)
    return tuple(field.name for field in fields(cls) if _is_parts(hints[field.name]))


def _is_parts(hint: Any) -> bool:
    if get_origin(hint) is not tuple:
        return False
    item = get_args(hint)[0]
    members = get_args(item) if get_origin(item) in (Union, UnionType) else (item,)
    return all(
        isinstance(member, type)
        and issubclass(member, Node)
        and any(field.name == "id" for field in fields(member))
        for member in members
    )


def _kind_of(node: Node) -> str:
    if isinstance(node, _CRITERIA):
        return "Criterion"
    if isinstance(node, Term):
        return f"Term {node.kind.value}"
    return type(node).__name__


def table_of(document: Node) -> Table:
    """The parts of a document."""
    table = Table({}, {}, {}, {})
    _lay_out(document, ROOT, table)
    return table


def _lay_out(node: Node, key: Key, table: Table) -> None:
    table.nodes[key] = node
    if isinstance(node, _CRITERIA):
        table.atoms[key] = {WHOLE: node}
        return
    parts = part_fields(type(node))
    table.atoms[key] = {
        field.name: getattr(node, field.name)
        for field in fields(type(node))
        if field.name not in parts
    }
    for field in parts:
        inner: list[Key] = []
        for item in getattr(node, field):
            name = _free(item, table)
            table.places[name] = (key, field)
            inner.append(name)
            _lay_out(item, name, table)
        table.order[key, field] = tuple(inner)


def _free(item: Any, table: Table) -> Key:
    kind, number = _kind_of(item), 0
    while (kind, item.id, number) in table.nodes:
        number += 1
    return kind, item.id, number


def built(table: Table, key: Key = ROOT) -> Node:
    """A part put together again from its fields and lists.

    Raises:
        ModelError: the fields don't go together, or a list is longer than it may be.
    """
    atoms = table.atoms[key]
    if WHOLE in atoms:
        whole: Node = atoms[WHOLE]
        return whole
    cls = type(table.nodes[key])
    lists = {
        field: tuple(built(table, inner) for inner in table.order.get((key, field), ()))
        for field in part_fields(cls)
    }
    given: dict[str, Any] = {**atoms, **lists}
    made: Node = cls(**given)
    return made
