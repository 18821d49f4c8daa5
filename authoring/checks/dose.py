"""Doses: whether there is one, and whether it fits the kind of work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import frozen

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, quoted
from authoring.checks.placed import Placed, card_name, placed, variant_name
from authoring.checks.result import Strength, Subject
from authoring.dosage.kit_loads import lacks_kit
from authoring.model.card import Card, Variant
from authoring.model.dose import (
    Distance,
    Dose,
    Duration,
    Either,
    Frequency,
    Holds,
    LeftOpen,
    Tempo,
    Work,
)
from authoring.model.load import Load
from authoring.model.protocol import Protocol
from authoring.model.sentence import say, say_n
from authoring.model.vocabulary import BlockKind, LimbUse, Mode

CARD, PROTOCOL = Subject.CARD, Subject.PROTOCOL
BOTH = (CARD, PROTOCOL)


@frozen
class Part:
    """One part of a dose: as written, in some weeks, or in one kind of session."""

    path: str
    work: Work | None
    loads: tuple[Load, ...]
    tempo: Tempo | None
    frequency: Frequency | None


def parts(dose: Dose, path: str) -> Iterator[Part]:
    """The dose itself, then each change by week and by kind of session."""
    yield Part(path, dose.work, dose.loads, dose.tempo, dose.frequency)
    changes = [(f"weeks[{i}]", row.change) for i, row in enumerate(dose.weeks)]
    changes += [(f"sessions[{i}]", kind.change) for i, kind in enumerate(dose.sessions)]
    for name, change in changes:
        yield Part(
            f"{path}.{name}.change",
            change.work,
            change.loads or (),
            change.tempo,
            change.frequency,
        )


def works(work: Work | None) -> Iterator[Work]:
    """The work, or each of the doses to choose from."""
    if isinstance(work, Either):
        for dose in work.doses:
            yield from works(dose.work)
    elif work is not None:
        yield work


@frozen
class Fitted:
    """A dose, a variant it is for, and how a sentence names the two.

    ``in_circuit`` says that it is a station of a circuit, which may be timed.
    """

    dose: Dose
    path: str
    variant: Variant
    name: str
    in_circuit: bool = False


def fitted(value: Card | Protocol, context: Context) -> Iterator[Fitted]:
    """Every dose of a file with each variant it is for; an entry's with its start first."""
    if isinstance(value, Card):
        for index, variant in enumerate(value.variants):
            if variant.dose is not None:
                name = say(
                    "{variant} of {card}",
                    variant=variant_name(value, variant),
                    card=card_name(value),
                )
                yield Fitted(variant.dose, f"variants[{index}].dose", variant, name)
        return
    for place in placed(value, context):
        if place.card is None or place.entry.dose is None:
            continue
        circuit = place.block.kind is BlockKind.CIRCUIT
        fits = place.entry.dose_fits or (place.entry.start,)
        for variant in place.pick(sorted(fits, key=lambda each: each != place.entry.start)):
            start = variant.id == place.entry.start
            name = (
                place.name
                if start
                else say(
                    "{exercise}, {variant},",
                    exercise=place.name,
                    variant=variant_name(place.card, variant),
                )
            )
            yield Fitted(place.entry.dose, place.dose_path, variant, name, circuit)


@check(
    "dose-missing",
    Strength.MUST,
    PROTOCOL,
    says="Neither an exercise nor its start variant has a dose.",
    why="CERT item 13: how much is to be done. A dose left open on purpose counts as one.",
)
def missing_doses(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        if place.start is not None and place.dose is None:
            yield Spot(
                place.dose_path,
                say("{name} has no dose, and neither has its start variant.", name=place.name),
                say("Give it a dose, or say who decides it."),
            )


def _without_dose(place: Placed) -> list[Variant]:
    fits = place.entry.dose_fits or (place.entry.start,)
    return [
        variant
        for variant in place.used
        if variant.dose is None
        and (place.entry.dose is None or variant.id not in fits)
        and variant.id != place.entry.start
    ]


@check(
    "dose-missing-for-variant",
    Strength.SHOULD,
    PROTOCOL,
    says="An exercise allows variants that its dose does not fit and that have none of their own.",
    why="“If it hurts” and “If it feels easy” print a dose of their own (CERT item 13).",
)
def missing_variant_doses(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        lacking = _without_dose(place)
        if place.card is not None and lacking:
            names = [variant_name(place.card, variant) for variant in lacking]
            yield Spot(
                f"{place.path}.dose_fits",
                say("{name} has no dose for {names}.", name=place.name, names=listed(names)),
                say("Name them among those the dose fits, or give them doses on the card."),
            )


@check(
    "dose-fits-not-allowed",
    Strength.SHOULD,
    PROTOCOL,
    says="A dose is said to fit a variant that the exercise does not allow.",
    why="The two lists contradict one another (logic of the data).",
)
def dose_fits_others(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        used = {variant.id for variant in place.used}
        for index, variant_id in enumerate(place.entry.dose_fits):
            if place.card and place.card.variant(variant_id) and variant_id not in used:
                yield Spot(
                    f"{place.path}.dose_fits[{index}]",
                    say(
                        "The dose of {name} fits {variant}, which is not allowed there.",
                        name=place.inside,
                        variant=quoted(variant_id),
                    ),
                    say("Allow the variant, or take it out of the list."),
                )


@check(
    "dose-load-without-kit",
    Strength.SHOULD,
    *BOTH,
    says="A dose has a band or a weight, and a variant that it fits lists none.",
    why="CERT item 1 asks for the kit, item 13 for the dose: the two must agree.",
)
def loads_without_kit(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    for each in fitted(value, context):
        for part in parts(each.dose, each.path):
            if any(lacks_kit(load, each.variant) for load in part.loads):
                yield Spot(
                    f"{part.path}.loads",
                    say(
                        "The dose of {name} has a load that needs kit it does not list.",
                        name=each.name,
                    ),
                    say("List the kit, or give this variant a dose of its own."),
                )
                break


def _once_each(spots: Iterable[Spot]) -> Iterator[Spot]:
    """One spot for each place: a dose is told once, however many variants it fits."""
    seen: set[str] = set()
    for spot in spots:
        if spot.path not in seen:
            yield spot
        seen.add(spot.path)


@check(
    "dose-isometric-with-tempo",
    Strength.SHOULD,
    *BOTH,
    says="The dose of an isometric or stretch variant has a tempo.",
    why="Nothing moves in a hold, so there is no speed to keep (CERT item 13).",
)
def holds_with_tempo(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    yield from _once_each(_holds_with_tempo(value, context))


def _holds_with_tempo(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    for each in fitted(value, context):
        if each.variant.mode not in (Mode.ISOMETRIC, Mode.STRETCH):
            continue
        for part in parts(each.dose, each.path):
            if part.tempo is not None:
                yield Spot(
                    f"{part.path}.tempo",
                    say("{name} is held still, and its dose has a tempo.", name=each.name),
                    say("Take the tempo out; say how long to hold."),
                )


@check(
    "dose-dynamic-without-repetitions",
    Strength.SHOULD,
    *BOTH,
    says="The dose of a dynamic variant counts holds or time, and no repetitions; "
    "timed stations of a circuit are let be.",
    why="CERT item 13: a movement against load is counted in repetitions or steps.",
)
def dynamic_without_reps(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    yield from _once_each(_dynamic_without_reps(value, context))


def _dynamic_without_reps(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    for each in fitted(value, context):
        found = list(works(each.dose.work))
        if each.in_circuit:
            continue
        if each.variant.mode is Mode.DYNAMIC and all(
            isinstance(work, Holds | Duration) for work in found
        ):
            yield Spot(
                f"{each.path}.work",
                say("{name} is a movement, and its dose has no repetitions.", name=each.name),
                say("Give sets and repetitions, or correct the variant's mode."),
            )


@check(
    "dose-hold-without-time",
    Strength.SHOULD,
    *BOTH,
    says="The dose of an isometric or stretch variant does not say how long to hold.",
    why="CERT item 13: a hold is dosed by its time.",
)
def holds_without_time(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    yield from _once_each(_holds_without_time(value, context))


def _holds_without_time(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    timed = Holds | Duration | LeftOpen
    for each in fitted(value, context):
        mode = each.variant.mode
        # Carrying a load over a distance is a hold, too.
        right = timed | Distance if mode is Mode.ISOMETRIC else timed
        if mode in (Mode.ISOMETRIC, Mode.STRETCH) and not all(
            isinstance(work, right) for work in works(each.dose.work)
        ):
            yield Spot(
                f"{each.path}.work",
                say(
                    "{name} is held still, and its dose does not say for how long.", name=each.name
                ),
                say("Give holds and their seconds, or correct the variant's mode."),
            )


@check(
    "sides-missing",
    Strength.SHOULD,
    PROTOCOL,
    says="The limbs of a variant have different roles, and nothing says which side works.",
    why="CERT item 8: the side belongs to the description.",
)
def missing_sides(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        limbs = place.start.limbs if place.start is not None else None
        dose = place.dose
        told = place.entry.sides is not None or (dose is not None and dose.sides is not None)
        if limbs is not None and not told and LimbUse.WORKING in (limbs.lifting, limbs.lowering):
            yield Spot(
                f"{place.path}.sides",
                say("{name} works one side at a time, and nothing says which.", name=place.name),
                say("Say each side, the affected side, or one after the other."),
            )


@check(
    "kit-size-without-unit",
    Strength.SHOULD,
    CARD,
    says="Kit has a size and no unit.",
    why="CERT item 1: equipment in enough detail to obtain it.",
)
def sizes_without_unit(card: Card, _: Context) -> Iterator[Spot]:
    lacking = [
        (f"variants[{v}].equipment[{k}].unit", need.kit)
        for v, variant in enumerate(card.variants)
        for k, need in enumerate(variant.equipment)
        if need.size is not None and not need.unit.strip()
    ]
    if lacking:
        yield Spot(
            lacking[0][0],
            say_n(
                "{card} needs kit with a size and no unit in {n} place: {names}.",
                "{card} needs kit with a size and no unit in {n} places: {names}.",
                len(lacking),
                card=card_name(card),
                names=listed([quoted(kit) for _, kit in lacking]),
            ),
            say("Add the unit, such as cm or kg."),
        )
