"""Where a dose or its rule leaves published guidance on strengthening."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.arithmetic.figure import Figure
from authoring.dosage.progression.amount import amount_of
from authoring.dosage.progression.told import ACSM_2009, Told
from authoring.model.base import said
from authoring.model.dose import Dose, Repetitions
from authoring.model.load import PercentLoad, RepMaxLoad
from authoring.model.protocol import Progression
from authoring.model.vocabulary import Quantity

GARBER = "Garber CE et al., Med Sci Sports Exerc 2011;43:1334-1359"

_FEWEST_DAYS, _MOST_DAYS = 2, 5
_HEAVY_PERCENT, _HEAVY_REPS, _HEAVY_REST_S = 80, 6, 180
_LEAST_PERCENT, _MOST_PERCENT = 2, 10


def guidance(dose: Dose, rule: Progression, days: Figure) -> Iterator[Told]:
    """What leaves guidance: the step of the load, days a week, rest with heavy loads.

    Only for repetitions against a load with an amount or a share of a maximum.

    Args:
        days: days a week.
    """
    yield from _step(rule)
    if not isinstance(dose.work, Repetitions) or not _loaded(dose):
        return
    if days.known and days.high is not None and days.high < _FEWEST_DAYS:
        yield Told(
            "days-below-guidance",
            f"{days.words()} days a week: strengthening is usual on at least {_FEWEST_DAYS}.",
            GARBER,
        )
    if days.low > _MOST_DAYS:
        yield Told(
            "days-above-guidance",
            f"{days.words()} days a week: strengthening is usual on at most {_MOST_DAYS}, with "
            "48 hours between sessions for the same muscles.",
            ACSM_2009,
        )
    yield from _rest(dose)


def _loaded(dose: Dose) -> bool:
    heavy = any(isinstance(load, RepMaxLoad) for load in dose.loads)
    amount = amount_of(dose)
    return heavy or (amount is not None and amount.unit in ("kg", "lb", "%"))


def _step(rule: Progression) -> Iterator[Told]:
    for percent in (rule.step_percent, rule.step_percent_high):
        if percent is not None and percent > _MOST_PERCENT:
            yield Told(
                "step-above-guidance",
                f"A step of {said(percent)} %: guidance is {_LEAST_PERCENT} to {_MOST_PERCENT} %.",
                ACSM_2009,
            )
            return
    if rule.step_percent is not None and 0 < rule.step_percent < _LEAST_PERCENT:
        yield Told(
            "step-below-guidance",
            f"A step of {said(rule.step_percent)} %: guidance is {_LEAST_PERCENT} to "
            f"{_MOST_PERCENT} %.",
            ACSM_2009,
        )


def _heavy(dose: Dose) -> bool:
    for load in dose.loads:
        if isinstance(load, RepMaxLoad) and load.reps.top <= _HEAVY_REPS:
            return True
        if isinstance(load, PercentLoad) and load.of.quantity is Quantity.ONE_RM:
            return min(share.low for share in load.per_set) >= _HEAVY_PERCENT
    return False


def _rest(dose: Dose) -> Iterator[Told]:
    rest = dose.rest
    if rest is None or rest.seconds is None or not _heavy(dose):
        return
    if rest.seconds.top < _HEAVY_REST_S:
        yield Told(
            "rest-below-guidance",
            f"Rest of {said(rest.seconds.top)} s with a heavy load: 3 to 5 minutes are usual.",
            ACSM_2009,
        )
