"""A criterion in the patient's words: the author's sentence, or one made from its values."""

from __future__ import annotations

from authoring.dosage.quantities import measured_phrase
from authoring.handout.context import Context
from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, Measured, TimePassed, Window
from authoring.model.vocabulary import SideComparison, TermKind, WindowKind

_COUNTED = frozenset(
    {WindowKind.CONSECUTIVE_SESSIONS, WindowKind.CONSECUTIVE_DAYS, WindowKind.LAST_WEEKS}
)

_SHARES = frozenset({SideComparison.PERCENT_OF_OTHER, SideComparison.PERCENT_OF_BASELINE})


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
            return _any_of(criterion, context)


def _any_of(criterion: AnyOf, context: Context) -> str:
    parts = [criterion_words(part, context) for part in criterion.parts]
    if criterion.at_least == 1:
        return context.phrases.listed(parts, "or")
    listed = "; ".join(part.rstrip(".") for part in parts)
    return context.say("criterion.some", n=criterion.at_least, parts=listed)


def _measured(criterion: Measured, context: Context) -> str:
    phrases, unit, high = context.phrases, criterion.unit, criterion.high
    value = measured_phrase(phrases, unit, criterion.value)
    words = context.say(
        f"criterion.{criterion.comparator}",
        measure=context.term(TermKind.MEASURE, criterion.measure),
        value=value if high is None else phrases.number(criterion.value),
        high="" if high is None else measured_phrase(phrases, unit, high),
    )
    parts = [words[:1].upper() + words[1:]]
    if criterion.side is not None:
        joiner = " " if criterion.side in _SHARES else ", "
        parts.append(joiner + context.say(f"criterion.{criterion.side}"))
    if criterion.must_not_pass is not None:
        bound = measured_phrase(phrases, unit, criterion.must_not_pass)
        parts.append(", " + context.say("criterion.not_past", value=bound))
    if criterion.quality is not None:
        parts.append(", " + context.text(criterion.quality))
    return _with_window("".join(parts), criterion.window, context)


def _with_window(words: str, window: Window | None, context: Context) -> str:
    if window is None:
        return words
    if window.kind in _COUNTED:
        when = context.phrases.count(f"window.{window.kind}", window.count or 1)
    else:
        when = context.say(f"window.{window.kind}")
    return f"{words}, {when}"
