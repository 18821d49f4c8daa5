"""A card's ladder: easier and harder ways, and holds that replace movement."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, quoted
from authoring.checks.placed import Placed, card_name, placed, variant_name
from authoring.checks.result import Strength, Subject
from authoring.model.card import Card, Variant
from authoring.model.protocol import Protocol
from authoring.model.sentence import say, say_n
from authoring.model.vocabulary import Mode

CARD, PROTOCOL = Subject.CARD, Subject.PROTOCOL
PRACTICE = "Common practice, no source."


@check(
    "ladder-empty",
    Strength.MUST,
    CARD,
    says="A card has no variant, so there is nothing to do.",
    why="CERT item 8: an exercise is described so that it can be repeated.",
)
def empty_ladder(card: Card, _: Context) -> Iterator[Spot]:
    if not card.variants:
        yield Spot(
            "variants",
            say("{card} has no variant.", card=card_name(card)),
            say("Write the first variant."),
        )


@check(
    "ladder-no-regression",
    Strength.SHOULD,
    CARD,
    says="A ladder has no easier way than the exercise as named (no rung below 0).",
    why="A patient in pain needs a way down. " + PRACTICE,
)
def no_regression(card: Card, _: Context) -> Iterator[Spot]:
    if card.variants and min(variant.rung for variant in card.variants) >= 0:
        yield Spot(
            "variants",
            say(
                "{card} has no regression: nothing is easier than the exercise as named.",
                card=card_name(card),
            ),
            say("Add a variant on rung -1, such as one with support, less range or less load."),
        )


@check(
    "ladder-no-progression",
    Strength.MAY,
    CARD,
    says="A ladder has no harder way than the exercise as named (no rung above 0).",
    why="CERT item 7b: how the exercise was progressed.",
)
def no_progression(card: Card, _: Context) -> Iterator[Spot]:
    if card.variants and max(variant.rung for variant in card.variants) <= 0:
        yield Spot(
            "variants",
            say(
                "{card} has no progression: nothing is harder than the exercise as named.",
                card=card_name(card),
            ),
            say("Add a variant on rung 1, or let it grow by its dose alone."),
        )


@check(
    "ladder-no-rung-zero",
    Strength.SHOULD,
    CARD,
    says="No variant stands on rung 0, the exercise as named.",
    why="Rungs are counted from the exercise as named (contract of the files).",
)
def no_rung_zero(card: Card, _: Context) -> Iterator[Spot]:
    if card.variants and all(variant.rung != 0 for variant in card.variants):
        yield Spot(
            "variants",
            say("{card} has no variant on rung 0.", card=card_name(card)),
            say("Put the exercise as its title names it on rung 0."),
        )


@check(
    "hold-stands-in-for-nothing",
    Strength.SHOULD,
    CARD,
    says="Where the exercise as named moves, an isometric variant does not say which variant it "
    "stands in for.",
    why="Only then can it be offered in place of movement that hurts. " + PRACTICE,
)
def idle_holds(card: Card, _: Context) -> Iterator[Spot]:
    as_named = [variant for variant in card.variants if variant.rung == 0] or card.variants
    if all(variant.mode is Mode.ISOMETRIC for variant in as_named):
        return  # the exercise is itself a hold
    for index, variant in enumerate(card.variants):
        if variant.mode is not Mode.ISOMETRIC:
            continue
        wanted = variant.hold.stands_in_for if variant.hold else ()
        if not wanted or variant.id in wanted:
            for_what = say("itself") if wanted else say("nothing")
            yield Spot(
                f"variants[{index}].hold",
                say(
                    "The hold {variant} of {card} stands in for {for_what}.",
                    variant=variant_name(card, variant),
                    card=card_name(card),
                    for_what=for_what,
                ),
                say("Name the variant that it may replace when movement hurts."),
            )


@check(
    "hold-on-moving-variant",
    Strength.SHOULD,
    CARD,
    says="A variant that is not isometric carries the details of a hold.",
    why="It would be offered as a hold and is none (logic of the data).",
)
def moving_holds(card: Card, _: Context) -> Iterator[Spot]:
    for index, variant in enumerate(card.variants):
        if variant.hold is not None and variant.mode is not Mode.ISOMETRIC:
            yield Spot(
                f"variants[{index}].hold",
                say(
                    "{variant} of {card} has a hold, and its mode is {mode}.",
                    variant=variant_name(card, variant),
                    card=card_name(card),
                    mode=variant.mode,
                ),
                say("Set the mode to isometric, or take the hold out."),
            )


@check(
    "variant-no-in-short",
    Strength.MAY,
    CARD,
    says="Easier, harder or isometric variants have no one-sentence change from their neighbour.",
    why="“If it hurts” and “If it feels easy” print that sentence.",
)
def not_in_short(card: Card, _: Context) -> Iterator[Spot]:
    lacking = [
        (index, variant)
        for index, variant in enumerate(card.variants)
        if not variant.in_short and (variant.rung != 0 or variant.mode is Mode.ISOMETRIC)
    ]
    if lacking:
        names = [variant_name(card, variant) for _, variant in lacking]
        yield Spot(
            f"variants[{lacking[0][0]}].in_short",
            say_n(
                "{n} variant of {card} can't be put in one sentence: {names}.",
                "{n} variants of {card} can't be put in one sentence: {names}.",
                len(lacking),
                card=card_name(card),
                names=listed(names),
            ),
            say("Say in one sentence what changes, such as “Do it with both hands on a chair”."),
        )


def _way_down(place: Placed, start: Variant) -> bool:
    return bool(place.entry.may_hold) or any(variant.rung < start.rung for variant in place.allowed)


@check(
    "entry-no-way-down",
    Strength.SHOULD,
    PROTOCOL,
    says="In the first half of the stages an exercise that moves allows no hold and no easier "
    "variant.",
    why="Early on pain is likely, and the sheet must say what to do instead. " + PRACTICE,
)
def no_way_down(protocol: Protocol, context: Context) -> Iterator[Spot]:
    early = (len(protocol.stages) + 1) // 2
    for place in placed(protocol, context):
        start = place.start
        if (
            place.stage_index >= early
            or start is None
            or start.mode in (Mode.BREATHING, Mode.ISOMETRIC)
        ):
            continue
        if not _way_down(place, start):
            yield Spot(
                f"{place.path}.may_hold",
                say(
                    "{name} allows no hold and no variant easier than {start}.",
                    name=place.name,
                    start=variant_name(place.card, start) if place.card else quoted(start.id),
                ),
                say("Allow an easier variant or a hold; add one to the card where it has none."),
            )


@check(
    "may-hold-not-isometric",
    Strength.SHOULD,
    PROTOCOL,
    says="A variant that may replace movement is not isometric.",
    why="“Hold still” would print above a movement (logic of the data).",
)
def moving_may_hold(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        for index, variant_id in enumerate(place.entry.may_hold):
            variant = place.card.variant(variant_id) if place.card else None
            if place.card and variant and variant.mode is not Mode.ISOMETRIC:
                yield Spot(
                    f"{place.path}.may_hold[{index}]",
                    say(
                        "{name} offers {variant} as a hold, and its mode is {mode}.",
                        name=place.name,
                        variant=variant_name(place.card, variant),
                        mode=variant.mode,
                    ),
                    say("Name an isometric variant, or allow this one as a variant."),
                )


@check(
    "start-not-allowed",
    Strength.SHOULD,
    PROTOCOL,
    says="The start variant is not among the variants allowed.",
    why="The two lists contradict one another (logic of the data).",
)
def start_not_allowed(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        entry = place.entry
        if entry.allowed and entry.start not in (*entry.allowed, *entry.may_hold):
            yield Spot(
                f"{place.path}.allowed",
                say(
                    "{name} starts with {start}, which it does not allow.",
                    name=place.name,
                    start=quoted(entry.start),
                ),
                say("Add the start to the variants allowed, or start with another."),
            )
