"""Which texts a patient reads, and the words of a whole handout together."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Set

from attrs import frozen

from authoring.checks.context import Context
from authoring.checks.placed import placed
from authoring.checks.plain_words import letter_runs
from authoring.checks.walk import PlacedText
from authoring.model import card, caution, clinic, criterion, dose, load, pacing, pain, protocol
from authoring.model.base import Node
from authoring.model.text import OWN, Text

PATIENT: Mapping[type[Node], Set[str]] = {
    card.Picture: {"alt"},
    card.HoldDetail: {"where", "against"},
    card.Variant: {"name", "start", "steps", "cues", "breathing", "in_short"},
    card.Card: {"title", "purpose"},
    caution.Caution: {"text", "how"},
    clinic.EmergencyWording: {"emergency", "same_day", "call_clinic", "stop_exercise"},
    clinic.Clinic: {"name", "hours", "closed", "address", "small_print"},
    clinic.Logo: {"alt"},
    criterion.Measured: {"patient"},
    criterion.InWords: {"patient"},
    criterion.TimePassed: {"patient"},
    criterion.AllOf: {"patient"},
    criterion.AnyOf: {"patient"},
    dose.Interval: {"activity"},
    dose.LeftOpen: {"words"},
    load.BandLoad: {"strength"},
    load.UnitLoad: {"what"},
    load.SettingLoad: {"words"},
    pain.PainBand: {"words"},
    pain.NextMorning: {"words"},
    protocol.Entry: {"note"},
    protocol.Choice: {"words"},
    protocol.Block: {"name", "note"},
    protocol.Restriction: {"text"},
    protocol.Activity: {"text"},
    protocol.CareItem: {"text"},
    protocol.Branch: {"words"},
    pacing.PauseRule: {"words"},
    protocol.Stage: {"name", "lead"},
    protocol.Lesson: {"title", "text"},
    protocol.Protocol: {"patient_title", "lead"},
}
"""Fields that print for a patient, by class."""

CLINICIAN: Mapping[type[Node], Set[str]] = {
    card.Card: {"trade_name", "faults"},
    card.ForbiddenSetUp: {"set_up", "why"},
    caution.RedFlag: {"question", "action"},
    criterion.Measured: {"quality"},
    criterion.InWords: {"words"},
    load.Measure: {"name"},
    protocol.Branch: {"finding"},
    protocol.Stage: {"aims"},
    protocol.Delivery: {
        "provider",
        "motivation",
        "tailoring",
        "starting_level",
        "fidelity",
        "harms",
    },
    protocol.Protocol: {"title", "for_whom", "not_for"},
}
"""Fields for the clinician, by class. Every field of text stands in one of the two lists."""


def is_for_patients(found: PlacedText) -> bool:
    """Whether a text prints for a patient."""
    return found.name in PATIENT.get(found.holder, ())


@frozen
class PatientText:
    """Words that a patient reads, their place, and what quick tests need to know of them.

    Attributes:
        runs: the runs of letters, in lower case.
        pieces: the number of runs of letters and digits, at least that of the words.
    """

    path: str
    words: str
    runs: frozenset[str]
    pieces: int


_PIECE = re.compile(r"[^\W_]+")


def pieces(words: str) -> int:
    """The number of runs of letters and digits: no text has more words than that."""
    return len(_PIECE.findall(words))


def own_words(text: Text, language: str) -> str:
    """The words of a text in its file's own language, or ""."""
    plain = text.values.get(OWN)
    return plain if plain is not None else text.to(language, language) or ""


def patient_texts(value: Node, language: str, context: Context) -> list[PatientText]:
    """Texts of a file that a patient reads, in its own language, each with its place."""

    def gather() -> list[PatientText]:
        found = (
            (each.path, own_words(each.text, language))
            for each in context.walk(value).texts
            if is_for_patients(each)
        )
        return [
            PatientText(path, words, letter_runs(words), pieces(words))
            for path, words in found
            if words.strip()
        ]

    return context.once("patient texts", value, gather)


# Names and labels are no sentences: pooled, they would make any text look easy.
_LABELS = frozenset(("name", "title", "patient_title", "alt", "activity", "strength", "what"))


def handout_texts(whole: protocol.Protocol, context: Context) -> list[str]:
    """The running text that a protocol and the variants it uses print, each text once.

    Names and titles are left out, and texts of cards in another language.
    """

    def gather() -> list[str]:
        own = _running(whole, whole.language, whole.language, context)
        return list(dict.fromkeys([*own, *_card_texts(whole, context)]))

    return context.once("handout texts", whole, gather)


def _running(part: Node, language: str, own: str, context: Context) -> Iterator[str]:
    for found in context.walk(part).texts:
        if is_for_patients(found) and found.name not in _LABELS:
            yield found.text.to(language, own) or ""


def _card_texts(whole: protocol.Protocol, context: Context) -> Iterator[str]:
    done: set[tuple[str, str]] = set()
    for place in placed(whole, context):
        if place.card is None:
            continue
        parts: list[Node] = []
        if (place.card.id, "") not in done:
            done.add((place.card.id, ""))
            parts += place.card.cautions
            purpose = place.card.purpose
            yield (purpose.to(whole.language, place.card.language) or "") if purpose else ""
        for variant in place.used:
            if (place.card.id, variant.id) not in done:
                done.add((place.card.id, variant.id))
                parts.append(variant)
        for part in parts:
            yield from _running(part, whole.language, place.card.language, context)
