"""Pull a place on the body across the picture: joints follow within their limits.

The wish "this place is here" joins the contacts and rules of the moment and is solved by
the same damped steps. Their number is bounded, and what a step makes worse is not kept, so
that a place which can't come all the way comes as near as it can.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from attrs import frozen

from authoring.figures.angles import signed
from authoring.figures.limits import NORMAL
from authoring.figures.outline import Eye
from authoring.figures.skeleton import Skeleton, skeleton
from authoring.figures.solver import RANGE, Settled, one_step, wants_of
from authoring.figures.space import Vector, dot
from authoring.figures.wants import Free, Want, free_anywhere, place
from authoring.model.base import evolve
from authoring.model.pose import BasePosition, BodyPoint, Contact, Pose, PosePhase
from authoring.model.vocabulary import Joint, Motion, Side

_STEPS: Final = 8
_SETTLING: Final = 8
_NEAR_CM: Final = 0.2
_WISH: Final = 0.5
"""What is pulled gives way to what is held, and its depth to both."""

_DEPTH: Final = 0.2
_FEET: Final = frozenset(
    {BodyPoint.HEEL, BodyPoint.BALL, BodyPoint.TOE, BodyPoint.OUTER_FOOT, BodyPoint.INSTEP}
)
_HANDS: Final = frozenset(
    {BodyPoint.PALM, BodyPoint.GRIP, BodyPoint.THUMB, BodyPoint.FINGERTIPS, BodyPoint.WRIST}
)


@frozen
class Handle:
    """A place that can be pulled.

    Attributes:
        name: "hand", "elbow", "foot", "knee", "pelvis", "trunk" or "head".
        side: left, right, or none for the middle of the body.
    """

    name: str
    side: Side = Side.NONE

    @property
    def letter(self) -> str:
        """Letter of its side, "" for the middle."""
        return {Side.LEFT: "l", Side.RIGHT: "r"}.get(self.side, "")

    @property
    def spot(self) -> str:
        """Name in the skeleton of the place that is pulled."""
        return place(_POINTS[self.name], self.letter) if self.name in _POINTS else _SPOTS[self.name]


_POINTS: Final[Mapping[str, BodyPoint]] = {
    "hand": BodyPoint.GRIP,
    "elbow": BodyPoint.ELBOW,
    "foot": BodyPoint.ANKLE,
    "knee": BodyPoint.KNEE,
}
_SPOTS: Final = {"pelvis": "pelvis", "trunk": "neck", "head": "vertex"}

HANDLES: Final = (
    Handle("head"),
    Handle("trunk"),
    Handle("elbow", Side.RIGHT),
    Handle("hand", Side.RIGHT),
    Handle("elbow", Side.LEFT),
    Handle("hand", Side.LEFT),
    Handle("pelvis"),
    Handle("knee", Side.RIGHT),
    Handle("foot", Side.RIGHT),
    Handle("knee", Side.LEFT),
    Handle("foot", Side.LEFT),
)
"""In the order in which the keyboard goes through them."""


def on_handle(contact: Contact, handle: Handle) -> bool:
    """Whether a contact holds the hand or foot that this handle pulls."""
    held = {"hand": _HANDS, "foot": _FEET | {BodyPoint.ANKLE}}.get(handle.name, frozenset())
    return contact.point in held and contact.side in (handle.side, Side.BOTH, Side.NONE)


def pulled(
    pose: Pose, moment: PosePhase, start: Settled, handle: Handle, goal: Vector, eye: Eye
) -> Settled:
    """The body with a place pulled towards a goal as far as contacts and joints let it.

    Args:
        pose, moment: what contacts and rules hold. A hand or foot that rests where the
            pose says keeps to its surface and slides.
        start: the moment as it stands.
        goal: where the place is wanted, cm; its depth into the picture counts least.
    """
    held = tuple(wants_of(*_sliding(pose, moment, handle)))
    fixed: set[Free] = {
        key for a in (*pose.angles, *moment.angles) if a.fixed for key, _ in signed(a)
    }
    wish = tuple(_wishes(handle, goal, eye, _free(handle, start)))
    # A limb in the air moves alone; a pelvis that rests on nothing goes where it is pulled.
    carries = _carries(handle, pose, moment)
    wants = (*held, *wish) if carries or handle.side is Side.NONE else wish
    free = _may_move(wants, fixed, shifts=carries or handle.name == "pelvis")
    best = start
    if not carries and handle.name in _ENDS:
        # The limb swings from its root first; it bends where that does not reach.
        best = _nearest(start, wants, [each for each in free if _swings(each)], wish)
    best = _nearest(best, wants, free, wish)
    return _kept(best, held, fixed) or start


_ENDS: Final = frozenset({"hand", "foot"})
_SWINGING: Final = frozenset({Motion.FLEXION, Motion.ABDUCTION})


def _swings(free: Free) -> bool:
    """Whether an angle swings a limb from its root."""
    if isinstance(free, str):
        return False
    return free[0] in (Joint.SHOULDER, Joint.HIP) and free[1] in _SWINGING


def _sliding(pose: Pose, moment: PosePhase, handle: Handle) -> tuple[Pose, PosePhase]:
    """The pose with this limb's contacts free to slide along their surface."""

    def loose(contact: Contact) -> Contact:
        return evolve(contact, forward_cm=None) if on_handle(contact, handle) else contact

    return (
        evolve(pose, contacts=tuple(map(loose, pose.contacts))),
        evolve(moment, contacts=tuple(map(loose, moment.contacts))),
    )


def _carries(handle: Handle, pose: Pose, moment: PosePhase) -> bool:
    """Whether the pulled limb rests on something, so that all of the body may follow."""
    limb = {"knee": "foot", "elbow": "hand"}.get(handle.name, handle.name)
    end = Handle(limb, handle.side)
    kept = () if moment.airborne else pose.contacts
    return any(on_handle(each, end) for each in (*kept, *moment.contacts))


def _free(handle: Handle, start: Settled) -> tuple[Free, ...]:
    if handle.name in _POINTS:
        return tuple(free_anywhere(_POINTS[handle.name], handle.letter))
    if handle.name == "head":
        return ((Joint.NECK, Motion.FLEXION, ""), (Joint.NECK, Motion.LATERAL_FLEXION, ""))
    if handle.name == "trunk":
        bends: tuple[Free, ...] = (
            (Joint.LOWER_BACK, Motion.FLEXION, ""),
            (Joint.LOWER_BACK, Motion.LATERAL_FLEXION, ""),
        )
        upright = start.base.position is BasePosition.UPRIGHT
        return ("lean", "side_lean", *bends) if upright else bends
    return ()


def _wishes(handle: Handle, goal: Vector, eye: Eye, free: tuple[Free, ...]) -> Iterator[Want]:
    for way, weight in ((eye.right, _WISH), (eye.up, _WISH), (eye.towards, _DEPTH)):
        yield Want(_off(handle.spot, way, dot(goal, way), weight), "", 9, free, within=_NEAR_CM)


def _off(spot: str, way: Vector, wanted: float, weight: float) -> Callable[[Skeleton], float]:
    return lambda body: weight * (wanted - dot(body.points[spot], way))


def _may_move(wants: Sequence[Want], fixed: set[Free], *, shifts: bool) -> list[Free]:
    found: dict[Free, None] = dict.fromkeys(("forward", "up", "across")) if shifts else {}
    for want in wants:
        found |= dict.fromkeys(want.free)
    return [each for each in found if each not in fixed]


def _nearest(
    start: Settled, wants: Sequence[Want], free: list[Free], wish: Sequence[Want]
) -> Settled:
    """The best of a few steps towards everything wanted."""
    best, least = start, _far(start, wants)
    state = start
    for _ in range(_STEPS):
        if all(abs(want.miss(state.body)) < _NEAR_CM for want in wish):
            break
        missing = [want.miss(state.body) for want in wants]
        state = _limited(one_step(state, free, wants, missing), start)
        far = _far(state, wants)
        if far < least:
            best, least = state, far
        elif far > 4 * least:
            break
    return best


def _kept(state: Settled, held: Sequence[Want], fixed: set[Free]) -> Settled | None:
    """The body with its contacts made again; None where they can't be."""
    free = _may_move(held, fixed, shifts=True)
    for _ in range(_SETTLING):
        missing = [want.miss(state.body) for want in held]
        if all(abs(far) <= want.within for want, far in zip(held, missing, strict=True)):
            return state
        state = one_step(state, free, held, missing)
    kept = all(abs(want.miss(state.body)) <= want.within * 5 for want in held)
    return state if kept else None


def _far(state: Settled, wants: Sequence[Want]) -> float:
    return sum(want.miss(state.body) ** 2 for want in wants)


def limits_of(joint: Joint, motion: Motion) -> tuple[float, float]:
    """How far a joint may be pulled: the usual range, where one is known, degrees."""
    normal = NORMAL.get((joint, motion))
    if normal is not None:
        return (-normal[0], normal[1])
    return RANGE.get((joint, motion), (-180.0, 180.0))


def _limited(state: Settled, start: Settled) -> Settled:
    """The body with no joint beyond its range, unless it stood there before."""
    angles = dict(state.angles)
    for key, degrees in state.angles.items():
        low, high = limits_of(*key[:2])
        before = start.angles.get(key, 0.0)
        angles[key] = min(max(degrees, min(low, before)), max(high, before))
    if angles == state.angles:
        return state
    return Settled(state.base, angles, skeleton(state.base, angles))
