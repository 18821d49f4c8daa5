"""The clinic's brand as colours that can be read on paper."""

from __future__ import annotations

from authoring.checks.contrast import AAA_TEXT, WHITE, contrast_ratio, readable_on, tints
from authoring.handout.context import Context, read_picture
from authoring.handout.document import BrandStyle
from authoring.model.clinic import Clinic

_INK = "#15191C"
_SOFT = "#454D53"
_RULE = "#AAB4BA"


def brand_style(clinic: Clinic, context: Context) -> BrandStyle:
    """Colours, font and logo of the clinic's pages.

    A colour below 7:1 on white (WCAG 2.2, success criterion 1.4.6) is kept for marks
    and panels, and ink takes its place in text.

    Raises:
        HandoutError: the logo can't be used.
    """
    brand = clinic.brand
    ink = brand.ink if contrast_ratio(brand.ink, WHITE) >= AAA_TEXT else _INK
    panels = tints(brand.colour)
    readable = contrast_ratio(brand.colour, WHITE) >= AAA_TEXT
    logo = None
    if brand.logo is not None:
        alt = context.clinic_text(brand.logo.alt)
        logo = read_picture(context.images, brand.logo.image, alt, "")
    return BrandStyle(
        ink=ink,
        soft=_SOFT,
        brand=brand.colour,
        brand_text=brand.colour if readable else ink,
        on_brand=readable_on(brand.colour),
        tint=panels.tint,
        middle=panels.middle,
        rule=_RULE,
        font=brand.font,
        logo=logo,
    )
