"""Writes numbers, times and loads in dose shorthand.

Every function raises UnsayableError, whose message names what can't be said.
"""

from __future__ import annotations

from decimal import Decimal
from functools import singledispatch

import attrs

from authoring.dosage.shorthand_amounts import MOST_DIGITS
from authoring.dosage.shorthand_errors import UnsayableError
from authoring.dosage.shorthand_lexer import only_words, reads_back
from authoring.dosage.shorthand_loads import BAND_WORDS, MOST_WORDS
from authoring.dosage.shorthand_words import CARRIED, MEASURED, PACE, SHARE_OF, spelling
from authoring.model.load import (
    BandLoad,
    BodyWeightLoad,
    EffortLoad,
    IntRange,
    NumberRange,
    PaceLoad,
    PercentLoad,
    RepMaxLoad,
    ReserveLoad,
    SettingLoad,
    UnitLoad,
    WeightLoad,
)
from authoring.model.sentence import Sentence, say
from authoring.model.text import OWN, Text
from authoring.model.vocabulary import Carried, Quantity, WeightUnit


@attrs.frozen
class Signs:
    """The signs that the plain and the printed form write differently.

    Attributes:
        times: between factors, with its spaces.
        to: between the ends of a range.
        gap: between a number and its unit.
    """

    times: str = " x "
    to: str = "-"
    gap: str = " "


PLAIN = Signs()
PRETTY = Signs(times="\N{NO-BREAK SPACE}× ", to="–", gap="\N{NARROW NO-BREAK SPACE}")


# ---- numbers --------------------------------------------------------------------


def number(value: float) -> str:
    """A number with as few digits as say it exactly."""
    exact = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
    words = format(exact, "f")
    if "." in words:
        words = words.rstrip("0").rstrip(".")
    if len(words) > MOST_DIGITS:
        raise UnsayableError(
            say("The shorthand has no room for a number as exact as {value!r}.", value=value)
        )
    return words


def span(low: float, high: float | None, signs: Signs) -> str:
    """A number or range."""
    return number(low) if high is None else f"{number(low)}{signs.to}{number(high)}"


def count(value: IntRange, signs: Signs, what: Sentence) -> str:
    """A whole number or range of at least one."""
    if value.low < 1:
        raise UnsayableError(say("The shorthand can't say a number of {what} of 0.", what=what))
    return span(value.low, value.high, signs)


def seconds(value: IntRange, signs: Signs, *, least: int = 1, minutes_from: int = 60) -> str:
    """A time, in minutes where both ends are whole minutes from ``minutes_from`` seconds on."""
    if value.low < least:
        raise UnsayableError(say("The shorthand can't say work of 0 seconds."))
    high = value.high
    if value.low >= minutes_from and value.low % 60 == 0 and (high is None or high % 60 == 0):
        return (
            span(value.low // 60, None if high is None else high // 60, signs) + f"{signs.gap}min"
        )
    return span(value.low, high, signs) + f"{signs.gap}s"


def metres(value: NumberRange, signs: Signs, unit: str = "m") -> str:
    """A distance, in kilometres where both ends are whole hundreds from 1000 m on."""
    if value.low <= 0:
        raise UnsayableError(say("The shorthand can't say a distance of 0 metres."))
    ends = (value.low, value.top)
    if value.low >= 1000 and all(end % 100 == 0 for end in ends):
        high = None if value.high is None else value.high / 1000
        return span(value.low / 1000, high, signs) + f"{signs.gap}km"
    return span(value.low, value.high, signs) + f"{signs.gap}{unit}"


def words(text: Text, what: Sentence) -> str:
    """Free words in the file's own language."""
    found = text.values.get(OWN)
    if found is None:
        raise UnsayableError(
            say("The shorthand holds one language, and {what} has several.", what=what)
        )
    if not reads_back(found):
        raise UnsayableError(
            say(
                "The shorthand can't hold the words of {what}, because it uses their signs itself.",
                what=what,
            )
        )
    return found


# ---- loads ------------------------------------------------------------------------


@singledispatch
def load(value: object, signs: Signs) -> str:
    """A load without the "@" before it."""
    raise UnsayableError(say("The shorthand has no words for {kind}.", kind=type(value).__name__))


def _limits(
    step: float | None, cap: float | None, unit: str, carried: Carried, signs: Signs
) -> str:
    found = "" if carried is Carried.TOTAL else f" {spelling(CARRIED, carried)}"
    if step is not None:
        found += f" in {number(step)}{signs.gap}{unit} steps"
    if cap is not None:
        found += f" max {number(cap)}{signs.gap}{unit}"
    return found


@load.register
def _(value: BodyWeightLoad, signs: Signs) -> str:
    if value.assisted is not None:
        taken = span(value.assisted.low, value.assisted.high, signs)
        limits = _limits(value.step, value.cap, value.unit.value, value.carried, signs)
        return f"BW - {taken}{signs.gap}{value.unit.value}{limits}"
    limits = _limits(value.step, value.cap, value.unit.value, value.carried, signs)
    if value.added is not None:
        added = span(value.added.low, value.added.high, signs)
        return f"BW + {added}{signs.gap}{value.unit.value}{limits}"
    bare = value.step is None and value.cap is None
    if bare and (value.unit is not WeightUnit.KG or value.carried is not Carried.TOTAL):
        raise UnsayableError(
            say("The shorthand can't say how an added weight of nothing is carried.")
        )
    return f"BW{limits}"


def _amounts(amount: NumberRange, per_set: tuple[NumberRange, ...], signs: Signs) -> str:
    """One amount for all sets, or one for each in order."""
    if not per_set:
        return span(amount.low, amount.high, signs)
    if per_set[0] != amount or len(per_set) == 1:
        raise UnsayableError(
            say("The shorthand can't say a load whose first set differs from what its list says.")
        )
    return "/".join(span(each.low, each.high, signs) for each in per_set)


@load.register
def _(value: WeightLoad, signs: Signs) -> str:
    amount = _amounts(value.amount, value.per_set, signs)
    limits = _limits(value.step, value.cap, value.unit.value, value.carried, signs)
    return f"{amount}{signs.gap}{value.unit.value}{limits}"


@load.register
def _(value: PercentLoad, signs: Signs) -> str:
    of = value.of
    for given, what in (
        (of.name, say("the name")),
        (of.unit, say("the unit")),
        (of.valid_weeks, say("the age")),
    ):
        if given is not None:
            raise UnsayableError(
                say("The shorthand can't say {what} of the test behind a percentage.", what=what)
            )
    shares = "/".join(span(share.low, share.high, signs) for share in value.per_set)
    return f"{shares}% {_maximum(of.quantity, of.reps)}"


def _maximum(quantity: Quantity, reps: int | None) -> str:
    if quantity is Quantity.ONE_RM and reps is None:
        return "1RM"
    if quantity is Quantity.N_RM and reps is not None and reps > 1:
        return f"{reps}RM"
    name = spelling(SHARE_OF, quantity)
    if not name or reps is not None:
        raise UnsayableError(say("The shorthand has no words for what these percentages are of."))
    return name


@load.register
def _(value: RepMaxLoad, signs: Signs) -> str:
    return count(value.reps, signs, say("repetitions")) + "RM"


@load.register
def _(value: BandLoad, signs: Signs) -> str:
    found = "band"
    if value.strength is not None:
        strength = words(value.strength, say("the band's strength"))
        named = strength.endswith(" band") and only_words(strength, BAND_WORDS + 1)
        found = strength if named else f"band: {strength}"
    inside = [] if value.band is None else [f"kit {value.band}"]
    if value.force_n is not None:
        force = span(value.force_n.low, value.force_n.high, signs)
        inside.append(f"{force}{signs.gap}N")
    return f"{found} ({', '.join(inside)})" if inside else found


@load.register
def _(value: EffortLoad, signs: Signs) -> str:
    return f"RPE {span(value.rating.low, value.rating.high, signs)}"


@load.register
def _(value: ReserveLoad, signs: Signs) -> str:
    return f"RIR {span(value.reps.low, value.reps.high, signs)}"


@load.register
def _(value: PaceLoad, signs: Signs) -> str:
    parts = []
    if value.word is not None:
        parts.append(spelling(PACE, value.word))
    if value.speed_km_h is not None:
        speed = span(value.speed_km_h.low, value.speed_km_h.high, signs)
        parts.append(f"{speed}{signs.gap}km/h")
    if value.seconds_per_km is not None:
        parts.append(_per_km(value.seconds_per_km, signs))
    if value.can_talk is not None:
        parts.append("can talk" if value.can_talk else "can't talk")
    if not parts:
        raise UnsayableError(say("The shorthand can't say a pace of which nothing is known."))
    return " ".join(parts)


def _per_km(value: NumberRange, signs: Signs) -> str:
    ends = [value.low] if value.high is None else [value.low, value.high]
    if all(end == int(end) and end < 6000 for end in ends):
        clocks = [f"{int(end) // 60}:{int(end) % 60:02d}" for end in ends]
        return f"{signs.to.join(clocks)}/km"
    return f"{span(value.low, value.high, signs)}{signs.gap}s/km"


@load.register
def _(value: UnitLoad, signs: Signs) -> str:
    unit = spelling(MEASURED, value.unit)
    if not unit:
        raise UnsayableError(
            say("The shorthand has no load that is measured in '{unit}'.", unit=value.unit)
        )
    amount = _amounts(value.amount, value.per_set, signs)
    limits = _limits(value.step, value.cap, unit, Carried.TOTAL, signs)
    what = ""
    if value.what is not None:
        what = words(value.what, say("a load")) + " "
        if not only_words(what, MOST_WORDS):
            raise UnsayableError(say("The shorthand can't hold what the load's amount is of."))
    return f"{what}{amount}{signs.gap}{unit}{limits}"


@load.register
def _(value: SettingLoad, signs: Signs) -> str:
    said = words(value.words, say("a setting"))
    return f"{value.what.value}: {said}"
