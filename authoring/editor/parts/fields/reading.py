"""Numbers, ranges and days as people type them. No Qt here."""

from __future__ import annotations

import datetime as dt
import re

from authoring.editor.i18n import tr
from authoring.model.base import Fact, ModelError, said
from authoring.model.load import IntRange, NumberRange

_NUMBER = r"[+\-−]?\d+(?:[.,]\d+)?"
_RANGE = re.compile(rf"\s*({_NUMBER})\s*(?:(?:-|–|to)\s*({_NUMBER})\s*)?")


class Unreadable(ValueError):  # noqa: N818 - shown to people: one sentence
    """What was typed makes no value; the message is one sentence."""


def _plain(words: str) -> float:
    return float(words.replace("−", "-").replace(",", "."))


def signed(value: float) -> str:
    """A number as the screens write it, with a true minus sign."""
    return said(value).replace("-", "−")


def limits_words(known: Fact) -> str:
    """A number's limits as words: "from 1 to 50", "" where there are none."""
    low, high = (None if end is None else signed(end) for end in (known.low, known.high))
    if low is not None and high is not None:
        return tr("from {low} to {high}", low=low, high=high)
    if low is not None:
        return tr("from {low}", low=low)
    return "" if high is None else tr("up to {high}", high=high)


def _within(value: float, known: Fact) -> bool:
    low = known.low is None or value >= known.low
    return low and (known.high is None or value <= known.high)


def read_number(words: str, known: Fact, *, whole: bool) -> float:
    """A number within the limits of a field.

    Raises:
        Unreadable: it is none, or lies outside.
    """
    limits = limits_words(known)
    kind = tr("a whole number") if whole else tr("a number")
    wanted = tr("Write {kind} {limits}.", kind=kind, limits=limits).replace(" .", ".")
    if not re.fullmatch(_NUMBER, words.strip()):
        raise Unreadable(wanted)
    value = _plain(words.strip())
    if (whole and value != int(value)) or not _within(value, known):
        raise Unreadable(wanted)
    return int(value) if whole else value


def _ends(words: str, example: str) -> tuple[float, float | None]:
    found = _RANGE.fullmatch(words)
    if not found:
        raise Unreadable(tr("Write a number or a range, such as {example}.", example=example))
    low, high = _plain(found[1]), _plain(found[2]) if found[2] else None
    if high is not None and high < low:
        raise Unreadable(
            tr("The range ends at {high}, below its start {low}.", high=said(high), low=said(low))
        )
    return low, high


def read_int_range(words: str) -> IntRange:
    """A whole number or a range: "8", "8-12".

    Raises:
        Unreadable: it is none.
    """
    low, high = _ends(words, "8-12")
    if low != int(low) or (high is not None and high != int(high)):
        raise Unreadable(tr("Write whole numbers, such as {example}.", example="8-12"))
    try:
        return IntRange(low=int(low), high=None if high is None else int(high))
    except ModelError as error:
        raise Unreadable(tr("Write numbers from 0 to 1000000.")) from error


def read_number_range(words: str) -> NumberRange:
    """A number or a range: "2.5", "2,5 - 5".

    Raises:
        Unreadable: it is none.
    """
    low, high = _ends(words, "2.5-5")
    try:
        return NumberRange(low=low, high=high)
    except ModelError as error:
        raise Unreadable(tr("Write numbers from 0 to 1000000.")) from error


def write_range(value: IntRange | NumberRange | None) -> str:
    """A range as it is typed: "8", "8–12"; "" for none."""
    if value is None:
        return ""
    return said(value.low) if value.high is None else f"{said(value.low)}–{said(value.high)}"


def read_day(words: str) -> dt.date:
    """A day written as in files: 2027-03-31.

    Raises:
        Unreadable: it is no such day.
    """
    try:
        return dt.date.fromisoformat(words.strip())
    except ValueError as error:
        raise Unreadable(
            tr("Write the day as year, month, day: {example}.", example="2027-03-31")
        ) from error
