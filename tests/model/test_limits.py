"""No noun can hold a value outside its limits, and each says why in one sentence."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable

import attrs
import pytest

from authoring.model.base import LONGEST_TEXT, ModelError, evolve, said
from authoring.model.card import KitNeed, Picture, Support
from authoring.model.caution import Caution
from authoring.model.criterion import AnyOf, InWords, Measured, TimePassed
from authoring.model.dose import (
    Dose,
    DoseChange,
    Duration,
    Frequency,
    Holds,
    Interval,
    Repetitions,
    Rest,
    Tempo,
    WeekRow,
)
from authoring.model.load import (
    BodyWeightLoad,
    EffortLoad,
    IntRange,
    Measure,
    NumberRange,
    PercentLoad,
    WeightLoad,
)
from authoring.model.pacing import Cap, PauseRule
from authoring.model.pain import NextMorning, PainBand, PainRule
from authoring.model.protocol import Approval, ChangeNote, Progression, Restriction, WeekSpan
from authoring.model.sources import Reference
from authoring.model.text import Text
from authoring.model.vocabulary import (
    CapOf,
    CautionKind,
    Comparator,
    IntervalRole,
    PainAction,
    Period,
    ProgressionMethod,
    Quantity,
    RestUntil,
    Since,
    SupportKind,
    Unit,
    Until,
    Urgency,
)

TEN = (IntRange(low=10),)
RUN = Text.plain("run")
FIVE = NumberRange(low=5)
BY_SET = WeightLoad(amount=FIVE, per_set=(FIVE,) * 3)
WORDS = InWords(id="w", words=RUN)
CARRY_ON = PainAction.CARRY_ON


def row(first: int, last: int | None) -> WeekRow:
    return WeekRow(from_week=first, to_week=last, change=DoseChange())


def measured(comparator: Comparator, value: float, high: float | None = None) -> Measured:
    return Measured(
        id="m", measure="hop", comparator=comparator, value=value, high=high, unit=Unit.PERCENT
    )


# The field that is named, and how to break it.
BROKEN: list[tuple[str, Callable[[], object]]] = [
    ("low", lambda: IntRange(low=-1)),
    ("low", lambda: IntRange(low=1_000_001)),
    ("high", lambda: IntRange(low=5, high=4)),
    ("high", lambda: NumberRange(low=2.5, high=2.4)),
    ("low", lambda: NumberRange(low=math.nan)),
    ("low", lambda: NumberRange(low=math.inf)),
    ("rating", lambda: EffortLoad(rating=NumberRange(low=8, high=10.5))),
    ("per_set", lambda: PercentLoad(of=Measure(quantity=Quantity.ONE_RM), per_set=())),
    ("reps", lambda: Measure(quantity=Quantity.N_RM, reps=0)),
    ("step", lambda: WeightLoad(amount=NumberRange(low=5), step=-1)),
    ("reps", Repetitions),
    ("reps", lambda: Repetitions(sets=IntRange(low=2), reps=TEN * 3)),
    ("reps", lambda: Repetitions(sets=IntRange(low=21), reps=TEN * 21)),
    ("hold_s", Holds),
    ("hold_s", lambda: Holds(holds=IntRange(low=1), hold_s=TEN * 2)),
    (
        "holds_by_set",
        lambda: Holds(sets=IntRange(low=3), holds_by_set=TEN * 2, hold_s=TEN),
    ),
    (
        "holds_by_set",
        lambda: Holds(sets=IntRange(low=2), holds=TEN[0], holds_by_set=TEN * 2, hold_s=TEN),
    ),
    ("loads", lambda: Dose(work=Repetitions(sets=IntRange(low=4), reps=TEN), loads=(BY_SET,))),
    ("loads", lambda: Dose(work=Holds(holds=IntRange(low=4), hold_s=TEN), loads=(BY_SET,))),
    (
        "loads",
        lambda: Dose(
            work=Repetitions(sets=IntRange(low=3), reps=TEN),
            loads=(BY_SET,),
            weeks=(
                WeekRow(
                    from_week=1,
                    change=DoseChange(work=Repetitions(sets=IntRange(low=2), reps=TEN)),
                ),
            ),
        ),
    ),
    ("assisted", lambda: BodyWeightLoad(added=FIVE, assisted=FIVE)),
    ("at_least", lambda: AnyOf(id="a", parts=(WORDS, WORDS), at_least=3)),
    ("at_least", lambda: AnyOf(id="a", parts=(WORDS, WORDS), at_least=0)),
    (
        "step_percent_high",
        lambda: Progression(
            method=ProgressionMethod.PERCENT_STEP, step_percent=5, step_percent_high=2
        ),
    ),
    (
        "step_percent_high",
        lambda: Progression(method=ProgressionMethod.PERCENT_STEP, step_percent_high=2),
    ),
    ("most", lambda: Cap(of=CapOf.THROWS, most=0, per=Period.DAY)),
    ("after_days", lambda: PauseRule(after_days=0)),
    ("seconds", Rest),
    ("seconds", lambda: Rest(times_work=1, until=RestUntil.READY)),
    ("times_work", lambda: Rest(times_work=21)),
    ("beats_per_minute", lambda: Tempo(beats_per_minute=9)),
    ("seconds", lambda: Interval(role=IntervalRole.WORK, activity=RUN)),
    (
        "seconds",
        lambda: Interval(
            role=IntervalRole.WORK, activity=RUN, seconds=TEN[0], metres=NumberRange(low=5)
        ),
    ),
    ("days_per_week", lambda: Frequency(days_per_week=IntRange(low=3, high=8))),
    ("every_hours", lambda: Frequency(every_hours=25)),
    ("to_week", lambda: row(3, 2)),
    ("from_week", lambda: row(0, None)),
    ("weeks", lambda: Dose(work=Repetitions(reps=TEN), weeks=(row(1, None), row(2, 3)))),
    ("weeks", lambda: Dose(work=Repetitions(reps=TEN), weeks=(row(1, 2), row(2, 3)))),
    (
        "loads",
        lambda: Dose(
            work=Repetitions(reps=TEN), loads=(EffortLoad(rating=NumberRange(low=1)),) * 7
        ),
    ),
    ("session_limit_min", lambda: Dose(work=Duration(seconds=TEN[0]), session_limit_min=0)),
    ("to_week", lambda: WeekSpan(from_week=2, to_week=1)),
    ("during", lambda: PainRule(during=())),
    ("during", lambda: PainRule(during=(PainBand(up_to=9, action=CARRY_ON),))),
    ("during", lambda: PainRule(during=(PainBand(up_to=10, action=CARRY_ON),) * 2)),
    (
        "after",
        lambda: PainRule(
            during=(PainBand(up_to=10, action=CARRY_ON),),
            after=(PainBand(up_to=4, action=CARRY_ON),),
        ),
    ),
    ("up_to", lambda: PainBand(up_to=10.5, action=CARRY_ON)),
    ("settles_within_h", lambda: NextMorning(settles_within_h=0)),
    ("high", lambda: measured(Comparator.BETWEEN, 5)),
    ("high", lambda: measured(Comparator.AT_LEAST, 5, 6)),
    ("high", lambda: measured(Comparator.BETWEEN, 5, 4)),
    ("unit", lambda: TimePassed(id="t", since=Since.INJURY, at_least=1, unit=Unit.KILOGRAMS)),
    ("at_least", lambda: TimePassed(id="t", since=Since.INJURY, at_least=0)),
    ("id", lambda: InWords(id="Not A Slug", words=RUN)),
    ("id", lambda: InWords(id="", words=RUN)),
    ("id", lambda: InWords(id="a" * 81, words=RUN)),
    ("id", lambda: InWords(id="heel-raise\n", words=RUN)),
    ("urgency", lambda: Caution(id="c", kind=CautionKind.STOP_SIGN, text=RUN)),
    (
        "urgency",
        lambda: Caution(id="c", kind=CautionKind.PRECAUTION, text=RUN, urgency=Urgency.EMERGENCY),
    ),
    ("image", lambda: Picture(alt=RUN)),
    ("image", lambda: Picture(alt=RUN, pose="bridge", image=f"{'0' * 64}.png")),
    ("image", lambda: Picture(alt=RUN, image="photo.png")),
    ("hands", lambda: Support(kind=SupportKind.CHAIR, hands=3)),
    ("unit", lambda: KitNeed(kit="step", unit="centimetres")),
    ("demands", lambda: Restriction(id="r", text=RUN, demands=("jump", "Load overhead"))),
    ("citation", lambda: Reference(id="r", citation="")),
    ("citation", lambda: Reference(id="r", citation="a\x00b")),
    ("doi", lambda: Reference(id="r", citation="c", doi="https://doi.org/10.1000/182")),
    ("year", lambda: Reference(id="r", citation="c", year=1799)),
    ("reviewer", lambda: Approval(reviewer="", date=dt.date(2026, 1, 1))),
    (
        "version",
        lambda: ChangeNote(version="v1", date=dt.date(2026, 1, 1), author="A", text="T"),
    ),
    (
        "weekly_cap_percent",
        lambda: Progression(method=ProgressionMethod.TOTAL, weekly_cap_percent=501),
    ),
    ("", lambda: Text({})),
    ("", lambda: Text({"english": "a"})),
    ("", lambda: Text({"": "a", "en": "b"})),
    ("", lambda: Text.plain("a" * (LONGEST_TEXT + 1))),
    ("", lambda: Text.plain("bell \x07")),
]


@pytest.mark.parametrize(("field", "make"), BROKEN)
def test_value_outside_its_limits_is_refused_in_one_sentence(
    field: str, make: Callable[[], object]
) -> None:
    with pytest.raises(ModelError) as caught:
        make()
    sentence = caught.value.sentence
    assert caught.value.field == field
    assert str(caught.value) == sentence
    assert sentence.endswith(".")
    assert len(sentence.splitlines()) == 1
    assert len(sentence) < 200
    assert field in sentence or sentence.startswith("A")


@pytest.mark.parametrize(
    "make",
    [
        lambda: IntRange(low=0, high=0),
        lambda: IntRange(low=1_000_000),
        lambda: EffortLoad(rating=NumberRange(low=0, high=10)),
        lambda: Repetitions(until=Until.FATIGUE),
        lambda: Repetitions(sets=IntRange(low=2, high=3), reps=TEN * 3),
        lambda: Holds(until=Until.QUALITY),
        lambda: Frequency(days_per_week=IntRange(low=7)),
        lambda: row(520, 520),
        lambda: Dose(work=Repetitions(reps=TEN), weeks=(row(1, 1), row(2, None))),
        lambda: WeekSpan(from_week=0, to_week=0),
        lambda: PainRule(during=(PainBand(up_to=10, action=CARRY_ON),)),
        lambda: measured(Comparator.BETWEEN, 5, 5),
        lambda: InWords(id="a" * 80, words=RUN),
        lambda: Text.plain("a" * LONGEST_TEXT),
        lambda: Text.plain("line\nbreak\tand tab"),
        lambda: Reference(id="r", citation="c", doi="10.1000/(SICI)1097-0207<1::AID>3.0.CO;2-X"),
    ],
)
def test_value_at_its_limit_is_held(make: Callable[[], object]) -> None:
    assert make() == make()


def test_changed_copy_keeps_the_limits() -> None:
    band = PainBand(up_to=5, action=CARRY_ON)
    assert evolve(band, up_to=6).up_to == 6
    with pytest.raises(ModelError, match="up_to must be at most 10, and is 11"):
        evolve(band, up_to=11)


def test_values_cannot_be_changed_in_place() -> None:
    band = PainBand(up_to=5, action=CARRY_ON)
    with pytest.raises(attrs.exceptions.FrozenInstanceError):
        band.up_to = 6  # type: ignore[misc]


def test_equal_values_are_equal_and_hash_alike() -> None:
    assert IntRange(low=3) == IntRange(low=3, high=None)
    assert len({IntRange(low=3), IntRange(low=3), IntRange(low=3, high=3)}) == 2
    assert IntRange(low=3).top == IntRange(low=3, high=3).top == 3


@pytest.mark.parametrize(
    ("number", "words"),
    [(1_000_000, "1000000"), (2.5, "2.5"), (10.0, "10"), (0.1, "0.1"), (-60, "-60")],
)
def test_numbers_are_said_without_exponent(number: float, words: str) -> None:
    assert said(number) == words
