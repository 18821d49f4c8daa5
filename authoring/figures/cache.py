"""Pictures kept by what they are made of, in a store that the caller owns.

A key is the SHA-256 of everything that the bytes depend on, so that a store never needs to
be emptied: what changes gets another key.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import MutableMapping
from importlib.metadata import version
from typing import Final

from authoring import __version__
from authoring.figures.drawing import Drawing, draw, png
from authoring.figures.look import PLAIN, Look
from authoring.model.pose import Pose
from authoring.model.vocabulary import Phase, Side

MM_PER_INCH: Final = 25.4
PRINT_DPI: Final = 300
_SIZE: Final = re.compile(rb'<svg [^>]*width="(\d+)" height="(\d+)"')


def key_of(*parts: object) -> str:
    """Hexadecimal SHA-256 of what the parts' ``repr`` says, each with its length before it."""
    made = hashlib.sha256()
    for part in parts:
        said = repr(part).encode()
        made.update(f"{len(said)}:".encode())
        made.update(said)
    return made.hexdigest()


def pixels_for(width_mm: float, dpi: float = PRINT_DPI) -> int:
    """Pixels that a width on paper takes, at least 1."""
    return max(1, round(width_mm / MM_PER_INCH * dpi))


def stored_svg(
    store: MutableMapping[str, bytes],
    pose: Pose,
    phase: Phase | None = None,
    look: Look = PLAIN,
    marked: Side = Side.NONE,
) -> bytes:
    """The picture of a moment as SVG, from the store where it is there.

    Raises:
        PoseError: as :func:`authoring.figures.drawing.draw` does; nothing is stored then.
    """
    key = key_of("svg", __version__, pose, phase, look, marked)
    found = store.get(key)
    if found is None:
        found = store[key] = draw(pose, phase, look, marked).svg.encode()
    return found


def size_of(svg: bytes) -> tuple[int, int]:
    """Natural width and height in CSS pixels that a drawing of ours says at its start.

    Raises:
        ValueError: it is none of ours.
    """
    found = _SIZE.search(svg[:200])
    if found is None:
        raise ValueError("a drawing starts with its size")
    return int(found[1]), int(found[2])


def stored_png(
    store: MutableMapping[str, bytes],
    drawing: Drawing,
    width_mm: float,
    dpi: float = PRINT_DPI,
) -> bytes:
    """The picture as PNG on white for a width on paper, from the store where it is there."""
    key = key_of("png", version("resvg-py"), drawing.svg, width_mm, dpi)
    found = store.get(key)
    if found is None:
        found = store[key] = png(drawing, pixels_for(width_mm, dpi))
    return found
