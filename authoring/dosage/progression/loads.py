"""One step of the load: as large as the rule allows and as the kit really has it."""

from __future__ import annotations

from attrs import frozen

from authoring.dosage.progression.amount import Amount, amount_of, with_amount
from authoring.dosage.progression.counts import least_reps, with_reps
from authoring.dosage.progression.kit import RealSteps, amount_words, percent_step
from authoring.dosage.progression.proposals import MOST_REPS, proposals
from authoring.dosage.progression.state import At, Change, Ground
from authoring.dosage.progression.told import ACSM_2009, EQUATIONS, Told
from authoring.dosage.strength.errors import StrengthError
from authoring.dosage.strength.estimate import n_rm_from_set
from authoring.model.base import said
from authoring.model.dose import Dose, Repetitions
from authoring.model.load import BandLoad, BodyWeightLoad
from authoring.model.protocol import Progression
from authoring.model.vocabulary import WeightUnit

LEAST_PERCENT, MOST_PERCENT = 2.0, 10.0
"""A step of the load: 2 to 10 % (Ratamess NA et al., Med Sci Sports Exerc 2009;41:687-708)."""

_LESS_HELP = {WeightUnit.KG: 2.5, WeightUnit.LB: 5.0}


@frozen
class Limits:
    """The least, the best and the most that the next amount may be."""

    least: float
    aim: float
    most: float


def limits(rule: Progression, amount: Amount) -> Limits:
    """How large the next amount may be.

    The rule's percents count, else its step as a weight, else the step of the load itself,
    else 2 to 10 %. A single percent is what is aimed at; the most is then 10 %, or the percent
    where that is more. Of a range, the lower end is aimed at.
    """
    value = amount.value
    own = getattr(amount.load, "step", None)
    if rule.step_percent is not None:
        aim = value * (1 + rule.step_percent / 100)
        if rule.step_percent_high is not None:
            return Limits(aim, aim, value * (1 + rule.step_percent_high / 100))
        return Limits(value, aim, max(aim, value * (1 + MOST_PERCENT / 100)))
    if rule.step_amount or own:
        step = _step_in(rule, amount) if rule.step_amount else own or 0.0
        return Limits(value, value + step, value + step)
    aim = value * (1 + LEAST_PERCENT / 100)
    return Limits(aim, aim, value * (1 + MOST_PERCENT / 100))


def _step_in(rule: Progression, amount: Amount) -> float:
    step = rule.step_amount or 0.0
    if amount.unit == rule.step_unit.value or amount.unit not in ("kg", "lb"):
        return step
    return step * 2.20462262 if amount.unit == "lb" else step / 2.20462262


def load_step(at: At, ground: Ground, back_to: tuple[int, ...] | None) -> At:
    """The next week after a step of the load.

    Args:
        back_to: repetitions that the new load starts with; None keeps them.
    """
    amount = amount_of(at.dose)
    if amount is None:
        return _no_amount(at, ground)
    if amount.cap is not None and amount.value >= amount.cap:
        return _at_cap(at, ground, amount)
    if amount.value <= 0:
        return _from_body_weight(at, ground, amount, back_to)
    allowed = limits(ground.rule, amount)
    if amount.unit == "%":
        found: float | None = max(amount.value + 1, float(round(allowed.aim)))
    elif ground.steps is None:
        found = None
    else:
        found = ground.steps.best(amount.value, allowed.least, allowed.aim, allowed.most)
    if found is not None:
        if amount.cap is not None and found > amount.cap:
            return _at_cap(at, ground, amount)
        return _stepped(at, amount, found, back_to, _size_told(amount, found))
    return _too_large(at, ground, amount, allowed.most, back_to)


def _stepped(
    at: At, amount: Amount, value: float, back_to: tuple[int, ...] | None, told: tuple[Told, ...]
) -> At:
    dose = with_amount(at.dose, amount, value)
    return at.to(_back(dose, back_to), Change.LOAD, *told)


def _back(dose: Dose, back_to: tuple[int, ...] | None) -> Dose:
    if back_to is None or not isinstance(dose.work, Repetitions):
        return dose
    return with_reps(dose, dose.work, back_to)


def _size_told(amount: Amount, found: float) -> tuple[Told, ...]:
    percent = percent_step(amount.value, found)
    if percent is None or percent <= MOST_PERCENT + 1e-6 or amount.unit not in ("kg", "lb"):
        return ()
    return (
        Told(
            "step-above-guidance",
            f"From {amount_words(amount.value, amount.unit)} to "
            f"{amount_words(found, amount.unit)} is {said(round(percent))} % more, as the "
            "protocol sets it; guidance is 2 to 10 %.",
            ACSM_2009,
        ),
    )


def _no_amount(at: At, ground: Ground) -> At:
    if any(isinstance(load, BandLoad) for load in at.dose.loads):
        told = Told(
            "band-not-measured",
            "The next band's force is not known, so that its step can't be computed: choose it "
            "by effort.",
        )
    else:
        told = Told("no-load-to-step", "The load has no amount that could grow.")
    return at.stay(told, *proposals(at, ground), stuck=True)


def _at_cap(at: At, ground: Ground, amount: Amount) -> At:
    cap = amount_words(amount.cap or 0.0, amount.unit)
    told = Told("cap-reached", f"The next step would pass the most in this stage, {cap}.")
    return at.stay(told, *proposals(at, ground), stuck=True)


def _from_body_weight(
    at: At, ground: Ground, amount: Amount, back_to: tuple[int, ...] | None
) -> At:
    """Less help, or the first added weight: the share of the body's own weight is not known."""
    load = amount.load
    if amount.value < 0 and isinstance(load, BodyWeightLoad):
        value = min(0.0, amount.value + (load.step or _LESS_HELP[load.unit]))
        return _stepped(at, amount, value, back_to, ())
    first = ground.steps.above(0.0) if ground.steps is not None else None
    if first is None or (amount.cap is not None and first > amount.cap):
        return _kit_ends(at, ground, amount)
    told = Told(
        "first-added-weight",
        f"{amount_words(first, amount.unit)} is the first weight added to the body's own: the "
        "share it adds depends on the body and is not computed.",
    )
    return _stepped(at, amount, first, back_to, (told,))


def _kit_ends(at: At, ground: Ground, amount: Amount) -> At:
    told = Told(
        "kit-at-its-end",
        f"The kit at hand has nothing above {amount_words(amount.value, amount.unit)}.",
    )
    return at.stay(told, *proposals(at, ground), stuck=True)


# ---- the next real step is larger than the rule allows --------------------------------


def _too_large(
    at: At, ground: Ground, amount: Amount, most: float, back_to: tuple[int, ...] | None
) -> At:
    steps: RealSteps | None = ground.steps
    after = steps.above(amount.value) if steps is not None else None
    if after is None:
        return _kit_ends(at, ground, amount)
    if amount.cap is not None and after > amount.cap:
        return _at_cap(at, ground, amount)
    told = _larger(amount, after, most)
    work = at.dose.work
    reps = least_reps(work) if isinstance(work, Repetitions) else ()
    if not isinstance(work, Repetitions) or not reps:
        return at.stay(told, *proposals(at, ground), stuck=True)
    enough = reps_before(amount.value, after, min(back_to or least_reps(work)))
    if enough is None:
        return at.stay(told, *proposals(at, ground), stuck=True)
    now = min(reps) + _easy(ground)
    bridge = Told(
        "repetitions-before-load",
        f"At {enough} repetitions with {amount_words(amount.value, amount.unit)}, the middle of "
        f"the equations allows {min(back_to or reps)} with {amount_words(after, amount.unit)}.",
        EQUATIONS,
    )
    if now >= enough:
        return _stepped(at, amount, after, back_to, (told, bridge))
    dose = with_reps(at.dose, work, tuple(each + 1 for each in reps))
    return at.to(dose, Change.REPS, told, bridge, *proposals(at, ground))


def _easy(ground: Ground) -> int:
    """Repetitions above the target that a step asks for anyhow."""
    return ground.rule.extra_reps or 0


def _larger(amount: Amount, after: float, most: float) -> Told:
    percent = percent_step(amount.value, after) or 0.0
    allowed = percent_step(amount.value, most) or 0.0
    return Told(
        "next-step-too-large",
        f"The next real step, from {amount_words(amount.value, amount.unit)} to "
        f"{amount_words(after, amount.unit)}, is {said(round(percent))} % more, and the rule "
        f"allows {said(round(allowed))} %.",
        ACSM_2009 if allowed <= MOST_PERCENT else "",
    )


def reps_before(now: float, after: float, reps: int) -> int | None:
    """Repetitions with ``now`` at which the equations allow ``reps`` with ``after``.

    The middle of the equations counts: they differ widely, and the clinician confirms the step.

    None where more than 15 would be needed.
    """
    for more in range(reps, MOST_REPS + 1):
        try:
            allowed = n_rm_from_set(now, more, reps)
        except StrengthError:
            return None
        if allowed.middle >= after - 1e-9:
            return more
    return None
