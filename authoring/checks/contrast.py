"""Contrast of two colours, and colours derived from a clinic's brand.

Relative luminance and contrast ratio: Web Content Accessibility Guidelines
(WCAG) 2.2, W3C Recommendation, glossary. Thresholds: success criteria 1.4.3
(AA), 1.4.6 (AAA) and 1.4.11 (graphics). A ratio is never rounded before it is
compared: 4.499 fails 4.5.

Colours are opaque sRGB, written ``#RRGGBB``.
"""

from __future__ import annotations

import re
from enum import StrEnum
from functools import lru_cache
from typing import TypeAlias

from attrs import frozen

RGB: TypeAlias = tuple[int, int, int]

AAA_TEXT = 7.0
AA_TEXT = 4.5
LARGE_TEXT = 3.0
GRAPHICS = 3.0

BLACK = "#000000"
WHITE = "#FFFFFF"
INK = "#15191C"

# Shares of the brand colour in white, and the least ratio to white paper that
# keeps a panel and a middle grey visible on an office printer (common practice,
# no source).
_TINT_SHARE = 0.085
_MIDDLE_SHARE = 0.245
_TINT_VISIBLE = 1.1
_MIDDLE_VISIBLE = 1.5
_DARKEN_STEPS = 100

_HEX = re.compile(r"#[0-9A-Fa-f]{6}", re.ASCII)


class ColourError(ValueError):
    """A colour is not written as ``#RRGGBB``; the message is one sentence for the user."""


class Verdict(StrEnum):
    """What a ratio is enough for. Large text: 18 pt and more, or bold from 14 pt."""

    AAA = "AAA"
    AA = "AA"
    LARGE_ONLY = "large only"
    FAILS = "fails"


@frozen
class Tints:
    """Two light panels of one brand colour, as ``#RRGGBB``; ``tint`` is the lighter."""

    tint: str
    middle: str


def parse_hex(colour: str) -> RGB:
    """Red, green and blue, 0 to 255, of ``#RRGGBB`` in either case.

    Raises:
        ColourError: for any other spelling, short forms and names included.
    """
    if not _HEX.fullmatch(colour):
        shown = colour if len(colour) <= 20 else f"{colour[:20]}…"
        raise ColourError(
            f"“{shown}” is not a colour: write # and six of the signs 0–9 and A–F, as in #123F5C."
        )
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def to_hex(rgb: RGB) -> str:
    """``#RRGGBB`` in capitals; each part is 0 to 255."""
    return "#{:02X}{:02X}{:02X}".format(*rgb)


def _linear(channel: int) -> float:
    share = channel / 255
    # 0.04045 since May 2021; the older 0.03928 gives the same for all 256 values.
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


@lru_cache(maxsize=4096)
def luminance(colour: str) -> float:
    """Relative luminance of ``#RRGGBB``, 0 (black) to 1 (white); raises ColourError."""
    red, green, blue = (_linear(channel) for channel in parse_hex(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast_ratio(one: str, other: str) -> float:
    """Contrast of two ``#RRGGBB`` colours, 1 to 21, in either order; raises ColourError."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def verdict(ratio: float) -> Verdict:
    """The highest WCAG text level that an unrounded ratio reaches."""
    if ratio >= AAA_TEXT:
        return Verdict.AAA
    if ratio >= AA_TEXT:
        return Verdict.AA
    return Verdict.LARGE_ONLY if ratio >= LARGE_TEXT else Verdict.FAILS


def judge(text: str, background: str) -> Verdict:
    """The verdict on text of one ``#RRGGBB`` colour over another; raises ColourError."""
    return verdict(contrast_ratio(text, background))


def shown_ratio(ratio: float) -> str:
    """The ratio for people, cut (never rounded up) to two decimals, as ``4.49:1``."""
    # The small addend undoes binary noise, so that 4.50 is not shown as 4.49.
    return f"{int(ratio * 100 + 1e-9) / 100:.2f}:1"


def readable_on(colour: str) -> str:
    """Black or white, whichever reads better on ``colour``.

    One of the two always reaches 4.58:1 (the square root of 21), so AA holds on
    any colour. Raises ColourError.
    """
    light = contrast_ratio(WHITE, colour)
    return WHITE if light >= contrast_ratio(BLACK, colour) else BLACK


def text_colour(brand: str, ink: str = INK, paper: str = WHITE) -> str:
    """The brand colour where it reaches 7:1 on the paper, the ink otherwise.

    Raises ColourError.
    """
    return brand.upper() if contrast_ratio(brand, paper) >= AAA_TEXT else ink


def tints(brand: str) -> Tints:
    """Light panels that keep a brand's hue, for any brand colour.

    Dark text (:data:`INK` or black) reaches at least 7:1 on both. The tint
    stands out from white paper by 1.1:1 or more and the middle by 1.5:1 or more
    even where the brand itself is white. Raises ColourError.
    """
    rgb = parse_hex(brand)
    return Tints(
        tint=_panel(rgb, _TINT_SHARE, _TINT_VISIBLE),
        middle=_panel(rgb, _MIDDLE_SHARE, _MIDDLE_VISIBLE),
    )


def _mix(one: RGB, other: RGB, share: float) -> RGB:
    """``share`` of one colour in the other, on the sRGB scale."""
    red, green, blue = (round(a * share + b * (1 - share)) for a, b in zip(one, other, strict=True))
    return red, green, blue


def _panel(brand: RGB, share: float, visible: float) -> str:
    """The brand lightened by white; darkened again, step by step, while invisible on white."""
    light = _mix(brand, (255, 255, 255), share)
    for step in range(_DARKEN_STEPS):
        panel = to_hex(_mix(light, (0, 0, 0), 1 - step / _DARKEN_STEPS))
        if contrast_ratio(panel, WHITE) >= visible:
            break
    return panel
