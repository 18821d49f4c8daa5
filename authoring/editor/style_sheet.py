"""The one style sheet, made from the theme. Focus is painted by an overlay, not here."""

from __future__ import annotations

from pathlib import Path
from string import Template

from authoring.editor.theme import FAMILY, FAMILY_SEMIBOLD, Theme, tokens

_SHEET = Template(Path(__file__).with_name("style.qss").read_text(encoding="utf-8"))


def style_sheet(used: Theme) -> str:
    """The style sheet of a theme at its scale."""
    colours = {token.replace("-", "_"): value for token, value in used.colours.items()}
    spaces = {f"s{space}": used.px(space) for space in tokens()["space_px"]}
    types = {f"t_{name}": used.px(size[0]) for name, size in tokens()["type_px"].items()}
    radius = tokens()["radius_px"]
    return _SHEET.substitute(
        **colours,
        **spaces,
        **types,
        family=FAMILY,
        semibold=FAMILY_SEMIBOLD,
        r=used.px(radius["control"]),
        r4=used.px(radius["entry"]),
        h_button=used.px(26),
        h_field=used.px(22),
        h_row=used.px(24),
    )
