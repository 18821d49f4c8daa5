"""Moments that muscles and ligaments of a joint must make to hold what lies beyond it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from attrs import frozen

from authoring.figures.space import UP, Vector, along, column, cross, dot, length_of, less
from authoring.mechanics.balance import Held
from authoring.mechanics.estimate import What
from authoring.mechanics.placed import Placed
from authoring.mechanics.pulls import Pull
from authoring.mechanics.segments import G
from authoring.mechanics.touching import Push

WHERE_M: Final = 0.01
"""How far a push may act from where it is drawn under a hand or foot (assumption)."""

ANGLE: Final = 0.07
"""Tangent of 4 degrees, by which a limb may stand otherwise than drawn (assumption): for the
knee of a squat 3 to 4 cm of lever, and 10 degrees at the ankle move its moment by 40 per cent."""

_LEAST_HEIGHT_M: Final = 0.1

_ARM: Final = ("upper_arm", "forearm", "hand")
_LEG: Final = ("thigh", "shank", "foot")
_TOP: Final = ("chest", "head", *(f"{part}.{side}" for part in _ARM for side in "lr"))


@frozen
class _Joint:
    """Where a joint is, and what it carries.

    Attributes:
        place: name of the joint's place.
        beyond: parts that it carries.
        hinge: part whose axis to the right it turns about; "" for any axis.
        long: part whose length is left out of a ball joint's bending, or alone counts.
        about_long: whether only the moment about that length counts.
    """

    place: str
    beyond: tuple[str, ...]
    hinge: str = ""
    long: str = ""
    about_long: bool = False


_JOINTS: Final[Mapping[What, _Joint]] = {
    What.SHOULDER: _Joint("shoulder", _ARM, long="upper_arm"),
    What.SHOULDER_ROTATION: _Joint("shoulder", _ARM, long="upper_arm", about_long=True),
    What.ELBOW: _Joint("elbow", _ARM[1:], hinge="upper_arm"),
    What.WRIST: _Joint("wrist", _ARM[2:]),
    What.HIP: _Joint("hip", _LEG),
    What.KNEE: _Joint("knee", _LEG[1:], hinge="thigh"),
    What.ANKLE: _Joint("ankle", _LEG[2:], hinge="shank"),
}
"""Joints of limbs. Elbow, knee and ankle count about their hinge alone: what bends them
sideways is held by ligaments."""


@frozen
class Moment:
    """A moment at a joint, N·m, with what the statics leave open.

    Attributes:
        side: "l", "r" or "".
        low, value, high: size of the moment.
        bare: its size without things held, cables and bands, where the limb is free; else
            None.
        slack: what the forces of contacts beyond the joint may add or take, N·m, where they
            act or the limb stands otherwise than drawn.
    """

    what: What
    side: str
    low: float
    value: float
    high: float
    bare: float | None
    slack: float


def moments(
    body: Placed,
    pulls: Sequence[Pull],
    held: Held | None,
    weight_n: float,
    still: tuple[set[str], set[str]],
) -> Iterator[Moment]:
    """The moment at every joint that can be known.

    Args:
        held: the contacts' pushes; None where they are not known, which leaves out the joints
            with a contact beyond them.
        weight_n: body weight.
        still: parts that touch something, and parts that only lie there.
    """
    touched, resting = still
    for side in ("l", "r"):
        for what, joint in _JOINTS.items():
            beyond = {f"{part}.{side}" for part in joint.beyond} - resting
            if not beyond or (held is None and beyond & touched):
                continue
            about = _About(body, pulls, held, weight_n, beyond, joint.place + "." + side)
            yield about.moment(what, side, _axes(body, joint, side))
    top = set(_TOP) - resting
    if held is not None or not top & touched:
        yield _About(body, pulls, held, weight_n, top, "waist").moment(What.LOWER_BACK, "", ())


def _axes(body: Placed, joint: _Joint, side: str) -> tuple[Vector, ...]:
    """Axes that the moment is counted about; empty means all."""
    if joint.hinge:
        return (column(body.frames[f"{joint.hinge}.{side}"], 2),)
    if not joint.long:
        return ()
    frame = body.frames[f"{joint.long}.{side}"]
    if joint.about_long:
        return (column(frame, 1),)
    return (column(frame, 0), column(frame, 2))


@frozen
class _About:
    """The forces beyond one joint, and their moments about it."""

    body: Placed
    pulls: Sequence[Pull]
    held: Held | None
    weight_n: float
    beyond: set[str]
    place: str

    @property
    def _centre(self) -> Vector:
        return self.body.points[self.place]

    def _turn(self, at: Vector, force: Vector) -> Vector:
        return cross(less(at, self._centre), force)

    def _pushed(self, push: Push, force: Vector) -> Vector:
        """Moment of a push. A body drawn off balance leans over its contacts: what is higher
        moves further, up to its centre of mass, and the contacts stay with what is low."""
        if self.held is None or not any(self.held.shift):
            return self._turn(push.at, force)
        parts = self.body.parts
        middle = sum(part.mass_kg * part.centre[1] for part in parts) / self.body.mass_kg
        low = min(each.at[1] for each in self.held.pushes)
        lean = (self._centre[1] - low) / max(middle - low, _LEAST_HEIGHT_M)
        return self._turn(along(push.at, self.held.shift, min(max(lean, 0.0), 1.0) - 1.0), force)

    def _own(self) -> Vector:
        total: Vector = (0.0, 0.0, 0.0)
        for part in self.body.parts:
            if part.name in self.beyond:
                weight = along((0.0, 0.0, 0.0), UP, -part.mass_kg * G)
                total = along(total, self._turn(part.centre, weight), 1.0)
        return total

    def _pulled(self) -> Vector:
        total: Vector = (0.0, 0.0, 0.0)
        for pull in self.pulls:
            if pull.part in self.beyond:
                total = along(total, self._turn(pull.at, pull.force), 1.0)
        return total

    def _touched(self) -> list[tuple[Push, Vector]]:
        if self.held is None:
            return []
        forces = self.held.forces()
        pairs = zip(self.held.pushes, forces, strict=True)
        return [(push, force) for push, force in pairs if push.part in self.beyond]

    def moment(self, what: What, side: str, axes: Sequence[Vector]) -> Moment:
        """The moment about these axes, or in all where there are none."""
        own, touched = self._own(), self._touched()
        fixed = along(own, self._pulled(), 1.0)
        even = fixed
        slack = 0.0
        for push, force in touched:
            even = along(even, self._pushed(push, force), self.weight_n)
            lever = WHERE_M + ANGLE * length_of(less(push.at, self._centre))
            slack += length_of(force) * self.weight_n * lever
        even = _about(even, axes)
        bare = None if touched else length_of(_about(own, axes))
        size = length_of(even)
        low, high = self._range(even, fixed, axes, bool(touched))
        return Moment(what, side, low, size, high, bare, slack)

    def _range(
        self, even: Vector, fixed: Vector, axes: Sequence[Vector], touched: bool
    ) -> tuple[float, float]:
        size = length_of(even)
        if self.held is None or not touched:
            return size, size
        axis = axes[0] if len(axes) == 1 else along((0.0, 0.0, 0.0), even, 1.0 / (size or 1.0))
        base = dot(fixed, axis)

        def worth(push: Push, force: Vector) -> float:
            if push.part not in self.beyond:
                return 0.0
            return dot(self._pushed(push, force), axis) * self.weight_n

        low, _, high = (base + each for each in self.held.bounds(worth))
        if low <= 0.0 <= high:
            return 0.0, max(abs(low), abs(high))
        return min(abs(low), abs(high)), max(abs(low), abs(high))


def _about(moment: Vector, axes: Sequence[Vector]) -> Vector:
    if not axes:
        return moment
    found: Vector = (0.0, 0.0, 0.0)
    for axis in axes:
        found = along(found, axis, dot(moment, axis))
    return found
