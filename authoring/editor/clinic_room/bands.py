"""Pure edits of the bands of a pain rule. No Qt here.

Bands rise along the 0-10 scale and the last ends at 10; every edit here keeps that.
"""

from __future__ import annotations

from authoring.dosage.pain import zones
from authoring.editor.i18n import tr
from authoring.model.base import ModelError, evolve, said
from authoring.model.pain import PainBand
from authoring.model.sentence import say
from authoring.model.vocabulary import PainAction

Bands = tuple[PainBand, ...]

TOP = 10.0
MOST = 6
"""Bands that a rule can have."""


def limits(bands: Bands, index: int) -> tuple[float, float]:
    """The ends between which the band at ``index`` must end, both of them left out."""
    low = bands[index - 1].up_to if index else -1.0
    return low, bands[index + 1].up_to if index + 1 < len(bands) else TOP


def with_top(bands: Bands, index: int, top: float) -> Bands:
    """The bands with another end of one of them; the last always ends at 10.

    Raises:
        ModelError: it would not lie between its neighbours.
    """
    low, high = limits(bands, index)
    if index == len(bands) - 1 or not low < top < high:
        raise ModelError(
            "up_to",
            say(
                "This band must end above {low} and below {high}.",
                low=said(max(low, 0)),
                high=said(high),
            ),
        )
    return with_band(bands, index, evolve(bands[index], up_to=top))


def with_band(bands: Bands, index: int, band: PainBand) -> Bands:
    """The bands with another in the place of one."""
    return (*bands[:index], band, *bands[index + 1 :])


def with_more(bands: Bands) -> Bands:
    """One band more: the widest is cut in two, at a whole number where there is one.

    Bands that are as many as can be stay as they are; none at all become two.
    """
    if not bands:
        return (
            PainBand(up_to=5, action=PainAction.CARRY_ON),
            PainBand(up_to=TOP, action=PainAction.GO_EASIER),
        )
    if len(bands) >= MOST:
        return bands
    starts = (0.0, *(band.up_to for band in bands[:-1]))
    widths = [band.up_to - start for band, start in zip(bands, starts, strict=True)]
    index = widths.index(max(widths))
    start, end = starts[index], bands[index].up_to
    middle = (start + end) / 2
    whole = float(round(middle))
    cut = whole if start < whole < end else middle
    return (*bands[:index], evolve(bands[index], up_to=cut), *bands[index:])


def without(bands: Bands, index: int) -> Bands:
    """The bands without one; where it was the last, the one before it now ends at 10."""
    left = (*bands[:index], *bands[index + 1 :])
    if left and left[-1].up_to != TOP:
        left = (*left[:-1], evolve(left[-1], up_to=TOP))
    return left


def span_words(bands: Bands, index: int) -> str:
    """The whole numbers of a band: "0 to 2", "10", "no whole number"."""
    band = bands[index]
    for zone in zones(bands):
        if zone.band is band:
            if zone.low == zone.high:
                return str(zone.low)
            return tr("{low} to {high}", low=zone.low, high=zone.high)
    return tr("no whole number")
