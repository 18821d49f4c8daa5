"""Who is drawn: the clinic's choice, and a fixed variety where it leaves the choice open."""

from __future__ import annotations

import colorsys
import hashlib
from collections.abc import Sequence
from typing import Final, TypeVar

from authoring.figures.look import (
    Age,
    Build,
    Footwear,
    Hair,
    HairColour,
    Legwear,
    Look,
    Skin,
)
from authoring.model.figure_look import FigureLook

_T = TypeVar("_T")

# Drawn as often as they stand here, so that nobody is the rule and nobody the exception.
_HAIR: Final = (
    Hair.SHORT, Hair.SHORT, Hair.CURLY, Hair.BOB, Hair.TIED, Hair.TIED, Hair.BUN, Hair.SCARF,
    Hair.NONE,
)  # fmt: skip
_BUILDS: Final = (Build.SLIM, Build.MEDIUM, Build.MEDIUM, Build.BROAD)
_AGES: Final = (Age.ADULT, Age.ADULT, Age.OLDER)
_COLOURS: Final = {
    Skin.LIGHT: (HairColour.SAND, HairColour.BROWN),
    Skin.TAN: (HairColour.BROWN, HairColour.BLACK, HairColour.SAND),
    Skin.OLIVE: (HairColour.BROWN, HairColour.BLACK),
    Skin.BROWN: (HairColour.BLACK,),
    Skin.DARK: (HairColour.BLACK,),
}


def look_of(choice: FigureLook, colour: str, key: str) -> Look:
    """The person that a handout, or a pose on its own, shows.

    Args:
        choice: what the clinic wants; of several, the key takes one.
        colour: the clinic's colour, ``#rrggbb``; clothes take it up.
        key: id of what the handout is made from, or the pose's short name; the same key
            always gives the same person.
    """
    age = _pick(choice.ages or _AGES, key, "age")
    skin = _pick(choice.skins or tuple(Skin), key, "skin")
    hair = _pick(choice.hair or _HAIR, key, "hair")
    usual = (HairColour.GREY,) if age is Age.OLDER else _COLOURS[skin]
    covered = (Legwear.LEGGINGS,) if hair is Hair.SCARF else tuple(Legwear)
    return Look(
        skin=skin,
        hair=hair,
        hair_colour=_pick(choice.hair_colours or usual, key, "hair colour"),
        build=_pick(choice.builds or _BUILDS, key, "build"),
        age=age,
        legwear=_pick(choice.legwear or covered, key, "legwear"),
        footwear=_pick(choice.footwear or (Footwear.SHOES,), key, "footwear"),
        top=choice.top or beside(colour),
        shorts=choice.bottom or colour,
        accent=beside(colour, turn=0.42, light=0.40),
    )


def _pick(of: Sequence[_T], key: str, what: str) -> _T:
    """One of several, by a hash of the key; the built-in ``hash`` differs between runs."""
    made = hashlib.sha256(f"{what}:{key}".encode()).digest()
    return of[int.from_bytes(made[:4], "big") % len(of)]


def beside(colour: str, *, turn: float = -0.055, light: float = 0.36) -> str:
    """A colour of medium lightness that goes with another.

    Args:
        colour: ``#rrggbb``.
        turn: how far round the circle of hues, 1 being all the way.
        light: lightness (of hue, lightness and saturation), so that skin, shirt and legs
            stay apart in grey.
    """
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    hue, _, full = colorsys.rgb_to_hls(red, green, blue)
    made = colorsys.hls_to_rgb((hue + turn) % 1.0, light, min(0.48, full))
    return "#" + "".join(f"{round(255 * each):02X}" for each in made)
