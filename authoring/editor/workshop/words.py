"""The workshop's words: what a cell of the ladder says to the eye and to a screen reader."""

from __future__ import annotations

from functools import lru_cache

from attrs import frozen

from authoring.checks.result import CheckResult, Strength
from authoring.dosage.shorthand import write_dose
from authoring.dosage.words import DoseWords
from authoring.editor.brief_dose import without_hold
from authoring.editor.i18n import ltr, tr, tr_n
from authoring.editor.parts.gauge import rung_words
from authoring.editor.parts.icons import mode_words
from authoring.editor.place import steps
from authoring.editor.workshop.ladder_model import Side, short_dose
from authoring.handout.catalogue import load_phrases
from authoring.model.card import Card, Variant
from authoring.model.dose import Dose
from authoring.model.text import Text
from authoring.model.vocabulary import Mode


@frozen
class CellFace:
    """What a variant's cell shows.

    Attributes:
        pictured: whether it has a picture.
        checks: how many Protocol checks are about it; ``strength`` is the gravest.
    """

    variant: str
    name: str
    dose: str
    mode: Mode
    pictured: bool
    checks: int
    strength: Strength | None
    spoken: str


def text_words(text: Text | None, language: str, own: str) -> str:
    """Words of a text in the language that is edited, else in another; "" for none."""
    return "" if text is None else text.best(language or own, own).strip()


def variant_name(card: Card, variant: Variant, language: str = "") -> str:
    """A variant's name; where it has none yet, it says so."""
    return text_words(variant.name, language, card.language) or tr("No name yet")


def card_title(card: Card, language: str = "") -> str:
    """A card's title; where it has none yet, it says so."""
    return text_words(card.title, language, card.language) or tr("No title yet")


@lru_cache(maxsize=2048)
def dose_words(dose: Dose) -> str:
    """The work of a dose in a few characters ("3 × 8–12")."""
    short = short_dose(dose)
    return write_dose(short, pretty=True) or DoseWords(load_phrases("en"), "en").headline(short)


def face_of(
    card: Card, variant: Variant, language: str, about: tuple[CheckResult, ...] = ()
) -> CellFace:
    """The face of a variant.

    Args:
        language: the one that is edited, "" for the card's own.
        about: the Protocol checks about this variant, the gravest first.
    """
    name = variant_name(card, variant, language)
    dose = tr("no dose") if variant.dose is None else dose_words(variant.dose)
    return CellFace(
        variant=variant.id,
        name=name,
        dose=ltr(without_hold(dose)),
        mode=variant.mode,
        pictured=bool(variant.pictures),
        checks=len(about),
        strength=about[0].strength if about else None,
        spoken=_spoken(name, variant, dose, len(about)),
    )


def _spoken(name: str, variant: Variant, dose: str, checks: int) -> str:
    parts = [name, mode_words(variant.mode).lower(), rung_words(variant.rung), said_dose(dose)]
    if checks:
        parts.append(tr_n("{n} check", "{n} checks", checks))
    return ", ".join(parts)


def said_dose(dose: str) -> str:
    """A dose as it is said: "3 by 10 to 12"."""
    plain = dose.replace("\N{NO-BREAK SPACE}", " ").replace("\N{NARROW NO-BREAK SPACE}", " ")
    return plain.replace("×", tr("by")).replace("–", f" {tr('to')} ")


def checks_by_variant(results: tuple[CheckResult, ...]) -> dict[int, tuple[CheckResult, ...]]:
    """Checks about a card by the index of the variant they are about."""
    found: dict[int, tuple[CheckResult, ...]] = {}
    for result in results:
        way = steps(result.path)
        if len(way) > 1 and way[0] == "variants" and isinstance(way[1], int):
            found[way[1]] = (*found.get(way[1], ()), result)
    return found


def add_words(side: Side) -> str:
    """What stands in a free place of the ladder."""
    return tr("Add a hold") if side is Side.HOLDING else tr("Add a version")
