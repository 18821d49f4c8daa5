"""Rules between the fields of one noun, kept while values are drawn.

Each takes the fields drawn so far and returns them so that the noun can hold them. They are
written from the format reference, not from the constructors.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st

from authoring.model.base import evolve
from authoring.model.dose import DoseChange
from authoring.model.load import IntRange, NumberRange
from authoring.model.pain import PainBand
from authoring.model.pose import ArrowForm, BodyPoint, Direction, Segment
from authoring.model.vocabulary import (
    CautionKind,
    Comparator,
    PainAction,
    Side,
    Unit,
    Until,
    Urgency,
)

Draw = Callable[[st.SearchStrategy[Any]], Any]
Given = dict[str, Any]
Rule = Callable[[Draw, Given], Given]


def _rising(low: str, high: str, most: float, step: type[int] | type[float]) -> Rule:
    """The upper end is not below the lower one."""

    def rule(draw: Draw, given: Given) -> Given:
        if given.get(high) is None:
            return given
        least = given[low]
        numbers = st.integers(least, int(most)) if step is int else st.floats(least, most)
        return {**given, high: draw(numbers)}

    return rule


def _exactly_one(*names: str, otherwise: Callable[[Draw], Given]) -> Rule:
    """Just one of these fields is given."""

    def rule(draw: Draw, given: Given) -> Given:
        kept = next((name for name in names if given.get(name) is not None), None)
        rest = {name: value for name, value in given.items() if name not in names}
        return {**rest, **({kept: given[kept]} if kept else otherwise(draw))}

    return rule


def _some_seconds(draw: Draw) -> Given:
    return {"seconds": IntRange(low=draw(st.integers(0, 600)))}


def _as_many_as_listed(listed: str, counted: str) -> Rule:
    """A list by set needs so many sets; an empty one needs another end of the set."""

    def rule(draw: Draw, given: Given) -> Given:
        numbers = given.get(listed, ())
        if len(numbers) > 1:
            return {**given, counted: IntRange(low=len(numbers))}
        if not numbers and given.get("until", Until.COUNT) is Until.COUNT:
            others = [until for until in Until if until is not Until.COUNT]
            return {**given, "until": draw(st.sampled_from(others))}
        return given

    return rule


def _frequency(draw: Draw, given: Given) -> Given:
    if given.get("days_per_week") is None:
        return given
    low = draw(st.integers(0, 7))
    high = draw(st.none() | st.integers(low, 7))
    return {**given, "days_per_week": IntRange(low=low, high=high)}


def _effort(draw: Draw, given: Given) -> Given:
    low = draw(st.floats(0, 10))
    return {**given, "rating": NumberRange(low=low, high=draw(st.none() | st.floats(low, 10)))}


def _holds(draw: Draw, given: Given) -> Given:
    """Holds by set go without holds for all, and one time fits them all."""
    by_set = given.get("holds_by_set", ())
    if not by_set:
        return _as_many_as_listed("hold_s", "holds")(draw, given)
    rest = {name: value for name, value in given.items() if name not in ("holds", "hold_s")}
    seconds = (IntRange(low=draw(st.integers(0, 600))),)
    return {**rest, "hold_s": seconds, "sets": IntRange(low=len(by_set))}


def _assisted(_: Draw, given: Given) -> Given:
    """Weight is added or taken off."""
    if given.get("added") is None:
        return given
    return {name: value for name, value in given.items() if name != "assisted"}


def _some_of(draw: Draw, given: Given) -> Given:
    if "at_least" not in given:
        return given
    return {**given, "at_least": draw(st.integers(1, len(given["parts"])))}


def _steps(draw: Draw, given: Given) -> Given:
    if given.get("step_percent_high") is None:
        return given
    low = draw(st.floats(0, 100))
    return {**given, "step_percent": low, "step_percent_high": draw(st.floats(low, 100))}


def _same_in_every_set(value: Any) -> Any:
    """A dose or change whose loads list one amount, so that they fit any number of sets."""
    if not getattr(value, "loads", None):
        return value
    loads = tuple(
        evolve(load, per_set=load.per_set[:1]) if hasattr(load, "per_set") else load
        for load in value.loads
    )
    return evolve(value, loads=loads)


def _dose(draw: Draw, given: Given) -> Given:
    for name in ("weeks", "sessions"):
        if name in given:
            rows = (evolve(row, change=_same_in_every_set(row.change)) for row in given[name])
            given = {**given, name: tuple(rows)}
    if "loads" in given:
        given = {**given, "loads": _same_in_every_set(DoseChange(loads=given["loads"])).loads}
    return _weeks(draw, given)


def _weeks(draw: Draw, given: Given) -> Given:
    weeks, first = [], 1
    for row in given.get("weeks", ()):
        start = draw(st.integers(first, first + 3))
        end = draw(st.integers(start, start + 5))
        weeks.append(evolve(row, from_week=start, to_week=end))
        first = end + 1
    if weeks and draw(st.booleans()):
        weeks[-1] = evolve(weeks[-1], to_week=None)
    return {**given, "weeks": tuple(weeks)} if weeks else given


def _bands(draw: Draw) -> tuple[PainBand, ...]:
    tops = sorted(draw(st.sets(st.floats(0, 9.5), max_size=3)))
    return tuple(
        PainBand(up_to=top, action=draw(st.sampled_from(list(PainAction)))) for top in [*tops, 10]
    )


def _pain(draw: Draw, given: Given) -> Given:
    after = {"after": _bands(draw)} if given.get("after") else {}
    return {**given, "during": _bands(draw), **after}


def _measured(draw: Draw, given: Given) -> Given:
    given = {name: value for name, value in given.items() if name != "high"}
    if given["comparator"] is not Comparator.BETWEEN:
        return given
    return {**given, "high": draw(st.floats(given["value"], 1_000_000))}


def _time(draw: Draw, given: Given) -> Given:
    units = [Unit.DAYS, Unit.WEEKS, Unit.SESSIONS]
    return {**given, "unit": draw(st.sampled_from(units))} if "unit" in given else given


def _caution(draw: Draw, given: Given) -> Given:
    stop = given["kind"] is CautionKind.STOP_SIGN
    return {**given, "urgency": draw(st.sampled_from(list(Urgency))) if stop else None}


def _picture(draw: Draw, given: Given) -> Given:
    pose = {"pose": draw(st.sampled_from(["bridge", "bridge-end"]))}
    return _exactly_one("image", "pose", otherwise=lambda _: pose)(draw, given)


def _prop(draw: Draw, given: Given) -> Given:
    """The underside is below the top."""
    top = given.get("height_cm", 45.0)
    if "raised_cm" not in given:
        return given
    return {**given, "raised_cm": draw(st.floats(0, min(240.0, top), exclude_max=True))}


def _line(_: Draw, given: Given) -> Given:
    """A band is measured once at each length; a cable's pull is told in one way."""
    by_length = {each.length_cm: each for each in given.get("curve", ())}
    if "force_n" in given and given["force_n"] is not None:
        given = {name: value for name, value in given.items() if name != "mass_kg"}
    if by_length:
        given = {**given, "curve": tuple(by_length[length] for length in sorted(by_length))}
    return given


def _another(name: str, than: str) -> Rule:
    """Two fields of one closed list differ."""

    def rule(draw: Draw, given: Given) -> Given:
        others = [each for each in type(given[than]) if each is not given[than]]
        return {**given, name: draw(st.sampled_from(others))}

    return rule


def _straight(draw: Draw, given: Given) -> Given:
    names = ("first", "middle", "last")
    places = st.lists(st.sampled_from(BodyPoint), min_size=3, max_size=3, unique=True)
    return {**given, **dict(zip(names, draw(places), strict=True))}


def _facing(draw: Draw, given: Given) -> Given:
    return {**given, "part": draw(st.sampled_from([Segment.HAND, Segment.FOOT]))}


def _arrow(draw: Draw, given: Given) -> Given:
    if given.get("form") is not ArrowForm.PUSH:
        return {name: value for name, value in given.items() if name != "push"}
    return {**given, "push": draw(st.sampled_from(Direction))}


def _side_state(draw: Draw, given: Given) -> Given:
    return {**given, "side": draw(st.sampled_from([Side.LEFT, Side.RIGHT]))}


def _presentation(_: Draw, given: Given) -> Given:
    """Each side stands once."""
    by_side = {state.side: state for state in given.get("each_side", ())}
    return {**given, "each_side": tuple(by_side.values())} if by_side else given


RULES: dict[str, Rule] = {
    "IntRange": _rising("low", "high", 1_000_000, int),
    "NumberRange": _rising("low", "high", 1_000_000, float),
    "WeekRow": _rising("from_week", "to_week", 520, int),
    "WeekSpan": _rising("from_week", "to_week", 520, int),
    "Rest": _exactly_one("seconds", "times_work", "until", otherwise=_some_seconds),
    "Interval": _exactly_one("seconds", "metres", otherwise=_some_seconds),
    "Repetitions": _as_many_as_listed("reps", "sets"),
    "Holds": _holds,
    "BodyWeightLoad": _assisted,
    "AnyOf": _some_of,
    "Progression": _steps,
    "Frequency": _frequency,
    "EffortLoad": _effort,
    "Dose": _dose,
    "PainRule": _pain,
    "Measured": _measured,
    "TimePassed": _time,
    "Caution": _caution,
    "Picture": _picture,
    "Prop": _prop,
    "Line": _line,
    "LinedUp": _another("under", "point"),
    "SameHeight": _another("height_of", "point"),
    "Parallel": _another("parallel_to", "segment"),
    "Touch": _another("at", "point"),
    "Straight": _straight,
    "Facing": _facing,
    "Arrow": _arrow,
    "SideState": _side_state,
    "Presentation": _presentation,
}
