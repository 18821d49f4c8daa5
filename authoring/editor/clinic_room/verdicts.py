"""Whether a brand can be read, in words. No Qt here."""

from __future__ import annotations

from attrs import frozen

from authoring.checks.contrast import (
    WHITE,
    Verdict,
    contrast_ratio,
    readable_on,
    shown_ratio,
    tints,
    verdict,
)
from authoring.editor.i18n import tr
from authoring.model.clinic import Brand


@frozen
class Pair:
    """One colour on another, as it stands somewhere on the page.

    Attributes:
        where: where on the page.
        colour, background: ``#RRGGBB``.
        falls_back: what is done instead where the pair fails 7:1, "" for nothing.
    """

    where: str
    colour: str
    background: str
    falls_back: str = ""

    @property
    def ratio(self) -> float:
        """Contrast ratio, not rounded."""
        return contrast_ratio(self.colour, self.background)

    @property
    def verdict(self) -> Verdict:
        """The highest level of WCAG 2.2 that the ratio reaches."""
        return verdict(self.ratio)

    @property
    def sentence(self) -> str:
        """The ratio, the level and what it means."""
        words = tr("{ratio} – {verdict}", ratio=shown_ratio(self.ratio), verdict=_words(self))
        if self.falls_back and self.verdict is not Verdict.AAA:
            return f"{words} {self.falls_back}"
        return words


def _words(pair: Pair) -> str:
    return {
        Verdict.AAA: tr("AAA, easy to read in poor light too."),
        Verdict.AA: tr("AA, readable; 7:1 is easier for patients."),
        Verdict.LARGE_ONLY: tr("Large only: too faint for ordinary text."),
        Verdict.FAILS: tr("Fails: can't be read."),
    }[pair.verdict]


def pairs(brand: Brand) -> tuple[Pair, ...]:
    """Every pair of colours that a brand puts on the page."""
    panels = tints(brand.colour)
    ink_instead = tr("Prints near black instead.")
    colour_instead = tr("Prints in the text colour instead.")
    return (
        Pair(tr("Text on white paper"), brand.ink, WHITE, ink_instead),
        Pair(tr("Text on light panels"), brand.ink, panels.tint),
        Pair(tr("Text on darker panels"), brand.ink, panels.middle),
        Pair(tr("Headings in the clinic's colour"), brand.colour, WHITE, colour_instead),
        Pair(tr("Numbers on the clinic's colour"), readable_on(brand.colour), brand.colour),
    )
