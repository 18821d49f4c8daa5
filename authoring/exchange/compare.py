"""What changed between two versions of a document, part by part, and how to make it so.

A part is known by its id, so one that was moved or renamed is the same part. All that
differs is listed; :func:`applied` turns the old version into the new one with nothing but
that list.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from typing import Any, TypeVar, cast

import attrs

from authoring.exchange.table import ROOT, Key, Slot, Table, built, table_of
from authoring.model.base import ModelError, Node
from authoring.model.sentence import say

_D = TypeVar("_D", bound=Node)


class Change(StrEnum):
    """Ways in which versions differ."""

    ADDED = "added"
    REMOVED = "removed"
    MOVED = "moved"
    CHANGED = "changed"
    ORDER = "order"


@attrs.frozen
class Difference:
    """One change.

    Attributes:
        key: the part.
        field: the field that changed, or the list whose order did; else "".
        old, new: field: its values; moved: slots; order: keys; added and removed: the part.
        told: whether it says something that no other difference says; an order that follows
            from parts put in, taken out or moved does not.
    """

    change: Change
    key: Key
    field: str = ""
    old: Any = attrs.field(default=None, repr=False)
    new: Any = attrs.field(default=None, repr=False)
    told: bool = True


def compare(old: Node, new: Node) -> tuple[Difference, ...]:
    """All that differs, in the order of the new version; what was removed comes last.

    Raises:
        ModelError: they are documents of two kinds.
    """
    if type(old) is not type(new):
        raise ModelError(
            "", say("Two files of one kind can be compared, and these are of two kinds.")
        )
    before, after = table_of(old), table_of(new)
    found: list[Difference] = []
    for key, node in after.nodes.items():
        if key not in before.nodes:
            top = key == ROOT or after.places[key][0] in before.nodes
            found.append(Difference(Change.ADDED, key, "", None, node, told=top))
            continue
        found += _part(key, before, after)
    for key, node in before.nodes.items():
        if key not in after.nodes:
            top = before.places[key][0] in after.nodes
            found.append(Difference(Change.REMOVED, key, "", node, None, told=top))
    return (*found, *_orders(before, after))


def _part(key: Key, before: Table, after: Table) -> Iterable[Difference]:
    if before.places.get(key) != after.places.get(key):
        yield Difference(Change.MOVED, key, "", before.places.get(key), after.places.get(key))
    if type(before.nodes[key]) is not type(after.nodes[key]) or len(after.atoms[key]) == 1:
        if before.nodes[key] != after.nodes[key]:
            yield Difference(Change.CHANGED, key, "*", before.nodes[key], after.nodes[key])
        return
    for field, value in after.atoms[key].items():
        was = before.atoms[key][field]
        if was != value:
            yield Difference(Change.CHANGED, key, field, was, value)


def _orders(before: Table, after: Table) -> Iterable[Difference]:
    for slot in sorted({*before.order, *after.order}):
        was, now = before.order.get(slot, ()), after.order.get(slot, ())
        if was == now:
            continue
        both = set(was) & set(now)
        turned = [k for k in was if k in both] != [k for k in now if k in both]
        yield Difference(Change.ORDER, *slot, was, now, told=turned)


def applied(old: _D, differences: Iterable[Difference]) -> _D:
    """The old version with the differences made.

    Raises:
        ModelError: the differences are of another document.
    """
    table = table_of(old)
    nodes, atoms = dict(table.nodes), {key: dict(value) for key, value in table.atoms.items()}
    order: dict[Slot, tuple[Key, ...]] = dict(table.order)
    for each in differences:
        match each.change:
            case Change.ADDED:
                nodes[each.key] = each.new
                atoms[each.key] = dict(table_of(each.new).atoms[ROOT])
            case Change.CHANGED:
                if each.key not in nodes:
                    raise ModelError("", say("These differences are of another document."))
                if each.field == "*":
                    nodes[each.key] = each.new
                atoms[each.key][each.field] = each.new
            case Change.ORDER:
                order[each.key, each.field] = each.new
    return cast(_D, built(Table(nodes, atoms, table.places, order)))
