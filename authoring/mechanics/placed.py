"""A body of measured proportions in a settled pose: joints and centres of mass, metres.

The pose settles the drawn figure; its turned frames are taken over and the parts are laid
along them with the lengths that belong to the masses. Places then differ by up to 4 cm from
the drawn ones, which the error of an estimate allows for.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from attrs import frozen

from authoring.figures import body as drawn
from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Matrix, Vector, along, between, column, less
from authoring.mechanics.segments import Person, sizes

_PALM: Final = 0.025
"""Wrist to the middle of the pressed palm, share of stature: half of wrist to knuckle."""

_GRIP: Final = 0.045
"""Wrist to the middle of what a hand holds, share of stature (drawn figure)."""

_FINGERTIPS: Final = 0.100


_NEAR: Final[Mapping[str, str]] = {
    "outer_foot": "ankle",
    "instep": "ankle",
    "shin": "knee",
    "thigh": "hip",
    "belly": "waist",
    "chest": "waist",
    "nose": "chin",
    "thumb": "wrist",
    "knuckle": "wrist",
}
"""The joint from which a place without a measured length is laid as drawn."""


@frozen
class Part:
    """A rigid part of the body.

    Attributes:
        name: "pelvis", "chest", "head", else with ``.l`` or ``.r``.
        mass_kg: its mass.
        centre: centre of mass, m.
    """

    name: str
    mass_kg: float
    centre: Vector


@frozen
class Placed:
    """A body in space.

    Attributes:
        points: joints and places by the names of :mod:`authoring.figures.skeleton`, m.
        frames: how each part is turned.
        parts: every part of the body.
    """

    points: Mapping[str, Vector]
    frames: Mapping[str, Matrix]
    parts: tuple[Part, ...]

    @property
    def mass_kg(self) -> float:
        return sum(part.mass_kg for part in self.parts)


class _Layer:
    """Lays parts along their frames, from the pelvis outward."""

    def __init__(self, frames: Mapping[str, Matrix], person: Person) -> None:
        self.frames = frames
        self.size = sizes(person)
        self.height = person.height_m
        self.points: dict[str, Vector] = {}
        self.parts: list[Part] = []

    def axis(self, name: str, index: int) -> Vector:
        return column(self.frames[name], index)

    def part(self, name: str, start: Vector, direction: Vector, sign: float = 1.0) -> None:
        kind = name.partition(".")[0]
        at = along(start, direction, sign * self.size.centre[kind])
        self.parts.append(Part(name, self.size.mass[kind], at))

    def trunk(self) -> None:
        p, long = self.points, self.size.length
        up, high, top = (self.axis(name, 1) for name in ("pelvis", "chest", "head"))
        p["pelvis"] = p["seat"] = (0.0, 0.0, 0.0)
        p["waist"] = along(p["pelvis"], up, long["pelvis"])
        p["neck"] = along(p["waist"], high, long["chest"])
        p["chin"] = along(p["neck"], high, long["neck"])
        p["vertex"] = along(p["chin"], top, long["head"])
        p["back"] = along(p["waist"], high, long["chest"] * 0.74)
        p["head"] = between(p["chin"], p["vertex"], 0.55)
        self.part("pelvis", p["pelvis"], up)
        self.part("chest", p["waist"], high)
        self.part("head", p["chin"], top)

    def arm(self, side: str) -> None:
        p, long, out = self.points, self.size.length, 1.0 if side == "r" else -1.0
        upper, lower, hand = (self.axis(f"{n}.{side}", 1) for n in ("upper_arm", "forearm", "hand"))
        wide = out * drawn.SHOULDER_HALF * self.height
        shoulder = along(p["neck"], self.axis("chest", 2), wide)
        elbow = along(shoulder, upper, -long["upper_arm"])
        wrist = along(elbow, lower, -long["forearm"])
        p |= {f"shoulder.{side}": shoulder, f"elbow.{side}": elbow, f"wrist.{side}": wrist}
        p[f"palm.{side}"] = along(wrist, hand, -_PALM * self.height)
        p[f"grip.{side}"] = along(wrist, hand, -_GRIP * self.height)
        p[f"fingertips.{side}"] = along(wrist, hand, -_FINGERTIPS * self.height)
        p[f"forearm.{side}"] = between(elbow, wrist, 0.45)
        self.part(f"upper_arm.{side}", shoulder, upper, -1.0)
        self.part(f"forearm.{side}", elbow, lower, -1.0)
        self.part(f"hand.{side}", wrist, hand, -1.0)

    def leg(self, side: str) -> None:
        p, long, out = self.points, self.size.length, 1.0 if side == "r" else -1.0
        thigh, shank, sole = (self.axis(f"{n}.{side}", 1) for n in ("thigh", "shank", "foot"))
        ahead, toes = self.axis(f"foot.{side}", 0), self.axis(f"toes.{side}", 0)
        hip = along(p["pelvis"], self.axis("pelvis", 2), out * drawn.HIP_HALF * self.height)
        knee = along(hip, thigh, -long["thigh"])
        ankle = along(knee, shank, -long["shank"])
        under = along(ankle, sole, -drawn.ANKLE_HEIGHT * self.height)
        foot = long["foot"]
        heel = along(under, ahead, -drawn.ANKLE_AT * foot)
        ball = along(heel, ahead, drawn.BALL_AT * foot)
        p |= {f"hip.{side}": hip, f"knee.{side}": knee, f"ankle.{side}": ankle}
        p |= {f"heel.{side}": heel, f"ball.{side}": ball}
        p[f"toe.{side}"] = along(ball, toes, (1 - drawn.BALL_AT) * foot)
        self.part(f"thigh.{side}", hip, thigh, -1.0)
        self.part(f"shank.{side}", knee, shank, -1.0)
        # Half-way between ankle and sole: assumption, the table gives no height.
        self.part(f"foot.{side}", between(heel, along(heel, sole, 0.039 * self.height), 0.5), ahead)


def placed(body: Skeleton, person: Person) -> Placed:
    """This person's body, turned as the settled figure is. The pelvis is at the origin."""
    layer = _Layer(body.frames, person)
    layer.trunk()
    for side in ("l", "r"):
        layer.arm(side)
        layer.leg(side)
    return Placed({**_others(body, layer), **layer.points}, layer.frames, tuple(layer.parts))


def _others(body: Skeleton, layer: _Layer) -> dict[str, Vector]:
    """Places on the surface, as far from their joint as drawn, scaled to the stature."""
    scale = layer.height / drawn.STATURE_CM
    found = {}
    for name, place in body.points.items():
        point, dot, side = name.partition(".")
        joint = _NEAR.get(point, "")
        joint = joint + dot + side if joint + dot + side in layer.points else joint
        if joint in layer.points and joint in body.points:
            found[name] = along(layer.points[joint], less(place, body.points[joint]), scale)
    return found
