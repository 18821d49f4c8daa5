"""What the pain of a report leads to: bands in force, next morning, and a rise since last time.

The worst action of every band up to the pain counts, so that more pain never gives a milder
outcome, whatever the order of an author's bands.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from attrs import frozen

from authoring.model.base import said
from authoring.model.pain import PainBand, PainRule
from authoring.model.patient import ExercisePain
from authoring.model.plan import PlanItem, Reason
from authoring.model.protocol import Protocol
from authoring.model.review import ItemReview
from authoring.model.vocabulary import PainAction, ReviewOutcome, Side
from authoring.tailoring.pain import SEVERITY
from authoring.tailoring.review_reasons import because, cited_pain

WORSE = (
    ReviewOutcome.UP,
    ReviewOutcome.SAME,
    ReviewOutcome.DOWN,
    ReviewOutcome.HOLD_INSTEAD,
    ReviewOutcome.STOP,
)
"""Outcomes, mildest first."""

_LEADS_TO = {
    PainAction.CARRY_ON: ReviewOutcome.UP,
    PainAction.STAY: ReviewOutcome.SAME,
    PainAction.GO_EASIER: ReviewOutcome.DOWN,
    PainAction.REST: ReviewOutcome.DOWN,
    PainAction.STEP_BACK: ReviewOutcome.DOWN,
    PainAction.STOP_TODAY: ReviewOutcome.HOLD_INSTEAD,
    PainAction.STOP_AND_CALL: ReviewOutcome.STOP,
}


@frozen
class Finding:
    """One thing found, the mildest outcome that it allows, and why."""

    outcome: ReviewOutcome
    reason: Reason


def worst(findings: Iterable[Finding]) -> ReviewOutcome:
    """The gravest outcome; up where nothing stands against it."""
    return max((each.outcome for each in findings), key=WORSE.index, default=ReviewOutcome.UP)


def worst_action(bands: tuple[PainBand, ...], pain: float) -> PainAction:
    """The gravest action of the band that a pain lies in and of all bands below it."""
    passed = [bands[0].action]
    for lower, band in pairwise(bands):
        if pain > lower.up_to:
            passed.append(band.action)
    return max(passed, key=SEVERITY.index)


def pain_findings(
    rule: PainRule | None,
    protocol: Protocol | None,
    found: ItemReview,
    before: tuple[float | None, float | None],
) -> Iterator[Finding]:
    """Everything that pain says of one exercise.

    Args:
        rule: the rule in force; None for programmes that may not have a default one.
        before: pain during it last time, and its usual pain in the morning, where known.
    """
    if rule is None:
        yield Finding(ReviewOutcome.SAME, because("review-no-pain-rule"))
        return
    source = cited_pain(rule, protocol)
    yield from _during(rule, found, source)
    if rule.next_morning is not None:
        yield from _morning(rule, found, before[1], source)
    if found.pain_during is not None and before[0] is not None and found.pain_during > before[0]:
        text = f"Pain of {said(found.pain_during)} during it, and {said(before[0])} last time."
        yield Finding(ReviewOutcome.SAME, because("review-pain-rose", text))


def _during(rule: PainRule, found: ItemReview, source: str) -> Iterator[Finding]:
    if found.pain_during is None:
        yield Finding(ReviewOutcome.SAME, because("review-pain-not-asked"))
    else:
        yield _band(rule.during, found.pain_during, "during it", source)
    if found.pain_after is not None:
        yield _band(rule.after or rule.during, found.pain_after, "after it", source)
    elif rule.after:
        yield Finding(ReviewOutcome.SAME, because("review-after-not-asked"))


def _band(bands: tuple[PainBand, ...], pain: float, when: str, source: str) -> Finding:
    action = worst_action(bands, pain)
    words = action.value.replace("_", " ")
    text = f"Pain of {said(pain)} {when}: “{words}”."
    outcome = _LEADS_TO[action]
    code = "review-pain-allows" if outcome is ReviewOutcome.UP else "review-pain-band"
    return Finding(outcome, because(code, text, source))


def _morning(
    rule: PainRule, found: ItemReview, usual: float | None, source: str
) -> Iterator[Finding]:
    after = rule.next_morning
    if after is None:
        return
    pain = found.pain_next_morning
    outcome = max(_LEADS_TO[after.action], ReviewOutcome.SAME, key=WORSE.index)
    if after.most is not None and pain is not None and pain > after.most:
        text = f"Pain of {said(pain)} next morning, and {said(after.most)} is allowed."
        yield Finding(outcome, because("review-not-settled", text, source))
    settled = _settled(found, usual)
    if settled is False:
        text = f"Pain was not back to its usual level within {after.settles_within_h} hours."
        yield Finding(outcome, because("review-not-settled", text, source))
    elif settled is None and (after.most is None or pain is None):
        yield Finding(ReviewOutcome.SAME, because("review-morning-not-asked"))


def _settled(found: ItemReview, usual: float | None) -> bool | None:
    """Whether pain was back to its usual level: as answered, and not above the usual one."""
    pain = found.pain_next_morning
    rose = pain is not None and usual is not None and pain > usual
    if found.settled is False or rose:
        return False
    if found.settled or pain == 0:
        return True
    return True if pain is not None and usual is not None else None


def before_of(
    pains: Iterable[ExercisePain], item: PlanItem, usual: float | None
) -> tuple[float | None, float | None]:
    """Pain during an exercise last time, and its usual pain in the morning.

    Only what was scored with the same card and variant (or without saying which) counts as last
    time: another variant is another load.
    """
    mine = [
        pain
        for pain in pains
        if pain.card == item.card
        and pain.variant in (None, item.variant)
        and (pain.side in (Side.NONE, item.side) or item.side in (Side.NONE, Side.BOTH))
    ]
    during = [pain.during for pain in mine if pain.during is not None]
    return min(during, default=None), usual


def steps_back(rule: PainRule | None, found: ItemReview | None) -> bool:
    """Whether the pain lies in or above a band that asks for the stage before."""
    if rule is None or found is None:
        return False
    pairs = [(rule.during, found.pain_during), (rule.after or rule.during, found.pain_after)]
    for bands, pain in pairs:
        if pain is None:
            continue
        lower = [0.0, *(band.up_to for band in bands)]
        for floor, band in zip(lower, bands, strict=False):
            passed = pain > floor or (floor == 0.0)
            if passed and band.action is PainAction.STEP_BACK:
                return True
    return False
