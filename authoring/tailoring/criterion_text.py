"""A criterion in one short English phrase for a clinician."""

from __future__ import annotations

from authoring.model.base import said
from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, Measured, TimePassed
from authoring.model.vocabulary import Comparator, TermKind, Unit
from authoring.tailoring.cautioned import plain
from authoring.tailoring.terms import Terms

_SIGNS = {
    Comparator.AT_LEAST: "at least",
    Comparator.ABOVE: "above",
    Comparator.AT_MOST: "at most",
    Comparator.BELOW: "below",
    Comparator.EQUALS: "exactly",
    Comparator.BETWEEN: "from",
}
_UNITS = {
    Unit.PAIN_0_10: "of 10",
    Unit.EFFORT_0_10: "of 10",
    Unit.PERCENT: "%",
    Unit.DEGREES: "degrees",
}


def criterion_text(criterion: Criterion, terms: Terms, language: str) -> str:
    """ "Time on one leg at least 30 s, affected"."""
    match criterion:
        case Measured():
            return _measured(criterion, terms)
        case InWords(words=words):
            return plain(words, language)
        case TimePassed(since=since, at_least=count, unit=unit):
            return f"{count} {unit.value} since {since.value.replace('_', ' ')}"
        case AllOf(parts=parts):
            return " and ".join(criterion_text(part, terms, language) for part in parts)
        case AnyOf(parts=parts, at_least=least):
            listed = "; ".join(criterion_text(part, terms, language) for part in parts)
            return f"at least {least} of: {listed}"


def _measured(criterion: Measured, terms: Terms) -> str:
    unit = _UNITS.get(criterion.unit, criterion.unit.value.replace("_", " "))
    value = said(criterion.value)
    if criterion.high is not None:
        value += f" to {said(criterion.high)}"
    side = f", {criterion.side.value.replace('_', ' ')}" if criterion.side is not None else ""
    name = terms.name(TermKind.MEASURE, criterion.measure)
    return f"{name} {_SIGNS[criterion.comparator]} {value} {unit}{side}"
