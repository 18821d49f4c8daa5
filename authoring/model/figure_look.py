"""What the people in drawn pictures look like: the clinic's choice.

What a clinic leaves open differs from exercise to exercise, always alike for the same one.
"""

from __future__ import annotations

from enum import StrEnum

from authoring.model.base import HEX_COLOUR, Node, fact, node, optional


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
    """The person in drawn pictures; what is not given differs between exercises."""

    skin: Skin | None = optional("Skin tone.")
    hair: Hair | None = optional("Hair.")
    hair_colour: HairColour | None = optional("Colour of hair.")
    build: Build | None = optional("Build.")
    age: Age | None = optional("Age of the face.")
    legwear: Legwear | None = optional("Clothes of the legs.")
    footwear: Footwear | None = optional("Shoes or bare feet.")
    top: str | None = optional(
        "Colour of the shirt; else it goes with the clinic's.", pattern=HEX_COLOUR
    )
    bottom: str | None = optional(
        "Colour of shorts or leggings; else the clinic's.", pattern=HEX_COLOUR
    )
    mark_side: bool = fact("Whether bands show the affected side.", default=False)
