"""Loads in plain words: what to use, how hard it should feel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import singledispatch

from authoring.dosage.phrases import Phrases
from authoring.dosage.quantities import measured_phrase
from authoring.model.load import (
    BandLoad,
    BodyWeightLoad,
    EffortLoad,
    Load,
    NumberRange,
    PaceLoad,
    PercentLoad,
    RepMaxLoad,
    ReserveLoad,
    SettingLoad,
    UnitLoad,
    WeightLoad,
)
from authoring.model.vocabulary import Quantity, WeightUnit

_NO_WEIGHT = frozenset(
    {Quantity.BEST_TIME, Quantity.BEST_DISTANCE, Quantity.TOP_SPEED, Quantity.MAX_HEART_RATE}
)


def load_sentences(phrases: Phrases, loads: Iterable[Load], own: str) -> tuple[str, ...]:
    """One sentence or more for each load; body weight alone needs none.

    Args:
        phrases: catalogue of the language.
        loads: the loads of one dose.
        own: language of plain strings in the file that holds them.
    """
    return tuple(sentence for load in loads for sentence in _sentences(load, phrases, own))


def weight(phrases: Phrases, amount: NumberRange, unit: WeightUnit) -> str:
    """A weight with its unit ("2 to 4 kg")."""
    return phrases.say(f"unit.{unit}", n=phrases.span(amount.low, amount.high))


@singledispatch
def _sentences(load: object, phrases: Phrases, own: str) -> Iterator[str]:
    raise TypeError(f"{type(load).__name__} is not a load")


@_sentences.register
def _(load: BodyWeightLoad, phrases: Phrases, own: str) -> Iterator[str]:
    if load.added is not None and load.added.top > 0:
        amount = weight(phrases, load.added, load.unit)
        yield phrases.say(f"load.add.{load.carried}", amount=amount)
    if load.assisted is not None and load.assisted.top > 0:
        yield phrases.say("load.assisted", amount=weight(phrases, load.assisted, load.unit))
    if load.cap is not None:
        yield phrases.say("load.cap", amount=weight(phrases, NumberRange(low=load.cap), load.unit))


@_sentences.register
def _(load: WeightLoad, phrases: Phrases, own: str) -> Iterator[str]:
    amount = phrases.say("list.then", first="", last="").join(
        weight(phrases, each, load.unit) for each in load.per_set or (load.amount,)
    )
    yield phrases.say(f"load.weight.{load.carried}", amount=amount)
    if load.cap is not None:
        yield phrases.say("load.cap", amount=weight(phrases, NumberRange(low=load.cap), load.unit))


@_sentences.register
def _(load: PercentLoad, phrases: Phrases, own: str) -> Iterator[str]:
    name = load.of.name
    if name is None and load.of.quantity in (Quantity.MAX_EFFORT, Quantity.PAIN_FREE_FORCE):
        tenths = [
            phrases.span(share.low / 10, None if share.high is None else share.high / 10)
            for share in load.per_set
        ]
        share = phrases.say("list.then", first="", last="").join(tenths)
        yield phrases.say(f"load.share.{load.of.quantity}", n=share)
        return
    test = name.best(phrases.language, own) if name else _test(phrases, load)
    share = phrases.say("list.then", first="", last="").join(
        phrases.say("unit.percent", n=phrases.span(share.low, share.high)) for share in load.per_set
    )
    key = "load.percent_aim" if load.of.quantity in _NO_WEIGHT else "load.percent"
    yield phrases.say(key, share=share, test=test)


def _test(phrases: Phrases, load: PercentLoad) -> str:
    reps = load.of.reps
    if load.of.quantity is Quantity.N_RM and reps:
        return phrases.count("measure.n_rm", reps)
    if load.of.quantity is Quantity.N_RM:  # of how many repetitions nobody said
        return phrases.say("measure.other")
    return phrases.say(f"measure.{load.of.quantity}")


@_sentences.register
def _(load: RepMaxLoad, phrases: Phrases, own: str) -> Iterator[str]:
    yield phrases.count(
        "load.rep_max", load.reps.top, n=phrases.span(load.reps.low, load.reps.high)
    )


@_sentences.register
def _(load: BandLoad, phrases: Phrases, own: str) -> Iterator[str]:
    if load.strength is not None:
        yield phrases.say("load.band", strength=load.strength.best(phrases.language, own))
    else:
        yield phrases.say("load.band_any")


@_sentences.register
def _(load: EffortLoad, phrases: Phrases, own: str) -> Iterator[str]:
    yield phrases.say("load.effort", n=phrases.span(load.rating.low, load.rating.high))


@_sentences.register
def _(load: ReserveLoad, phrases: Phrases, own: str) -> Iterator[str]:
    if load.reps.top == 0:
        yield phrases.say("load.reserve_none")
    else:
        yield phrases.count(
            "load.reserve", load.reps.top, n=phrases.span(load.reps.low, load.reps.high)
        )


@_sentences.register
def _(load: PaceLoad, phrases: Phrases, own: str) -> Iterator[str]:
    if load.word is not None:
        yield phrases.say(f"pace.{load.word}")
    if load.speed_km_h is not None:
        speed = phrases.span(load.speed_km_h.low, load.speed_km_h.high)
        yield phrases.say("pace.speed", n=speed)
    if load.seconds_per_km is not None:
        ends = dict.fromkeys((load.seconds_per_km.low, load.seconds_per_km.top))
        times = [_minutes_and_seconds(phrases, seconds) for seconds in ends]
        time = phrases.say("range", low=times[0], high=times[1]) if len(times) > 1 else times[0]
        yield phrases.say("pace.per_km", time=time)
    if load.can_talk is not None:
        yield phrases.say("pace.talk" if load.can_talk else "pace.no_talk")


def _minutes_and_seconds(phrases: Phrases, seconds: float) -> str:
    minutes, rest = divmod(round(seconds), 60)
    return phrases.say("pace.time", minutes=minutes, seconds=f"{rest:02d}")


@_sentences.register
def _(load: UnitLoad, phrases: Phrases, own: str) -> Iterator[str]:
    amount = phrases.say("list.then", first="", last="").join(
        measured_phrase(phrases, load.unit, each.low, each.high)
        for each in load.per_set or (load.amount,)
    )
    if load.what is not None:
        what = load.what.best(phrases.language, own)
        yield phrases.say("load.unit_of", what=what[:1].upper() + what[1:], amount=amount)
    else:
        yield phrases.say("load.unit", amount=amount)
    if load.cap is not None:
        yield phrases.say("load.cap", amount=measured_phrase(phrases, load.unit, load.cap))


@_sentences.register
def _(load: SettingLoad, phrases: Phrases, own: str) -> Iterator[str]:
    words = load.words.best(phrases.language, own).strip()
    yield words if words.endswith((".", "!", "?", "…")) else f"{words}."
