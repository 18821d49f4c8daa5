"""What moves from one moment to another, in a few plain words."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from attrs import frozen

from authoring.figures.angles import Key
from authoring.figures.solver import Settled
from authoring.figures.space import Vector, column, less
from authoring.model.pose import BasePosition
from authoring.model.vocabulary import Joint, Motion

_MOST: Final = 2
_LEAST_CM: Final = 4.0
_BIG_CM: Final = 9.0
_BEND_DEG: Final = 18.0
_LEAN_DEG: Final = 12.0
_SIDES: Final = {"l": "left", "r": "right"}
_WHOLE: Final = {
    "leg": "legs",
    "arm": "arms",
    "heel": "heels",
    "knee": "knees",
    "elbow": "elbows",
    "wrist": "wrists",
}


@frozen
class Moved:
    """What a part of the body does: how far counts against others, and what is said of it."""

    part: str
    side: str
    does: str
    weight: float


def moves(first: Settled, last: Settled) -> list[str]:
    """What moves most, at most two things, the most first: "the right heel rises"."""
    found = [one for find in _FINDERS for one in find(first, last)]
    if _leaves(first, last):
        found = [Moved("feet", "", "leave the floor", 999.0), *found]
    merged = _both(found)
    merged.sort(key=lambda one: -one.weight)
    return [_said(one) for one in merged[:_MOST]]


def _leaves(first: Settled, last: Settled) -> bool:
    """Whether both feet come off what they stood on, hips and all."""
    places = ("pelvis", "heel.l", "ball.l", "heel.r", "ball.r")
    return all(_path(first, last, place)[1] > _LEAST_CM for place in places)


def _both(found: list[Moved]) -> list[Moved]:
    """One line for both sides where they do the same."""
    by: dict[tuple[str, str], list[Moved]] = {}
    for one in found:
        by.setdefault((one.part, one.does), []).append(one)
    return [
        Moved(part, "both", does, max(o.weight for o in ones)) if len(ones) == 2 else ones[0]
        for (part, does), ones in by.items()
    ]


def _said(one: Moved) -> str:
    if one.side == "both":
        return f"the {_WHOLE[one.part]} {_plural(one.does)}"
    side = f"{_SIDES[one.side]} " if one.side else ""
    does = _plural(one.does) if one.part in ("hips", "feet") else one.does
    return f"the {side}{one.part} {does}"


_PLURALS: Final = {
    "rises": "rise",
    "lowers": "lower",
    "moves": "move",
    "bends": "bend",
    "straightens": "straighten",
    "turns": "turn",
    "leans": "lean",
    "sinks": "sink",
}


def _plural(does: str) -> str:
    verb, _, rest = does.partition(" ")
    return f"{_PLURALS.get(verb, verb)} {rest}".rstrip()


def _path(first: Settled, last: Settled, place: str) -> Vector:
    return less(last.body.points[place], first.body.points[place])


def _size(way: Vector) -> float:
    return max(map(abs, way))


def _way(by: Vector, side: str, body: Settled) -> str:
    """Up and down first: they are what a lay reader sees."""
    forward, up, across = by
    if body.base.position is not BasePosition.UPRIGHT:
        forward = 0.0  # towards the head or the feet: no words that a lay reader would take so
    out = across * (1.0 if side == "r" else -1.0)
    if abs(up) >= 0.7 * max(abs(forward), abs(out)):
        way = "rises" if up > 0 else "lowers"
        if abs(forward) > _BIG_CM and up > 0:
            way += " in front" if forward > 0 else " behind"
        elif out > _BIG_CM and up > 0 and out > abs(forward):
            way += " to the side"
        return way
    if abs(forward) >= abs(out):
        return "moves forward" if forward > 0 else "moves back"
    return "moves out to the side" if out > 0 else "moves in"


def _hips(first: Settled, last: Settled) -> Iterator[Moved]:
    by = _path(first, last, "pelvis")
    if abs(by[1]) > _BIG_CM * 0.7:
        yield Moved("hips", "", "rises" if by[1] > 0 else "sinks", abs(by[1]) * 2)
    elif abs(by[0]) > _BIG_CM:
        yield Moved("hips", "", "moves forward" if by[0] > 0 else "moves back", abs(by[0]))


def _trunk(first: Settled, last: Settled) -> Iterator[Moved]:
    if {first.base.position, last.base.position} != {BasePosition.UPRIGHT}:
        return
    turn = less(column(last.body.frames["chest"], 1), column(first.body.frames["chest"], 1))
    degrees = last.base.lean_deg - first.base.lean_deg
    across = last.base.side_lean_deg - first.base.side_lean_deg
    if abs(degrees) > _LEAN_DEG and _size(turn) > 0.15:
        yield Moved("trunk", "", "leans forward" if degrees > 0 else "leans back", abs(degrees))
    elif abs(across) > _LEAN_DEG:
        yield Moved("trunk", "", f"leans to the {'right' if across > 0 else 'left'}", abs(across))
    twist = _change(first, last, (Joint.UPPER_BACK, Motion.ROTATION, "")) + _change(
        first, last, (Joint.LOWER_BACK, Motion.ROTATION, "")
    )
    if abs(twist) > _LEAN_DEG:
        yield Moved("trunk", "", f"turns to the {'right' if twist > 0 else 'left'}", abs(twist))


def _head(first: Settled, last: Settled) -> Iterator[Moved]:
    turn = _change(first, last, (Joint.NECK, Motion.ROTATION, ""))
    tip = _change(first, last, (Joint.NECK, Motion.LATERAL_FLEXION, ""))
    nod = _change(first, last, (Joint.NECK, Motion.FLEXION, ""))
    if abs(turn) > _BEND_DEG:
        yield Moved("head", "", f"turns to the {'right' if turn > 0 else 'left'}", abs(turn))
    if abs(tip) > _BEND_DEG:
        yield Moved("head", "", f"leans to the {'right' if tip > 0 else 'left'}", abs(tip))
    if abs(nod) > 25 and last.base.position is BasePosition.UPRIGHT:
        yield Moved("head", "", "bends forward" if nod > 0 else "bends back", abs(nod) * 0.4)


def _change(first: Settled, last: Settled, key: Key) -> float:
    return last.angles.get(key, 0.0) - first.angles.get(key, 0.0)


def _legs(first: Settled, last: Settled) -> Iterator[Moved]:
    for side in ("l", "r"):
        heel, ball = (_path(first, last, f"{p}.{side}") for p in ("heel", "ball"))
        bend = _change(first, last, (Joint.KNEE, Motion.FLEXION, side))
        if abs(heel[1]) > 3.0 and _size(ball) < _LEAST_CM:
            yield Moved("heel", side, "rises" if heel[1] > 0 else "lowers", 4 * abs(heel[1]))
        elif _size(ball) > _BIG_CM:
            thigh = _size(_path(first, last, f"knee.{side}"))
            if abs(bend) > 3 * _BEND_DEG and thigh < _BIG_CM:
                yield Moved("knee", side, _bends(bend), _size(ball))
            else:
                yield Moved("leg", side, _way(ball, side, last), _size(ball) * 1.5)
        elif abs(bend) > _BEND_DEG:
            yield Moved("knee", side, _bends(bend), abs(bend) * 0.5)


def _arms(first: Settled, last: Settled) -> Iterator[Moved]:
    for side in ("l", "r"):
        moved = _path(first, last, f"grip.{side}")
        hand = less(moved, _path(first, last, f"shoulder.{side}"))
        upper = _size(
            less(_path(first, last, f"elbow.{side}"), _path(first, last, f"shoulder.{side}"))
        )
        bend = _change(first, last, (Joint.ELBOW, Motion.FLEXION, side))
        wrist = _change(first, last, (Joint.WRIST, Motion.FLEXION, side))
        if abs(wrist) > _BEND_DEG and upper < _LEAST_CM:
            yield Moved("wrist", side, _bends_wrist(wrist), abs(wrist))
        elif abs(bend) > _BEND_DEG and (upper < _BIG_CM or _size(moved) < _BIG_CM):
            yield Moved("elbow", side, _bends(bend), abs(bend) * 0.3)
        elif min(_size(hand), _size(moved)) > _BIG_CM:
            yield Moved("arm", side, _way(moved, side, last), _size(hand) * 0.8)


def _bends_wrist(by: float) -> str:
    return "bends" if by > 0 else "bends back"


def _bends(by: float) -> str:
    return "bends" if by > 0 else "straightens"


Finder = Callable[[Settled, Settled], Iterator[Moved]]
_FINDERS: Final[tuple[Finder, ...]] = (_hips, _trunk, _head, _legs, _arms)
