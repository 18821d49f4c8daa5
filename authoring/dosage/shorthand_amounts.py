"""Numbers, ranges, lists, times and distances of the dose shorthand."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from decimal import Decimal
from typing import TypeVar

import attrs

from authoring.dosage.shorthand_errors import ShorthandError, near
from authoring.dosage.shorthand_lexer import Cursor, Token
from authoring.dosage.shorthand_words import COUNTING, DAY, DISTANCE, MEASURED, TIME, WEEK, WEIGHT
from authoring.model.base import ModelError
from authoring.model.load import IntRange, NumberRange
from authoring.model.sentence import Sentence, say

MOST = 1_000_000
"""Largest number of a dose."""

MOST_DIGITS = 24
"""Most characters of one number: all that a float from 0.001 on can need."""

_LONGEST_LIST = 20

_V = TypeVar("_V")


@contextmanager
def at_characters(start: int, end: int) -> Iterator[None]:
    """Turn a fault of the model into one at these characters of the text."""
    try:
        yield
    except ModelError as error:
        raise ShorthandError(
            say("The dose can't hold this: {sentence}", sentence=error.sentence),
            start,
            end,
            say("Change it, or use the forms."),
        ) from error


@attrs.frozen
class Span:
    """A number or a range as it was written."""

    low: Token
    high: Token | None = None

    @property
    def start(self) -> int:
        """Where it starts in the text."""
        return self.low.start

    @property
    def end(self) -> int:
        """Where it ends in the text."""
        return (self.high or self.low).end


@attrs.frozen
class Figures:
    """One number or range, or a list of them, before its unit is known.

    Attributes:
        items: what stands in the list.
        slashed: whether slashes part the items.
    """

    items: tuple[Span, ...]
    slashed: bool = False

    @property
    def start(self) -> int:
        """Where they start in the text."""
        return self.items[0].start

    @property
    def end(self) -> int:
        """Where they end in the text."""
        return self.items[-1].end

    def fault(self, sentence: Sentence, mend: Sentence) -> ShorthandError:
        """An error at these numbers."""
        return ShorthandError(sentence, self.start, self.end, mend)

    def counts(self) -> tuple[IntRange, ...]:
        """Whole numbers of at least one, one for each item."""
        if len(self.items) == 1 and self.items[0].high is None:
            token = self.items[0].low
            return tuple(
                IntRange(low=_whole(token, _decimal(token, part), least=1)) for part in token.parts
            )
        return tuple(whole_range(item, least=1) for item in self.items)

    def one_count(self, what: Sentence) -> IntRange:
        """One whole number or range of at least one."""
        found = self.counts()
        if len(found) != 1:
            raise self.fault(
                say("{what} must be one number or range, and this is a list.", what=what),
                say("Write such as 3 or 2-3."),
            )
        return found[0]

    def numbers(self, times: int = 1) -> tuple[NumberRange, ...]:
        """Numbers with decimals, one for each item, each multiplied by ``times``."""
        if len(self.items) == 1 and self.items[0].high is None:
            token = self.items[0].low
            if len(token.parts) > 2:
                return tuple(
                    NumberRange(low=float(_decimal(token, part) * times)) for part in token.parts
                )
        return tuple(number_range(item, times) for item in self.items)

    def one_number(self, what: Sentence, times: int = 1) -> NumberRange:
        """One number or range with decimals."""
        found = self.numbers(times)
        if len(found) != 1:
            raise self.fault(
                say("{what} must be one number or range, and this is a list.", what=what),
                say("Write such as 5 or 4-6."),
            )
        return found[0]


def _decimal(token: Token, part: str) -> Decimal:
    if len(part) > MOST_DIGITS or Decimal(part) > MOST:
        raise ShorthandError(
            say("{part} is too large or too exact for a dose.", part=part[:20]),
            token.start,
            token.end,
            say("Write a number up to {most}.", most=MOST),
        )
    return Decimal(part)


def _unclear_comma(token: Token, decimals: bool) -> ShorthandError:
    apart = ", ".join(token.parts)
    first = ".".join(token.parts[:2]) if decimals else "/".join(token.parts)
    mend = say(
        "Write '{first}', or '{apart}' with a space after the comma.",
        first=first[:20],
        apart=apart[:20],
    )
    if decimals:
        mend = say(
            "Write '{whole}' or '{first}'.", whole="".join(token.parts)[:20], first=first[:20]
        )
    return ShorthandError(
        say("The comma in '{text}' can be read in two ways.", text=token.text[:20]),
        token.start,
        token.end,
        mend,
    )


def value(token: Token) -> Decimal:
    """A number whose comma, if it has one, is a decimal comma.

    Raises:
        ShorthandError: the comma may part thousands or two numbers.
    """
    parts = token.parts
    if len(parts) == 1:
        return _decimal(token, parts[0])
    plain = len(parts) == 2 and "." not in token.text
    if not plain or len(parts[1]) > 2:
        raise _unclear_comma(token, decimals=plain)
    return _decimal(token, ".".join(parts))


def _whole(token: Token, number: Decimal, *, least: int = 0) -> int:
    if number != int(number):
        raise ShorthandError(
            say("'{text}' must be a whole number here.", text=token.text[:20]),
            token.start,
            token.end,
            say("Write {low} or {high}.", low=int(number), high=int(number) + 1),
        )
    if number < least:
        raise ShorthandError(
            say("A dose of nothing is no dose."), token.start, token.end, say("Write 1 or more.")
        )
    return int(number)


def _forwards(span: Span, low: float | Decimal, high: float | Decimal) -> None:
    if span.high is not None and high < low:
        raise ShorthandError(
            say("The range runs backwards."),
            span.start,
            span.end,
            say("Write '{text}-{low}'.", text=span.high.text, low=span.low.text),
        )


def whole_range(span: Span, *, least: int = 0, times: int = 1) -> IntRange:
    """A range of whole numbers, each multiplied by ``times`` (seconds in a minute)."""
    ends = []
    for token in (span.low, span.high or span.low):
        if len(token.parts) > 1 and times == 1:
            raise _unclear_comma(token, decimals=False)
        number = value(token) * times
        if times > 1 and number != int(number):
            raise ShorthandError(
                say("'{text}' is no whole number of seconds.", text=token.text[:20]),
                token.start,
                token.end,
                say("Write the time in seconds, such as 100 s."),
            )
        ends.append(_whole(token, number, least=least))
    _forwards(span, ends[0], ends[1])
    with at_characters(span.start, span.end):
        return IntRange(low=ends[0], high=None if span.high is None else ends[1])


def number_range(span: Span, times: int = 1) -> NumberRange:
    """A range of numbers, each multiplied by ``times`` (metres in a kilometre)."""
    low = value(span.low) * times
    high = None if span.high is None else value(span.high) * times
    _forwards(span, low, low if high is None else high)
    with at_characters(span.start, span.end):
        return NumberRange(low=float(low), high=None if high is None else float(high))


# ---- reading --------------------------------------------------------------------


def _dash(cursor: Cursor, ahead: int) -> bool:
    return cursor.at("-", "to", ahead=ahead)


def read_span(cursor: Cursor) -> Span:
    """A number or range, which must stand at the cursor."""
    if not cursor.number():
        raise cursor.fault(say("A number is missing here."), say("Write it, such as 10 or 8-12."))
    low = cursor.next()
    if cursor.at("-") and not cursor.number(1) and not cursor.at("hourly", ahead=1):
        raise cursor.fault(
            say("The range has no upper end."), say("Write such as {text}-12.", text=low.text[:20])
        )
    if cursor.at("+"):
        raise cursor.fault(
            say("'+' leaves the upper end open."),
            say("Write a range, such as {text}-12.", text=low.text[:20]),
        )
    if not (_dash(cursor, 0) and cursor.number(1)):
        return Span(low)
    cursor.next()
    high = cursor.next()
    if cursor.at("-") and cursor.number(1):
        raise ShorthandError(
            say("A range has two ends, and here are more."),
            low.start,
            cursor.peek(1).end,
            say("For a tempo write 'tempo 3-1-1-0'."),
        )
    return Span(low, high)


def after_span(cursor: Cursor, ahead: int) -> int:
    """How far ahead the token after a number or range stands, that starts at ``ahead``."""
    ranged = _dash(cursor, ahead + 1) and cursor.number(ahead + 2)
    return ahead + (3 if ranged else 1)


_NOT_IN_LISTS = (
    {*TIME, *DISTANCE, *WEIGHT, *MEASURED, *WEEK, *DAY}
    | {"x", "/", "%", "rm", "rir", "hourly", "days", "times", "rest", "bpm", "sets", "set", ":"}
    | {"km", "kph", "holds", "hold", "in", "-"}
)


def _listed(cursor: Cursor) -> bool:
    """Whether a comma and a number go on with a list, and start no clause of their own."""
    if not (cursor.at(",") and cursor.number(1)):
        return False
    ahead = after_span(cursor, 1)
    after = cursor.peek(ahead)
    if after.key in ("a", "per") and cursor.at(*WEEK, *DAY, ahead=ahead + 1):
        return False
    return after.key not in _NOT_IN_LISTS or (after.key in COUNTING and after.key != "times")


def read_figures(cursor: Cursor) -> Figures:
    """A number, a range or a list of them (``12,10,8``, ``12, 10, 8``, ``12/10/8``)."""
    items = [read_span(cursor)]
    sign, joined = "", len(items[0].low.parts)
    while joined <= _LONGEST_LIST and ((cursor.at("/") and cursor.number(1)) or _listed(cursor)):
        if joined > len(items) or (sign and not cursor.at(sign)):
            raise cursor.fault(
                say("The list mixes commas and slashes, or is spaced unevenly."),
                say("Part all its numbers alike, such as 12/10/8."),
            )
        sign = cursor.next().key
        items.append(read_span(cursor))
        joined += len(items[-1].low.parts)
    found = Figures(tuple(items), slashed=sign == "/")
    if joined > _LONGEST_LIST:
        raise found.fault(say("The list has more than 20 numbers."), say("Write at most 20."))
    return found


def _unit_fault(cursor: Cursor, known: Mapping[str, object], what: Sentence) -> ShorthandError:
    token = cursor.peek()
    if token.key == "m" and what == "time":
        return cursor.fault(say("'m' is metres."), say("Did you mean 'min' (minutes)?"))
    if token.key == "'":
        return cursor.fault(
            say("This sign can mean minutes or feet."),
            say("Write 'min' for minutes or 'm' for metres."),
        )
    if cursor.done() or token.key in (",", ";", ")", "/", "@"):
        mends = {
            "time": say("Write 's' for seconds or 'min' for minutes."),
            "weight": say("Write 'kg'."),
        }
        return ShorthandError(
            say("The unit of {what} is missing.", what=what),
            cursor.end,
            cursor.end,
            mends.get(what, say("Write 'm'.")),
        )
    guess = near(token.key, {word: _MEANING.get(word, "") for word in known}, _UNIT_CUTOFF)
    return cursor.fault(
        say("'{text}' is no unit of {what}.", text=token.text[:30], what=what),
        guess or say("Write one of {units}.", units=_units(known)),
    )


_UNIT_CUTOFF = 0.6

_IMPERIAL = ("mile", "miles", "yd", "yds", "yard", "yards", "ft", "foot", "feet", "in", "inches")

_MEANING = {
    "s": say("seconds"),
    "min": say("minutes"),
    "h": say("hours"),
    "m": say("metres"),
    "km": say("kilometres"),
}


def unknown_unit(cursor: Cursor) -> ShorthandError | None:
    """An error for a word after a number that is nearly a unit of work, or None."""
    token = cursor.peek()
    if token.key in WEIGHT or token.key in MEASURED:
        return cursor.fault(
            say("'{text}' is a unit of load, not of work.", text=token.text[:30]),
            say("Write the load after '@', as in '@ 5 {text}'.", text=token.text[:30]),
        )
    if token.key in _IMPERIAL:
        return cursor.fault(
            say("Distances are in metres or kilometres."), say("Turn it into 'm' or 'km'.")
        )
    guess = near(token.key, _MEANING, _UNIT_CUTOFF)
    return (
        cursor.fault(say("'{text}' is no unit of work.", text=token.text[:30]), guess)
        if guess
        else None
    )


def _units(known: Mapping[str, object]) -> str:
    firsts = {meaning: word for word, meaning in reversed(list(known.items()))}
    return ", ".join(f"'{word}'" for word in reversed(list(firsts.values())))


def read_unit(cursor: Cursor, known: Mapping[str, _V], what: Sentence) -> _V:
    """The meaning of the unit at the cursor.

    Raises:
        ShorthandError: no unit stands there, or not one of these; the likely one is named.
    """
    found = cursor.take_phrase(known)
    if found is None:
        raise _unit_fault(cursor, known, what)
    return found


def _second_end(cursor: Cursor, low: IntRange, read: Callable[[], IntRange]) -> IntRange:
    start = cursor.start
    cursor.next()
    high = read()
    if high.high is not None or high.low < low.low:
        raise ShorthandError(
            say("The range runs backwards, or has more than two ends."),
            start,
            cursor.end,
            say("Write the shorter time first."),
        )
    return IntRange(low=low.low, high=high.low)


def read_time(cursor: Cursor, least: int = 1) -> IntRange:
    """A time or range of times in seconds ("90 s", "2-3 min", "1 min 30 s", "30 s to 1 min")."""
    return seconds_of(cursor, Figures((read_span(cursor),)), least)[0]


def seconds_of(cursor: Cursor, figures: Figures, least: int = 1) -> tuple[IntRange, ...]:
    """Seconds of numbers already read; their unit stands at the cursor."""
    factor = read_unit(cursor, TIME, say("time"))
    if len(figures.items) > 1:
        return tuple(whole_range(item, least=least, times=factor) for item in figures.items)
    span = figures.items[0]
    if span.high is None and len(span.low.parts) > 2 and factor == 1:
        return figures.counts()
    first = whole_range(span, least=least, times=factor)
    follows = cursor.number(1) and cursor.peek(2).key in TIME
    if span.high is None and cursor.number() and factor > 1 and cursor.peek(1).key in TIME:
        more = seconds_of(cursor, Figures((Span(cursor.next()),)), 0)[0]
        if more.high is not None or more.low >= factor:
            raise figures.fault(say("The time can't be added up."), say("Write it in seconds."))
        first = IntRange(low=first.low + more.low)
        follows = cursor.number(1) and cursor.peek(2).key in TIME
    if first.high is None and follows and cursor.at("-", "to"):
        return (_second_end(cursor, first, lambda: _single_time(cursor, least)),)
    return (first,)


def _single_time(cursor: Cursor, least: int) -> IntRange:
    figures = Figures((Span(cursor.next()),))
    factor = read_unit(cursor, TIME, say("time"))
    return whole_range(figures.items[0], least=least, times=factor)
