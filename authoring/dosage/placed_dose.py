"""The dose that counts for a variant where an entry places its card."""

from __future__ import annotations

from authoring.dosage.kit_loads import without_missing_kit
from authoring.model.card import Variant
from authoring.model.dose import Dose
from authoring.model.protocol import Entry


def dose_here(entry: Entry | None, variant: Variant) -> Dose | None:
    """The entry's dose for the variants it fits (the start variant unless named).

    It is written for the start variant: for another one it loses the loads of kit that this one
    does without. A hold that may replace movement here has the entry's dose for holds, where
    there is one.
    """
    if entry is not None and entry.hold_dose is not None and variant.id in entry.may_hold:
        return entry.hold_dose
    if entry is not None and entry.dose is not None:
        fits = entry.dose_fits or (entry.start,)
        if variant.id in fits:
            if variant.id == entry.start:
                return entry.dose
            return without_missing_kit(entry.dose, variant)
    return variant.dose
