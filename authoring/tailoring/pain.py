"""Pain that was scored with an exercise, against the bands in force."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from authoring.dosage.pain import rule_in_force
from authoring.model.base import said
from authoring.model.pain import PainBand, PainRule
from authoring.model.vocabulary import PainAction
from authoring.tailoring.facts import Facts
from authoring.tailoring.place import Place

SEVERITY = (
    PainAction.CARRY_ON,
    PainAction.STAY,
    PainAction.GO_EASIER,
    PainAction.REST,
    PainAction.STEP_BACK,
    PainAction.STOP_TODAY,
    PainAction.STOP_AND_CALL,
)
"""What to do in a band, mildest first."""

STOPS = frozenset({PainAction.STOP_TODAY, PainAction.STOP_AND_CALL})
EASES = frozenset({PainAction.GO_EASIER, PainAction.REST, PainAction.STEP_BACK, *STOPS})


@frozen
class PainFound:
    """What pain with an exercise leads to.

    Attributes:
        action: None where no pain was scored, or no rule is in force.
        worst: the worst pain that was scored, None for none.
        tried: variants that were tried; empty where nobody said which.
        text: one sentence.
    """

    action: PainAction | None
    worst: float | None
    tried: frozenset[str]
    text: str


def band_of(bands: tuple[PainBand, ...], pain: float) -> PainBand:
    """The band that a pain lies in; the last one ends at 10."""
    return next((band for band in bands if pain <= band.up_to), bands[-1])


def rule_for(place: Place, clinic_rule: PainRule | None) -> PainRule | None:
    """The rule in force: the exercise's, else stage's, protocol's, clinic's, else the default."""
    if place.protocol is None:
        return rule_in_force(place.single_under, None, None, clinic_rule)
    return rule_in_force(place.protocol, place.stage, place.entry, clinic_rule)


def pain_of(place: Place, facts: Facts, clinic_rule: PainRule | None) -> PainFound:
    """What the pain with this exercise, and the next morning, lead to."""
    pains = facts.pains(place.card.id, place.card.movements)
    during = max((p.during for p in pains if p.during is not None), default=None)
    own = [p.next_morning for p in pains if p.next_morning is not None]
    morning = max(own, default=facts.presentation.morning_pain)
    tried = frozenset(p.variant for p in pains if p.variant is not None)
    worst = max((v for v in (during, max(own, default=None)) if v is not None), default=None)
    if during is None and morning is None:
        return PainFound(None, None, tried, "")
    rule = rule_for(place, clinic_rule)
    if rule is None:
        return PainFound(None, worst, tried, "")
    return _judged(rule, during, morning, worst, tried)


def _judged(
    rule: PainRule,
    during: float | None,
    morning: float | None,
    worst: float | None,
    tried: frozenset[str],
) -> PainFound:
    found: list[tuple[PainAction, str]] = []
    if during is not None:
        band = band_of(rule.during, during)
        words = band.action.value.replace("_", " ")
        found.append((band.action, f"Pain of {said(during)} during it: “{words}”."))
    after = rule.next_morning
    if after is not None and after.most is not None and morning is not None:
        words = after.action.value.replace("_", " ")
        said_so = f"Pain of {said(morning)} next morning, and {said(after.most)} is allowed"
        if morning > after.most:
            found.append((after.action, f"{said_so}: “{words}”."))
    if not found:
        return PainFound(None, worst, tried, "")
    action, text = max(found, key=lambda each: SEVERITY.index(each[0]))
    return PainFound(action, worst, tried, text)


def worst_pain(found: Sequence[PainFound]) -> PainFound:
    """The one of several sides' pains that asks for most."""
    return max(
        found,
        key=lambda each: (
            -1 if each.action is None else SEVERITY.index(each.action),
            each.worst or 0,
        ),
    )
