"""Handles, joints and lines of a pose in words. No Qt here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from authoring.editor.i18n import mark, tr
from authoring.editor.vocabulary_words import words_of
from authoring.figures.angles import Key
from authoring.figures.dragging import Handle, limits_of
from authoring.model.pose import (
    FLOOR,
    ApartBy,
    Balanced,
    BodyPoint,
    Contact,
    Facing,
    Held,
    JointAngle,
    Line,
    LinedUp,
    Parallel,
    Pointing,
    Prop,
    SameHeight,
    Straight,
    Touch,
)
from authoring.model.vocabulary import Motion, Side

_HANDLES: Final[Mapping[tuple[str, Side], str]] = {
    ("head", Side.NONE): mark("Head"),
    ("trunk", Side.NONE): mark("Trunk"),
    ("pelvis", Side.NONE): mark("Pelvis"),
    ("hand", Side.RIGHT): mark("Right hand"),
    ("hand", Side.LEFT): mark("Left hand"),
    ("elbow", Side.RIGHT): mark("Right elbow"),
    ("elbow", Side.LEFT): mark("Left elbow"),
    ("foot", Side.RIGHT): mark("Right foot"),
    ("foot", Side.LEFT): mark("Left foot"),
    ("knee", Side.RIGHT): mark("Right knee"),
    ("knee", Side.LEFT): mark("Left knee"),
}

_PAIRS: Final[Mapping[Motion, str]] = {
    Motion.FLEXION: mark("flexion (− extension)"),
    Motion.ABDUCTION: mark("abduction (− adduction)"),
    Motion.INTERNAL_ROTATION: mark("internal rotation (− external)"),
    Motion.DORSIFLEXION: mark("dorsiflexion (− plantarflexion)"),
    Motion.INVERSION: mark("inversion (− eversion)"),
    Motion.PRONATION: mark("pronation (− supination)"),
    Motion.RADIAL_DEVIATION: mark("radial deviation (− ulnar)"),
    Motion.ELEVATION: mark("elevation (− depression)"),
    Motion.PROTRACTION: mark("protraction (− retraction)"),
    Motion.LATERAL_FLEXION: mark("lateral flexion to the right (− left)"),
    Motion.ROTATION: mark("rotation to the right (− left)"),
}


def handle_words(handle: Handle) -> str:
    """A handle's name."""
    return tr(_HANDLES[handle.name, handle.side])


def motion_words(motion: Motion) -> str:
    """A motion with what counts below nought."""
    return tr(_PAIRS[motion])


def range_words(key: Key) -> str:
    """The usual range of a motion ("−30 to 120°")."""
    low, high = limits_of(*key[:2])
    return tr("{low} to {high}°", low=_signed(low), high=_signed(high))


def _signed(value: float) -> str:
    return f"{value:g}".replace("-", "−")


# ---- one line for each noun ---------------------------------------------------------------


def line_of(value: object) -> str | None:
    """A noun of a pose in one line, or None for other nouns."""
    make = _LINES.get(type(value))
    return None if make is None else make(value)


def _place(point: BodyPoint, side: Side) -> str:
    if side in (Side.LEFT, Side.RIGHT):
        return tr("{place}, {side}", place=words_of(point), side=words_of(side).lower())
    return words_of(point)


def _contact(it: Contact) -> str:
    on = tr("the floor") if it.on == FLOOR else f"“{it.on}”"
    return tr("{place}: on {support}", place=_place(it.point, it.side), support=on)


def _touch(it: Touch) -> str:
    return tr("{place}: touches {other}", place=_place(it.point, it.side), other=words_of(it.at))


def _lined_up(it: LinedUp) -> str:
    return tr(
        "{place}: in line with {other}", place=_place(it.point, it.side), other=words_of(it.under)
    )


def _same_height(it: SameHeight) -> str:
    return tr(
        "{place}: as high as {other}",
        place=_place(it.point, it.side),
        other=words_of(it.height_of),
    )


def _pointing(it: Pointing) -> str:
    part = words_of(it.segment)
    if abs(it.degrees_up) == 90:
        return tr("{part}: vertical", part=part)
    if it.degrees_up == 0:
        return tr("{part}: horizontal", part=part)
    return tr("{part}: {degrees}° above horizontal", part=part, degrees=_signed(it.degrees_up))


def _parallel(it: Parallel) -> str:
    return tr(
        "{part}: parallel with {other}",
        part=words_of(it.segment),
        other=words_of(it.parallel_to),
    )


def _straight(it: Straight) -> str:
    return tr(
        "{first}, {middle} and {last} in one line",
        first=words_of(it.first),
        middle=words_of(it.middle),
        last=words_of(it.last),
    )


def _apart(it: ApartBy) -> str:
    return tr("{place}: {width} apart", place=words_of(it.point), width=words_of(it.width).lower())


def _facing(it: Facing) -> str:
    return tr("{part}: faces {way}", part=words_of(it.part), way=words_of(it.way).lower())


def _balanced(it: Balanced) -> str:
    return tr("Weight over the {place}", place=_place(it.over, it.side).lower())


def _prop(it: Prop) -> str:
    return tr("{what}, {height} cm high", what=words_of(it.kind), height=f"{it.height_cm:g}")


def _held(it: Held) -> str:
    where = words_of(it.side) if it.at is None else _place(it.at, it.side)
    words = tr("{what}: {where}", what=words_of(it.kind), where=where.lower())
    return words if it.mass_kg is None else f"{words}, {it.mass_kg:g} kg"


def _line(it: Line) -> str:
    where = _place(it.point, it.side).lower()
    return tr("{what}: pulls at {where}", what=words_of(it.kind), where=where)


def _angle(it: JointAngle) -> str:
    return f"{words_of(it.joint)}: {words_of(it.motion).lower()} {_signed(it.degrees)}°"


_LINES: Final[Mapping[type, Callable[[Any], str]]] = {
    Contact: _contact,
    Touch: _touch,
    LinedUp: _lined_up,
    SameHeight: _same_height,
    Pointing: _pointing,
    Parallel: _parallel,
    Straight: _straight,
    ApartBy: _apart,
    Facing: _facing,
    Balanced: _balanced,
    Prop: _prop,
    Held: _held,
    Line: _line,
    JointAngle: _angle,
}
