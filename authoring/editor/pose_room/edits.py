"""Edits of a pose: moments, angles, what a pull has changed. Pure; no Qt here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Final

from attrs import frozen

from authoring.editor.ids import fresh_id, new_file_id
from authoring.editor.library_edits import with_pose
from authoring.figures.angles import MIDLINE, OPPOSITE, SIDEWAYS, Key, collect, signed
from authoring.figures.contacts import contacts_of
from authoring.figures.dragging import Handle, on_handle
from authoring.figures.solver import Settled
from authoring.model.base import ModelError, evolve
from authoring.model.library import Library
from authoring.model.pose import (
    Base,
    Camera,
    Contact,
    JointAngle,
    NearSide,
    Pose,
    PosePhase,
    View,
)
from authoring.model.sentence import say
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Side

_CHANGED_DEG: Final = 0.3
_CHANGED_CM: Final = 0.05
_BACK: Final[Mapping[Motion, Motion]] = {one: other for other, one in OPPOSITE.items()}
_SIDE: Final = {"l": Side.LEFT, "r": Side.RIGHT}

MOST_PHASES: Final = 8

ROWS: Final[tuple[tuple[Joint, tuple[Motion, ...]], ...]] = (
    (Joint.SHOULDER, (Motion.FLEXION, Motion.ABDUCTION, Motion.INTERNAL_ROTATION)),
    (Joint.ELBOW, (Motion.FLEXION,)),
    (Joint.FOREARM, (Motion.PRONATION,)),
    (Joint.WRIST, (Motion.FLEXION, Motion.RADIAL_DEVIATION)),
    (Joint.SHOULDER_BLADE, (Motion.ELEVATION, Motion.PROTRACTION)),
    (Joint.HIP, (Motion.FLEXION, Motion.ABDUCTION, Motion.INTERNAL_ROTATION)),
    (Joint.KNEE, (Motion.FLEXION,)),
    (Joint.ANKLE, (Motion.DORSIFLEXION, Motion.INVERSION)),
    (Joint.TOES, (Motion.FLEXION,)),
    (Joint.NECK, (Motion.FLEXION, Motion.LATERAL_FLEXION, Motion.ROTATION)),
    (Joint.UPPER_BACK, (Motion.FLEXION, Motion.LATERAL_FLEXION, Motion.ROTATION)),
    (Joint.LOWER_BACK, (Motion.FLEXION, Motion.LATERAL_FLEXION, Motion.ROTATION)),
)
"""Joints and their motions as the form lists them: limbs first, then the trunk."""


def keys_of(joint: Joint, motion: Motion) -> tuple[Key, ...]:
    """The keys of a row: left and right, or the one of the trunk."""
    sides = ("",) if joint in MIDLINE else ("l", "r")
    return tuple((joint, motion, side) for side in sides)


# ---- angles -------------------------------------------------------------------------------


def written(angles: Mapping[Key, float], fixed: Iterable[Key] = ()) -> Iterator[JointAngle]:
    """Angles as a pose writes them: both sides in one where they are alike, none below 0."""
    held = frozenset(fixed)
    for joint, motion, side in sorted(angles, key=lambda key: [str(part) for part in key]):
        key, twin = (joint, motion, side), (joint, motion, {"l": "r", "r": "l"}.get(side, side))
        degrees = angles[key]
        alike = bool(side) and angles.get(twin) == degrees and (key in held) is (twin in held)
        if alike and side == "r":
            continue
        yield _angle(key, degrees, both=alike, fixed=key in held)


def _angle(key: Key, degrees: float, *, both: bool, fixed: bool) -> JointAngle:
    joint, motion, side = key
    at = Side.BOTH if both else _SIDE.get(side, Side.BOTH)
    if joint in MIDLINE and motion in SIDEWAYS:
        at = Side.LEFT if degrees < 0 else Side.RIGHT
        degrees = abs(degrees)
    elif degrees < 0 and motion in _BACK:
        motion, degrees = _BACK[motion], -degrees
    return JointAngle(joint=joint, motion=motion, side=at, degrees=degrees, fixed=fixed)


def with_angles(pose: Pose, index: int, new: Mapping[Key, float]) -> Pose:
    """The pose whose moment has other angles, whole degrees where they are near enough."""
    moment = pose.phases[index]
    own = collect(moment.angles) | {key: _tidy(degrees) for key, degrees in new.items()}
    fixed = {key for a in (*pose.angles, *moment.angles) if a.fixed for key, _ in signed(a)}
    return with_moment(pose, index, evolve(moment, angles=tuple(written(own, fixed & own.keys()))))


def _tidy(degrees: float) -> float:
    return round(min(max(degrees, -180.0), 180.0), 1) + 0.0


def with_moment(pose: Pose, index: int, moment: PosePhase) -> Pose:
    """The pose with another moment in this one's place."""
    phases = pose.phases
    return evolve(pose, phases=(*phases[:index], moment, *phases[index + 1 :]))


# ---- what a pull has changed --------------------------------------------------------------


def with_pulled(pose: Pose, index: int, before: Settled, after: Settled, handle: Handle) -> Pose:
    """The pose whose moment stands as a pull has left it; only what moved is written.

    Args:
        before, after: the settled moment without the pull and with it.
        handle: what was pulled; where it rests follows it along its surface.
    """
    moved = {
        key: degrees
        for key, degrees in after.angles.items()
        if abs(degrees - before.angles.get(key, 0.0)) > _CHANGED_DEG
    }
    made = with_angles(pose, index, moved) if moved else pose
    moment = made.phases[index]
    if _differ(before.base, after.base):
        moment = evolve(moment, base=_rounded(after.base))
    return with_moment(made, index, _slid(pose, moment, after, handle))


def _differ(a: Base, b: Base) -> bool:
    return any(
        abs(getattr(a, name) - getattr(b, name)) > _CHANGED_CM
        for name in ("lean_deg", "side_lean_deg", "forward_cm", "up_cm", "across_cm")
    )


def _rounded(base: Base) -> Base:
    return evolve(
        base,
        lean_deg=round(base.lean_deg, 1),
        side_lean_deg=round(base.side_lean_deg, 1),
        forward_cm=round(base.forward_cm, 1),
        up_cm=round(base.up_cm, 1),
        across_cm=round(base.across_cm, 1),
    )


def _slid(pose: Pose, moment: PosePhase, after: Settled, handle: Handle) -> PosePhase:
    """The moment whose contacts are where the pulled hand or foot has slid to."""
    new: list[Contact] = []
    for contact in contacts_of(pose, moment):
        if contact.forward_cm is None or not on_handle(contact, handle):
            continue
        name = f"{contact.point.value}.{handle.letter}"
        here = round(after.body.points[name][0], 1)
        if abs(here - contact.forward_cm) > 0.5:
            new.append(evolve(contact, side=handle.side, forward_cm=here))
    if not new:
        return moment
    gone = {each.point for each in new}
    kept = [
        each
        for own in moment.contacts
        for each in (_one_sided(own, handle.side) if own.point in gone else (own,))
    ]
    return evolve(moment, contacts=(*kept, *new))


_OTHER: Final = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}


def _one_sided(contact: Contact, without: Side) -> tuple[Contact, ...]:
    """A contact without one side: of both, the other is left."""
    if contact.side is without:
        return ()
    if contact.side is _OTHER.get(without):
        return (contact,)
    return (evolve(contact, side=_OTHER[without]),)


def holds(pose: Pose, index: int, handle: Handle) -> bool:
    """Whether something holds this hand or foot in a moment."""
    return any(on_handle(each, handle) for each in contacts_of(pose, pose.phases[index]))


def let_go(pose: Pose, index: int, handle: Handle) -> Pose:
    """The pose in whose moment a hand or foot rests on nothing; in others it stays.

    Contacts of the whole pose are written into each of the other moments instead.
    """
    shared = [each for each in pose.contacts if on_handle(each, handle)]
    kept = tuple(
        left
        for each in pose.contacts
        for left in (_one_sided(each, handle.side) if each in shared else (each,))
    )
    phases = []
    for number, moment in enumerate(pose.phases):
        if number == index:
            own = tuple(
                left
                for each in moment.contacts
                for left in (_one_sided(each, handle.side) if on_handle(each, handle) else (each,))
            )
        else:
            here = {(e.point, s) for e in moment.contacts for s in (e.side, Side.BOTH)}
            own = moment.contacts
            if not moment.airborne:
                own = (
                    *own,
                    *(
                        evolve(each, side=handle.side)
                        for each in shared
                        if (each.point, handle.side) not in here
                    ),
                )
        phases.append(evolve(moment, contacts=own))
    return evolve(pose, contacts=kept, phases=tuple(phases))


# ---- moments ------------------------------------------------------------------------------


def free_phase(pose: Pose) -> Phase | None:
    """The name for a moment that comes next, or None where all are taken."""
    taken = {each.phase for each in pose.phases}
    return next((p for p in (Phase.END, *Phase) if p not in taken), None)


def with_copied_moment(pose: Pose, index: int) -> Pose:
    """The pose with a copy of a moment after it, to be changed from there.

    Raises:
        ModelError: every moment is there.
    """
    name = free_phase(pose)
    if name is None:
        raise ModelError("phases", say("Every moment is there; take one out first."))
    copy = evolve(pose.phases[index], phase=name, hold=False)
    return evolve(pose, phases=(*pose.phases[: index + 1], copy, *pose.phases[index + 1 :]))


def without_moment(pose: Pose, index: int) -> Pose:
    """The pose without a moment.

    Raises:
        ModelError: it is the only one.
    """
    gone = pose.phases[index].phase
    earlier = None if pose.earlier is gone else pose.earlier
    return evolve(pose, phases=(*pose.phases[:index], *pose.phases[index + 1 :]), earlier=earlier)


def with_moment_moved(pose: Pose, index: int, by: int) -> Pose:
    """The pose whose moment stands earlier or later; the same at the ends."""
    goal = index + by
    if not 0 <= goal < len(pose.phases):
        return pose
    order = list(pose.phases)
    order.insert(goal, order.pop(index))
    return evolve(pose, phases=tuple(order))


def with_phase_named(pose: Pose, index: int, phase: Phase) -> Pose:
    """The pose whose moment is called otherwise; one that was called so takes its name."""
    old = pose.phases[index].phase
    swap = {phase: old, old: phase}
    return evolve(
        pose,
        phases=tuple(evolve(each, phase=swap.get(each.phase, each.phase)) for each in pose.phases),
        earlier=swap.get(pose.earlier, pose.earlier) if pose.earlier is not None else None,
    )


# ---- poses of a library -------------------------------------------------------------------


@frozen
class Started:
    """A library with a new pose in it, and that pose's id."""

    library: Library
    pose_id: str


def copied(library: Library, pose: Pose) -> Started:
    """A library with its own copy of a pose, under names of its own."""
    taken = {each.slug for each in library.poses.values()} | set(library.stock_poses)
    slug = fresh_id(pose.slug, taken, "pose")
    made = evolve(pose, id=new_file_id(), slug=slug, licence="")
    return Started(with_pose(library, made), made.id)


def without_pose(library: Library, pose_id: str) -> Library:
    """The library without a pose; the same where it has none of this id."""
    return evolve(library, poses={k: v for k, v in library.poses.items() if k != pose_id})


def edited(library: Library, pose_id: str, change: Callable[[Pose], Pose]) -> Library:
    """The library with one pose changed.

    Raises:
        ModelError: the change is outside a field's limits.
    """
    return with_pose(library, change(library.poses[pose_id]))


def retitled(pose: Pose, title: Text) -> Pose:
    """The pose with another title."""
    return evolve(pose, title=title)


def turned(camera: Camera, *, view: View | None = None, near: NearSide | None = None) -> Camera:
    """A camera that looks from elsewhere; a turn that was set by hand is taken back."""
    return evolve(
        camera,
        view=view or camera.view,
        from_side=near or camera.from_side,
        turn_deg=0.0 if view is not None else camera.turn_deg,
    )
