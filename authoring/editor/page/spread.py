"""Where pages lie on the screen: scale and places. No Qt here."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from attrs import frozen

Size = tuple[float, float]
"""Width and height."""

ACTUAL = 96 / 72
"""Logical pixels a point at 100 %."""

STEPS = (0.5, 0.67, 0.8, 1.0, 1.25, 1.5, 2.0, 3.0)
"""Sizes that the zoom keys go through, as shares of 100 %."""

_WIDEST = 1.25
_SMALLEST = 0.1


class Fit(StrEnum):
    """Sizes that follow the window."""

    WIDTH = "width"
    PAGE = "page"


Zoom = Fit | float
"""A size that follows the window, or a share of 100 %."""


@frozen
class Rect:
    """A page's place, in logical pixels."""

    x: int
    y: int
    width: int
    height: int

    @property
    def bottom(self) -> int:
        """The first line below it."""
        return self.y + self.height


@frozen
class Spread:
    """Pages in rows. ``share`` is the size as a share of 100 %."""

    places: tuple[Rect, ...]
    width: int
    height: int
    share: float

    def page_at(self, top: int, height: int) -> int:
        """Index of the page that shows most between ``top`` and ``top + height``; 0 for none."""
        seen = [min(r.bottom, top + height) - max(r.y, top) for r in self.places]
        return seen.index(max(seen)) if seen else 0


def share_of(zoom: Zoom, sizes: Sequence[Size], room: tuple[int, int], gap: int) -> float:
    """A zoom as a share of 100 %.

    ``WIDTH`` fills the width, up to 125 %; ``PAGE`` shows whole pages.

    Args:
        sizes: the pages, in points.
        room: width and height that can be seen, in logical pixels.
        gap: around each page.
    """
    if isinstance(zoom, float) or not sizes:
        return zoom if isinstance(zoom, float) else 1.0
    wide = (room[0] - 2 * gap) / (max(size[0] for size in sizes) * ACTUAL)
    high = (room[1] - 2 * gap) / (max(size[1] for size in sizes) * ACTUAL)
    found = min(wide, _WIDEST) if zoom is Fit.WIDTH else min(wide, high)
    return max(found, _SMALLEST)


def lay_out(
    zoom: Zoom,
    sizes: Sequence[Size],
    room: tuple[int, int],
    gap: int,
    *,
    mirrored: bool = False,
) -> Spread:
    """Pages side by side as far as the width allows, the rows in the middle.

    Args: as for :func:`share_of`; ``mirrored`` for reading from right to left.
    """
    share = share_of(zoom, sizes, room, gap)
    scaled = [(round(w * share * ACTUAL), round(h * share * ACTUAL)) for w, h in sizes]
    if not scaled:
        return Spread((), room[0], room[1], share)
    widest = max(width for width, _ in scaled)
    across = min(len(scaled), max(1, (room[0] - gap) // (widest + gap)))
    total = max(room[0], across * (widest + gap) + gap)
    left = (total - across * (widest + gap) - gap) // 2 + gap
    places: list[Rect] = []
    y = gap
    for start in range(0, len(scaled), across):
        row = scaled[start : start + across]
        for column, (width, height) in enumerate(row):
            x = left + column * (widest + gap)
            places.append(Rect(total - x - width if mirrored else x, y, width, height))
        y += max(height for _, height in row) + gap
    return Spread(tuple(places), total, y, share)


def next_share(share: float, step: int) -> float:
    """The next larger (1) or smaller (-1) size of :data:`STEPS`."""
    if step > 0:
        return next((one for one in STEPS if one > share + 0.01), STEPS[-1])
    return next((one for one in reversed(STEPS) if one < share - 0.01), STEPS[0])
