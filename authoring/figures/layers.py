"""What a picture is made of: layers of paths, in parts that are sorted by depth."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import frozen

from authoring.figures.look import LINE
from authoring.figures.outline import number


@frozen
class Layer:
    """Overlapping shapes of one colour with one line around all of them.

    Attributes:
        paths: SVG path data.
        fill: colour, or "" for a line only.
        line: colour of the line, "" for none.
        width: width of the line, drawing units; it lies outside the fill.
        open: whether the paths are lines rather than shapes.
        halo: whether the line must take nothing from the fill.
        dash: length of dashes and gaps of an open layer, drawing units; none by default.
    """

    paths: tuple[str, ...]
    fill: str
    line: str = LINE
    width: float = 1.65
    open: bool = False
    dash: tuple[float, ...] = ()
    halo: bool = False

    def svg(self) -> str:
        """The layer; the line of a shape is drawn first, so that seams inside it vanish."""
        data = "".join(self.paths)
        if self.open:
            dash = f' stroke-dasharray="{" ".join(map(number, self.dash))}"' if self.dash else ""
            return (
                f'<path d="{data}" fill="none" stroke="{self.line}" '
                f'stroke-width="{number(self.width)}"{dash}/>'
            )
        if self.line and self.fill and data.count("M") == 1 and not self.halo:
            # One shape has no seams to hide: half the bytes.
            return (
                f'<path d="{data}" fill="{self.fill}" stroke="{self.line}" '
                f'stroke-width="{number(self.width)}"/>'
            )
        made = ""
        if self.line:
            made = (
                f'<path d="{data}" stroke="{self.line}" stroke-width="{number(2 * self.width)}"/>'
            )
        return made + (f'<path d="{data}" fill="{self.fill}"/>' if self.fill else "")


@frozen
class Part:
    """Layers that are drawn together.

    Attributes:
        depth: how near the viewer, cm.
        layers: from back to front.
    """

    depth: float
    layers: tuple[Layer, ...]


def sorted_layers(parts: Iterable[Part]) -> list[Layer]:
    """Layers of all parts, the farthest part first; of equals the earlier one first."""
    return [
        layer for part in sorted(parts, key=lambda p: round(p.depth, 3)) for layer in part.layers
    ]
