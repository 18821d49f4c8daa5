"""Loads of a dose that need kit, against the kit that a variant lists."""

from __future__ import annotations

from authoring.model.base import evolve
from authoring.model.card import Variant
from authoring.model.dose import Dose
from authoring.model.load import BandLoad, Load, WeightLoad
from authoring.model.vocabulary import SupportKind

_BANDS = frozenset({"band", "bands", "tube", "tubing", "elastic", "elastique", "elastico", "loop"})
_HOUSE = frozenset({kind.value.replace("_", "-") for kind in SupportKind} | {"worktop", "mat"})


def lacks_kit(load: Load, variant: Variant) -> bool:
    """Whether a load is of kit that a variant does not list, not even as what may be spared.

    A band is found by its id where the load names one, else by its word; a weight is lacking
    only where nothing is listed that could be one, for a machine often goes unlisted. A weight
    of nothing needs no kit.
    """
    kits = {need.kit for need in variant.equipment}
    if isinstance(load, BandLoad):
        if load.band is not None and load.band in kits:
            return False
        return not any(_BANDS & set(kit.split("-")) for kit in kits)
    if isinstance(load, WeightLoad):
        return (
            load.amount.top > 0 and not {n.kit for n in variant.equipment if not n.spare} - _HOUSE
        )
    return False


def without_missing_kit(dose: Dose, variant: Variant) -> Dose:
    """The dose without loads of kit that the variant does not list, in every week and session."""
    if not any(lacks_kit(load, variant) for load in _every(dose)):
        return dose

    def kept(loads: tuple[Load, ...]) -> tuple[Load, ...]:
        return tuple(load for load in loads if not lacks_kit(load, variant))

    return evolve(
        dose,
        loads=kept(dose.loads),
        weeks=tuple(
            row
            if row.change.loads is None
            else evolve(row, change=evolve(row.change, loads=kept(row.change.loads)))
            for row in dose.weeks
        ),
        sessions=tuple(
            kind
            if kind.change.loads is None
            else evolve(kind, change=evolve(kind.change, loads=kept(kind.change.loads)))
            for kind in dose.sessions
        ),
    )


def _every(dose: Dose) -> tuple[Load, ...]:
    changes = [*(row.change for row in dose.weeks), *(kind.change for kind in dose.sessions)]
    return (*dose.loads, *(load for change in changes for load in change.loads or ()))
