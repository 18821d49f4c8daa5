"""Colours, type and spacing of the screens, from ``tokens.json``.

One :class:`Theme` is in use at a time; widgets ask it for colours and lengths, and
the style sheet is made from it. Lengths are in logical pixels, scaled by the view
scale (100, 115 or 130 %).
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any

from attrs import frozen
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QGuiApplication, QPalette

from authoring import resources

FAMILY = "Atkinson Hyperlegible Next"
FAMILY_SEMIBOLD = "Atkinson Hyperlegible Next SemiBold"

SCALES = (1.0, 1.15, 1.3)
"""View scales on offer."""


class ThemeName(StrEnum):
    """Themes; ``SYSTEM`` follows the desktop."""

    SYSTEM = "system"
    LIGHT = "light"
    DARK = "dark"
    CONTRAST = "contrast"


class Type(StrEnum):
    """Styles of type."""

    DISPLAY = "display"
    TITLE = "title"
    HEADING = "heading"
    STRONG = "strong"
    BODY = "body"
    ENTRY = "entry"
    SMALL = "small"


@cache
def tokens() -> Mapping[str, Any]:
    """The design tokens as they stand in the file."""
    path = Path(__file__).with_name("tokens.json")
    data: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return data


@frozen
class Theme:
    """One set of colours at one scale.

    Attributes:
        name: light, dark or contrast.
        colours: ``#RRGGBB`` by token.
        scale: factor for every length.
    """

    name: str
    colours: Mapping[str, str]
    scale: float = 1.0

    @classmethod
    def of(cls, name: str, scale: float = 1.0) -> Theme:
        """The theme of this name."""
        sets = tokens()["themes"][name]
        return cls(name, {token: value["hex"] for token, value in sets.items()}, scale)

    def hex(self, token: str) -> str:
        """A colour as ``#RRGGBB``."""
        return self.colours[token]

    def colour(self, token: str) -> QColor:
        """A colour for painting."""
        return QColor(self.colours[token])

    def px(self, length: float) -> int:
        """A length at this scale, at least 1."""
        return max(1, round(length * self.scale))

    def font(self, style: Type) -> QFont:
        """The font of a style of type, sized in pixels."""
        size, _, weight = tokens()["type_px"][style.value]
        font = QFont(FAMILY_SEMIBOLD if weight == 600 else FAMILY)
        font.setPixelSize(self.px(size))
        font.setWeight(QFont.Weight.Bold if weight == 700 else QFont.Weight.Normal)
        return font

    def line_height(self, style: Type) -> int:
        """Distance from line to line of a style of type."""
        return self.px(tokens()["type_px"][style.value][1])


class _InUse:
    theme: Theme | None = None


def theme() -> Theme:
    """The theme in use; light at 100 % until one is chosen."""
    if _InUse.theme is None:
        _InUse.theme = Theme.of("light")
    return _InUse.theme


def wanted(name: ThemeName, scale: float) -> Theme:
    """The theme of this name and size; ``SYSTEM`` asks the desktop."""
    return Theme.of(system_theme() if name is ThemeName.SYSTEM else name.value, scale)


def choose(name: ThemeName, scale: float) -> Theme:
    """Use a theme from now on; ``SYSTEM`` asks the desktop."""
    _InUse.theme = wanted(name, scale)
    return _InUse.theme


def system_theme() -> str:
    """Name of the theme that the desktop asks for."""
    hints = QGuiApplication.styleHints()
    accessibility = getattr(hints, "accessibility", None)
    if accessibility is not None:
        wanted = accessibility().contrastPreference()
        if wanted == Qt.ContrastPreference.HighContrast:
            return "contrast"
    return "dark" if hints.colorScheme() == Qt.ColorScheme.Dark else "light"


@cache
def load_fonts() -> tuple[str, ...]:
    """Make the bundled fonts known to Qt; their family names."""
    families: list[str] = []
    for path in sorted(resources.fonts().glob("*.ttf")):
        number = QFontDatabase.addApplicationFont(str(path))
        families += QFontDatabase.applicationFontFamilies(number)
    return tuple(dict.fromkeys(families))


def palette(used: Theme) -> QPalette:
    """The palette for whatever the style sheet does not reach."""
    role = QPalette.ColorRole
    made = QPalette()
    pairs = {
        role.Window: "ground",
        role.Base: "sheet",
        role.AlternateBase: "gate",
        role.Text: "ink",
        role.WindowText: "ink",
        role.ButtonText: "ink",
        role.Button: "sheet",
        role.Highlight: "fill",
        role.HighlightedText: "on-accent",
        role.PlaceholderText: "soft",
        role.ToolTipBase: "sheet",
        role.ToolTipText: "ink",
        role.Link: "focus",
    }
    for one, token in pairs.items():
        made.setColor(one, used.colour(token))
    made.setColor(QPalette.ColorGroup.Disabled, role.Text, used.colour("soft"))
    made.setColor(QPalette.ColorGroup.Disabled, role.ButtonText, used.colour("soft"))
    return made
