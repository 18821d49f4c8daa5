"""A criterion in few words, its value first: "≥ 90%" and "of other side, hop distance". No Qt."""

from __future__ import annotations

import re

from authoring.editor.i18n import ltr, tr, tr_n
from authoring.editor.vocabulary_words import words_of
from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, Measured, TimePassed, Window
from authoring.model.library import LibraryFile
from authoring.model.text import Text
from authoring.model.vocabulary import Comparator, SideComparison, TermKind, Unit, WindowKind

_SIGNS = {
    Comparator.AT_LEAST: "≥ ",
    Comparator.ABOVE: "> ",
    Comparator.AT_MOST: "≤ ",
    Comparator.BELOW: "< ",
    Comparator.EQUALS: "= ",
    Comparator.BETWEEN: "",
}

# Units that what is measured says already have no words of their own.
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
    Unit.NEWTON_METRES: " N·m",
    Unit.NEWTON_METRES_PER_KILOGRAM: " N·m/kg",
    Unit.TIMES_BODY_WEIGHT: " × BW",
    Unit.CMH2O: " cmH₂O",
}

_SCALE = re.compile(r",\s*\(?0\s*\S{1,3}\s*10\)?$")
"""The end of "Pain at rest, 0 to 10": a value written "2/10" says it already."""


class CriterionWords:
    """Words for criteria, measures named as the library names them.

    Args:
        manifest: the library's record; None leaves measures by their ids.
        own: language of the file's plain strings.
        language: language wanted.
    """

    def __init__(self, manifest: LibraryFile | None, own: str, language: str) -> None:
        self._manifest, self._own, self._language = manifest, own, language

    def line(self, criterion: Criterion) -> str:
        """A criterion in one line."""
        return " ".join(filter(None, self.parts(criterion)))

    def parts(self, criterion: Criterion) -> tuple[str, str]:
        """The value, and what is measured; the value is "" where there is none."""
        match criterion:
            case Measured():
                words = _when(self._measure(criterion), criterion.window)
                return ltr(_value(criterion)), words
            case InWords():
                words = self._text(criterion.words)
                return "", _when(words, criterion.window)
            case TimePassed():
                since = words_of(criterion.since)
                return ltr(_time(criterion)), tr("since {what}", what=since)
            case AllOf():
                return self._joined([self.parts(part) for part in criterion.parts], tr("and"))
            case AnyOf():
                return self._any(criterion)

    def brief(self, criterion: Criterion) -> tuple[str, str]:
        """As :meth:`parts`, without the window, and of several only the first and a count."""
        match criterion:
            case Measured():
                return ltr(_value(criterion)), self._measure(criterion)
            case AllOf() | AnyOf(at_least=1):
                value, what = self.brief(criterion.parts[0])
                count = len(criterion.parts) - 1
                if isinstance(criterion, AllOf):
                    return value, tr("{what}, and {n} more", what=what, n=count)
                return value, tr("{what}, or {n} other", what=what, n=count)
        return self.parts(criterion)

    def _any(self, criterion: AnyOf) -> tuple[str, str]:
        if criterion.at_least == 1:
            return self._joined([self.parts(part) for part in criterion.parts], tr("or"))
        listed = "; ".join(self.line(part) for part in criterion.parts)
        return "", tr("at least {n} of: {parts}", n=criterion.at_least, parts=listed)

    def _joined(self, parts: list[tuple[str, str]], joiner: str) -> tuple[str, str]:
        """Several criteria as one: the first one's value leads."""
        (value, first), *rest = parts
        lines = (" ".join(filter(None, part)) for part in rest)
        return value, f", {joiner} ".join((first, *lines))

    def _measure(self, criterion: Measured) -> str:
        words = self._name(criterion.measure)
        if criterion.unit in (Unit.PAIN_0_10, Unit.EFFORT_0_10):
            words = _SCALE.sub("", words)
        match criterion.side:
            case SideComparison.PERCENT_OF_OTHER:
                words = tr("of other side, {what}", what=words)
            case SideComparison.PERCENT_OF_BASELINE:
                words = tr("of own first test, {what}", what=words)
            case SideComparison.DIFFERENCE_FROM_OTHER:
                words = tr("between sides, {what}", what=words)
            case SideComparison.OTHER:
                words = tr("{what}, other side", what=words)
            case SideComparison.EACH:
                words = tr("{what}, each side", what=words)
        return words

    def _name(self, measure: str) -> str:
        term = self._manifest.term(TermKind.MEASURE, measure) if self._manifest else None
        if term is None or self._manifest is None:
            return measure.replace("-", " ")
        return term.name.best(self._language, self._manifest.language)

    def _text(self, text: Text) -> str:
        return text.best(self._language, self._own)


def number(value: float) -> str:
    """A number as it stands in a cell, with a minus sign that is as wide as a plus."""
    return f"{value:g}".replace("-", "−")


def _value(criterion: Measured) -> str:
    unit = _UNITS.get(criterion.unit, f" {criterion.unit.value}")
    if criterion.high is not None:
        return f"{number(criterion.value)}–{number(criterion.high)}{unit}"
    return f"{_SIGNS[criterion.comparator]}{number(criterion.value)}{unit}"


def _time(criterion: TimePassed) -> str:
    match criterion.unit:
        case Unit.DAYS:
            words = tr_n("{n} day", "{n} days", criterion.at_least)
        case Unit.SESSIONS:
            words = tr_n("{n} session", "{n} sessions", criterion.at_least)
        case _:
            words = tr_n("{n} week", "{n} weeks", criterion.at_least)
    return f"≥ {words}"


def _when(words: str, window: Window | None) -> str:
    if window is None:
        return words
    count = window.count or 1
    match window.kind:
        case WindowKind.NEXT_MORNING:
            said = tr("next morning")
            return words if said in words.casefold() else f"{words}, {said}"
        case WindowKind.DURING:
            return tr("{what}, during it", what=words)
        case WindowKind.AFTER:
            return tr("{what}, after it", what=words)
        case WindowKind.CONSECUTIVE_SESSIONS:
            when = tr_n("in {n} session", "in {n} sessions in a row", count)
        case WindowKind.CONSECUTIVE_DAYS:
            when = tr_n("on {n} day", "on {n} days in a row", count)
        case WindowKind.LAST_WEEKS:
            when = tr_n("in the last week", "in the last {n} weeks", count)
        case _:
            return words
    return f"{words}, {when}"
