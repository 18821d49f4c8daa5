"""Rules for holds, time, totals, intervals and balance."""

from __future__ import annotations

from math import floor

from authoring.dosage.progression.counts import first
from authoring.dosage.progression.proposals import proposals
from authoring.dosage.progression.state import At, Change, Ground
from authoring.dosage.progression.told import Told
from authoring.model.base import evolve, said
from authoring.model.dose import (
    Dose,
    Duration,
    Holds,
    Interval,
    Intervals,
    TotalRepetitions,
)
from authoring.model.load import IntRange
from authoring.model.vocabulary import IntervalRole

USUAL_HOLD_STEP_S = 5
USUAL_HOLD_CEILING_S = 60
USUAL_PERCENT = 10.0
USUAL_INTERVAL_STEP_S = 30
"""Steps where the rule gives none; common practice, no source."""


def _limited(value: float, step: float, ground: Ground) -> int:
    """A step in whole units, not above the most that the work may grow in a week."""
    if ground.cap_percent is not None:
        step = min(step, value * ground.cap_percent / 100)
    return floor(step + 1e-9)


def _cap_too_small(at: At, ground: Ground) -> At:
    told = Told(
        "cap-too-small",
        f"The most growth in a week, {said(ground.cap_percent or 0)} %, is less than one step.",
    )
    return at.stay(told, *proposals(at, ground), stuck=True)


def _ceiling(at: At, ground: Ground, words: str) -> At:
    told = Told("ceiling-reached", f"The most, {words}, is reached.")
    return at.stay(told, *proposals(at, ground), stuck=True)


def _no_rule(at: At) -> At:
    told = Told(
        "rule-does-not-fit", "The rule does not fit this kind of dose: nothing is computed."
    )
    return at.stay(told, stuck=True)


# ---- holds and time ---------------------------------------------------------------------


def hold_time(at: At, ground: Ground) -> At:
    """Seconds more in each hold, or in each bout of work for a time, up to the longest."""
    work = at.dose.work
    if not isinstance(work, Holds | Duration) or (isinstance(work, Holds) and not work.hold_s):
        return _no_rule(at)
    now = longest(work)
    most, told = _longest_hold(ground)
    if now >= most:
        return _ceiling(at, ground, f"{most} s")
    step = _limited(now, ground.rule.hold_step_s or USUAL_HOLD_STEP_S, ground)
    if step < 1:
        return _cap_too_small(at, ground)
    change = Change.HOLD if isinstance(work, Holds) else Change.TIME
    return at.to(longer(at.dose, work, min(step, most - now)), change, *told)


def _longest_hold(ground: Ground) -> tuple[int, tuple[Told, ...]]:
    if ground.rule.hold_ceiling_s is not None:
        return ground.rule.hold_ceiling_s, ()
    written = ground.start.work
    if isinstance(written, Duration):
        limit = ground.start.session_limit_min
        if limit is not None:
            return limit * 60 // max(1, written.bouts.top), ()
        if written.seconds.high is not None:
            return written.seconds.high, ()
        most = 2 * written.seconds.low
        return most, (Told("ceiling-assumed", f"No longest time is given: {most} s is assumed."),)
    now = longest(written) if isinstance(written, Holds) else 0
    most = max(USUAL_HOLD_CEILING_S, now)
    return most, (Told("ceiling-assumed", f"No longest hold is given: {most} s is assumed."),)


def longest(work: Holds | Duration) -> int:
    """Seconds of the longest hold, or of a bout, at the lower end of a range."""
    return work.seconds.low if isinstance(work, Duration) else max(h.low for h in work.hold_s)


def longer(dose: Dose, work: Holds | Duration, by: int) -> Dose:
    """The dose with longer holds or bouts; a range moves to its lower end first."""
    if isinstance(work, Duration):
        return evolve(dose, work=evolve(work, seconds=IntRange(low=work.seconds.low + by)))
    holds = tuple(IntRange(low=max(1, each.low + by)) for each in work.hold_s)
    return evolve(dose, work=evolve(work, hold_s=holds))


def balance(at: At, ground: Ground) -> At:
    """The hold up to the longest; then the next rung, with the first hold again."""
    after = hold_time(at, ground)
    if not after.stuck or not any(told.code == "ceiling-reached" for told in after.told):
        return after
    return next_rung(at, ground)


def next_rung(at: At, ground: Ground) -> At:
    """The next variant of the ladder with its own dose, else with the first week's."""
    higher = ground.next_rung(at.variant)
    if higher is None:
        told = Told("ladder-at-its-end", "The ladder has no higher rung that is allowed here.")
        return at.stay(told, *proposals(at, ground), stuck=True)
    told = Told(
        "next-rung",
        f"Next rung: {higher.name.best('en', 'en')}; the clinician confirms it.",
    )
    after = at.to(first(higher.dose or ground.start), Change.RUNG, told)
    return At(after.dose, higher, after.change, after.told)


def duration(at: At, ground: Ground) -> At:
    """Minutes more in a session, by the rule's step, else by a tenth."""
    work = at.dose.work
    if not isinstance(work, Duration):
        return hold_time(at, ground) if isinstance(work, Holds) else _no_rule(at)
    now = work.seconds.low
    told: tuple[Told, ...] = ()
    step = (ground.rule.minutes_step or 0) * 60 / work.bouts.low
    if not step:
        step = now * USUAL_PERCENT / 100
        told = (Told("step-assumed", "No step is given: a tenth more is assumed."),)
    whole = _limited(now, step, ground)
    limit = ground.start.session_limit_min
    most = None if limit is None else limit * 60 // max(1, work.bouts.low)
    if most is not None and now >= most:
        return _ceiling(at, ground, f"{limit} min")
    if whole < 1:
        return _cap_too_small(at, ground)
    whole = whole if most is None else min(whole, most - now)
    return at.to(longer(at.dose, work, whole), Change.TIME, *told)


def by_percent(at: At, ground: Ground) -> At:
    """The work itself by the rule's percent: time, holds, a total."""
    work = at.dose.work
    percent = ground.rule.step_percent or USUAL_PERCENT
    if isinstance(work, TotalRepetitions):
        return total(at, ground)
    if not isinstance(work, Holds | Duration) or (isinstance(work, Holds) and not work.hold_s):
        return _no_rule(at)
    step = _limited(longest(work), max(1.0, longest(work) * percent / 100), ground)
    if step < 1:
        return _cap_too_small(at, ground)
    return at.to(longer(at.dose, work, step), Change.TIME)


# ---- totals and intervals ---------------------------------------------------------------


def total(at: At, ground: Ground) -> At:
    """The total by the rule's step, else by a tenth, up to its ceiling."""
    work, start = at.dose.work, ground.start.work
    if not isinstance(work, TotalRepetitions):
        return _no_rule(at)
    top = ground.rule.total_ceiling
    if top is None and isinstance(start, TotalRepetitions):
        top = start.total.high
    now = work.total.low
    if top is not None and now >= top:
        return _ceiling(at, ground, f"{top} in all")
    told: tuple[Told, ...] = ()
    step = float(ground.rule.total_step or 0)
    if not step:
        step = max(1.0, now * USUAL_PERCENT / 100)
        told = (Told("step-assumed", "No step is given: a tenth more is assumed."),)
    whole = _limited(now, step, ground)
    if whole < 1:
        return _cap_too_small(at, ground)
    reached = now + whole if top is None else min(top, now + whole)
    dose = evolve(at.dose, work=evolve(work, total=IntRange(low=reached)))
    return at.to(dose, Change.TOTAL, *told)


def intervals(at: At, ground: Ground) -> At:
    """Work parts longer and recovery shorter, so that walking turns into running."""
    work = at.dose.work
    if not isinstance(work, Intervals):
        return duration(at, ground)
    timed = [part.seconds.low for part in _of(work, IntervalRole.WORK) if part.seconds]
    if not timed:
        return _no_rule(at)
    most, now = ground.rule.work_ceiling_s, max(timed)
    if most is not None and now >= most:
        return _ceiling(at, ground, f"{most} s of work")
    rests = [part.seconds.low for part in _of(work, IntervalRole.RECOVER) if part.seconds]
    if most is None and not rests:
        return _ceiling(at, ground, "no recovery in between")
    given = ground.rule.work_step_s
    told = () if given else (Told("step-assumed", "No step is given: 30 s more is assumed."),)
    step = _limited(now, given or USUAL_INTERVAL_STEP_S, ground)
    if step < 1:
        return _cap_too_small(at, ground)
    step = step if most is None else min(step, most - now)
    less = ground.rule.recover_step_s
    less = less if less is not None else (0 if given else USUAL_INTERVAL_STEP_S)
    moved = (_moved(part, step, less) for part in work.parts)
    parts = tuple(part for part in moved if part.seconds is None or part.seconds.top > 0)
    return at.to(evolve(at.dose, work=evolve(work, parts=parts)), Change.INTERVALS, *told)


def _of(work: Intervals, role: IntervalRole) -> list[Interval]:
    return [part for part in work.parts if part.role is role]


def _moved(part: Interval, more: int, less: int) -> Interval:
    if part.seconds is None:
        return part
    if part.role is IntervalRole.WORK:
        return evolve(part, seconds=IntRange(low=part.seconds.low + more))
    if part.role is IntervalRole.RECOVER:
        return evolve(part, seconds=IntRange(low=max(0, part.seconds.low - less)))
    return part
