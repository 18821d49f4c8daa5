"""Figures in doses and rules that published advice gives limits for."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.dose import Part, fitted, parts, works
from authoring.checks.normal_angles import highest_plausible
from authoring.checks.placed import Placed, placed
from authoring.checks.result import Strength, Subject
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.dose import AngleLimit, Dose, Frequency, Holds
from authoring.model.load import EffortLoad, PercentLoad, RepMaxLoad, ReserveLoad
from authoring.model.protocol import Progression, Protocol
from authoring.model.sentence import say, say_n
from authoring.model.vocabulary import Mode, Quantity

CARD, PROTOCOL = Subject.CARD, Subject.PROTOCOL

STEP_MOST, STEP_LEAST = 10, 2
"""Percent of the load (Ratamess NA et al. Med Sci Sports Exerc 2009;41:687-708)."""
RESERVE_MOST = 5
"""Repetitions left that people judge to about one (Hackett DA et al. 2017)."""
MAXIMUM_FROM_MOST = 10
"""Repetitions beyond which a maximum is not to be estimated (Reynolds JM et al. 2006)."""
STRETCH_S = (10, 60)
STRETCH_TOTAL_S = 60
"""Seconds of one hold and of all together (Garber CE et al. 2011, table 2)."""
HEAVY_DAYS = (2, 5)
"""Days a week of heavy work, novice to advanced (Ratamess NA et al. 2009)."""
HEAVY_PERCENT, HEAVY_EFFORT = 60, 7
"""From which share of the maximum, or effort, work counts as heavy (60 % as for a novice's
strength; Ratamess NA et al. 2009, value from memory. Effort: common practice, no source)."""


@check(
    "load-step-large",
    Strength.SHOULD,
    PROTOCOL,
    says="A load grows by more than 10 percent at a time.",
    why="Steps of 2 to 10 percent are advised (Ratamess NA et al. Med Sci Sports Exerc "
    "2009;41:687-708, American College of Sports Medicine).",
)
def large_steps(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for path, rule in context.walk(protocol).nodes(Progression):
        most = rule.step_percent if rule.step_percent_high is None else rule.step_percent_high
        name = "step_percent" if rule.step_percent_high is None else "step_percent_high"
        if most is not None and most > STEP_MOST:
            yield Spot(
                f"{path}.{name}",
                say(
                    "The load grows by {most:g} percent at a time; {least} to {advised} percent "
                    "is advised.",
                    most=most,
                    least=STEP_LEAST,
                    advised=STEP_MOST,
                ),
                say("Take a smaller step, or note the source for this one."),
            )


@check(
    "load-step-small",
    Strength.MAY,
    PROTOCOL,
    says="A load grows by less than 2 percent at a time.",
    why="Steps of 2 to 10 percent are advised (Ratamess NA et al. Med Sci Sports Exerc "
    "2009;41:687-708, American College of Sports Medicine).",
)
def small_steps(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for path, rule in context.walk(protocol).nodes(Progression):
        if rule.step_percent is not None and rule.step_percent < STEP_LEAST:
            yield Spot(
                f"{path}.step_percent",
                say(
                    "The load grows by only {step:g} percent at a time.",
                    step=rule.step_percent,
                ),
                say("Take a step that a person can feel and the kit allows."),
            )


@check(
    "effort-reserve-high",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="A dose leaves more than 5 repetitions in reserve.",
    why="People misjudge more than 5 repetitions left by two and more (Hackett DA et al. "
    "J Strength Cond Res 2017;31:2162-2168).",
)
def high_reserve(value: Node, context: Context) -> Iterator[Spot]:
    for path, load in context.walk(value).nodes(ReserveLoad):
        if load.reps.top > RESERVE_MOST:
            yield Spot(
                f"{path}.reps",
                say(
                    "A dose asks to stop with {top} repetitions in reserve, which people can't "
                    "judge.",
                    top=load.reps.top,
                ),
                say("Ask for 5 or fewer, or give an effort from 0 to 10."),
            )


@check(
    "load-from-many-repetitions",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="A load is a share of a maximum that is found with more than 10 repetitions.",
    why="Equations for the one-repetition maximum hold up to about 10 repetitions (Reynolds JM "
    "et al. J Strength Cond Res 2006;20:584-592).",
)
def far_maximum(value: Node, context: Context) -> Iterator[Spot]:
    for path, load in context.walk(value).nodes(PercentLoad):
        reps = load.of.reps or 0
        if load.of.quantity in (Quantity.ONE_RM, Quantity.N_RM) and reps > MAXIMUM_FROM_MOST:
            yield Spot(
                f"{path}.of.reps",
                say("A load is a share of a maximum found with {reps} repetitions.", reps=reps),
                say("Test with 10 repetitions or fewer, or dose by effort."),
            )


def _stretches(value: Card | Protocol, context: Context) -> Iterator[tuple[str, str, Holds]]:
    for each in fitted(value, context):
        if each.variant.mode is Mode.STRETCH:
            for part in parts(each.dose, each.path):
                for work in works(part.work):
                    if isinstance(work, Holds) and work.hold_s:
                        yield f"{part.path}.work", each.name, work


@check(
    "stretch-hold-length",
    Strength.MAY,
    CARD,
    PROTOCOL,
    says="A stretch is held for less than 10 or more than 60 seconds.",
    why="Holds of 10 to 30 seconds, in older people 30 to 60, are advised (Garber CE et al. "
    "Med Sci Sports Exerc 2011;43:1334-1359, table 2).",
)
def odd_stretches(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    least, most = STRETCH_S
    for path, name, work in _stretches(value, context):
        shortest = min(hold.low for hold in work.hold_s)
        longest = max(hold.top for hold in work.hold_s)
        if shortest < least or longest > most:
            seconds = shortest if shortest < least else longest
            yield Spot(
                f"{path}.hold_s",
                say(
                    "{name} is stretched for {seconds} seconds at a time; {least} to {most} "
                    "seconds is advised.",
                    name=name,
                    seconds=seconds,
                    least=least,
                    most=most,
                ),
                say("Change the hold, or note the source for it."),
            )


@check(
    "stretch-total-short",
    Strength.MAY,
    CARD,
    PROTOCOL,
    says="All holds of a stretch together last less than 60 seconds.",
    why="60 seconds in all are advised for each stretch (Garber CE et al. Med Sci Sports Exerc "
    "2011;43:1334-1359, table 2).",
)
def short_stretches(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    for path, name, work in _stretches(value, context):
        tops = [hold.top for hold in work.hold_s]
        one_set = sum(tops) if len(tops) > 1 else work.holds.top * tops[0]
        by_set = sum(holds.top for holds in work.holds_by_set)
        total = by_set * tops[0] if by_set else work.sets.top * one_set
        if total < STRETCH_TOTAL_S:
            yield Spot(
                path,
                say(
                    "{name} is stretched for {total} seconds in all; {least} seconds is advised.",
                    name=name,
                    total=total,
                    least=STRETCH_TOTAL_S,
                ),
                say("Add holds, or note the source for this dose."),
            )


def _is_heavy(part: Part) -> bool:
    for load in part.loads:
        match load:
            case RepMaxLoad():
                return True
            case PercentLoad(of=of, per_set=shares) if of.quantity is Quantity.ONE_RM:
                if max(share.top for share in shares) >= HEAVY_PERCENT:
                    return True
            case EffortLoad(rating=rating) if rating.low >= HEAVY_EFFORT:
                return True
    return False


def _days(frequency: Frequency | None) -> tuple[float, float] | None:
    if frequency is None:
        return None
    if frequency.days_per_week is not None:
        return frequency.days_per_week.low, frequency.days_per_week.top
    if frequency.every_days is not None:
        return 7 / frequency.every_days, 7 / frequency.every_days
    return None


def _heavy_parts(place: Placed, dose: Dose) -> Iterator[tuple[Part, tuple[float, float]]]:
    general = dose.frequency or place.stage.frequency
    path = place.dose_path if place.entry.dose is not None else place.path
    for part in parts(dose, path):
        days = _days(part.frequency or general)
        if days is not None and _is_heavy(part):
            yield part, days


@check(
    "heavy-work-frequency",
    Strength.MAY,
    PROTOCOL,
    says="Heavy work against resistance is done on fewer than 2 or more than 5 days a week.",
    why="2 to 5 days a week, from novice to advanced (Ratamess NA et al. Med Sci Sports Exerc "
    "2009;41:687-708, American College of Sports Medicine).",
)
def odd_frequency(protocol: Protocol, context: Context) -> Iterator[Spot]:
    least, most = HEAVY_DAYS
    for place in placed(protocol, context):
        if place.dose is None or (place.start and place.start.mode is not Mode.DYNAMIC):
            continue
        for part, (low, high) in _heavy_parts(place, place.dose):
            if high < least or low > most:
                yield Spot(
                    part.path,
                    say_n(
                        "{name} is heavy work on {n} day a week; {least} to {most} days is "
                        "advised.",
                        "{name} is heavy work on {n} days a week; {least} to {most} days is "
                        "advised.",
                        round(high),
                        name=place.name,
                        least=least,
                        most=most,
                    ),
                    say("Change how often it is done, or note the source for it."),
                )


@check(
    "angle-beyond-normal",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="An angle is more than 15 percent beyond the normal range of the joint.",
    why="It is likely a typing error (normal ranges: American Academy of Orthopaedic Surgeons "
    "1965, hip, knee, ankle and spine from memory; the 15 percent is a design choice).",
)
def odd_angles(value: Node, context: Context) -> Iterator[Spot]:
    for path, limit in context.walk(value).nodes(AngleLimit):
        most = highest_plausible(limit.joint, limit.motion)
        angle = max(limit.from_deg, limit.to_deg)
        if most is not None and angle > most:
            yield Spot(
                path,
                say(
                    "{angle:g} degrees of {joint} {motion} is beyond the normal range of movement.",
                    angle=angle,
                    joint=limit.joint,
                    motion=limit.motion,
                ),
                say("Check the angle for a typing error."),
            )
