"""Arms and legs: contours of flesh and cloth round the bones. Sizes are cm, drawn by eye.

Tables give front, back, outer and inner reach from the bone for the medium build.
"""

from __future__ import annotations

from typing import Final

from attrs import frozen

from authoring.figures.feet import foot
from authoring.figures.hands import hand
from authoring.figures.held import in_hand
from authoring.figures.layers import Layer
from authoring.figures.look import Legwear, Shade
from authoring.figures.marks import bands
from authoring.figures.scene import Row, Scene
from authoring.figures.space import along, between, dot
from authoring.figures.sweep import Section, sweep

__all__ = ["Limb", "Scene", "arm", "leg"]

_THIGH: Final[tuple[Row, ...]] = (
    (-0.02, 7.6, 7.6, 7.8, 6.2),
    (0.16, 8.2, 8.2, 8.1, 6.9),
    (0.36, 8.1, 7.6, 7.7, 7.0),
    (0.58, 7.2, 6.4, 6.7, 6.2),
    (0.78, 6.0, 5.4, 5.7, 5.7),
    (0.92, 5.5, 5.0, 5.3, 5.4),
    (1.0, 5.3, 4.9, 5.2, 5.3),
)
_SHANK: Final[tuple[Row, ...]] = (
    (0.0, 5.2, 4.8, 5.2, 5.3),
    (0.10, 4.8, 5.2, 5.15, 5.2),
    (0.22, 4.2, 6.3, 5.5, 5.3),
    (0.36, 3.9, 6.7, 5.5, 5.4),
    (0.54, 3.5, 5.3, 4.6, 4.7),
    (0.74, 3.1, 3.8, 3.5, 3.6),
    (0.90, 2.9, 3.3, 3.1, 3.2),
    (1.0, 3.1, 3.6, 3.5, 3.5),
)
_UPPER_ARM: Final[tuple[Row, ...]] = (
    (0.0, 4.4, 4.4, 4.6, 4.0),
    (0.22, 4.7, 4.5, 4.8, 4.2),
    (0.5, 4.5, 4.5, 4.2, 4.2),
    (0.75, 4.1, 4.1, 4.0, 4.0),
    (1.0, 3.7, 3.8, 4.0, 4.0),
)
_FOREARM: Final[tuple[Row, ...]] = (
    (0.0, 3.8, 3.7, 4.0, 4.0),
    (0.16, 4.2, 3.8, 4.1, 4.1),
    (0.34, 4.2, 3.6, 3.8, 3.8),
    (0.62, 3.4, 3.0, 3.1, 3.1),
    (0.86, 2.7, 2.5, 2.2, 2.2),
    (1.0, 2.7, 2.6, 2.0, 2.0),
)
_SLEEVE: Final[tuple[Row, ...]] = (
    (0.0, 4.8, 4.8, 4.0, 4.4),
    (0.15, 5.4, 5.3, 5.5, 4.6),
    (0.34, 5.4, 5.4, 5.4, 5.0),
    (0.60, 5.5, 5.6, 5.4, 5.5),
)
_SPLIT: Final = -0.47
"""Cosine of the bend (118 degrees) beyond which a limb shows where its two halves meet."""

_TOWARDS_CM: Final = 15.0


@frozen
class Limb:
    """A limb in layers.

    Attributes:
        depth: how near the viewer, cm.
        skin: skin, shoe or hand, with what the hand holds.
        cloth: paths of the sleeve or trouser leg, to be joined with the trunk's.
        over: layers on top of the cloth, where the limb points at the viewer.
        tone: its colours.
    """

    depth: float
    skin: tuple[Layer, ...]
    cloth: tuple[str, ...]
    over: tuple[Layer, ...]
    tone: Shade


def thigh(scene: Scene, side: str, *, ease: float = 0.0, start: float = -1.0) -> list[Section]:
    """Sections of a thigh from a share of its length on."""
    rows = tuple(row for row in _THIGH if row[0] >= start)
    hip, knee = scene.point(f"hip.{side}"), scene.point(f"knee.{side}")
    return scene.bone(hip, knee, f"thigh.{side}", rows, ease=ease)


def shank(scene: Scene, side: str, *, ease: float = 0.0) -> list[Section]:
    """Sections of a lower leg."""
    knee, ankle = scene.point(f"knee.{side}"), scene.point(f"ankle.{side}")
    return scene.bone(knee, ankle, f"shank.{side}", _SHANK, ease=ease)


def _split(scene: Scene, upper: str, lower: str) -> bool:
    """Whether a joint is bent so far that its halves overlap."""
    turn = dot(scene.axis(upper, 1), scene.axis(lower, 1))
    return turn < _SPLIT


def leg(scene: Scene, side: str) -> Limb:
    """One leg with its shoe."""
    tone = scene.shade_of(f"hip.{side}", "pelvis")
    eye, long = scene.eye, scene.look.legwear is Legwear.LEGGINGS
    hip, knee = scene.point(f"hip.{side}"), scene.point(f"knee.{side}")
    standing = foot(scene, side, tone)
    # A thigh that points at the viewer shows its knee in front of the hem.
    towards = eye.depth(knee) - eye.depth(hip) > _TOWARDS_CM
    hem = 0.5 if towards and not long else -1.0
    upper = sweep(eye, thigh(scene, side, start=hem), (7.0 if hem < 0 else 0.0, 4.6))
    below = sweep(eye, shank(scene, side), (4.4, 2.6))
    skin: list[Layer] = []
    away = eye.depth(scene.point(f"ankle.{side}")) < eye.depth(knee) - 8.0
    if away:  # the foot of a lower leg that points away lies behind it
        skin += standing.over
    if long:
        skin.append(scene.flesh(*standing.skin, below, fill=tone.skin))
        covered = sweep(eye, shank(scene, side, ease=0.2)[:-1], (4.4, 0.0))
        skin += _flesh(scene, side, covered, upper, tone.shorts)
    else:
        skin += _flesh(scene, side, below, upper, tone.skin, *standing.skin)
        skin += _kneecap(scene, side, tone)
    skin += [
        *(() if away else standing.over),
        *bands(scene, f"leg.{side}", shank(scene, side), 0.42),
    ]
    cloth = () if long else (sweep(eye, _trouser(scene, side), (7.0, 0.0)),)
    depth = eye.depth(between(hip, scene.point(f"ankle.{side}"), 0.4))
    if towards:
        return Limb(depth, (), cloth, tuple(skin), tone)
    return Limb(depth, tuple(skin), cloth, (), tone)


def _flesh(scene: Scene, side: str, below: str, upper: str, fill: str, *joined: str) -> list[Layer]:
    """Thigh and lower leg with one outline, or apart where the knee is sharply bent."""
    if _split(scene, f"thigh.{side}", f"shank.{side}"):
        return [scene.flesh(below, *joined, fill=fill), scene.flesh(upper, fill=fill)]
    return [scene.flesh(below, upper, *joined, fill=fill)]


def _trouser(scene: Scene, side: str) -> list[Section]:
    """The leg of the shorts; wide at the hem."""
    rows: tuple[Row, ...] = (
        (0.0, 7.9, 8.0, 8.2, 6.2),
        (0.16, 8.5, 8.5, 8.4, 7.1),
        (0.36, 8.5, 8.1, 8.1, 7.2),
        (0.66, 8.2, 7.8, 7.7, 7.1),
    )
    hip, knee = scene.point(f"hip.{side}"), scene.point(f"knee.{side}")
    return scene.bone(hip, knee, f"thigh.{side}", rows)


def _kneecap(scene: Scene, side: str, tone: Shade) -> list[Layer]:
    """A quiet line under the kneecap, where the knee is seen from before."""
    frame = f"shank.{side}"
    if scene.facing(scene.axis(frame, 0)) < 0.45:
        return []
    knee = scene.point(f"knee.{side}")
    spots = [
        scene.off(knee, frame, ahead, up, right)
        for ahead, up, right in ((4.6, -1.6, -2.4), (5.2, -3.0, 0.0), (4.6, -1.6, 2.4))
    ]
    return [scene.stroke(*spots, colour=tone.skin_line, wide=0.45)]


def upper_arm(scene: Scene, side: str) -> list[Section]:
    """Sections of an upper arm."""
    shoulder, elbow = scene.point(f"shoulder.{side}"), scene.point(f"elbow.{side}")
    return scene.bone(shoulder, elbow, f"upper_arm.{side}", _UPPER_ARM)


def forearm(scene: Scene, side: str) -> list[Section]:
    """Sections of a forearm."""
    elbow, wrist = scene.point(f"elbow.{side}"), scene.point(f"wrist.{side}")
    return scene.bone(elbow, wrist, f"forearm.{side}", _FOREARM)


def arm(scene: Scene, side: str) -> Limb:
    """One arm with its hand and what it holds."""
    tone = scene.shade_of(f"shoulder.{side}", "neck")
    eye = scene.eye
    shoulder, elbow = scene.point(f"shoulder.{side}"), scene.point(f"elbow.{side}")
    wrist = scene.point(f"wrist.{side}")
    towards = eye.depth(elbow) - eye.depth(shoulder) > 12.0
    upper = sweep(eye, upper_arm(scene, side)[2:], (0.0, 3.2))
    fore = forearm(scene, side)
    lower = sweep(eye, fore, (3.4, 1.6))
    held = in_hand(scene, side)
    shape = hand(scene, side, tone)
    if _split(scene, f"upper_arm.{side}", f"forearm.{side}"):
        near_first = eye.depth(wrist) > eye.depth(between(shoulder, elbow, 0.5))
        flesh = [
            scene.flesh(upper, fill=tone.skin),
            scene.flesh(lower, *shape.joined, fill=tone.skin),
        ]
        if not near_first:
            flesh.reverse()
    else:
        flesh = [scene.flesh(upper, lower, *shape.joined, fill=tone.skin)]
    flesh += bands(scene, f"arm.{side}", fore, 0.42)
    ordered = (
        [*held.behind, *shape.under, *held.between, *flesh]
        if shape.arm_on_top
        else [*held.behind, *shape.under, *flesh, *held.between]
    )
    skin = (*ordered, *shape.over, *held.before)
    cloth = sweep(eye, scene.bone(shoulder, elbow, f"upper_arm.{side}", _SLEEVE), (2.4, 0.0))
    depth = eye.depth(between(elbow, wrist, 0.3))
    if towards:
        return Limb(depth, (), (cloth,), skin, tone)
    return Limb(depth, skin, (cloth,), (), tone)


def lowest(scene: Scene, side: str) -> float:
    """Height of the lowest flesh of an arm, cm."""
    reach = {"shoulder": 5.3, "elbow": 3.8, "wrist": 2.6}
    return min(scene.point(f"{place}.{side}")[1] - by for place, by in reach.items())


def raised(scene: Scene, side: str, by: float) -> dict[str, tuple[float, float, float]]:
    """Places of an arm, ``by`` cm higher."""
    return {
        name: along(at, (0.0, 1.0, 0.0), by)
        for name, at in scene.body.points.items()
        if name.endswith(f".{side}")
        and name.split(".")[0]
        in (
            "shoulder",
            "elbow",
            "wrist",
            "knuckle",
            "palm",
            "grip",
            "fingertips",
            "forearm",
            "thumb",
        )
    }
