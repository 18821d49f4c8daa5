"""The ladder as a grid: rungs from the hardest down, moving on one side, holding on the other.

No Qt here.
"""

from __future__ import annotations

from enum import StrEnum

from attrs import frozen

from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.dose import Dose, Holds
from authoring.model.edits.ladder import is_hold
from authoring.model.load import BodyWeightLoad


class Side(StrEnum):
    """Which side of the ladder: everything that moves, or what is held."""

    MOVING = "moving"
    HOLDING = "holding"


def side_of(variant: Variant) -> Side:
    """The side on which a variant stands."""
    return Side.HOLDING if is_hold(variant) else Side.MOVING


@frozen
class Row:
    """One rung.

    Attributes:
        rung: its number.
        moving, holding: its alternatives, in the author's order of preference.
    """

    rung: int
    moving: tuple[Variant, ...]
    holding: tuple[Variant, ...]

    def on(self, side: Side) -> tuple[Variant, ...]:
        """The alternatives on one side."""
        return self.holding if side is Side.HOLDING else self.moving


@frozen
class Spot:
    """A place in the grid: a variant, or the free place of a rung that has none on that side."""

    rung: int
    side: Side
    variant: str = ""


def rows_of(card: Card) -> tuple[Row, ...]:
    """The rungs from the hardest to the easiest; free ones between them included.

    A card without variants has rung 0.
    """
    rungs = [variant.rung for variant in card.variants] or [0]
    return tuple(
        Row(
            rung,
            tuple(v for v in card.variants if v.rung == rung and not is_hold(v)),
            tuple(v for v in card.variants if v.rung == rung and is_hold(v)),
        )
        for rung in range(max(rungs), min(rungs) - 1, -1)
    )


def column(rows: tuple[Row, ...], side: Side) -> tuple[Spot, ...]:
    """The places of one side from top to bottom."""
    return tuple(
        spot
        for row in rows
        for spot in (
            [Spot(row.rung, side, variant.id) for variant in row.on(side)] or [Spot(row.rung, side)]
        )
    )


def beside(rows: tuple[Row, ...], spot: Spot, *, up: int = 0, side: Side | None = None) -> Spot:
    """The place that an arrow key leads to; the same one where there is none.

    Args:
        up: 1 for the place above, -1 for the one below.
        side: the side to go to, on the same rung.
    """
    here = column(rows, spot.side)
    if spot not in here:
        return spot
    index = here.index(spot)
    if up:
        return here[min(max(index - up, 0), len(here) - 1)]
    if side is None or side is spot.side:
        return spot
    stacked = [one for one in here if one.rung == spot.rung].index(spot)
    across = [one for one in column(rows, side) if one.rung == spot.rung]
    return across[min(stacked, len(across) - 1)]


def spot_of(card: Card, variant_id: str) -> Spot | None:
    """The place of a variant, or None."""
    variant = card.variant(variant_id)
    return None if variant is None else Spot(variant.rung, side_of(variant), variant.id)


def short_dose(dose: Dose) -> Dose:
    """What fits a cell: the work, and a load other than the body's own weight."""
    loads = tuple(load for load in dose.loads if load != BodyWeightLoad())
    work = dose.work
    if isinstance(work, Holds):
        work = evolve(work, rest_between_holds=None)
    return evolve(
        dose,
        work=work,
        loads=loads[:1],
        rest=None,
        tempo=None,
        range=None,
        sides=None,
        frequency=None,
        weeks=(),
        sessions=(),
        session_limit_min=None,
        minimum_sessions=None,
        sources=(),
    )
