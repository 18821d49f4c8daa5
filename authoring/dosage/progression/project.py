"""The weeks ahead, if every session goes as the rule asks."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from attrs import frozen

from authoring.dosage.arithmetic.capped import amount_against
from authoring.dosage.arithmetic.effective import in_week, often_of, row_of_week
from authoring.dosage.arithmetic.figure import Figure, exactly
from authoring.dosage.arithmetic.often import often
from authoring.dosage.progression import strength_rules, time_rules
from authoring.dosage.progression.amount import amount_of
from authoring.dosage.progression.counts import first
from authoring.dosage.progression.guidance import guidance
from authoring.dosage.progression.kit import steps_for
from authoring.dosage.progression.lighter import lighter
from authoring.dosage.progression.proposals import proposals
from authoring.dosage.progression.state import At, Change, Ground
from authoring.dosage.progression.told import ACSM_2009, NSCA, Told
from authoring.dosage.volume import session_volume
from authoring.model.base import said
from authoring.model.card import Variant
from authoring.model.dose import Dose, Frequency
from authoring.model.pacing import Cap
from authoring.model.patient import OwnedKit
from authoring.model.protocol import Progression
from authoring.model.vocabulary import ProgressionMethod, Sides

MOST_WEEKS = 52

USUAL_RUNNING = 2
"""Sessions running in which it must be easy, where the rule does not say: two (Ratamess NA et
al., Med Sci Sports Exerc 2009;41:687-708; the two-for-two rule has the same)."""

USUAL_TIMES = 2
"""Sessions a week where nothing says how often: the least of guidance (the same stand)."""

ONCE = exactly(1)

Rule = Callable[[At, Ground], At]

_RULES: Mapping[ProgressionMethod, Rule] = {
    ProgressionMethod.REPS_THEN_LOAD: strength_rules.reps_then_load,
    ProgressionMethod.TWO_FOR_TWO: strength_rules.two_for_two,
    ProgressionMethod.PERCENT_STEP: strength_rules.percent_step,
    ProgressionMethod.SETS_FIRST: strength_rules.sets_first,
    ProgressionMethod.HOLD_TIME: time_rules.hold_time,
    ProgressionMethod.DURATION: time_rules.duration,
    ProgressionMethod.TOTAL: time_rules.total,
    ProgressionMethod.INTERVALS: time_rules.intervals,
    ProgressionMethod.BALANCE: time_rules.balance,
    ProgressionMethod.NEXT_RUNG: time_rules.next_rung,
}


@frozen(kw_only=True)
class Setting:
    """What a projection is made for.

    Attributes:
        variant: the variant that is done first, or None.
        ladder: variants allowed, in any order.
        often: how often, where the dose does not say; the first given counts.
        owned: kit at hand; empty takes the steps of the protocol.
        cap_percent: most growth of the work in a week, where the rule has none.
        caps: the most of one thing in the stage.
        sides: side that works, where the dose does not say.
        rounds: rounds of its circuit.
    """

    variant: Variant | None = None
    ladder: tuple[Variant, ...] = ()
    often: tuple[Frequency | None, ...] = ()
    owned: Sequence[OwnedKit] = ()
    cap_percent: float | None = None
    caps: tuple[Cap, ...] = ()
    sides: Sides | None = None
    rounds: Figure = ONCE


@frozen
class ProjectedWeek:
    """One week.

    Attributes:
        number: counted from 1.
        dose: the dose in it, without week table.
        variant: the variant done in it, where one is known.
        change: what differs from the week before.
        told: remarks and proposals, with codes.
    """

    number: int
    dose: Dose
    variant: Variant | None
    change: Change
    told: tuple[Told, ...] = ()


@frozen
class Projection:
    """Weeks ahead, and what holds for all of them."""

    weeks: tuple[ProjectedWeek, ...]
    told: tuple[Told, ...]


PLAIN = Setting()


def project(
    dose: Dose, rule: Progression | None, weeks: int, setting: Setting = PLAIN
) -> Projection:
    """The doses of the weeks ahead: the earliest at which each step may come.

    A step comes at most once a week, once enough sessions were done; a lighter week counts for
    none. The clinician confirms every step up.

    Args:
        weeks: how many, 1 to 52.
    """
    number = max(1, min(weeks, MOST_WEEKS))
    if dose.weeks and (rule is None or rule.method not in _RULES):
        return _table(dose, setting, number)
    if rule is None:
        return _constant(dose, setting, number, Told("no-rule", "No rule says how it grows."))
    step = _RULES.get(rule.method)
    if step is None:
        return _constant(dose, setting, number, _left_to(rule.method))
    return _by_rule(in_week(dose, 1), rule, step, number, setting)


def _left_to(method: ProgressionMethod) -> Told:
    match method:
        case ProgressionMethod.WEEK_TABLE:
            return Told("no-week-table", "The rule is a week table, and the dose has none.")
        case ProgressionMethod.RANGE_OF_MOVEMENT:
            return Told("range-by-comfort", "The range grows as comfort allows; it has no step.")
    return Told("clinician-decides", "The clinician decides how it grows.")


def _constant(dose: Dose, setting: Setting, number: int, told: Told) -> Projection:
    rows = [
        ProjectedWeek(week, dose, setting.variant, Change.START if week == 1 else Change.STAY)
        for week in range(1, number + 1)
    ]
    return Projection(tuple(rows), (told,))


def _table(dose: Dose, setting: Setting, number: int) -> Projection:
    by_id = {variant.id: variant for variant in setting.ladder}
    rows: list[ProjectedWeek] = []
    for week in range(1, number + 1):
        row = row_of_week(dose, week)
        named = by_id.get(row.variant or "") if row is not None else None
        now = in_week(dose, week)
        variant = named or setting.variant
        same = rows and rows[-1].dose == now and rows[-1].variant == variant
        change = Change.STAY if same else Change.TABLE if rows else Change.START
        rows.append(ProjectedWeek(week, now, variant, change))
    return Projection(tuple(rows), (Told("week-table", "By the week table of the protocol."),))


def _ground(written: Dose, now: Dose, rule: Progression, setting: Setting) -> Ground:
    """What a step from ``now`` stands on: the written dose, real steps, rungs, the week's cap."""
    amount = amount_of(now)
    steps = (
        steps_for(amount.load, setting.variant, setting.owned, rule.step_amount)
        if amount is not None
        else None
    )
    ladder = tuple(sorted(setting.ladder, key=lambda variant: variant.rung))
    cap = rule.weekly_cap_percent
    cap = setting.cap_percent if cap is None else cap
    return Ground(rule, written, steps, ladder, cap)


def sessions_before_step(rule: Progression, dose: Dose) -> int:
    """Sessions running, done as asked, before a step: the rule's and dose's own, else two."""
    return _needed(rule, dose)


def one_step(now: Dose, written: Dose, rule: Progression, setting: Setting = PLAIN) -> At | None:
    """The next step from a dose that was mastered; None where the rule computes none.

    Args:
        now: the dose that was done, without week table; of a range of repetitions, those reached.
        written: the dose as the protocol writes it: its repetitions are where a new load starts,
            and its range is where the load grows.
    """
    step = _RULES.get(rule.method)
    if step is None:
        return None
    start = first(now)
    ground = _ground(in_week(written, 1), start, rule, setting)
    return _kept(step, setting)(At(start, setting.variant), ground)


def _by_rule(
    written: Dose, rule: Progression, step: Rule, number: int, setting: Setting
) -> Projection:
    start = first(written)
    amount = amount_of(start)
    ground = _ground(written, start, rule, setting)
    steps = ground.steps
    found = often(often_of(start, *setting.often))
    told = [*_asked(rule, start, found.times), *guidance(start, rule, found.days)]
    if steps is not None and steps.assumed and amount is not None:
        told.append(
            Told(
                "kit-unknown",
                f"Nobody said what kit there is: steps of {said(steps.every or 0)} "
                f"{amount.unit} are assumed.",
            )
        )
    if start.sessions:
        told.append(
            Told(
                "kinds-of-session",
                "The dose has several kinds of session: only what they share is projected.",
            )
        )
    rows = _weeks(At(start, setting.variant), ground, _kept(step, setting), number, found.times)
    return Projection(tuple(rows), tuple(told))


def _needed(rule: Progression, dose: Dose) -> int:
    """Sessions before a step."""
    given = [rule.sessions_running, rule.minimum_sessions, dose.minimum_sessions]
    return max((each for each in given if each is not None), default=USUAL_RUNNING)


def _asked(rule: Progression, dose: Dose, times: Figure) -> list[Told]:
    needed = _needed(rule, dose)
    extra = rule.extra_reps or (2 if rule.method is ProgressionMethod.TWO_FOR_TWO else 0)
    more = f", with {extra} repetitions more in the last set" if extra else ""
    source = NSCA if rule.method is ProgressionMethod.TWO_FOR_TWO else ACSM_2009
    own = rule.sessions_running is not None or rule.minimum_sessions is not None
    told = [
        Told(
            "step-asks-for",
            f"A step needs {needed} {'session' if needed == 1 else 'sessions'} running done as "
            f"asked{more}, and comes at most once a week; the clinician confirms it.",
            "" if own else source,
        )
    ]
    if times.low == 0:
        told.append(
            Told(
                "frequency-unknown",
                f"Nothing says how often: {USUAL_TIMES} sessions a week are assumed.",
            )
        )
    return told


def _weeks(at: At, ground: Ground, step: Rule, number: int, times: Figure) -> list[ProjectedWeek]:
    rule = ground.rule
    a_week = times.low or USUAL_TIMES
    needed = _needed(rule, ground.start)
    rows: list[ProjectedWeek] = []
    credit = 0.0
    for week in range(1, number + 1):
        if rule.lighter_week_every and week % rule.lighter_week_every == 0:
            dose, told = lighter(at.dose, rule.lighter_week_percent)
            rows.append(ProjectedWeek(week, dose, at.variant, Change.LIGHTER, told))
            continue
        if rows and credit >= needed and not at.stuck:
            at, credit = step(at, ground), 0.0
        elif rows:
            at = at.stay(stuck=at.stuck)
        rows.append(ProjectedWeek(week, at.dose, at.variant, at.change, at.told))
        credit += a_week
    return rows


def _kept(step: Rule, setting: Setting) -> Rule:
    """A rule whose steps stay below the caps of the stage and of the week."""

    def rule(at: At, ground: Ground) -> At:
        after = _within_cap(at, step(at, ground), ground)
        if after.change is Change.STAY:
            return after
        how_often = often(often_of(after.dose, *setting.often))
        for cap in setting.caps:
            taken = amount_against(cap, after.dose, setting.sides, setting.rounds, how_often)
            if taken.low > cap.most:
                told = Told(
                    "over-stage-cap",
                    f"The next step would ask for {taken.words(cap.of.value)} a {cap.per.value}, "
                    f"and the stage allows at most {cap.most}.",
                )
                return at.stay(told, *proposals(at, ground), stuck=True)
        return after

    return rule


def _within_cap(before: At, after: At, ground: Ground) -> At:
    """The step, or none where the work would grow by more than a week allows."""
    cap = ground.cap_percent
    if cap is None or after.change in (Change.STAY, Change.RUNG):
        return after
    was, now = _work(before.dose), _work(after.dose)
    if was <= 0 or now <= was * (1 + cap / 100) + 1e-6:
        return after
    told = Told(
        "over-weekly-cap",
        f"The next step would be {said(round((now - was) / was * 100))} % more work, and "
        f"{said(cap)} % a week is the most.",
    )
    return before.stay(told, *proposals(before, ground), stuck=True)


def _work(dose: Dose) -> float:
    """Work of a session in one figure: load volume where known, else counts, else seconds."""
    volume = session_volume(dose)
    if volume.load_kg.known and volume.load_kg.low > 0:
        return volume.load_kg.low
    if volume.repetitions.low > 0:
        return volume.repetitions.low
    return volume.tension_s.low
