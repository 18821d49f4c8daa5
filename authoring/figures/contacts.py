"""What a contact asks of a body: coordinates that places on it must have."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from attrs import frozen

from authoring.figures.angles import SIDES
from authoring.model.pose import FLOOR, BodyPoint, Contact, Pose, PosePhase, Prop, PropKind
from authoring.model.vocabulary import Side

CHAIR_BACK_CM = 42.0
"""Top of a chair's back above its seat (common size of kitchen chairs, no source)."""


class PoseError(Exception):
    """A pose that can't be drawn. The message is one sentence."""


SIDED = frozenset(BodyPoint) - {
    BodyPoint.SEAT,
    BodyPoint.BELLY,
    BodyPoint.CHEST,
    BodyPoint.BACK,
    BodyPoint.HEAD,
    BodyPoint.NOSE,
}
HANDS = frozenset({BodyPoint.PALM, BodyPoint.GRIP, BodyPoint.FINGERTIPS})

CLEARANCE: Mapping[str, float] = {
    "heel": 0.0,
    "ball": 0.0,
    "toe": 0.0,
    "outer_foot": 0.0,
    "instep": 2.4,
    "ankle": 3.4,
    "shin": 4.6,
    "thigh": 7.2,
    "belly": 9.0,
    "chest": 10.2,
    "shoulder": 5.6,
    "nose": 0.0,
    "thumb": 1.2,
    "palm": 2.0,
    "knee": 5.4,
    "seat": 9.6,
    "hip": 9.4,
    "back": 9.6,
    "head": 8.6,
    "elbow": 3.6,
    "forearm": 3.4,
    "wrist": 2.6,
    "knuckle": 2.0,
    "grip": 2.6,
    "fingertips": 1.6,
}
"""Flesh between a place inside the body and the surface it rests on, cm (drawn sizes)."""

_FLAT: Mapping[BodyPoint, tuple[str, ...]] = {BodyPoint.PALM: ("wrist", "knuckle")}
"""Places that must all lie on the surface where a flat part of the body rests on it."""


@frozen
class Want:
    """One coordinate that a place must have.

    Attributes:
        place: name in the skeleton.
        axis: 0 forward, 1 up, 2 right.
        value: centimetres.
        contact: what asks for it.
    """

    place: str
    axis: int
    value: float
    contact: Contact


def contacts_of(pose: Pose, moment: PosePhase) -> tuple[Contact, ...]:
    """Contacts of a moment; its own take the place of the pose's for the same place."""
    own = {(each.point, side) for each in moment.contacts for side in _sides(each)}
    kept = [] if moment.airborne else [_without(each, own) for each in pose.contacts]
    return (*(each for each in kept if each is not None), *moment.contacts)


def _sides(contact: Contact) -> tuple[str, ...]:
    return SIDES[contact.side] if contact.point in SIDED else ("",)


def _without(contact: Contact, own: set[tuple[BodyPoint, str]]) -> Contact | None:
    """The contact for the sides that are not in ``own``; None where no side is left."""
    left = [side for side in _sides(contact) if (contact.point, side) not in own]
    if len(left) == len(_sides(contact)):
        return contact
    if not left:
        return None
    side = Side.LEFT if left == ["l"] else Side.RIGHT
    return Contact(
        point=contact.point,
        side=side,
        on=contact.on,
        forward_cm=contact.forward_cm,
        up_cm=contact.up_cm,
    )


def top_of(prop: Prop, point: BodyPoint) -> float:
    """Height of the surface that a place on the body meets, cm."""
    if prop.kind is PropKind.CHAIR and point in HANDS:
        return prop.height_cm + CHAIR_BACK_CM
    return prop.height_cm


def back_of(chair: Prop) -> float:
    """Where the middle of a chair's back stands, cm forward."""
    return chair.forward_cm + (chair.length_cm - 1.5 if chair.faces_back else 1.5)


def wants(contacts: Iterable[Contact], props: Iterable[Prop]) -> Iterator[Want]:
    """Every coordinate that contacts ask for.

    Raises:
        PoseError: a contact names a support that the pose does not have.
    """
    by_id = {prop.id: prop for prop in props}
    for contact in contacts:
        if contact.on not in by_id and contact.on != FLOOR:
            raise PoseError(
                f"The {contact.point.value} is on {contact.on!r}, and the pose has no such "
                "support; add it, or name another."
            )
        for side in _sides(contact):
            for place in _FLAT.get(contact.point, (contact.point.value,)):
                name = f"{place}.{side}" if side else place
                yield from _wants(contact, name, CLEARANCE[place], by_id)
            yield from _fixed(contact, side, by_id)


def _wants(
    contact: Contact, name: str, clearance: float, by_id: Mapping[str, Prop]
) -> Iterator[Want]:
    if contact.on == FLOOR:
        yield Want(name, 1, clearance, contact)
        return
    prop = by_id[contact.on]
    if prop.kind is PropKind.WALL:
        ahead = prop.forward_cm >= 0
        yield Want(name, 0, prop.forward_cm + (-clearance if ahead else clearance), contact)
        return
    yield Want(name, 1, top_of(prop, contact.point) + clearance, contact)


def _fixed(contact: Contact, side: str, by_id: Mapping[str, Prop]) -> Iterator[Want]:
    """Where along its support a place lies, where that is given or can only be one."""
    name = f"{contact.point.value}.{side}" if side else contact.point.value
    prop = by_id.get(contact.on)
    if contact.up_cm is not None and prop is not None and prop.kind is PropKind.WALL:
        yield Want(name, 1, contact.up_cm, contact)
    elif contact.forward_cm is not None:
        yield Want(name, 0, contact.forward_cm, contact)
    elif prop is not None and prop.kind is PropKind.CHAIR and contact.point in HANDS:
        yield Want(name, 0, back_of(prop), contact)
