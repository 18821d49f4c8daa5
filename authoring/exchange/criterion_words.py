"""A criterion in few words: "pain next morning at most 3/10"."""

from __future__ import annotations

from authoring.model.base import Node, said
from authoring.model.criterion import AllOf, AnyOf, InWords, Measured, TimePassed, Window
from authoring.model.sentence import say
from authoring.model.vocabulary import Unit

_UNITS = {
    Unit.PAIN_0_10: "/10",
    Unit.EFFORT_0_10: "/10",
    Unit.PERCENT: "%",
    Unit.DEGREES: "°",
    Unit.REPETITIONS: "",
    Unit.TIMES: "",
    Unit.POINTS: "",
    Unit.STEPS: "",
    Unit.CONTACTS: "",
}


def criterion_words(node: Node, language: str) -> str:
    """The criterion, measures called by their ids; "" for any other noun."""
    match node:
        case Measured():
            return _when(_measured(node), node.window)
        case InWords():
            return _when(node.words.best(language, language), node.window)
        case TimePassed():
            return say(
                "{n} {unit} since {since}", n=node.at_least, unit=node.unit, since=node.since
            )
        case AllOf():
            return ", ".join(criterion_words(part, language) for part in node.parts)
        case AnyOf():
            parts = "; ".join(criterion_words(part, language) for part in node.parts)
            return say("at least {n} of: {parts}", n=node.at_least, parts=parts)
    return ""


def _measured(node: Measured) -> str:
    unit = _UNITS.get(node.unit, " " + node.unit.value.replace("_", " "))
    value = said(node.value)
    if node.high is not None:
        value = f"{value}–{said(node.high)}"
    words = f"{node.measure.replace('-', ' ')} {node.comparator.value.replace('_', ' ')}"
    words = f"{words} {value}{unit}"
    return words if node.side is None else f"{words} ({node.side.value.replace('_', ' ')})"


def _when(words: str, window: Window | None) -> str:
    if window is None:
        return words
    when = window.kind.value.replace("_", " ")
    count = f" {window.count}" if window.count else ""
    return f"{words}, {when}{count}"
