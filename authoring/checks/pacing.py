"""Pauses and caps of a stage: each said once, and no exercise above its cap."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.dose import works
from authoring.checks.placed import placed, stage_name
from authoring.checks.result import Strength, Subject
from authoring.model.dose import Distance, Duration, Repetitions, Work
from authoring.model.protocol import Protocol
from authoring.model.sentence import say
from authoring.model.vocabulary import CapOf

PROTOCOL = Subject.PROTOCOL


@check(
    "pause-days-twice",
    Strength.MUST,
    PROTOCOL,
    says="A stage has two rules for a break of the same length.",
    why="Nobody could follow both (logic of the data).",
)
def twice_pauses(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, stage in enumerate(protocol.stages):
        seen: set[int] = set()
        for place, rule in enumerate(stage.pauses):
            if rule.after_days in seen:
                yield Spot(
                    f"stages[{index}].pauses[{place}].after_days",
                    say(
                        "{stage} has two rules for a break of {after_days} days.",
                        stage=stage_name(protocol, index),
                        after_days=rule.after_days,
                    ),
                    say("Change the days of one, or take it out."),
                )
            seen.add(rule.after_days)


def least_of(work: Work, what: CapOf) -> float:
    """The least that one session of a work asks for, as a cap counts it; 0 where it has none."""
    match work:
        case Repetitions(reps=reps, sets=sets) if reps and work.counting.value == what.value:
            lows = [each.low for each in reps]
            return sum(lows) if len(lows) > 1 else sets.low * lows[0]
        case Duration(bouts=bouts, seconds=seconds) if what is CapOf.MINUTES:
            return bouts.low * seconds.low / 60
        case Distance(bouts=bouts, metres=metres) if what is CapOf.METRES:
            return bouts.low * metres.low
    return 0


@check(
    "cap-below-dose",
    Strength.SHOULD,
    PROTOCOL,
    says="One exercise alone asks for more in a session than its stage allows at most.",
    why="The sheet would ask for it and forbid it (logic of the data).",
)
def broken_caps(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        if place.dose is None:
            continue
        for cap in place.stage.caps:
            least = min((least_of(work, cap.of) for work in works(place.dose.work)), default=0)
            if least > cap.most:
                yield Spot(
                    place.dose_path if place.entry.dose is not None else place.path,
                    say(
                        "{name} asks for {least:g} {of}, and its stage allows at most {most} in a "
                        "{per}.",
                        name=place.name,
                        least=least,
                        of=cap.of,
                        most=cap.most,
                        per=cap.per,
                    ),
                    say("Make the dose smaller, or the cap larger."),
                )
