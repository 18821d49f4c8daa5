"""Doses that differ from set to set: what is said of one set agrees with the rest."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.result import Strength, Subject
from authoring.model.base import Node
from authoring.model.dose import Repetitions
from authoring.model.load import UnitLoad, WeightLoad
from authoring.model.sentence import say
from authoring.model.vocabulary import Until

CARD, PROTOCOL = Subject.CARD, Subject.PROTOCOL


@check(
    "load-first-set-differs",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="A load that is listed by set starts with another amount than it has.",
    why="The amount is that of the first set; only the list prints (contract of the files).",
)
def first_sets(value: Node, context: Context) -> Iterator[Spot]:
    found = context.walk(value)
    loads: list[tuple[str, WeightLoad | UnitLoad]] = [
        *found.nodes(WeightLoad),
        *found.nodes(UnitLoad),
    ]
    for path, load in loads:
        if load.per_set and load.per_set[0] != load.amount:
            yield Spot(
                f"{path}.per_set",
                say(
                    "A load starts with {low:g} in its list of sets, and its amount is {amount:g}.",
                    low=load.per_set[0].low,
                    amount=load.amount.low,
                ),
                say("Make the amount that of the first set."),
            )


@check(
    "dose-last-set-same",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="The last set is said to end by a number, or as the others do.",
    why="Such a last set is no different, and the sheet says nothing of it (logic of the data).",
)
def same_last_sets(value: Node, context: Context) -> Iterator[Spot]:
    for path, work in context.walk(value).nodes(Repetitions):
        if work.last_set_until in (Until.COUNT, work.until):
            yield Spot(
                f"{path}.last_set_until",
                say("The last set of a dose ends as the others do."),
                say("Say what ends the last set, such as good form, or take it out."),
            )
