"""Fonts that a handout can be set in: those that come with the program. No Qt here."""

from __future__ import annotations

from functools import cache

from PIL import ImageFont

from authoring import resources


@cache
def handout_fonts() -> tuple[str, ...]:
    """Families with both a regular and a bold face, in order of name."""
    faces: dict[str, set[str]] = {}
    for path in resources.fonts().glob("*.ttf"):
        family, face = ImageFont.truetype(str(path), 10).getname()
        faces.setdefault(str(family), set()).add(str(face))
    return tuple(sorted(name for name, has in faces.items() if {"Regular", "Bold"} <= has))
