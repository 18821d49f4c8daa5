"""Arms and legs as parts of a picture. Sizes are centimetres, drawn by eye."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Final

from attrs import frozen

from authoring.figures.layers import Layer, Part
from authoring.figures.look import LINE, METAL, WEIGHTS, WOOD, Look, Shade, shade
from authoring.figures.outline import Circle, Eye, chain, hull, polygon
from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector, along, between, column, length_of, less
from authoring.model.pose import HeldKind

_FAR_CM: Final = 3.0
"""A limb this much farther than the trunk is drawn in the darker colours."""


@frozen
class Scene:
    """What drawing a body needs to know.

    Attributes:
        body: where everything is.
        eye: where it is seen from.
        look: what the person looks like.
        held: what each hand holds, by side.
        fists: hands closed round something, by side.
    """

    body: Skeleton
    eye: Eye
    look: Look
    held: dict[str, HeldKind]
    fists: frozenset[str]

    def point(self, name: str) -> Vector:
        """A place by name, cm."""
        return self.body.points[name]

    def axis(self, frame: str, number: int) -> Vector:
        """Forward (0), up (1) or right (2) of a segment."""
        return column(self.body.frames[frame], number)

    def ball(self, at: Vector, radius: float) -> Circle:
        """A ball of flesh on paper; its radius follows the build."""
        return self.eye.ball(at, radius * self.look.width)

    def thing(self, at: Vector, radius: float) -> Circle:
        """A ball of anything else on paper."""
        return self.eye.ball(at, radius)

    def shade_of(self, place: str, middle: str) -> Shade:
        """Colours of a limb: darker where it is beyond the trunk."""
        apart = self.eye.depth(self.point(place)) - self.eye.depth(self.point(middle))
        return shade(self.look, far=apart < -_FAR_CM)

    def flesh(self, *paths: str, fill: str) -> Layer:
        """A layer with the outline of the body."""
        return Layer(paths, fill, LINE, WEIGHTS.outline * self.eye.scale)

    def bare(self, *paths: str, fill: str) -> Layer:
        """A layer without an outline."""
        return Layer(paths, fill, "")


def leg(scene: Scene, side: str) -> Part:
    """One leg with its shoe."""
    tone = scene.shade_of(f"hip.{side}", "pelvis")
    hip, knee = scene.point(f"hip.{side}"), scene.point(f"knee.{side}")
    ankle = scene.point(f"ankle.{side}")
    behind = scene.axis(f"shank.{side}", 0)
    ahead = scene.axis(f"thigh.{side}", 0)
    thigh = [
        scene.ball(hip, 7.6),
        scene.ball(along(between(hip, knee, 0.45), ahead, 0.8), 7.0),
        scene.ball(knee, 5.2),
    ]
    calf = along(between(knee, ankle, 0.30), behind, -1.3)
    shank = [scene.ball(knee, 5.0), scene.ball(calf, 5.0), scene.ball(ankle, 3.3)]
    middle = along(between(hip, knee, 0.45), ahead, 0.8)
    cloth = (
        hull([scene.ball(hip, 8.0), scene.ball(middle, 7.5)]),
        hull([scene.ball(middle, 7.5), *_hem(scene, middle, between(hip, knee, 0.70), 7.6)]),
    )
    layers = [
        scene.flesh(chain(thigh), chain(shank), fill=tone.skin),
        *_shoe(scene, side, tone),
        scene.flesh(*cloth, fill=tone.shorts),
    ]
    depth = scene.eye.depth(between(hip, knee, 0.6))
    return Part(depth, tuple(layers))


def _hem(scene: Scene, start: Vector, end: Vector, radius: float) -> list[Circle]:
    """The end of a sleeve or trouser leg: straight from the side, round when it points at us."""
    a, b = scene.eye.see(start), scene.eye.see(end)
    long = math.dist(a, b)
    whole = length_of(less(end, start)) * scene.eye.scale
    seen = long / whole if whole > 0 else 0.0
    wide = radius * scene.look.width * scene.eye.scale
    if long < 1e-6:
        return [(b[0], b[1], wide)]
    across = (-(b[1] - a[1]) / long, (b[0] - a[0]) / long)
    edge = 0.9 * scene.eye.scale
    corners = [
        (b[0] + k * across[0] * (wide - edge), b[1] + k * across[1] * (wide - edge), edge)
        for k in (-1.0, 1.0)
    ]
    bulge = wide * max(0.0, 1.0 - seen * seen) ** 0.5
    return [*corners, (b[0], b[1], bulge)] if bulge > edge else corners


def _shoe(scene: Scene, side: str, tone: Shade) -> Iterator[Layer]:
    up, ahead = scene.axis(f"foot.{side}", 1), scene.axis(f"foot.{side}", 0)
    toes_up = scene.axis(f"toes.{side}", 1)
    heel, ball = scene.point(f"heel.{side}"), scene.point(f"ball.{side}")
    toe, ankle = scene.point(f"toe.{side}"), scene.point(f"ankle.{side}")
    back = along(along(heel, up, 3.4), ahead, 2.6)
    front = along(ball, up, 3.3)
    tip = along(along(toe, toes_up, 2.4), scene.axis(f"toes.{side}", 0), -1.2)
    collar = scene.thing(along(ankle, up, 0.2), 3.9)
    upper = hull([collar, scene.thing(back, 3.4), scene.thing(front, 3.3)])
    yield scene.flesh(upper, hull([scene.thing(front, 3.3), scene.thing(tip, 2.4)]), fill=tone.shoe)
    sole = [along(along(heel, up, 1.0), ahead, 1.0), along(ball, up, 0.9), along(toe, toes_up, 1.0)]
    line = polygon([scene.eye.see(p) for p in sole], closed=False)
    yield Layer((line,), "", tone.sole, 0.9 * scene.eye.scale, open=True)


def arm(scene: Scene, side: str) -> Part:
    """One arm with its hand and what it holds."""
    tone = scene.shade_of(f"shoulder.{side}", "neck")
    shoulder, elbow = scene.point(f"shoulder.{side}"), scene.point(f"elbow.{side}")
    wrist = scene.point(f"wrist.{side}")
    bare = chain(
        [
            scene.ball(between(shoulder, elbow, 0.12), 3.8),
            scene.ball(between(shoulder, elbow, 0.5), 4.5),
            scene.ball(elbow, 3.7),
            scene.ball(between(elbow, wrist, 0.3), 3.7),
            scene.ball(wrist, 2.5),
        ]
    )
    hem = _hem(scene, shoulder, between(shoulder, elbow, 0.66), 5.7)
    top = along(shoulder, scene.axis("chest", 1), -2.6)
    sleeve = hull([scene.ball(top, 4.8), *hem])
    holding, front = _held(scene, side)
    layers = [
        *holding,
        scene.flesh(bare, *_hand(scene, side), fill=tone.skin),
        scene.flesh(sleeve, fill=tone.top),
        *front,
    ]
    depth = scene.eye.depth(between(elbow, wrist, 0.3))
    return Part(depth, tuple(layers))


def _hand(scene: Scene, side: str) -> Iterator[str]:
    """Palm, fingers and thumb, flat, at rest or closed."""
    wrist, knuckle = scene.point(f"wrist.{side}"), scene.point(f"knuckle.{side}")
    frame = f"hand.{side}"
    thumb_way, down = scene.axis(frame, 0), scene.axis(frame, 1)
    palm_way = scene.axis(frame, 2)
    sign = -1.0 if side == "r" else 1.0
    if side in scene.fists:
        grip = scene.point(f"grip.{side}")
        yield hull([scene.thing(wrist, 2.5), scene.thing(grip, 3.7)])
        folded = along(along(grip, down, -1.6), palm_way, sign * 1.6)
        yield hull([scene.thing(grip, 3.4), scene.thing(folded, 2.2)])
        return
    tips = scene.point(f"fingertips.{side}")
    yield hull([scene.thing(wrist, 2.4), scene.thing(knuckle, 3.1)])
    yield hull([scene.thing(knuckle, 2.7), scene.thing(tips, 1.5)])
    root = along(between(wrist, knuckle, 0.3), thumb_way, 1.4)
    end = along(along(between(wrist, knuckle, 1.15), thumb_way, 3.2), palm_way, sign * 0.6)
    yield hull([scene.thing(root, 1.7), scene.thing(end, 1.2)])


def _held(scene: Scene, side: str) -> tuple[list[Layer], list[Layer]]:
    """What a hand holds: what is drawn behind the hand, and before it."""
    kind = scene.held.get(side)
    if kind is None:
        return [], []
    grip, across = scene.point(f"grip.{side}"), scene.axis(f"hand.{side}", 0)
    if kind is HeldKind.STICK:
        ends = [along(grip, across, -45.0), along(grip, across, 45.0)]
        return [scene.flesh(chain([scene.thing(e, 1.3) for e in ends]), fill=WOOD)], []
    return _dumbbell(scene, grip, across)


def _dumbbell(scene: Scene, grip: Vector, across: Vector) -> tuple[list[Layer], list[Layer]]:
    bar = hull([scene.thing(along(grip, across, k), 1.4) for k in (-9.0, 9.0)])
    near, far = sorted((1.0, -1.0), key=lambda k: -scene.eye.depth(along(grip, across, k)))
    weights = [
        hull([scene.thing(along(grip, across, end * k), 5.2) for k in (7.4, 10.4)])
        for end in (near, far)
    ]
    end_on = _foreshortening(scene, across) < 0.5
    behind = [scene.flesh(weights[1], bar, fill=METAL)]
    before = [scene.flesh(weights[0], fill=METAL)]
    return (behind, before) if end_on else ([*behind, *before], [])


def _foreshortening(scene: Scene, direction: Vector) -> float:
    """How much of the length of a direction (a unit vector) is seen, 0 to 1."""
    return math.sqrt(max(0.0, 1.0 - scene.eye.depth(direction) ** 2))
