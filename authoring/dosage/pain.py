"""Which pain rule is in force, and its bands as whole numbers of the 0-10 scale.

Every layout and screen prints the same bands from here.
"""

from __future__ import annotations

import math

from attrs import frozen

from authoring.model.pain import NextMorning, PainBand, PainRule
from authoring.model.protocol import Entry, Protocol, Stage
from authoring.model.sources import Source
from authoring.model.vocabulary import Basis, PainAction, Pathway

NO_DEFAULT = frozenset({Pathway.POST_OPERATIVE, Pathway.BONE_STRESS})
"""Programmes for which no pain rule may be assumed."""

DEFAULT_RULE = PainRule(
    during=(
        PainBand(up_to=2, action=PainAction.CARRY_ON),
        PainBand(up_to=5, action=PainAction.GO_EASIER),
        PainBand(up_to=10, action=PainAction.STOP_TODAY),
    ),
    next_morning=NextMorning(settles_within_h=24, action=PainAction.GO_EASIER),
    sources=(
        Source(
            basis=Basis.PUBLISHED,
            place=(
                "Silbernagel KG et al. Am J Sports Med 2007;35:897-906, after Thomeé R. "
                "Phys Ther 1997;77:1690-1703 (bands: value from memory)"
            ),
        ),
    ),
)
"""Bands 0-2, above 2 to 5, above 5 of the pain-monitoring model."""


@frozen
class Zone:
    """A band in whole numbers, both ends included."""

    low: int
    high: int
    band: PainBand


def rule_in_force(
    protocol: Protocol | None,
    stage: Stage | None = None,
    entry: Entry | None = None,
    clinic_rule: PainRule | None = None,
) -> PainRule | None:
    """The exercise's rule, else the stage's, the protocol's, the clinic's, else the default.

    None where the programme is post-operative or for bone stress and neither the
    exercise, the stage nor the protocol sets a rule.
    """
    own = [holder.pain for holder in (entry, stage, protocol) if holder is not None and holder.pain]
    if own:
        return own[0]
    if protocol is not None and protocol.pathway in NO_DEFAULT:
        return None
    return clinic_rule or DEFAULT_RULE


def zones(bands: tuple[PainBand, ...]) -> tuple[Zone, ...]:
    """Bands as whole numbers from 0 to 10; a band that holds no whole number is left out."""
    found: list[Zone] = []
    low = 0
    for band in bands:
        high = math.floor(band.up_to)
        if high >= low:
            found.append(Zone(low, high, band))
            low = high + 1
    return tuple(found)
