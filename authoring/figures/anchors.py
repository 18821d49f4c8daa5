"""Where bands, cables and straps are fixed, and what straps ask of a body."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator

from authoring.figures.contacts import back_of
from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector
from authoring.figures.wants import (
    PoseError,
    Want,
    free_for,
    out_of,
    place,
    sides_at,
    words,
)
from authoring.model.pose import (
    BodyAnchor,
    Line,
    LineKind,
    Other,
    PlaceAnchor,
    Prop,
    PropKind,
)

_OTHER = {"l": "r", "r": "l", "": ""}


def end_of(line: Line, side: str, props: Iterable[Prop]) -> Callable[[Skeleton], Vector]:
    """Where the far end of a line is, for the limb of a side.

    Raises:
        PoseError: it is fixed to a support that the pose does not have.
    """
    anchor = line.anchor
    if isinstance(anchor, BodyAnchor):
        own = side or "r"
        name = place(anchor.point, own if anchor.side is Other.SAME else _OTHER[own])
        return lambda body: body.points[name]
    at = _fixed(anchor, side, {prop.id: prop for prop in props})
    return lambda body: at


def _fixed(anchor: PlaceAnchor, side: str, props: dict[str, Prop]) -> Vector:
    forward, across = 0.0, 0.0
    if anchor.on is not None:
        prop = props.get(anchor.on)
        if prop is None:
            raise PoseError(
                f"A line is fixed to {anchor.on!r}, and the pose has no such support; "
                "add it, or name another."
            )
        forward, across = _beside(prop, side)
    return (
        forward if anchor.forward_cm is None else anchor.forward_cm,
        anchor.up_cm,
        across if anchor.across_cm is None else anchor.across_cm,
    )


def _beside(prop: Prop, side: str) -> tuple[float, float]:
    """Forward and across of the part of a support that lines are fixed to."""
    match prop.kind:
        case PropKind.DOOR_FRAME:
            return prop.forward_cm, prop.across_cm + out_of(side) * prop.width_cm / 2
        case PropKind.CHAIR:
            return back_of(prop), prop.across_cm
        case PropKind.WALL | PropKind.RAIL:
            return (0.0 if prop.beside else prop.forward_cm), prop.across_cm
        case _:
            return prop.forward_cm + prop.length_cm / 2, prop.across_cm


def strap_wants(lines: Iterable[Line], props: tuple[Prop, ...]) -> Iterator[Want]:
    """What straps of a given length ask for; other lines stretch as they are pulled."""
    for line in lines:
        for side in sides_at(line.point, line.side):
            end = end_of(line, side, props)
            if line.kind is not LineKind.STRAPS or line.length_cm is None:
                continue
            says = f"The {words(line.point, side)} can't hang on the straps"
            free = (*free_for(line.point, side), "lean")
            miss = _taut(place(line.point, side), end, line.length_cm)
            yield Want(miss, says, 1, free)


def _taut(
    name: str, end: Callable[[Skeleton], Vector], length: float
) -> Callable[[Skeleton], float]:
    return lambda body: length - math.dist(body.points[name], end(body))
