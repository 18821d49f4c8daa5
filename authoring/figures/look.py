"""How the drawn person looks: build, skin, hair, clothes; and the colours of things."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from attrs import field, frozen
from attrs.validators import ge, le, matches_re

from authoring.model.base import HEX_COLOUR
from authoring.model.figure_look import Age, Build, Footwear, Hair, HairColour, Legwear, Skin

__all__ = ["Age", "Build", "Footwear", "Hair", "HairColour", "Legwear", "Look", "Skin"]

LINE: Final = "#22303A"
INK: Final = "#15191C"
WOOD: Final = "#C9B692"
WOOD_LIGHT: Final = "#DDCDB0"
STONE: Final = "#E4E1DA"
MAT: Final = "#A9C6BA"
PILLOW: Final = "#EEF1F3"
GROUND: Final = "#CED6DB"
METAL: Final = "#59636B"
WATER: Final = "#BFD9E8"
SOLE: Final = "#E9ECEE"
SHOE: Final = "#474D56"
GHOST: Final = "#E3E8EB"
GHOST_LINE: Final = "#84929B"
"""Line of a pale body: 3:1 on white (WCAG 2.2, 1.4.11), and still behind the ink."""

SKIN: Final[Mapping[Skin, str]] = {
    Skin.LIGHT: "#F2CFB2",
    Skin.TAN: "#E2B48F",
    Skin.OLIVE: "#C99670",
    Skin.BROWN: "#A06E4C",
    Skin.DARK: "#7A5139",
}
HAIR: Final[Mapping[HairColour, str]] = {
    HairColour.BLACK: "#2B2726",
    HairColour.BROWN: "#54402F",
    HairColour.SAND: "#B08A52",
    HairColour.GREY: "#A9ADB0",
}
WIDTHS: Final[Mapping[Build, float]] = {Build.SLIM: 0.92, Build.MEDIUM: 1.0, Build.BROAD: 1.12}
"""Reach of trunk and limbs against the medium build."""

BELLIES: Final[Mapping[Build, float]] = {Build.SLIM: -0.6, Build.MEDIUM: 0.0, Build.BROAD: 2.2}
"""What the belly adds in front, cm."""


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
    age: Age = Age.ADULT
    legwear: Legwear = Legwear.SHORTS
    footwear: Footwear = Footwear.SHOES
    top: str = _colour("#2F7F86")
    shorts: str = _colour("#34425C")
    accent: str = _colour("#8C4A5C")

    @property
    def width(self) -> float:
        """Factor on every reach of trunk and limbs."""
        return WIDTHS[self.build]

    @property
    def belly(self) -> float:
        """What the belly adds in front, cm."""
        return BELLIES[self.build]

    @property
    def hair_fill(self) -> str:
        """Colour of the hair."""
        return HAIR[self.hair_colour]

    @property
    def brow(self) -> str:
        """Colour of the brows: the hair's, dark enough for the skin."""
        return darker(self.hair_fill, 0.75)


@frozen
class Shade:
    """Colours of one half of the body; the far half is darker, so that limbs stay apart."""

    skin: str
    top: str
    shorts: str
    shoe: str
    sole: str

    @property
    def skin_line(self) -> str:
        """Lines within the skin."""
        return darker(self.skin, 0.62)

    @property
    def top_line(self) -> str:
        """Lines within the shirt."""
        return darker(self.top, 0.6)


def shade(look: Look, *, far: bool) -> Shade:
    """Colours of the near or the far limbs."""
    by = 0.82 if far else 1.0
    return Shade(*(darker(c, by) for c in (SKIN[look.skin], look.top, look.shorts, SHOE, SOLE)))


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
