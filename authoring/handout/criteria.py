"""A criterion in the patient's words: the author's sentence, or one made from its values."""

from __future__ import annotations

from authoring.handout.context import Context
from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, Measured, TimePassed, Window
from authoring.model.vocabulary import SideComparison, TermKind


def criterion_words(criterion: Criterion, context: Context) -> str:
    """What must be true, as a patient reads it."""
    own = context.text(criterion.patient)
    if own:
        return own
    match criterion:
        case Measured():
            return _measured(criterion, context)
        case InWords():
            return _with_window(context.text(criterion.words), criterion.window, context)
        case TimePassed():
            amount = context.phrases.count(f"amount.{criterion.unit}", criterion.at_least)
            since = context.say(f"since.{criterion.since}")
            return context.say("criterion.time", amount=amount, since=since)
        case AllOf():
            return context.phrases.listed([criterion_words(p, context) for p in criterion.parts])
        case AnyOf():
            parts = [criterion_words(part, context) for part in criterion.parts]
            return context.phrases.listed(parts, "or")


def _measured(criterion: Measured, context: Context) -> str:
    number = context.phrases.number
    unit = f"measured.{criterion.unit}"
    high = criterion.high
    words = context.say(
        f"criterion.{criterion.comparator}",
        measure=context.term(TermKind.MEASURE, criterion.measure),
        value=context.say(unit, n=number(criterion.value))
        if high is None
        else number(criterion.value),
        high="" if high is None else context.say(unit, n=number(high)),
    )
    parts = [words[:1].upper() + words[1:]]
    if criterion.side is not None:
        joiner = " " if criterion.side is SideComparison.PERCENT_OF_OTHER else ", "
        parts.append(joiner + context.say(f"criterion.{criterion.side}"))
    if criterion.must_not_pass is not None:
        bound = context.say(unit, n=number(criterion.must_not_pass))
        parts.append(", " + context.say("criterion.not_past", value=bound))
    if criterion.quality is not None:
        parts.append(", " + context.text(criterion.quality))
    return _with_window("".join(parts), criterion.window, context)


def _with_window(words: str, window: Window | None, context: Context) -> str:
    if window is None:
        return words
    when = context.say(f"window.{window.kind}", n=window.count or "")
    return f"{words}, {' '.join(when.split())}"
