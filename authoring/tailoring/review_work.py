"""Whether what the rule asks for was done: sessions, adherence, repetitions, seconds, load."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from attrs import frozen

from authoring.dosage.arithmetic.weights import in_kg
from authoring.dosage.progression.project import USUAL_RUNNING
from authoring.model.base import said
from authoring.model.dose import Dose, Duration, Holds, Repetitions, TotalRepetitions
from authoring.model.load import WeightLoad
from authoring.model.plan import Plan, PlanItem
from authoring.model.protocol import Progression, Protocol
from authoring.model.review import ItemReview
from authoring.model.vocabulary import ProgressionMethod, ReviewOutcome
from authoring.tailoring.place import Place
from authoring.tailoring.review_pain import Finding
from authoring.tailoring.review_reasons import because, cited, usual_source

LEAST_ADHERENCE = 0.8
"""Share of the planned sessions below which nothing steps up: 80 % is the threshold most used
(Bailey DL et al., Br J Sports Med 2020;54:326-331; value from memory)."""
_ADHERENCE_SOURCE = "Bailey DL et al., Br J Sports Med 2020;54:326-331 (value from memory)"

_CLOSE = 1e-6


@frozen
class Asked:
    """What a step up asks for.

    Attributes:
        running: sessions running, done as asked.
        sessions: sessions since the plan was made.
        extra: repetitions above the dose in the last set.
        source: what the rule rests on.
    """

    running: int
    sessions: int
    extra: int
    source: str


_EXTRA = {ProgressionMethod.TWO_FOR_TWO: 2, ProgressionMethod.PERCENT_STEP: 1}
"""Repetitions above the dose where the rule gives none: two-for-two (NSCA, value from memory);
one to two before a step by percent (Ratamess NA et al., 2009)."""


def asked_of(rule: Progression, dose: Dose, protocol: Protocol | None) -> Asked:
    """What the rule asks for before a step."""
    running = rule.sessions_running or USUAL_RUNNING
    sessions = max(running, rule.minimum_sessions or 0, dose.minimum_sessions or 0)
    extra = rule.extra_reps if rule.extra_reps is not None else _EXTRA.get(rule.method, 0)
    source = cited(rule.sources, protocol) or usual_source(rule.method.value)
    return Asked(running, sessions, extra, source)


def planned_sessions(plan: Plan, item: PlanItem, place: Place | None, today: dt.date) -> int | None:
    """Sessions of an exercise that the plan asked for up to a day; None where that is open."""
    often = place.often(item.dose) if place is not None and item.dose is not None else None
    days = item.days or plan.days
    wanted = len(days) if days else None
    if often is not None and often.days_per_week is not None:
        wanted = min(wanted or 7, often.days_per_week.low)
    if wanted is None:
        return None
    a_day = often.times_per_day.low if often is not None and often.times_per_day else 1
    return int((today - plan.created).days / 7 * wanted * a_day)


def session_findings(found: ItemReview, asked: Asked, planned: int | None) -> Iterator[Finding]:
    """Sessions done, in all and running, against what the rule and the plan ask for."""
    same = ReviewOutcome.SAME
    done, running = found.sessions_done, found.sessions_running
    if done is None:
        yield Finding(same, because("review-sessions-not-known"))
    elif done < asked.sessions:
        text = f"{done} sessions were done, and {asked.sessions} come before a step up."
        yield Finding(same, because("review-sessions-few", text, asked.source))
    elif planned and done < planned * LEAST_ADHERENCE - _CLOSE:
        least = round(LEAST_ADHERENCE * 100)
        text = f"{done} of about {planned} sessions were done, fewer than {least} %."
        yield Finding(same, because("review-adherence-low", text, _ADHERENCE_SOURCE))
    if running is None:
        yield Finding(same, because("review-running-not-known"))
    elif running < asked.running:
        text = f"{running} sessions running were as asked, and a step needs {asked.running}."
        yield Finding(same, because("review-running-few", text, asked.source))


def work_findings(found: ItemReview, dose: Dose, asked: Asked) -> Iterator[Finding]:
    """Repetitions, seconds and load reached against the dose."""
    work = dose.work
    match work:
        case Repetitions(reps=reps) if reps:
            target = reps[-1].top + asked.extra
            yield from _reached(found.reps_reached, target, "repetitions in the last set", asked)
        case TotalRepetitions(total=total):
            yield from _reached(found.reps_reached, total.top, "repetitions in all", asked)
        case Holds(hold_s=holds) if holds:
            longest = max(each.top for each in holds)
            yield from _reached(found.seconds_reached, longest, "seconds", asked)
        case Duration(seconds=seconds):
            yield from _reached(found.seconds_reached, seconds.top, "seconds", asked)
    yield from _load(found, dose)


def _reached(reached: int | None, target: int, unit: str, asked: Asked) -> Iterator[Finding]:
    if reached is None:
        yield Finding(ReviewOutcome.SAME, because("review-work-not-known"))
    elif reached < target:
        text = f"{reached} {unit} were reached, and a step up asks for {target}."
        yield Finding(ReviewOutcome.SAME, because("review-work-short", text, asked.source))


def _load(found: ItemReview, dose: Dose) -> Iterator[Finding]:
    load = next((each for each in dose.loads if isinstance(each, WeightLoad)), None)
    if load is None or load.amount.low <= 0:
        return
    if found.load_reached is None:
        yield Finding(ReviewOutcome.SAME, because("review-load-not-known"))
        return
    used, written = in_kg(found.load_reached, found.load_unit), in_kg(load.amount.low, load.unit)
    if used < written - 1e-3:
        text = (
            f"{said(found.load_reached)} {found.load_unit.value} was used, and the plan says "
            f"{said(load.amount.low)} {load.unit.value}."
        )
        yield Finding(ReviewOutcome.SAME, because("review-load-short", text))
