"""What drawing a body needs to know: where it is, where it is seen from, what it looks like."""

from __future__ import annotations

from attrs import field, frozen
from immutabledict import immutabledict

from authoring.figures.layers import Layer
from authoring.figures.look import LINE, WEIGHTS, Look, Shade, shade
from authoring.figures.outline import Circle, Eye, polygon
from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector, along, between, column
from authoring.figures.sweep import Section, line
from authoring.model.pose import Held

_FAR_CM = 3.0
"""A limb this much farther than the trunk is drawn in the darker colours."""

Row = tuple[float, float, float, float, float]
"""Share of the way along a bone; front, back, outer and inner reach, cm."""


@frozen
class Scene:
    """What drawing a body needs to know.

    Attributes:
        body: where everything is.
        eye: where it is seen from.
        look: what the person looks like.
        held: what each hand holds, by side.
        fists: hands closed round something, by side.
        pressed: hands flat on something, by side.
        tips: hands whose fingertips alone touch, by side.
        marked: limbs with the mark of the affected side, such as "leg.r".
    """

    body: Skeleton
    eye: Eye
    look: Look
    held: immutabledict[str, Held] = field(factory=immutabledict)
    fists: frozenset[str] = frozenset()
    pressed: frozenset[str] = frozenset()
    tips: frozenset[str] = frozenset()
    marked: frozenset[str] = frozenset()

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
        """A layer with the outline of the body; paths that are "" are left out."""
        return Layer(tuple(filter(None, paths)), fill, LINE, WEIGHTS.outline * self.eye.scale)

    def bare(self, *paths: str, fill: str) -> Layer:
        """A layer without an outline."""
        return Layer(tuple(filter(None, paths)), fill, "")

    def stroke(self, *spots: Vector, colour: str = LINE, wide: float = 0.45) -> Layer:
        """A smooth line through places in space, ``wide`` cm."""
        return Layer((line(self.eye, spots),), "", colour, wide * self.eye.scale, open=True)

    def straight(self, *spots: Vector, colour: str = LINE, wide: float = 0.45) -> Layer:
        """Straight lines through places in space, ``wide`` cm."""
        path = polygon([self.eye.see(spot) for spot in spots], closed=False)
        return Layer((path,), "", colour, wide * self.eye.scale, open=True)

    def facing(self, way: Vector) -> float:
        """How much a direction points at the viewer: 1 straight at, -1 straight away."""
        return self.eye.depth(way)

    def bone(
        self, start: Vector, end: Vector, frame: str, rows: tuple[Row, ...], *, ease: float = 0.0
    ) -> list[Section]:
        """Sections along a bone, from a table of the medium build; ``ease`` cm of cloth on top."""
        ahead, right = self.axis(frame, 0), self.axis(frame, 2)
        out = 1.0 if frame.endswith(".r") else -1.0
        wide = self.look.width
        return [
            Section(
                between(start, end, share),
                ahead,
                right,
                front * wide + ease,
                back * wide + ease,
                (outer + inner) / 2 * wide + ease,
                out * (outer - inner) / 2 * wide,
            )
            for share, front, back, outer, inner in rows
        ]

    def off(
        self, at: Vector, frame: str, ahead: float = 0, up: float = 0, right: float = 0
    ) -> Vector:
        """A place from another one, by the axes of a segment, cm."""
        made = along(at, self.axis(frame, 0), ahead)
        return along(along(made, self.axis(frame, 1), up), self.axis(frame, 2), right)
