"""The next step of one exercise: up by its rule and the real kit, down, or a hold instead."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from authoring.dosage.arithmetic.effective import in_week, row_of_week
from authoring.dosage.placed_dose import dose_here
from authoring.dosage.progression.lighter import lighter
from authoring.dosage.progression.placed import allowed, rounds_of, usual_rule
from authoring.dosage.progression.project import Setting, one_step
from authoring.dosage.progression.state import At, Change
from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.dose import (
    Dose,
    Duration,
    Holds,
    Repetitions,
    TotalRepetitions,
    WeekRow,
)
from authoring.model.load import IntRange
from authoring.model.plan import Plan, PlanItem, Reason
from authoring.model.protocol import Entry, Progression
from authoring.model.vocabulary import Mode, ProgressionMethod, ReviewOutcome
from authoring.tailoring.candidates import Candidate, exclusions, group_of, start_of
from authoring.tailoring.case import Case
from authoring.tailoring.cautioned import plain
from authoring.tailoring.place import Place
from authoring.tailoring.reasons import hard
from authoring.tailoring.review_reasons import because, from_told
from authoring.tailoring.review_weights import lower_load
from authoring.tailoring.select import fitted, pain_at


@frozen(eq=False)
class Stand:
    """Where one exercise of a plan stands when it is reviewed.

    Attributes:
        place: where its protocol has it.
        card, variant, dose: what was done; the dose is that of the week last done.
        rule: None where nobody wrote how it grows.
        written: the dose that the protocol writes for the variant.
        week: week of the plan that was last done, from 1.
    """

    case: Case
    plan: Plan
    item: PlanItem
    place: Place
    card: Card
    variant: Variant
    dose: Dose
    rule: Progression | None
    written: Dose
    week: int

    @property
    def entry(self) -> Entry | None:
        """The entry, where the card is still the one that the protocol puts there."""
        return self.place.entry if self.place.card.id == self.card.id else None

    @property
    def start(self) -> Variant | None:
        """The variant that the place starts with, where the card is still the same."""
        return start_of(self.place) if self.place.card.id == self.card.id else None

    def to(self, variant: Variant, dose: Dose | None, *reasons: Reason) -> Step:
        """The exercise with another variant or dose."""
        item = evolve(self.item, variant=variant.id, dose=dose)
        return Step(item, reasons)

    def excluded(self, variant: Variant, dose: Dose | None) -> tuple[Reason, ...]:
        """Hard rules that exclude a variant with a dose here, those set aside before left out."""
        rules = self.case.rules_for(self.item.side)
        place = evolve(self.place, card=self.card)
        pain = pain_at(place, rules, self.case)
        aside = {code for each in self.item.overrides for code in each.rules}
        kept = aside if variant.id == self.item.variant else set()
        found = hard(exclusions(place, self.card, variant, dose, rules, pain))
        return tuple(reason for reason in found if reason.code not in kept)

    def with_rung(self, variant: Variant) -> Dose | None:
        """The dose of another variant here, fitted to limits, weights and days."""
        dose = dose_here(self.entry, variant)
        place = evolve(self.place, card=self.card)
        made = Candidate(self.card, variant, dose)
        return fitted(place, made, self.case, (), ()).dose


@frozen
class Step:
    """A next exercise and why; ``item`` is None where there is none.

    Attributes:
        outcome: set where it differs from what was asked for.
    """

    item: PlanItem | None
    reasons: tuple[Reason, ...]
    outcome: ReviewOutcome | None = None


def rule_of(place: Place, card: Card, dose: Dose) -> Progression | None:
    """The entry's rule; for a card that no protocol places there the usual one of its work."""
    if place.entry is not None and place.card.id == card.id:
        return place.entry.progression
    return usual_rule(dose)


# ---- up ----------------------------------------------------------------------------------


def step_up(at: Stand) -> Step:
    """The next step up; the same exercise with reasons where there is none.

    First back towards what the protocol starts with, where it is done easier or as a hold; then
    by the rule.
    """
    rule = at.rule
    back = _towards_start(at)
    if back is not None:
        return _kept_rules(at, at.to(back, at.with_rung(back), because("review-back-to-written")))
    if rule is None or rule.method is ProgressionMethod.CLINICIAN:
        return Step(None, (because("review-no-rule"),))
    if at.item.dose is not None and at.item.dose.weeks and _is_by_table(at, rule):
        return _kept_rules(at, table_step(at, up=True))
    found = one_step(mastered(at.dose), at.written, _below_ceiling(rule, at.dose), _setting(at))
    if found is None:
        return Step(None, (because("review-no-rule"),))
    return _kept_rules(at, _stepped(at, found))


def _kept_rules(at: Stand, step: Step) -> Step:
    """The step, or none where a hard rule excludes it."""
    if step.item is None:
        return step
    variant = at.card.variant(step.item.variant)
    excluded = at.excluded(variant, step.item.dose) if variant is not None else ()
    if not excluded:
        return step
    text = f"The next step can't be used: {' '.join(reason.text for reason in excluded)}"
    return Step(None, (because("review-step-excluded", text),))


def _towards_start(at: Stand) -> Variant | None:
    """The next variant back up to the start, where the exercise is done easier than written."""
    start = at.start
    if start is None or at.variant.id == start.id or at.variant.rung > start.rung:
        return None
    group = group_of(at.place, at.variant, start)
    rungs = sorted(_ladder(at), key=lambda variant: variant.rung)
    moving = [v for v in rungs if group_of(at.place, v, start) in ("start", "same", "easier")]
    usable = [v for v in moving if not at.excluded(v, at.with_rung(v))]
    if group == "hold":
        back = [v for v in usable if v.rung >= min(at.variant.rung, start.rung)]
        return next(iter(back or usable), start)
    if group != "easier":
        return None
    return next((v for v in usable if v.rung > at.variant.rung), start)


def _is_by_table(at: Stand, rule: Progression) -> bool:
    return rule.method is ProgressionMethod.WEEK_TABLE


def _ladder(at: Stand) -> tuple[Variant, ...]:
    return allowed(at.entry, at.card) if at.entry is not None else at.card.variants


def _setting(at: Stand) -> Setting:
    block, stage = at.place.block, at.place.stage
    presentation = at.case.presentation
    return Setting(
        variant=at.variant,
        ladder=tuple(v for v in _ladder(at) if v.mode is not Mode.ISOMETRIC or v is at.variant)
        if at.variant.mode is not Mode.ISOMETRIC
        else _ladder(at),
        often=(
            block.frequency if block is not None else None,
            stage.frequency if stage is not None else None,
        ),
        owned=presentation.kit,
        cap_percent=stage.weekly_cap_percent if stage is not None else None,
        caps=stage.caps if stage is not None else (),
        sides=at.place.entry.sides if at.place.entry is not None else None,
        rounds=rounds_of(block),
    )


def _below_ceiling(rule: Progression, dose: Dose) -> Progression:
    """The rule; one by rungs adds repetitions until its ceiling is reached."""
    work, ceiling = dose.work, rule.reps_ceiling
    if rule.method is not ProgressionMethod.NEXT_RUNG or ceiling is None:
        return rule
    if isinstance(work, Repetitions) and work.reps and work.reps[-1].top < ceiling:
        return evolve(rule, method=ProgressionMethod.REPS_THEN_LOAD)
    return rule


def mastered(dose: Dose) -> Dose:
    """The dose with the upper end of its ranges, which was reached before a step up."""
    work = dose.work
    match work:
        case Repetitions(reps=reps):
            top = tuple(IntRange(low=each.top) for each in reps)
            return evolve(dose, work=evolve(work, reps=top, sets=IntRange(low=work.sets.top)))
        case Holds(hold_s=holds):
            longest = tuple(IntRange(low=each.top) for each in holds)
            return evolve(dose, work=evolve(work, hold_s=longest))
        case Duration(seconds=seconds):
            return evolve(dose, work=evolve(work, seconds=IntRange(low=seconds.top)))
        case TotalRepetitions(total=total):
            return evolve(dose, work=evolve(work, total=IntRange(low=total.top)))
    return dose


def _stepped(at: Stand, found: At) -> Step:
    told = from_told(found.told)
    if found.change is Change.STAY:
        higher = _higher(at) if any(t.code in _AT_ITS_END for t in found.told) else None
        if higher is None:
            return Step(None, (because("review-no-step"), *told))
        text = f"The next rung instead: {plain(higher.name, at.card.language)}"
        reason = because("review-rung-up", text)
        return at.to(higher, at.with_rung(higher), reason, *told[:1])
    if found.change is Change.RUNG and found.variant is not None:
        return at.to(found.variant, at.with_rung(found.variant), *told)
    dose = found.dose
    if found.change is Change.LOAD:
        dose = _as_written(dose, at.written)
    elif found.change is Change.SETS:
        dose = _with_ranges(dose, at.dose)
    return at.to(at.variant, dose, *told)


_AT_ITS_END = frozenset(
    {"ceiling-reached", "no-load-to-step", "band-not-measured", "kit-at-its-end"}
)
"""What a rule says when it has come to its end here, so that only the ladder goes on."""


def _higher(at: Stand) -> Variant | None:
    """The next rung of movement that the entry allows."""
    if at.entry is None:
        return None
    rungs = sorted(_setting(at).ladder, key=lambda variant: variant.rung)
    return next((v for v in rungs if v.rung > at.variant.rung), None)


def _with_ranges(dose: Dose, before: Dose) -> Dose:
    """More sets keep the range of repetitions that each of them had."""
    work, own = dose.work, before.work
    if not isinstance(work, Repetitions) or not isinstance(own, Repetitions) or len(own.reps) != 1:
        return dose
    return evolve(dose, work=evolve(work, reps=own.reps))


def _as_written(dose: Dose, written: Dose) -> Dose:
    """A new load begins with the range of repetitions that the protocol writes."""
    work, own = dose.work, written.work
    if not isinstance(work, Repetitions) or not isinstance(own, Repetitions):
        return dose
    if tuple(each.low for each in own.reps) != tuple(each.low for each in work.reps):
        return dose
    return evolve(dose, work=evolve(work, reps=own.reps))


# ---- week tables -------------------------------------------------------------------------


def table_step(at: Stand, *, up: bool) -> Step:
    """The week table from the next row on (up), or from the row that was done last."""
    dose = at.item.dose
    if dose is None:
        return Step(None, (because("review-no-rule"),))
    row, after = row_of_week(dose, at.week), row_of_week(dose, at.week + 1)
    if not up:
        return at.to(at.variant, from_week(dose, at.week), because("review-table-repeat"))
    if after is None or (row is not None and row.to_week is None):
        ended = from_week(dose, at.week)
        return Step(
            evolve(at.item, dose=ended), (because("review-table-ended"),), ReviewOutcome.SAME
        )
    goes_on = row is after
    code = "review-table-goes-on" if goes_on else "review-table-next"
    outcome = ReviewOutcome.SAME if goes_on else None
    item = evolve(at.item, dose=from_week(dose, at.week + 1))
    return Step(item, (because(code),), outcome)


def from_week(dose: Dose, week: int) -> Dose:
    """The dose with its week table counted anew from a week on: that week becomes the first."""
    if week <= 1:
        return dose
    return evolve(dose, weeks=tuple(_moved(dose.weeks, week)))


def _moved(rows: Sequence[WeekRow], week: int) -> Iterator[WeekRow]:
    for row in rows:
        if row.to_week is not None and row.to_week < week:
            continue
        last = None if row.to_week is None else row.to_week - week + 1
        yield evolve(row, from_week=max(1, row.from_week - week + 1), to_week=last)


def _row_before(at: Stand) -> Dose | None:
    """The dose from the row before on; None where there is none."""
    dose = at.item.dose
    if dose is None or not dose.weeks:
        return None
    row = row_of_week(dose, at.week)
    earlier = [each for each in dose.weeks if row is not None and each.from_week < row.from_week]
    if not earlier:
        return None
    return from_week(dose, earlier[-1].to_week or earlier[-1].from_week)


# ---- down, hold, stop --------------------------------------------------------------------


def step_down(at: Stand) -> Step:
    """Something easier: a lighter load, an easier rung, a permitted hold, less of the work."""
    before = _row_before(at)
    if before is not None and not at.excluded(at.variant, before):
        return at.to(at.variant, before, because("review-table-back"))
    lighter_load = lower_load(at.dose, at.variant, at.case.presentation.kit)
    if lighter_load is not None and not at.excluded(at.variant, lighter_load):
        return at.to(at.variant, lighter_load, because("review-load-down"))
    found = _easier_rung(at) or _hold(at)
    if found is not None:
        return found
    less, told = lighter(at.dose, None)
    if less != at.dose and not at.excluded(at.variant, less):
        return at.to(at.variant, less, because("review-work-down"), *from_told(told[1:]))
    return _nothing(at)


def step_to_hold(at: Stand) -> Step:
    """A permitted hold instead of movement, else an easier rung, else nothing."""
    return _hold(at) or _easier_rung(at) or _nothing(at)


def _nothing(at: Stand) -> Step:
    return Step(None, (because("review-nothing-easier"),), ReviewOutcome.STOP)


def _easier_rung(at: Stand) -> Step | None:
    start = at.start or at.variant
    lower = [v for v in _ladder(at) if v.rung < at.variant.rung]
    moving = [v for v in lower if v.mode is not Mode.ISOMETRIC or start.mode is Mode.ISOMETRIC]
    for variant in sorted(moving, key=lambda v: -v.rung):
        dose = at.with_rung(variant)
        if not at.excluded(variant, dose):
            text = f"An easier rung: {plain(variant.name, at.card.language)}"
            reason = because("review-rung-down", text)
            return evolve(at.to(variant, dose, reason), outcome=ReviewOutcome.DOWN)
    return None


def _hold(at: Stand) -> Step | None:
    """A hold that the author permits here, where the exercise is done as movement."""
    entry = at.entry
    if entry is None or at.variant.mode is Mode.ISOMETRIC:
        return None
    for name in entry.may_hold:
        variant = at.card.variant(name)
        if variant is None or variant.mode is not Mode.ISOMETRIC:
            continue
        dose = at.with_rung(variant)
        if not at.excluded(variant, dose):
            words = plain(variant.name, at.card.language)
            reason = because("review-hold", f"A hold instead of movement: {words}")
            return evolve(at.to(variant, dose, reason), outcome=ReviewOutcome.HOLD_INSTEAD)
    return None


def dose_of_week(item: PlanItem, entry: Entry | None, variant: Variant, week: int) -> Dose | None:
    """The dose that was done in a week of the plan."""
    dose = item.dose if item.dose is not None else dose_here(entry, variant)
    return None if dose is None else in_week(dose, week)
