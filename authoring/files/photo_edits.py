"""Crop, straighten and brighten a photo: pixels in, pixels out.

A photo is made level first, then cut. Everything is written anew from pixels, so that no
metadata and nothing hidden behind the picture comes along.
"""

from __future__ import annotations

import io
import math
from typing import Final

from attrs import field, frozen
from attrs.validators import ge, le
from PIL import Image, ImageEnhance

STEEPEST_DEG: Final = 15.0
LEAST_PART: Final = 0.05
"""Share of width or height that a cut must leave."""

_QUALITY: Final = 88


def _share(default: float) -> float:
    made: float = field(default=default, validator=[ge(0.0), le(1.0)])
    return made


@frozen
class PhotoEdit:
    """What is done to a photo.

    Attributes:
        left, top, right, bottom: what is kept, as shares of the levelled photo's width and
            height from its upper left corner.
        turn_deg: clockwise, at most 15 either way.
        brightness: from -1 (black) over 0 (as it is) to 1 (twice as bright).
    """

    left: float = _share(0.0)
    top: float = _share(0.0)
    right: float = _share(1.0)
    bottom: float = _share(1.0)
    turn_deg: float = field(default=0.0, validator=[ge(-STEEPEST_DEG), le(STEEPEST_DEG)])
    brightness: float = field(default=0.0, validator=[ge(-1.0), le(1.0)])

    def __attrs_post_init__(self) -> None:
        if self.right - self.left < LEAST_PART or self.bottom - self.top < LEAST_PART:
            raise ValueError("a cut must leave a part of the photo")

    @property
    def is_none(self) -> bool:
        """Whether nothing is done."""
        return self == PhotoEdit()


def level_share(width: float, height: float, turn_deg: float) -> float:
    """Share of width and height that is free of empty corners after a turn.

    The largest rectangle of the same shape in the middle of the turned one: its corner must
    lie inside the turned edges, so that s (w cos a + h sin a) <= w and s (w sin a + h cos a)
    <= h.
    """
    a = abs(math.radians(turn_deg))
    along = width / (width * math.cos(a) + height * math.sin(a))
    across = height / (width * math.sin(a) + height * math.cos(a))
    return min(1.0, along, across)


def edited(picture: Image.Image, edit: PhotoEdit) -> Image.Image:
    """A picture levelled, cut and brightened."""
    made = picture
    if edit.turn_deg:
        made = made.rotate(-edit.turn_deg, Image.Resampling.BICUBIC)
        share = level_share(made.width, made.height, edit.turn_deg)
        wide, high = made.width * share, made.height * share
        x, y = (made.width - wide) / 2, (made.height - high) / 2
        made = made.crop((math.ceil(x), math.ceil(y), int(x + wide), int(y + high)))
    box = (
        round(edit.left * made.width),
        round(edit.top * made.height),
        max(round(edit.left * made.width) + 1, round(edit.right * made.width)),
        max(round(edit.top * made.height) + 1, round(edit.bottom * made.height)),
    )
    made = made.crop(box)
    if edit.brightness:
        made = ImageEnhance.Brightness(made).enhance(1.0 + edit.brightness)
    return made


def edited_bytes(data: bytes, ending: str, edit: PhotoEdit) -> bytes:
    """A PNG or JPEG of a library, edited and written anew in the same format.

    Args:
        data: bytes that this program wrote.
        ending: "png" or "jpg".

    Raises:
        OSError, ValueError: they can't be read as a picture.
    """
    with Image.open(io.BytesIO(data), formats=("PNG", "JPEG")) as opened:
        made = edited(opened.convert("RGB" if ending == "jpg" else opened.mode), edit)
    out = io.BytesIO()
    clean = Image.new(made.mode, made.size)
    clean.paste(made)
    if ending == "jpg":
        clean.save(out, "JPEG", quality=_QUALITY, optimize=True)
    else:
        clean.save(out, "PNG", optimize=True)
    return out.getvalue()
