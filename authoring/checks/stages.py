"""Stages: what is needed to enter and to leave them, and what they forbid."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, named, quoted
from authoring.checks.placed import Placed, placed, stage_name, variant_name
from authoring.checks.result import Strength, Subject
from authoring.model.card import Variant
from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, Measured, TimePassed
from authoring.model.protocol import Protocol, Restriction
from authoring.model.sentence import say
from authoring.model.vocabulary import TermKind

PROTOCOL = Subject.PROTOCOL


def leaves(criteria: Iterable[Criterion]) -> Iterator[Measured | InWords | TimePassed]:
    """Criteria without parts, those inside others included."""
    for criterion in criteria:
        if isinstance(criterion, AllOf | AnyOf):
            yield from leaves(criterion.parts)
        else:
            yield criterion


@check(
    "protocol-no-stages",
    Strength.MUST,
    PROTOCOL,
    says="A protocol has no stage.",
    why="TIDieR item 4: the procedures.",
)
def no_stages(protocol: Protocol, _: Context) -> Iterator[Spot]:
    if not protocol.stages:
        yield Spot("stages", say("The protocol has no stage."), say("Add the first stage."))


@check(
    "stage-no-exercises",
    Strength.SHOULD,
    PROTOCOL,
    says="A stage has no exercise.",
    why="TIDieR item 4: every stage has procedures.",
)
def idle_stages(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, stage in enumerate(protocol.stages):
        if not any(block.entries for block in stage.blocks):
            yield Spot(
                f"stages[{index}].blocks",
                say("{stage} has no exercise.", stage=stage_name(protocol, index)),
                say("Add exercises, or join the stage with its neighbour."),
            )


@check(
    "stage-no-entry-criterion",
    Strength.SHOULD,
    PROTOCOL,
    says="Nothing says what must be true to enter a stage.",
    why="CERT item 15: a rule for the starting level; patients may start in any stage.",
)
def no_entry(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, stage in enumerate(protocol.stages):
        if not stage.entry:
            yield Spot(
                f"stages[{index}].entry",
                say(
                    "{stage} does not say what must be true to enter it.",
                    stage=stage_name(protocol, index),
                ),
                say("Add an entry criterion, if only that no red flag is answered yes."),
            )


@check(
    "stage-no-move-on",
    Strength.MUST,
    PROTOCOL,
    says="A stage before the last has nothing but time, or nothing at all, to move on by.",
    why="CERT item 7a: a decision rule for progressing. Time alone does not show that a person "
    "is ready.",
)
def no_move_on(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, stage in enumerate(protocol.stages[:-1]):
        found = list(leaves(stage.move_on))
        if all(isinstance(each, TimePassed) for each in found):
            wrong = say("lets time alone decide") if found else say("has no criterion")
            yield Spot(
                f"stages[{index}].move_on",
                say(
                    "{stage} {wrong} when to move on.",
                    stage=stage_name(protocol, index),
                    wrong=wrong,
                ),
                say("Add a criterion with a measure, a value and a unit."),
            )


@check(
    "stage-move-on-not-measured",
    Strength.SHOULD,
    PROTOCOL,
    says="A stage before the last is left by criteria in words only.",
    why="CERT item 7a: a rule that two people would apply alike has a measure, a value and a unit.",
)
def unmeasured_move_on(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, stage in enumerate(protocol.stages[:-1]):
        found = list(leaves(stage.move_on))
        worded = any(isinstance(each, InWords) for each in found)
        if worded and not any(isinstance(each, Measured) for each in found):
            yield Spot(
                f"stages[{index}].move_on",
                say(
                    "{stage} measures nothing before moving on.", stage=stage_name(protocol, index)
                ),
                say("Add a criterion with a measure, a value and a unit."),
            )


@check(
    "stage-weeks-backwards",
    Strength.SHOULD,
    PROTOCOL,
    says="A stage usually starts before the stage in front of it.",
    why="Stages stand in the order they are done (logic of the data).",
)
def backward_weeks(protocol: Protocol, _: Context) -> Iterator[Spot]:
    last = None
    for index, stage in enumerate(protocol.stages):
        week = stage.usual_weeks.from_week if stage.usual_weeks else None
        if week is not None and last is not None and week < last:
            yield Spot(
                f"stages[{index}].usual_weeks.from_week",
                say(
                    "{stage} starts in week {week}, before an earlier stage does (week {last}).",
                    stage=stage_name(protocol, index),
                    week=week,
                    last=last,
                ),
                say("Correct the weeks, or the order of the stages."),
            )
        last = week if week is not None else last


@check(
    "entry-number-twice",
    Strength.MUST,
    PROTOCOL,
    says="Two exercises of a protocol have the same number.",
    why="Patients and clinicians speak of exercises by number (contract of the files).",
)
def twice_numbers(protocol: Protocol, context: Context) -> Iterator[Spot]:
    seen: dict[int, Placed] = {}
    for place in placed(protocol, context):
        if place.number in seen and seen[place.number].entry.id != place.entry.id:
            yield Spot(
                f"{place.path}.number",
                say(
                    "{name} has the number of an exercise in stage {stage}.",
                    name=place.name,
                    stage=seen[place.number].stage_index + 1,
                ),
                say("Give it a number of its own."),
            )
        seen.setdefault(place.number, place)


# ---- restrictions -----------------------------------------------------------


def _broken(place: Placed, variant: Variant, rule: Restriction, context: Context) -> bool:
    """Whether a variant makes a demand, or takes a position, that a stage forbids."""
    demand = any(context.falls_under(TermKind.DEMAND, d, rule.demands) for d in variant.demands)
    position = variant.position is not None and context.falls_under(
        TermKind.POSITION, variant.position, rule.positions
    )
    moves = place.card.movements if place.card else ()
    movement = any(context.falls_under(TermKind.MOVEMENT, m, rule.movements) for m in moves)
    return demand or position or movement


def _holds_throughout(place: Placed, rule: Restriction) -> bool:
    if rule.until_week is None:
        return True
    weeks = place.stage.usual_weeks
    return weeks is not None and weeks.to_week is not None and rule.until_week >= weeks.to_week


def _breaches(
    protocol: Protocol, context: Context, *, sure: bool
) -> Iterator[tuple[Placed, Restriction, str]]:
    """Exercises against what their stage forbids, with the variants that break it.

    ``sure`` asks for variants done as written against rules for the whole stage,
    else for all others.
    """
    for place in placed(protocol, context):
        done = {variant.id for variant in place.done}
        if place.card is None:
            continue
        for rule in place.stage.not_allowed:
            throughout = _holds_throughout(place, rule)
            names = [
                variant_name(place.card, variant)
                for variant in (*place.done, *(v for v in place.used if v.id not in done))
                if (variant.id in done and throughout) is sure
                and _broken(place, variant, rule, context)
            ]
            if names:
                yield place, rule, listed(names)


@check(
    "restriction-broken",
    Strength.MUST,
    PROTOCOL,
    says="An exercise starts with a variant that its stage does not allow.",
    why="The sheet would forbid and ask for the same thing (logic of the data).",
)
def broken_restrictions(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place, rule, names in _breaches(protocol, context, sure=True):
        yield Spot(
            f"{place.path}.start",
            say(
                "{name} asks for {names}, and the stage has the rule {text}.",
                name=place.name,
                names=names,
                text=named(rule.text, protocol.language, rule.id),
            ),
            say("Start with another variant, or move the exercise to a later stage."),
        )


@check(
    "restriction-broken-by-variant",
    Strength.SHOULD,
    PROTOCOL,
    says="An exercise allows a variant that its stage does not allow for all or part of its weeks.",
    why="A patient could be given it in that stage (logic of the data).",
)
def reachable_breaches(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place, rule, names in _breaches(protocol, context, sure=False):
        what = {
            "name": place.name,
            "names": names,
            "text": named(rule.text, protocol.language, rule.id),
        }
        yield Spot(
            f"{place.path}.allowed",
            say(
                "{name} allows {names}, and the stage has the rule {text} until week {week}.",
                week=rule.until_week,
                **what,
            )
            if rule.until_week
            else say("{name} allows {names}, and the stage has the rule {text}.", **what),
            say("Name the variants that are allowed in this stage."),
        )


# ---- one stage against the next -----------------------------------------------


def _corridor(criterion: Measured) -> tuple[float, float]:
    """Least and most value that meets a criterion; open ends count as closed."""
    match criterion.comparator:
        case "at_least" | "above":
            return criterion.value, float("inf")
        case "at_most" | "below":
            return float("-inf"), criterion.value
        case "between":
            return criterion.value, criterion.high or criterion.value
        case _:
            return criterion.value, criterion.value


@check(
    "stage-contradicts-next",
    Strength.SHOULD,
    PROTOCOL,
    says="What must be true to leave a stage can't be true together with what the next asks for.",
    why="Nobody could ever enter the next stage (logic of the data).",
)
def contradictions(protocol: Protocol, _: Context) -> Iterator[Spot]:
    for index, (stage, following) in enumerate(
        zip(protocol.stages, protocol.stages[1:], strict=False)
    ):
        leaving = [each for each in stage.move_on if isinstance(each, Measured)]
        for place, entering in enumerate(following.entry):
            if not isinstance(entering, Measured):
                continue
            for other in leaving:
                alike = (other.measure, other.unit, other.side, other.window) == (
                    entering.measure,
                    entering.unit,
                    entering.side,
                    entering.window,
                )
                low = max(_corridor(other)[0], _corridor(entering)[0])
                if alike and low > min(_corridor(other)[1], _corridor(entering)[1]):
                    yield Spot(
                        f"stages[{index + 1}].entry[{place}]",
                        say(
                            "{stage} asks for another value of {measure} than the stage before it "
                            "is left with.",
                            stage=stage_name(protocol, index + 1),
                            measure=quoted(entering.measure),
                        ),
                        say("Make the two criteria agree."),
                    )
