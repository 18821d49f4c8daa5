"""References that held in both versions and lead nowhere once the two are one."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.exchange.table import ROOT, Key, Table, table_of
from authoring.model.base import Node, fact_of, fields
from authoring.model.card import Card
from authoring.model.sentence import Sentence, say

_IN_FILE = {"entry": "Entry", "stage": "Stage", "choice": "Choice", "reference": "Reference"}


def loose_ends(merged: Node, *versions: Node) -> tuple[Sentence, ...]:
    """What the merged document points to and does not hold, though no version lacks it.

    One person removes an exercise while the other builds a new one on it: each change is
    sound by itself, and both together are not.
    """
    before = {end for version in versions for end in _ends(version)}
    return tuple(
        say(
            "{part} names {kind} {target}, which is gone.",
            part=part[1] or say("the document"),
            kind=kind,
            target=target,
        )
        for part, kind, target in dict.fromkeys(_ends(merged))
        if (part, kind, target) not in before
    )


def _ends(document: Node) -> Iterator[tuple[Key, str, str]]:
    table = table_of(document)
    known = dict(_IN_FILE)
    if isinstance(document, Card):
        known["variant"] = "Variant"
    for key, kind, target in _pointers(table):
        if kind in known and (known[kind], target, 0) not in table.nodes:
            yield key, kind, target


def _pointers(table: Table) -> Iterator[tuple[Key, str, str]]:
    for key, atoms in table.atoms.items():
        node = table.nodes.get(key, table.nodes[ROOT])
        facts = {field.name: field for field in fields(type(node))}
        for name, value in atoms.items():
            if name in facts and name != "extra":
                yield from ((key, *end) for end in _of(fact_of(facts[name]).points_to, value))
            elif isinstance(value, Node):
                yield from ((key, *end) for end in _inside(value))


def _of(kind: str, value: object) -> Iterator[tuple[str, str]]:
    if kind and isinstance(value, str):
        yield kind, value
    elif isinstance(value, tuple):
        for item in value:
            yield from _of(kind, item)
    elif isinstance(value, Node):
        yield from _inside(value)


def _inside(node: Node) -> Iterator[tuple[str, str]]:
    for field in fields(type(node)):
        if field.name != "extra":
            yield from _of(fact_of(field).points_to, getattr(node, field.name))
