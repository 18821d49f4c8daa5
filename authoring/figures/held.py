"""Things in a hand, split into what lies behind the hand, in its grip, and before it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from attrs import frozen

from authoring.figures.layers import Layer
from authoring.figures.look import METAL, WATER, WOOD
from authoring.figures.outline import chain, hull
from authoring.figures.scene import Scene
from authoring.figures.space import Vector, along
from authoring.model.pose import Held, HeldKind

_STICK_CM: Final = 90.0
_SHAFT_CM: Final = 27.0
_HAMMER_CM: Final = 19.0
"""From the hand to the hammer's head, where the pose gives no size."""


@frozen
class InHand:
    """A held thing in layers.

    Attributes:
        behind: beyond the hand.
        between: what fingers close round.
        before: nearer than the hand.
    """

    behind: tuple[Layer, ...] = ()
    between: tuple[Layer, ...] = ()
    before: tuple[Layer, ...] = ()


def in_hand(scene: Scene, side: str) -> InHand:
    """What a hand holds, drawn at its grip along the way of its thumb."""
    thing = scene.held.get(side)
    if thing is None:
        return InHand()
    grip, across = scene.point(f"grip.{side}"), scene.axis(f"hand.{side}", 0)
    if thing.kind is HeldKind.STICK:
        half = (thing.size_cm or _STICK_CM) / 2
        ends = [along(grip, across, -half), along(grip, across, half)]
        return InHand(between=(scene.flesh(chain([scene.thing(e, 1.3) for e in ends]), fill=WOOD),))
    if thing.kind is HeldKind.BOTTLE:
        return InHand(between=tuple(_bottle(scene, grip, across)))
    if thing.kind is HeldKind.HAMMER:
        return InHand(between=tuple(_hammer(scene, grip, across, thing)))
    return _dumbbell(scene, grip, across)


def _bottle(scene: Scene, grip: Vector, across: Vector) -> Iterator[Layer]:
    """A half-litre bottle, held round its middle, its cap on the side of the thumb."""
    for colour, radius, low, high in ((METAL, 1.3, 8.0, 14.0), (WATER, 3.3, -8.0, 8.0)):
        ends = [scene.thing(along(grip, across, k), radius) for k in (low, high)]
        yield scene.flesh(hull(ends), fill=colour)


def _hammer(scene: Scene, grip: Vector, across: Vector, thing: Held) -> Iterator[Layer]:
    """The head stands on the side of the thumb, as far from the hand as the size says."""
    out = thing.size_cm or _HAMMER_CM
    shaft = [scene.thing(along(grip, across, k), 1.3) for k in (out - _SHAFT_CM, out)]
    yield scene.flesh(hull(shaft), fill=WOOD)
    end = along(grip, across, out)
    head = [scene.thing(along(end, scene.eye.right, k), 2.2) for k in (-4.5, 4.5)]
    yield scene.flesh(hull(head), fill=METAL)


def _dumbbell(scene: Scene, grip: Vector, across: Vector) -> InHand:
    bar = hull([scene.thing(along(grip, across, k), 1.4) for k in (-9.0, 9.0)])
    near, far = sorted((1.0, -1.0), key=lambda k: -scene.eye.depth(along(grip, across, k)))
    weights = [
        hull([scene.thing(along(grip, across, end * k), 5.2) for k in (7.4, 10.4)])
        for end in (near, far)
    ]
    far_end, near_end = scene.flesh(weights[1], fill=METAL), scene.flesh(weights[0], fill=METAL)
    handle = scene.flesh(bar, fill=METAL)
    end_on = math.sqrt(max(0.0, 1.0 - scene.eye.depth(across) ** 2)) < 0.5
    if end_on:
        return InHand((far_end,), (handle,), (near_end,))
    return InHand((), (handle, far_end, near_end), ())
