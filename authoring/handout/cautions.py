"""Which cautions apply to an exercise, and which are gathered for all of a stage.

What to take care of and when to stop stand with the exercise. For whom it is not, and
what is normal, are gathered once for the stage, so that each exercise stays short.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.handout.alternatives import alternatives
from authoring.handout.context import Context
from authoring.handout.document import CareNote, Line, Span, StopNote
from authoring.handout.front import exercise_name, stop_lead
from authoring.handout.sheet import Item
from authoring.model.card import Card, Variant
from authoring.model.caution import Caution
from authoring.model.vocabulary import CautionKind


def applying(card: Card, variant: Variant) -> Iterator[Caution]:
    """Cautions of the variant, and those of the card that concern what it demands."""
    yield from variant.cautions
    demands = set(variant.demands)
    for caution in card.cautions:
        if not caution.demands or demands & set(caution.demands):
            yield caution


def _words(caution: Caution, own: str, context: Context) -> str:
    return " ".join(filter(None, (context.text(caution.text, own), context.text(caution.how, own))))


def care_notes(item: Item, context: Context) -> Iterator[CareNote]:
    """What to take care of, and set-ups that must never be used."""
    own = item.card.language
    lead = context.say("exercise.take_care")
    for caution in applying(item.card, item.variant):
        if caution.kind is CautionKind.PRECAUTION:
            yield CareNote(lead, _words(caution, own, context))
    ways = {variant.id for variant in (item.variant, *alternatives(item))}
    for forbidden in item.card.forbidden:
        if forbidden.variants and ways.isdisjoint(forbidden.variants):
            continue
        what = context.text(forbidden.set_up, own)
        why = context.text(forbidden.why, own)
        yield CareNote(lead, context.say("exercise.never", what=what, why=why))


def stop_notes(item: Item, context: Context) -> Iterator[StopNote]:
    """Stop signs of this exercise, each with where it leads."""
    own = item.card.language
    for caution in applying(item.card, item.variant):
        if caution.kind is CautionKind.STOP_SIGN and caution.urgency is not None:
            yield StopNote(stop_lead(caution.urgency, context), context.text(caution.text, own))


def added_words(item: Item, variant: Variant, words: str, context: Context) -> Iterator[str]:
    """Precautions and stop signs of another way to do the exercise, beyond the exercise's own.

    Args:
        item: the exercise.
        variant: the other way.
        words: what is said of it already; nothing is said twice.
        context: words, clinic and terms.
    """
    own = item.card.language
    known = {(caution.kind, caution.text) for caution in applying(item.card, item.variant)}
    for caution in applying(item.card, variant):
        said = _words(caution, own, context)
        if (caution.kind, caution.text) in known or said in words:
            continue
        if caution.kind is CautionKind.PRECAUTION:
            yield said
        elif caution.kind is CautionKind.STOP_SIGN and caution.urgency is not None:
            yield f"{stop_lead(caution.urgency, context)} {said}"


def gathered(items: Iterable[Item], kind: CautionKind, context: Context) -> tuple[Line, ...]:
    """Cautions of one kind over all exercises: each text once, with the exercises it is for.

    For whom an exercise is not holds for every way to do it that the page offers.
    """
    texts: dict[str, list[Item]] = {}
    for item in items:
        others = alternatives(item) if kind is CautionKind.CONTRAINDICATION else ()
        for variant in (item.variant, *others):
            for caution in applying(item.card, variant):
                if caution.kind is not kind:
                    continue
                texts.setdefault(_words(caution, item.card.language, context), []).append(item)
    return tuple(_line(text, found, context) for text, found in texts.items())


def _line(text: str, items: list[Item], context: Context) -> Line:
    numbers = list(dict.fromkeys(str(item.number) for item in items))
    if len(numbers) == 1:
        who = context.say(
            "exercise.number_name", n=numbers[0], name=exercise_name(items[0], context)
        )
    else:
        who = context.phrases.listed(numbers)
    return (Span(context.say("notes.who", who=who), strong=True), Span(" "), Span(text))
