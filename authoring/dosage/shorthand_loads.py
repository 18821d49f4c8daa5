"""Reads loads from dose shorthand: weights, shares of a maximum, bands, effort, pace."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from authoring.dosage.shorthand_amounts import (
    Figures,
    Span,
    after_span,
    at_characters,
    number_range,
    read_figures,
    read_span,
    read_unit,
    whole_range,
)
from authoring.dosage.shorthand_errors import ShorthandError, near
from authoring.dosage.shorthand_lexer import Cursor, Kind
from authoring.dosage.shorthand_pace import pace_starts, read_pace
from authoring.dosage.shorthand_words import (
    BODY_WEIGHT,
    CARRIED,
    DISTANCE,
    MEASURED,
    SETTING,
    SHARE_OF,
    TIME,
    WEIGHT,
)
from authoring.model.base import SLUG
from authoring.model.load import (
    BandLoad,
    BodyWeightLoad,
    EffortLoad,
    Load,
    Measure,
    NumberRange,
    PercentLoad,
    RepMaxLoad,
    ReserveLoad,
    SettingLoad,
    UnitLoad,
    WeightLoad,
)
from authoring.model.sentence import Sentence, say
from authoring.model.text import Text
from authoring.model.vocabulary import Carried, Quantity, Unit, WeightUnit

_ONLY_LOADS = tuple(
    words for words, unit in MEASURED.items() if words not in DISTANCE and unit is not Unit.DEGREES
)

MOST_WORDS = 12
"""Most words before an amount."""

BAND_WORDS = 4
"""Most words before "band" that are read as its strength."""


def read_load(cursor: Cursor) -> Load:
    """The load at the cursor.

    Raises:
        ShorthandError: no load stands there, or one that can't be.
    """
    reader = _reader(cursor)
    if reader is None:
        reader = _measured_with_words(cursor)
    start = cursor.start
    with at_characters(start, max(start, cursor.end)):
        return reader(cursor)


def load_starts(cursor: Cursor) -> bool:
    """Whether a load stands there that needs no "@" before it."""
    return _reader(cursor) is not None


def _reader(cursor: Cursor) -> Callable[[Cursor], Load] | None:
    if cursor.number() and not pace_starts(cursor):
        return _read_number if _load_unit(cursor, _after_list(cursor, 0)) else None
    return next((reader for stands, reader in _WORDED if stands(cursor)), None)


def _after_list(cursor: Cursor, ahead: int) -> int:
    """Tokens up to what follows a number, a range or a list of them."""
    after = after_span(cursor, ahead)
    while cursor.at("/", ",", ahead=after) and cursor.number(after + 1):
        after = after_span(cursor, after + 1)
    return after


def _load_unit(cursor: Cursor, ahead: int) -> bool:
    """Whether the unit there can only be a load's: no distance and no angle."""
    reserve = cursor.at("in", ahead=ahead) and cursor.at("reserve", ahead=ahead + 1)
    return reserve or cursor.at(*WEIGHT, "%", "rm", "rir", "rpe", *_ONLY_LOADS, ahead=ahead)


# ---- numbers first ----------------------------------------------------------------


def _read_number(cursor: Cursor) -> Load:
    figures = read_figures(cursor)
    if cursor.take("%"):
        return _percent(cursor, figures)
    if cursor.take("rm"):
        return RepMaxLoad(reps=figures.one_count(say("The repetition maximum")))
    if cursor.take("rpe"):
        return _effort(figures.items[0])
    if cursor.take("rir") or cursor.take("in"):
        cursor.take("reserve")
        return ReserveLoad(reps=whole_range(figures.items[0]))
    if cursor.at(*WEIGHT):
        unit = read_unit(cursor, WEIGHT, say("weight"))
        carried = cursor.take_phrase(CARRIED) or Carried.TOTAL
        return WeightLoad(unit=unit, carried=carried, **_by_set(figures), **_limits(cursor, unit))
    return _measured(cursor, figures, None)


def _by_set(figures: Figures) -> dict[str, Any]:
    """The amount of the first set, and of each where they are listed."""
    amounts = figures.numbers()
    return {"amount": amounts[0], "per_set": amounts if len(amounts) > 1 else ()}


def _weight(cursor: Cursor, figures: Figures) -> tuple[NumberRange, WeightUnit]:
    unit = read_unit(cursor, WEIGHT, say("weight"))
    return figures.one_number(say("The weight")), unit


def _limits(cursor: Cursor, unit: object) -> dict[str, Any]:
    """Step and cap ("in 0.5 kg steps max 8 kg"), in the unit of the amount."""
    found: dict[str, Any] = {}
    if cursor.at("in") and cursor.number(1):
        cursor.next()
        found["step"] = _one_amount(cursor, unit)
        if not cursor.take("steps", "step"):
            raise cursor.fault(
                say("'steps' is missing here."), say("Write such as 'in 0.5 kg steps'.")
            )
    number = 2 if cursor.at(":", ahead=1) else 1
    if cursor.at("max", "cap") and _same_kind(cursor, number, unit):
        while not cursor.number():
            cursor.next()
        found["cap"] = _one_amount(cursor, unit)
    return found


def _same_kind(cursor: Cursor, number: int, unit: object) -> bool:
    known = WEIGHT if isinstance(unit, WeightUnit) else MEASURED
    return cursor.number(number) and cursor.phrase(known, number + 1) is not None


def _one_amount(cursor: Cursor, unit: object) -> float:
    span = read_span(cursor)
    known: dict[str, Any] = {**(WEIGHT if isinstance(unit, WeightUnit) else MEASURED)}
    if read_unit(cursor, known, say("the step or cap")) is not unit:
        raise ShorthandError(
            say("Amount, step and cap have different units."),
            span.start,
            cursor.end,
            say("Write all of them in one unit."),
        )
    return number_range(span).low


def _percent(cursor: Cursor, figures: Figures) -> Load:
    cursor.take("of")
    start = cursor.start
    if len(figures.items) == 1 and "," in figures.items[0].low.text and figures.items[0].high:
        raise figures.fault(
            say("The comma can be read in two ways."), say("Write 60.5-70% or 60/70%.")
        )
    single = figures.items[0].low
    if len(figures.items) == 1 and len(single.parts) == 2:
        raise figures.fault(
            say("The comma in '{text}' can be read in two ways.", text=single.text[:20]),
            say(
                "Write '{one}%' or '{other}%'.",
                one=".".join(single.parts)[:20],
                other="/".join(single.parts)[:20],
            ),
        )
    quantity = cursor.take_phrase(SHARE_OF)
    if quantity is not None:
        return PercentLoad(of=Measure(quantity=quantity), per_set=figures.numbers())
    if cursor.number() and cursor.at("rm", ahead=1):
        reps = whole_range(read_span(cursor), least=1)
        cursor.next()
        of = Measure(quantity=Quantity.ONE_RM)
        if reps.low != 1:
            with at_characters(start, cursor.end):
                of = Measure(quantity=Quantity.N_RM, reps=reps.low)
        return PercentLoad(of=of, per_set=figures.numbers())
    wrong = cursor.peek(1) if cursor.number() else cursor.peek()
    guess = near(wrong.key, {**dict.fromkeys(SHARE_OF, ""), "RM": "repetition maximum"}, 0.5)
    if guess and wrong.kind is Kind.WORD:
        raise cursor.fault(say("'{text}' is no known maximum.", text=wrong.text[:30]), guess, wrong)
    raise ShorthandError(
        say("It is not said what this is a percentage of."),
        figures.start,
        cursor.end,
        say("Write '% 1RM' for weights or '% MVC' for the strongest effort."),
    )


def _measured(cursor: Cursor, figures: Figures, what: str | None) -> Load:
    unit = read_unit(cursor, MEASURED, say("load"))
    return UnitLoad(
        unit=unit,
        **_by_set(figures),
        what=None if what is None else Text.plain(what),
        **_limits(cursor, unit),
    )


# ---- words first ------------------------------------------------------------------


def _read_body_weight(cursor: Cursor) -> Load:
    cursor.take_phrase(BODY_WEIGHT)
    added = assisted = None
    unit = WeightUnit.KG
    if cursor.take("+"):
        added, unit = _weight(cursor, read_figures(cursor))
    elif cursor.take("-"):
        assisted, unit = _weight(cursor, read_figures(cursor))
    carried = cursor.take_phrase(CARRIED) or Carried.TOTAL
    some = added is not None or assisted is not None
    if not some and cursor.at("in", "max", "cap"):
        unit = _unit_ahead(cursor)
    elif not some and carried is not Carried.TOTAL:
        raise cursor.fault(
            say("The added weight is missing."), say("Write such as 'BW + 5 kg vest'.")
        )
    return BodyWeightLoad(
        added=added, assisted=assisted, unit=unit, carried=carried, **_limits(cursor, unit)
    )


def _unit_ahead(cursor: Cursor) -> WeightUnit:
    return next(
        (WEIGHT[key] for key in (cursor.peek(2).key, cursor.peek(3).key) if key in WEIGHT),
        WeightUnit.KG,
    )


def _read_effort(cursor: Cursor) -> Load:
    cursor.next()
    cursor.take(":")
    span = read_span(cursor)
    if cursor.at("/") and cursor.number(1) and cursor.peek(1).text == "10":
        cursor.next()
        cursor.next()
    return _effort(span)


def _effort(span: Span) -> Load:
    rating = number_range(span)
    if rating.top > 10:
        raise ShorthandError(
            say("Effort goes from 0 to 10 here."),
            span.start,
            span.end,
            say("Turn a rating of the 6 to 20 scale into one from 0 to 10."),
        )
    return EffortLoad(rating=rating)


def _read_reserve(cursor: Cursor) -> Load:
    cursor.next()
    cursor.take(":")
    return ReserveLoad(reps=whole_range(read_span(cursor)))


def _read_setting(cursor: Cursor) -> Load:
    kind = SETTING[cursor.next().key]
    cursor.next()
    return SettingLoad(
        what=kind, words=Text.plain(_words(cursor, say("Write them, such as 'surface: foam'.")))
    )


def _words(cursor: Cursor, mend: Sentence) -> str:
    found = cursor.free_words()
    if not found:
        raise cursor.fault(say("Words are missing here."), mend)
    return found


def _band_ahead(cursor: Cursor) -> int | None:
    """Tokens up to the word "band" after its strength, or None where there is none."""
    for ahead in range(1, BAND_WORDS + 1):
        if not cursor.word(ahead - 1):
            return None
        if cursor.at("band", ahead=ahead):
            return ahead
    return None


def _read_named_band(cursor: Cursor) -> Load:
    start, steps = cursor.start, _band_ahead(cursor) or 0
    for _ in range(steps + 1):
        cursor.next()
    return _band(cursor, " ".join(cursor.text[start : cursor.end].split()))


def _read_band(cursor: Cursor) -> Load:
    cursor.next()
    strength = (
        _words(cursor, say("Write them, such as 'band: medium'.")) if cursor.take(":") else None
    )
    return _band(cursor, strength)


def _band(cursor: Cursor, strength: str | None) -> Load:
    """A band, then its kit and force in brackets ("(kit light-band, 20-40 N)")."""
    words = None if strength is None else Text.plain(strength)
    slug, force = None, None
    bracket = cursor.at("(") and (cursor.at("kit", ahead=1) or cursor.number(1))
    if not bracket:
        return BandLoad(strength=words)
    cursor.next()
    if cursor.take("kit"):
        slug = _slug(cursor)
        if cursor.take(",") or cursor.number():
            force = number_range(read_span(cursor))
    else:
        force = number_range(read_span(cursor))
    if force is not None and not cursor.take("n", "newtons"):
        raise cursor.fault(say("The unit of force is missing."), say("Write 'N' for newtons."))
    if not cursor.take(")"):
        raise cursor.fault(say("The bracket is not closed."), say("Write ')' here."))
    return BandLoad(band=slug, strength=words, force_n=force)


def _slug(cursor: Cursor) -> str:
    first = cursor.peek()
    while not (cursor.done() or cursor.at(",", ")")):
        cursor.next()
    found = cursor.text[first.start : cursor.end] if cursor.end > first.start else ""
    if not re.fullmatch(SLUG, found):
        raise ShorthandError(
            say("This is no id of kit."),
            first.start,
            max(first.end, cursor.end),
            say("Write it in small letters, digits and hyphens, such as 'light-band'."),
        )
    return found


def _measured_with_words(cursor: Cursor) -> Callable[[Cursor], Load]:
    """Reads words, a number and a unit ("step height 20 cm")."""
    ahead = 0
    while cursor.word(ahead) and ahead < MOST_WORDS:
        ahead += 1
    if cursor.number() and cursor.phrase(MEASURED, after_span(cursor, 0)):
        return lambda at: _measured(at, read_figures(at), None)
    if ahead and cursor.number(ahead) and cursor.phrase(MEASURED, _after_list(cursor, ahead)):
        return lambda at: _worded_measure(at, ahead)
    raise _no_load(cursor)


def _worded_measure(cursor: Cursor, words: int) -> Load:
    start = cursor.start
    for _ in range(words):
        cursor.next()
    what = " ".join(cursor.text[start : cursor.end].split())
    return _measured(cursor, read_figures(cursor), what)


def _no_load(cursor: Cursor) -> ShorthandError:
    if cursor.done() or cursor.at(",", ";", ")"):
        return ShorthandError(
            say("The load after '@' is missing."),
            cursor.end,
            cursor.end,
            say("Write such as '@ 5 kg', '@ 70% 1RM' or '@ RPE 7'."),
        )
    if cursor.number():
        after = after_span(cursor, 0)
        if cursor.at(*TIME, ahead=after):
            return cursor.fault(
                say("A time is no load."), say("Leave out the '@'."), cursor.peek(after)
            )
        end = cursor.peek(after - 1).end
        if cursor.at("-", ahead=after):
            return ShorthandError(
                say("This is no load."),
                cursor.start,
                end,
                say("For a tempo write 'tempo 3-1-1-0'."),
            )
        wrong = cursor.peek(after)
        guess = near(wrong.key, {**dict.fromkeys((*WEIGHT, *_ONLY_LOADS), ""), "RM": ""}, 0.6)
        if guess and wrong.kind is Kind.WORD:
            return cursor.fault(
                say("'{text}' is no unit of load.", text=wrong.text[:30]), guess, wrong
            )
        return ShorthandError(
            say("The unit of the load is missing."),
            end,
            end,
            say("Write such as 'kg', '% 1RM' or 'RM' after the number."),
        )
    guess = near(cursor.peek().key, {**dict.fromkeys(SETTING, ""), **_LOAD_WORDS}, 0.6)
    return cursor.fault(
        say("'{text}' is no load.", text=cursor.peek().text[:30]),
        guess or say("Write such as '@ 5 kg', '@ 70% 1RM' or '@ RPE 7'."),
    )


_LOAD_WORDS = {
    "RPE": "effort from 0 to 10",
    "RIR": "repetitions in reserve",
    "band": "elastic band",
    "BW": "body weight",
    "effort": "from 0 to 10",
}

_WORDED: tuple[tuple[Callable[[Cursor], object], Callable[[Cursor], Load]], ...] = (
    (pace_starts, read_pace),
    (lambda cursor: cursor.phrase(BODY_WEIGHT), _read_body_weight),
    (lambda cursor: cursor.at("rpe", "effort"), _read_effort),
    (lambda cursor: cursor.at("rir"), _read_reserve),
    (lambda cursor: cursor.at("band"), _read_band),
    (lambda cursor: cursor.at(*SETTING) and cursor.at(":", ahead=1), _read_setting),
    (_band_ahead, _read_named_band),
)
