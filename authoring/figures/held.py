"""Things in a hand, split into what lies behind the hand, in its grip, and before it."""

from __future__ import annotations

import math

from attrs import frozen

from authoring.figures.layers import Layer
from authoring.figures.look import METAL, WOOD
from authoring.figures.outline import chain, hull
from authoring.figures.scene import Scene
from authoring.figures.space import Vector, along
from authoring.model.pose import HeldKind


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
    kind = scene.held.get(side)
    if kind is None:
        return InHand()
    grip, across = scene.point(f"grip.{side}"), scene.axis(f"hand.{side}", 0)
    if kind is HeldKind.STICK:
        ends = [along(grip, across, -45.0), along(grip, across, 45.0)]
        return InHand(between=(scene.flesh(chain([scene.thing(e, 1.3) for e in ends]), fill=WOOD),))
    return _dumbbell(scene, grip, across)


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
