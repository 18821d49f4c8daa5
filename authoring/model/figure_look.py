"""What the people in drawn pictures look like: the clinic's choice.

What a clinic leaves open differs from handout to handout, and stays alike within one.
"""

from __future__ import annotations

from enum import StrEnum

from authoring.model.base import HEX_COLOUR, Node, fact, many, node, optional


class Skin(StrEnum):
    """Skin tones, from light to dark."""

    LIGHT = "light"
    TAN = "tan"
    OLIVE = "olive"
    BROWN = "brown"
    DARK = "dark"


class Hair(StrEnum):
    """Ways to wear hair."""

    SHORT = "short"
    CURLY = "curly"
    BOB = "bob"
    TIED = "tied"
    BUN = "bun"
    SCARF = "scarf"
    NONE = "none"


class HairColour(StrEnum):
    """Colours of hair."""

    BLACK = "black"
    BROWN = "brown"
    SAND = "sand"
    GREY = "grey"


class Build(StrEnum):
    """How broad the body is."""

    SLIM = "slim"
    MEDIUM = "medium"
    BROAD = "broad"


class Age(StrEnum):
    """How old the face looks."""

    ADULT = "adult"
    OLDER = "older"


class Legwear(StrEnum):
    """What is worn on the legs."""

    SHORTS = "shorts"
    LEGGINGS = "leggings"


class Footwear(StrEnum):
    """What is worn on the feet."""

    SHOES = "shoes"
    BARE = "bare"


@node
class FigureLook(Node):
    """The people in drawn pictures. Of several words one is drawn; of none, any."""

    skins: tuple[Skin, ...] = many("Skin tones.", longest=5)
    hair: tuple[Hair, ...] = many("Ways to wear hair.", longest=7)
    hair_colours: tuple[HairColour, ...] = many("Colours of hair.", longest=4)
    builds: tuple[Build, ...] = many("Body builds.", longest=3)
    ages: tuple[Age, ...] = many("Ages of the face.", longest=2)
    legwear: tuple[Legwear, ...] = many("Clothes of the legs.", longest=2)
    footwear: tuple[Footwear, ...] = many("Shoes or bare feet; shoes if none is named.", longest=2)
    top: str | None = optional(
        "Colour of the shirt; else it goes with the clinic's.", pattern=HEX_COLOUR
    )
    bottom: str | None = optional(
        "Colour of shorts or leggings; else the clinic's.", pattern=HEX_COLOUR
    )
    mark_side: bool = fact("Whether bands show the affected side.", default=False)
