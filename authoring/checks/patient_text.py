"""Which texts a patient reads, and the words of a whole handout together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set

from authoring.checks.context import Context
from authoring.checks.placed import placed
from authoring.checks.walk import PlacedText
from authoring.model import card, caution, clinic, criterion, dose, load, pain, protocol
from authoring.model.base import Node
from authoring.model.text import Text

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
    protocol.PauseRule: {"words"},
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


def patient_texts(value: Node, language: str, context: Context) -> list[tuple[str, str]]:
    """Texts of a file that a patient reads, in its own language, each with its place."""

    def gather() -> list[tuple[str, str]]:
        found = (
            (p.path, p.text.to(language, language))
            for p in context.walk(value).texts
            if is_for_patients(p)
        )
        return [(path, words) for path, words in found if words and words.strip()]

    return context.once("patient texts", value, gather)


def handout_texts(whole: protocol.Protocol, context: Context) -> list[str]:
    """All that a protocol and the variants it uses say to a patient, each text once.

    Texts of cards in another language than the protocol's are left out.
    """

    def gather() -> list[str]:
        own = [words for _, words in patient_texts(whole, whole.language, context)]
        return list(dict.fromkeys([*own, *_card_texts(whole, context)]))

    return context.once("handout texts", whole, gather)


def _card_texts(whole: protocol.Protocol, context: Context) -> Iterator[str]:
    done: set[tuple[str, str]] = set()
    for place in placed(whole, context):
        if place.card is None:
            continue
        parts: list[Node] = []
        if (place.card.id, "") not in done:
            done.add((place.card.id, ""))
            parts += place.card.cautions
            yield from _to(whole.language, place.card.title, place.card)
            yield from _to(whole.language, place.card.purpose, place.card)
        for variant in place.used:
            if (place.card.id, variant.id) not in done:
                done.add((place.card.id, variant.id))
                parts.append(variant)
        for part in parts:
            for found in context.walk(part).texts:
                if is_for_patients(found):
                    yield from _to(whole.language, found.text, place.card)


def _to(language: str, text: Text | None, source: card.Card) -> Iterator[str]:
    words = text.to(language, source.language) if text is not None else None
    if words:
        yield words
