"""Pain rules: one in force everywhere, within published limits, with a next morning."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.placed import placed, stage_name
from authoring.checks.result import Strength, Subject
from authoring.checks.walk import at
from authoring.dosage.pain import NO_DEFAULT
from authoring.model.base import Node
from authoring.model.criterion import Measured
from authoring.model.pain import PainBand, PainRule
from authoring.model.protocol import Activity, Protocol
from authoring.model.sentence import say
from authoring.model.vocabulary import Comparator, PainAction, Unit

PROTOCOL, CLINIC = Subject.PROTOCOL, Subject.CLINIC

MOST = 5
MODEL = (
    "Pain-monitoring model: up to 5 of 10 is acceptable (Thomeé R. Phys Ther 1997;77:1690-1703; "
    "Silbernagel KG et al. Am J Sports Med 2007;35:897-906; bands from memory)."
)
_SEVERITY = {
    PainAction.CARRY_ON: 0,
    PainAction.STAY: 1,
    PainAction.GO_EASIER: 2,
    PainAction.REST: 3,
    PainAction.STEP_BACK: 3,
    PainAction.STOP_TODAY: 4,
    PainAction.STOP_AND_CALL: 5,
}
_ACCEPTED = (PainAction.CARRY_ON, PainAction.STAY)


def _unruled_stages(protocol: Protocol, context: Context) -> list[int]:
    """Stages with an exercise that no pain rule of the protocol is for."""
    if protocol.pain is not None:
        return []
    return sorted(
        {
            place.stage_index
            for place in placed(protocol, context)
            if place.stage.pain is None and place.entry.pain is None
        }
    )


@check(
    "pain-rule-missing",
    Strength.MUST,
    PROTOCOL,
    says="A protocol after an operation or for bone stress has exercises without a pain rule.",
    why="The usual bands of pain are not safe there, so there is no default. Common practice, "
    "no source.",
)
def missing_rules(protocol: Protocol, context: Context) -> Iterator[Spot]:
    # The clinic's own rule is a default too: no page after an operation takes it.
    if protocol.pathway in NO_DEFAULT:
        for index in _unruled_stages(protocol, context):
            yield Spot(
                f"stages[{index}].pain",
                say(
                    "{stage} has no pain rule, and there is no default after an operation or for "
                    "bone stress.",
                    stage=stage_name(protocol, index),
                ),
                say("Write the pain rule of the protocol, the stage or the exercise."),
            )


@check(
    "pain-rule-default",
    Strength.MAY,
    PROTOCOL,
    says="A protocol leaves its pain rule to the default bands.",
    why=MODEL,
)
def default_rules(protocol: Protocol, context: Context) -> Iterator[Spot]:
    if context.clinic is not None and context.clinic.pain is not None:
        return
    if protocol.pathway not in NO_DEFAULT and _unruled_stages(protocol, context):
        yield Spot(
            "pain",
            say(
                "Neither the protocol nor the clinic has a pain rule, so the default bands print "
                "(up to 2, above 2 to 5, above 5)."
            ),
            say("Write the pain rule that you want patients to follow."),
        )


def _highest_accepted(bands: tuple[PainBand, ...]) -> float:
    return max((b.up_to for b in bands if b.action in _ACCEPTED), default=0)


def _pain_limits(value: Node, context: Context) -> Iterator[tuple[str, float]]:
    """Pain that is accepted, by a rule, for moving on, or during an activity."""
    found = context.walk(value)
    for path, rule in found.nodes(PainRule):
        yield f"{path}.during", _highest_accepted(rule.during)
        yield f"{path}.after", _highest_accepted(rule.after)
        morning = rule.next_morning
        yield f"{path}.next_morning.most", (morning.most or 0) if morning else 0
    for path, one in found.nodes(Measured):
        up_to = one.comparator in (Comparator.AT_MOST, Comparator.BELOW, Comparator.BETWEEN)
        if one.unit is Unit.PAIN_0_10 and up_to and ".step_back" not in path:
            yield f"{path}.value", one.high if one.high is not None else one.value
    for path, activity in found.nodes(Activity):
        yield f"{path}.most_pain", activity.most_pain or 0


@check(
    "pain-limit-high",
    Strength.SHOULD,
    PROTOCOL,
    CLINIC,
    says="More than 5 of 10 pain is accepted.",
    why=MODEL,
)
def high_limits(value: Node, context: Context) -> Iterator[Spot]:
    for path, most in _pain_limits(value, context):
        if most > MOST:
            yield Spot(
                path,
                say(
                    "Pain up to {most:g} of 10 is accepted; more than {limit} is high risk.",
                    most=most,
                    limit=MOST,
                ),
                say("Accept at most {limit}, or note the source for more.", limit=MOST),
            )


@check(
    "pain-rule-no-next-morning",
    Strength.SHOULD,
    PROTOCOL,
    CLINIC,
    says="A pain rule says nothing about the next morning.",
    why="Pain must be back to its usual level by the next morning (pain-monitoring model, as "
    "for pain-limit-high).",
)
def no_next_morning(value: Node, context: Context) -> Iterator[Spot]:
    for path, rule in context.walk(value).nodes(PainRule):
        if rule.next_morning is None:
            yield Spot(
                at(path, "next_morning"),
                say("A pain rule says nothing about the next morning."),
                say("Say by when pain must have settled, and what to do if it has not."),
            )


@check(
    "pain-bands-soften",
    Strength.SHOULD,
    PROTOCOL,
    CLINIC,
    says="A band of more pain has a milder action than the band below it.",
    why="Likely a slip (logic of the data).",
)
def softening_bands(value: Node, context: Context) -> Iterator[Spot]:
    for path, rule in context.walk(value).nodes(PainRule):
        for name, bands in (("during", rule.during), ("after", rule.after)):
            for index, (lower, upper) in enumerate(pairwise(bands)):
                if _SEVERITY[upper.action] < _SEVERITY[lower.action]:
                    yield Spot(
                        f"{path}.{name}[{index + 1}].action",
                        say(
                            "Pain above {up_to:g} has a milder action than pain up to it.",
                            up_to=lower.up_to,
                        ),
                        say("Put the actions in order."),
                    )
