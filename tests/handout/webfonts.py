"""Cut the fonts that HTML handouts embed out of the shipped Noto Sans.

Run ``python -m tests.handout.webfonts`` after the shipped fonts change.
"""

from io import BytesIO

from fontTools import subset

from authoring import resources
from authoring.handout.html_style import FONT_RANGES, WEIGHTS, FontRange

SOURCES = {400: "NotoSans-Regular.ttf", 700: "NotoSans-Bold.ttf"}


def points_of(block: FontRange) -> list[int]:
    """Every code point of the range, whether or not the font has it."""
    return [point for first, last in block.spans() for point in range(first, last + 1)]


def cut(block: FontRange, weight: int) -> bytes:
    """A WOFF2 file with the glyphs of one range, kerning and marks kept."""
    options = subset.Options()
    options.flavor = "woff2"
    options.layout_features = ["kern", "mark", "mkmk", "ccmp", "locl"]
    options.hinting = False
    font = subset.load_font(resources.fonts() / SOURCES[weight], options)
    font.recalcTimestamp = False
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=points_of(block))
    subsetter.subset(font)
    out = BytesIO()
    subset.save_font(font, out, options)
    return out.getvalue()


def main() -> None:
    folder = resources.templates() / "handout" / "fonts"
    folder.mkdir(parents=True, exist_ok=True)
    for block in FONT_RANGES:
        for weight in WEIGHTS:
            (folder / f"noto-sans-{block.file}-{weight}.woff2").write_bytes(cut(block, weight))


if __name__ == "__main__":
    main()
