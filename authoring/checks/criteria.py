"""Criteria: figures that make sense, and words that a patient can use."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, quoted
from authoring.checks.normal_angles import NORMAL, highest_plausible
from authoring.checks.numbers import RESERVE_MOST
from authoring.checks.placed import stage_name
from authoring.checks.result import Strength, Subject
from authoring.checks.stages import leaves
from authoring.model.criterion import AllOf, AnyOf, Criterion, Measured, TimePassed, Window
from authoring.model.protocol import Protocol
from authoring.model.sentence import say, say_n
from authoring.model.vocabulary import SideComparison, TermKind, Unit, WindowKind

PROTOCOL = Subject.PROTOCOL
SYMMETRY = (50, 110)
"""Percent of the other side outside which a criterion is queried (design choice)."""


@check(
    "criterion-pain-no-next-morning",
    Strength.SHOULD,
    PROTOCOL,
    says="A stage is left by a criterion about pain, and none asks about the next morning.",
    why="Pain-monitoring model: pain must be back to usual by the next morning (Thomeé R. Phys "
    "Ther 1997;77:1690-1703; Silbernagel KG et al. Am J Sports Med 2007;35:897-906).",
)
def no_next_morning(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, stage in enumerate(protocol.stages):
        found = list(leaves(stage.move_on))
        pain = any(isinstance(one, Measured) and one.unit is Unit.PAIN_0_10 for one in found)
        windows = [one.window for one in found if not isinstance(one, TimePassed)]
        morning = any(each and each.kind is WindowKind.NEXT_MORNING for each in windows)
        if pain and not morning:
            yield Spot(
                f"stages[{index}].move_on",
                say(
                    "{stage} is left by a criterion about pain, and none asks about the next "
                    "morning.",
                    stage=stage_name(protocol, index),
                ),
                say("Add one for the next morning."),
            )


def _has_patient_words(criterion: Criterion) -> bool:
    if criterion.patient:
        return True
    return isinstance(criterion, AllOf | AnyOf) and all(map(_has_patient_words, criterion.parts))


@check(
    "criterion-no-patient-words",
    Strength.SHOULD,
    PROTOCOL,
    says="Criteria for moving on are not put as “I can …”.",
    why="The sheet tells the patient what must be true before moving on (PEMAT item 3).",
)
def no_patient_words(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, stage in enumerate(protocol.stages):
        lacking = [
            (place, criterion)
            for place, criterion in enumerate(stage.move_on)
            if not _has_patient_words(criterion)
        ]
        if lacking:
            yield Spot(
                f"stages[{index}].move_on[{lacking[0][0]}].patient",
                say_n(
                    "{stage} has {n} criterion without words for the patient: {names}.",
                    "{stage} has {n} criteria without words for the patient: {names}.",
                    len(lacking),
                    stage=stage_name(protocol, index),
                    names=listed([quoted(c.id) for _, c in lacking]),
                ),
                say("Put each as “I can …”, with its number."),
            )


def _measured(protocol: Protocol, context: Context) -> list[tuple[str, Measured]]:
    return context.walk(protocol).nodes(Measured)


@check(
    "criterion-symmetry-value",
    Strength.SHOULD,
    PROTOCOL,
    says="A share of the other side is below 50 or above 110 percent.",
    why="Pass marks lie near 90 percent (Kyritsis P et al. Br J Sports Med 2016;50:946-951); "
    "far from it a typing error is likely (limits: design choice).",
)
def odd_symmetry(protocol: Protocol, context: Context) -> Iterator[Spot]:
    least, most = SYMMETRY
    for path, one in _measured(protocol, context):
        values = [one.value, *([one.high] if one.high is not None else [])]
        odd = [value for value in values if not least <= value <= most]
        if one.side is SideComparison.PERCENT_OF_OTHER and odd:
            yield Spot(
                f"{path}.value",
                say(
                    "The criterion {one} asks for {odd:g} percent of the other side.",
                    one=quoted(one.id),
                    odd=odd[0],
                ),
                say("Check the value; {least} to {most} percent is usual.", least=least, most=most),
            )


@check(
    "criterion-reserve-high",
    Strength.SHOULD,
    PROTOCOL,
    says="A criterion counts more than 5 repetitions in reserve.",
    why="People misjudge more than 5 repetitions left by two and more (Hackett DA et al. "
    "J Strength Cond Res 2017;31:2162-2168).",
)
def high_reserve(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for path, one in _measured(protocol, context):
        about = "reserve" in _words_of(one, context)
        if about and one.unit is Unit.REPETITIONS and (one.high or one.value) > RESERVE_MOST:
            yield Spot(
                f"{path}.value",
                say(
                    "The criterion {one} counts {value:g} repetitions in reserve, which people "
                    "can't judge.",
                    one=quoted(one.id),
                    value=one.high or one.value,
                ),
                say("Ask for 5 or fewer, or for an effort from 0 to 10."),
            )


def _words_of(one: Measured, context: Context) -> frozenset[str]:
    """Words that name a measure: of its id, its name and its look-alikes."""
    term = context.term(TermKind.MEASURE, one.measure)
    names = [one.measure.replace("-", " ")]
    if term is not None:
        names += [*term.name.values.values(), *term.also]
    return frozenset(" ".join(names).lower().replace("-", " ").split())


@check(
    "criterion-angle-beyond-normal",
    Strength.SHOULD,
    PROTOCOL,
    says="A criterion asks for an angle more than 15 percent beyond the normal range of the joint.",
    why="It is likely a typing error (normal ranges: American Academy of Orthopaedic Surgeons "
    "1965, hip, knee, ankle and spine from memory; the 15 percent is a design choice).",
)
def odd_angles(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for path, one in _measured(protocol, context):
        difference = one.side is SideComparison.DIFFERENCE_FROM_OTHER
        if one.unit is not Unit.DEGREES or difference:
            continue
        words = _words_of(one, context)
        for joint, motion in NORMAL:
            most = highest_plausible(joint, motion)
            named = {*joint.split("_"), *motion.split("_")} <= words
            if named and most is not None and (one.high or one.value) > most:
                yield Spot(
                    f"{path}.value",
                    say(
                        "The criterion {one} asks for {value:g} degrees, which is beyond the "
                        "normal range of movement.",
                        one=quoted(one.id),
                        value=one.high or one.value,
                    ),
                    say("Check the angle for a typing error."),
                )


@check(
    "criterion-window-without-count",
    Strength.SHOULD,
    PROTOCOL,
    says="A criterion must hold for several sessions, days or weeks, and does not say how many.",
    why="Two people must be able to apply it alike (CERT item 7a).",
)
def uncounted_windows(protocol: Protocol, context: Context) -> Iterator[Spot]:
    counted = (
        WindowKind.CONSECUTIVE_SESSIONS,
        WindowKind.CONSECUTIVE_DAYS,
        WindowKind.LAST_WEEKS,
    )
    for path, window in context.walk(protocol).nodes(Window):
        if window.kind in counted and window.count is None:
            yield Spot(
                f"{path}.count",
                say(
                    "A criterion holds over {window} without a number.",
                    window=window.kind,
                ),
                say("Say how many."),
            )
