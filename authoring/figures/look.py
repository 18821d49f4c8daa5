"""How the drawn person looks: build, skin, hair, clothes; and the colours of things."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Final

from attrs import field, frozen
from attrs.validators import ge, le, matches_re

from authoring.model.base import HEX_COLOUR

LINE: Final = "#22303A"
INK: Final = "#15191C"
WOOD: Final = "#C9B692"
WOOD_LIGHT: Final = "#DDCDB0"
STONE: Final = "#E4E1DA"
MAT: Final = "#A9C6BA"
PILLOW: Final = "#EEF1F3"
GROUND: Final = "#CED6DB"
METAL: Final = "#59636B"
SOLE: Final = "#E9ECEE"
SHOE: Final = "#474D56"
GHOST: Final = "#E3E8EB"
GHOST_LINE: Final = "#A4B1B9"


class Skin(StrEnum):
    """Skin tones, from light to dark."""

    LIGHT = "#F0C9A8"
    TAN = "#E2B48F"
    OLIVE = "#C99670"
    BROWN = "#9B6A48"
    DARK = "#6B4630"


class Hair(StrEnum):
    """Ways to wear hair."""

    SHORT = "short"
    BUN = "bun"
    NONE = "none"


class HairColour(StrEnum):
    """Colours of hair."""

    BROWN = "#4A3830"
    BLACK = "#2B2726"
    GREY = "#A7A9AB"
    SAND = "#A9834F"


class Build(StrEnum):
    """How broad the body is."""

    SLIM = "slim"
    MEDIUM = "medium"
    BROAD = "broad"


WIDTHS: Final[Mapping[Build, float]] = {Build.SLIM: 0.92, Build.MEDIUM: 1.0, Build.BROAD: 1.13}
"""Radius of trunk and limbs against the medium build."""


def _colour(default: str) -> str:
    made: str = field(default=default, validator=matches_re(HEX_COLOUR))
    return made


@frozen
class Look:
    """The drawn person. Colours are ``#rrggbb``; anything else is refused."""

    skin: Skin = Skin.TAN
    hair: Hair = Hair.SHORT
    hair_colour: HairColour = HairColour.BROWN
    build: Build = Build.MEDIUM
    top: str = _colour("#2F7F86")
    shorts: str = _colour("#34425C")

    @property
    def width(self) -> float:
        """Factor on every radius of trunk and limbs."""
        return WIDTHS[self.build]


@frozen
class Shade:
    """Colours of one half of the body; the far half is darker, so that limbs stay apart."""

    skin: str
    top: str
    shorts: str
    shoe: str
    sole: str


def shade(look: Look, *, far: bool) -> Shade:
    """Colours of the near or the far limbs."""
    by = 0.84 if far else 1.0
    return Shade(*(darker(c, by) for c in (look.skin, look.top, look.shorts, SHOE, SOLE)))


def darker(colour: str, by: float) -> str:
    """A colour with each channel times ``by``, 0 to 1."""
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return f"#{round(red * by):02X}{round(green * by):02X}{round(blue * by):02X}"


PLAIN: Final = Look()


@frozen
class Weights:
    """Widths of lines, cm of the drawn person."""

    outline: float = field(default=0.55, validator=[ge(0.1), le(2)])
    detail: float = 0.5


WEIGHTS: Final = Weights()
