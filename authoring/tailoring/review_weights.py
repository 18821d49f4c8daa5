"""One real step less of a load."""

from __future__ import annotations

from collections.abc import Sequence

from authoring.dosage.progression.amount import Amount, amount_of, with_amount
from authoring.dosage.progression.kit import RealSteps, steps_for
from authoring.model.card import Variant
from authoring.model.dose import Dose
from authoring.model.patient import OwnedKit

SHARE = 0.9
"""A lighter load is at most nine tenths of the one before: the largest usual step up, 10 %, taken
back (Ratamess NA et al., Med Sci Sports Exerc 2009;41:687-708 give 2 to 10 % for the step up)."""

_CLOSE = 1e-6


def lower_load(dose: Dose, variant: Variant, owned: Sequence[OwnedKit]) -> Dose | None:
    """The dose with the next lighter load that can really be had; None where there is none."""
    amount = amount_of(dose)
    if amount is None or amount.value <= 0:
        return None
    if amount.unit == "%":
        return with_amount(dose, amount, float(round(amount.value * SHARE)))
    steps = steps_for(amount.load, variant, owned)
    found = _below(steps, amount) if steps is not None else None
    return None if found is None else with_amount(dose, amount, found)


def _below(steps: RealSteps, amount: Amount) -> float | None:
    most = amount.value * SHARE + _CLOSE
    if steps.sizes:
        return max((size for size in steps.sizes if size <= most), default=None)
    every = steps.every or 0.0
    if every <= 0:
        return None
    whole = int(most / every)
    return round(whole * every, 6) if whole > 0 else None
