"""Three-way merge of one document, by the identity of its parts.

Each field, each part's place and each list's order is merged by itself: the side that left
it as it was gives way. Where both changed the same thing, each another way, a
:class:`Conflict` lists it, and :func:`choose` settles it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Generic, TypeVar, cast

import attrs
from immutabledict import immutabledict

from authoring.exchange.conflict import Conflict, ConflictKind, Name, Side
from authoring.exchange.table import ROOT, WHOLE, Key, Slot, Table, built, part_fields, table_of
from authoring.exchange.values import ClashError, merged_order, merged_value
from authoring.model.base import ModelError, Node
from authoring.model.sentence import Sentence, say

_D = TypeVar("_D", bound=Node)
_ABSENT = object()


@attrs.frozen
class Merged(Generic[_D]):
    """What a merge came to.

    Attributes:
        value: the document with both sides' changes, in each open conflict as ``mine`` has it;
            None where it can't be built, and ``fault`` says why.
        conflicts: all that both sides changed, each another way, settled ones included.
        choices: the side chosen for those that are settled.
    """

    base: _D
    mine: _D
    theirs: _D
    value: _D | None
    conflicts: tuple[Conflict, ...] = ()
    choices: Mapping[Name, Side] = immutabledict()
    fault: Sentence | None = None

    @property
    def open(self) -> tuple[Conflict, ...]:
        """The conflicts that nobody has settled."""
        return tuple(each for each in self.conflicts if each.name not in self.choices)


def merge(
    base: _D, mine: _D, theirs: _D, choices: Mapping[Name, Side] = immutabledict()
) -> Merged[_D]:
    """Both sides' changes to one document.

    Args:
        base: the version both started from.
        choices: sides chosen for conflicts of an earlier merge of the same three.

    Raises:
        ModelError: they are not three versions of one document.
    """
    if (
        not type(base) is type(mine) is type(theirs)
        or len({getattr(each, "id", "") for each in (base, mine, theirs)}) > 1
    ):
        raise ModelError(
            "id", say("These are not three versions of one document: their ids or kinds differ.")
        )
    work = _Merging(base, mine, theirs, choices)
    value, fault = work.result()
    return Merged(
        base, mine, theirs, cast(Any, value), tuple(work.conflicts.values()), choices, fault
    )


def choose(merged: Merged[_D], conflict: Conflict, side: Side) -> Merged[_D]:
    """The merge with one conflict settled; others that this brings up are listed too."""
    choices = immutabledict({**merged.choices, conflict.name: side})
    return merge(merged.base, merged.mine, merged.theirs, choices)


def prefer(merged: Merged[_D], side: Side) -> Merged[_D]:
    """The merge with every open conflict settled for one side."""
    while merged.open:
        more = {each.name: side for each in merged.open}
        choices = immutabledict({**merged.choices, **more})
        merged = merge(merged.base, merged.mine, merged.theirs, choices)
    return merged


class _Merging:
    """One merge at work: the three tables, what survives, and the conflicts met."""

    def __init__(self, base: Node, mine: Node, theirs: Node, choices: Mapping[Name, Side]) -> None:
        self.base, self.mine, self.theirs = map(table_of, (base, mine, theirs))
        self.choices = choices
        self.conflicts: dict[Name, Conflict] = {}
        self.dead: set[Key] = set()

    def result(self) -> tuple[Node | None, Sentence | None]:
        """The merged document, or why there is none."""
        self._bury(self.mine, self.theirs, Side.MINE)
        self._bury(self.theirs, self.mine, Side.THEIRS)
        alive = {*self.mine.nodes, *self.theirs.nodes} - self.dead
        places = self._places(alive)
        alive = {key for key in alive if key == ROOT or key in places}
        nodes = {key: self.mine.nodes.get(key) or self.theirs.nodes[key] for key in alive}
        atoms = {key: self._atoms(key, nodes[key]) for key in sorted(alive)}
        table = Table(nodes, atoms, places, self._orders(nodes, places))
        try:
            return built(table), None
        except ModelError as error:
            return None, error.sentence

    def _side(self, conflict: Conflict) -> Side:
        self.conflicts[conflict.name] = conflict
        return self.choices.get(conflict.name, Side.MINE)

    def _bury(self, keeper: Table, other: Table, side: Side) -> None:
        """Settle what the other side deleted, from the top of the keeper's document down."""
        decided: set[Key] = set()
        for key in keeper.below(ROOT):
            if key in decided or key not in self.base.nodes or key in other.nodes:
                continue
            inside = [k for k in keeper.below(key) if k not in other.nodes]
            if self._untouched(key, keeper):
                self.dead.add(key)
                continue
            decided.update(inside)
            sides = (keeper.nodes[key], None)
            mine, theirs = sides if side is Side.MINE else sides[::-1]
            found = Conflict(ConflictKind.DELETED, key, "", mine, theirs)
            if self._side(found) is not side:
                self.dead.update(inside)

    def _untouched(self, key: Key, keeper: Table) -> bool:
        return (
            keeper.nodes[key] == self.base.nodes[key]
            and keeper.places[key] == self.base.places[key]
        )

    def _places(self, alive: set[Key]) -> dict[Key, Slot]:
        """Where each part stands: where it was moved, unless nothing is left there."""
        wanted: dict[Key, list[Slot]] = {}
        for key in sorted(alive - {ROOT}):
            sides = [table.places.get(key) for table in (self.mine, self.theirs, self.base)]
            first = self._place(key)
            wanted[key] = [first, *(place for place in sides if place is not None)]
        places: dict[Key, Slot] = {}
        while True:
            places = {
                key: slot
                for key, slots in wanted.items()
                if (slot := next((s for s in slots if s[0] in alive), None)) is not None
            }
            if len(places) == len(wanted):
                return places
            wanted = {key: wanted[key] for key in places}
            alive = {ROOT, *places}

    def _place(self, key: Key) -> Slot:
        base, mine, theirs = (t.places.get(key) for t in (self.base, self.mine, self.theirs))
        if mine is None or theirs is None:
            return cast(Slot, mine or theirs)
        if theirs in (mine, base):
            return mine
        if mine == base:
            return theirs
        found = Conflict(ConflictKind.PLACE, key, "", mine, theirs)
        return mine if self._side(found) is Side.MINE else theirs

    def _atoms(self, key: Key, node: Node) -> dict[str, Any]:
        """The merged fields of a part; of one side where those don't go together."""
        mine, theirs = self.mine.atoms.get(key), self.theirs.atoms.get(key)
        if mine is None or theirs is None:
            return cast(dict[str, Any], mine or theirs)
        base = self.base.atoms.get(key, {})
        made, found = {}, []
        for name in mine:
            three = base.get(name, _ABSENT), mine[name], theirs.get(name, _ABSENT)
            try:
                made[name] = merged_value(*three)
            except ClashError:
                found.append(Conflict(ConflictKind.FIELD, key, name, *three[1:]))
        if mine.keys() != theirs.keys():
            found = [Conflict(ConflictKind.TOGETHER, key, "", mine, theirs)]
            return mine if self._side(found[0]) is Side.MINE else theirs
        for each in found:
            made[each.field] = each.mine if self._side(each) is Side.MINE else each.theirs
        if WHOLE in made or _goes_together(type(node), made):
            return made
        whole = Conflict(ConflictKind.TOGETHER, key, "", mine, theirs)
        return mine if self._side(whole) is Side.MINE else theirs

    def _orders(
        self, nodes: Mapping[Key, Node], places: Mapping[Key, Slot]
    ) -> dict[Slot, tuple[Key, ...]]:
        held: dict[Slot, set[Key]] = {
            (key, field): set() for key, node in nodes.items() for field in part_fields(type(node))
        }
        for key, slot in places.items():
            held[slot].add(key)
        return {slot: self._order(slot, kept) for slot, kept in sorted(held.items())}

    def _order(self, slot: Slot, kept: set[Key]) -> tuple[Key, ...]:
        base, mine, theirs = (t.order.get(slot, ()) for t in (self.base, self.mine, self.theirs))
        try:
            made = merged_order(base, mine, theirs, kept)
        except ClashError:
            found = Conflict(ConflictKind.ORDER, *slot, mine, theirs)
            side = mine if self._side(found) is Side.MINE else theirs
            made = merged_order(base, mine, theirs, kept, side)
        # A part that came back where neither side has it now goes to the end.
        return (*made, *sorted(kept - set(made)))


def _goes_together(cls: type[Node], atoms: Mapping[str, Any]) -> bool:
    try:
        cls(**atoms)
    except ModelError as error:
        # A list of parts left out here may be one that must not be empty.
        return error.field in part_fields(cls)
    return True
