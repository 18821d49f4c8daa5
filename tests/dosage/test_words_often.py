"""Load, side, speed, range, frequency, weeks and kinds of session in plain words."""

from __future__ import annotations

import pytest

from authoring.dosage.words import DoseWords
from authoring.handout.catalogue import load_phrases
from authoring.model.base import evolve
from authoring.model.dose import (
    AngleLimit,
    Dose,
    DoseChange,
    Duration,
    Frequency,
    Holds,
    RangeOfMovement,
    Repetitions,
    Rest,
    SessionKind,
    Tempo,
    WeekRow,
)
from authoring.model.load import (
    BandLoad,
    BodyWeightLoad,
    EffortLoad,
    IntRange,
    Load,
    Measure,
    NumberRange,
    PaceLoad,
    PercentLoad,
    RepMaxLoad,
    ReserveLoad,
    SettingLoad,
    UnitLoad,
    WeightLoad,
)
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Carried,
    Extent,
    Joint,
    Motion,
    PaceWord,
    Quantity,
    SessionLabel,
    SettingKind,
    Sides,
    Speed,
    Unit,
    Until,
    WeightUnit,
)

PHRASES = load_phrases("en")
WORDS = DoseWords(PHRASES, "en", "leg")


def n(low: int, high: int | None = None) -> IntRange:
    return IntRange(low=low, high=high)


def x(low: float, high: float | None = None) -> NumberRange:
    return NumberRange(low=low, high=high)


THREE_TENS = Repetitions(sets=n(3), reps=(n(10),))


def dose(**facts: object) -> Dose:
    return Dose(**{"work": THREE_TENS, **facts})


def percent(quantity: Quantity, *shares: NumberRange, **facts: object) -> PercentLoad:
    return PercentLoad(of=Measure(quantity=quantity, **facts), per_set=shares)


LOADS: list[tuple[Load, tuple[str, ...]]] = [
    (BodyWeightLoad(), ()),
    (BodyWeightLoad(added=x(0)), ()),
    # Alfredson 1998: body weight, then a backpack.
    (
        BodyWeightLoad(added=x(5), step=5, cap=20, carried=Carried.BACKPACK),
        ("Wear a backpack with 5 kg in it.", "Never use more than 20 kg."),
    ),
    (BodyWeightLoad(added=x(2.5)), ("Add 2.5 kg.",)),
    (
        BodyWeightLoad(assisted=x(20, 25)),
        ("Let the machine, band or helper take 20 to 25 kg of your weight.",),
    ),
    (WeightLoad(amount=x(4)), ("Use 4 kg.",)),
    # Heavier from set to set, common practice.
    (
        WeightLoad(amount=x(20), per_set=(x(20), x(25), x(30)), carried=Carried.BAR),
        ("Use a bar with 20 kg, then 25 kg, then 30 kg in all.",),
    ),
    (
        UnitLoad(
            amount=x(15),
            per_set=(x(15), x(20), x(25)),
            unit=Unit.CMH2O,
            what=Text.plain("pressure"),
        ),
        ("Pressure: 15 cmH₂O, then 20 cmH₂O, then 25 cmH₂O.",),
    ),
    (UnitLoad(amount=x(45, 60), unit=Unit.FEET), ("Set it to 45 to 60 ft.",)),
    (UnitLoad(amount=x(20), unit=Unit.YARDS), ("Set it to 20 yd.",)),
    (UnitLoad(amount=x(120), unit=Unit.BEATS_PER_MINUTE), ("Set it to 120 beats a minute.",)),
    (UnitLoad(amount=x(150), unit=Unit.WATTS), ("Set it to 150 W.",)),
    (
        WeightLoad(amount=x(10, 15), unit=WeightUnit.LB, carried=Carried.EACH_HAND),
        ("Hold 10 to 15 lb in each hand.",),
    ),
    (WeightLoad(amount=x(3), carried=Carried.ONE_HAND), ("Hold 3 kg in one hand.",)),
    (WeightLoad(amount=x(20), carried=Carried.BAR), ("Use a bar with 20 kg in all.",)),
    (WeightLoad(amount=x(1), carried=Carried.CUFF), ("Wear a cuff of 1 kg.",)),
    (WeightLoad(amount=x(6), carried=Carried.VEST), ("Wear a vest of 6 kg.",)),
    (WeightLoad(amount=x(35), carried=Carried.MACHINE), ("Set the machine to 35 kg.",)),
    (
        WeightLoad(amount=x(5), cap=10),
        ("Use 5 kg.", "Never use more than 10 kg."),
    ),
    # ACSM 2009: 60-70 % of 1RM for novices. DeLorme 1948: 50, 75 and 100 % of 10RM.
    (
        percent(Quantity.ONE_RM, x(60, 70)),
        ("Use the weight that we worked out with you: 60 to 70% of your best single lift.",),
    ),
    (
        percent(Quantity.N_RM, x(50), x(75), x(100), reps=10),
        (
            "Use the weight that we worked out with you: 50%, then 75%, then 100% of your best "
            "10 lifts in a row.",
        ),
    ),
    # Rio 2015: holds at 70 % of maximal voluntary contraction.
    (
        percent(Quantity.MAX_EFFORT, x(70)),
        ("Push at 7 out of 10, where 10 is your full strength.",),
    ),
    (
        percent(Quantity.PAIN_FREE_FORCE, x(50, 75)),
        ("Push at 5 to 7.5 out of 10, where 10 is the most you can do without pain.",),
    ),
    (percent(Quantity.TOP_SPEED, x(80)), ("Aim for 80% of your top speed.",)),
    (percent(Quantity.BEST_DISTANCE, x(50)), ("Aim for 50% of your best distance.",)),
    (percent(Quantity.BEST_TIME, x(110)), ("Aim for 110% of your best time.",)),
    (percent(Quantity.MAX_HEART_RATE, x(70)), ("Aim for 70% of your top heart rate.",)),
    (
        percent(Quantity.BODY_WEIGHT, x(20)),
        ("Use the weight that we worked out with you: 20% of your body weight.",),
    ),
    (
        percent(Quantity.OTHER, x(80), name=Text.plain("your step test")),
        ("Use the weight that we worked out with you: 80% of your step test.",),
    ),
    # Kongsgaard M et al. Scand J Med Sci Sports 2009;19:790: 15RM down to 6RM.
    (RepMaxLoad(reps=n(15)), ("Use the most you can lift 15 times.",)),
    (RepMaxLoad(reps=n(1)), ("Use the most you can lift 1 time.",)),
    (BandLoad(strength=Text.plain("a light band")), ("Use a light band.",)),
    (BandLoad(), ("Use the band that we gave you.",)),
    (EffortLoad(rating=x(7)), ("Effort: 7 out of 10.",)),
    (
        ReserveLoad(reps=n(2, 3)),
        ("At the end you should feel that you could do 2 to 3 more.",),
    ),
    (ReserveLoad(reps=n(0)), ("At the end you should not be able to do one more.",)),
    (PaceLoad(word=PaceWord.BRISK), ("Go at a brisk pace.",)),
    (PaceLoad(can_talk=True), ("You should be able to talk.",)),
    (PaceLoad(can_talk=False), ("You will be too out of breath to talk.",)),
    (PaceLoad(speed_km_h=x(6, 7)), ("Go at 6 to 7 km an hour.",)),
    (PaceLoad(seconds_per_km=x(330)), ("Take 5:30 minutes for each kilometre.",)),
    (
        PaceLoad(seconds_per_km=x(330, 362)),
        ("Take 5:30 to 6:02 minutes for each kilometre.",),
    ),
    # Deep neck flexors: pressure in steps of 2 mmHg from 20 (Jull G. 2008), a cap kept.
    (
        UnitLoad(amount=x(22), unit=Unit.MMHG, step=2, cap=30, what=Text.plain("pressure")),
        ("Pressure: 22 mmHg.", "Never use more than 30 mmHg."),
    ),
    (UnitLoad(amount=x(15), unit=Unit.CENTIMETRES), ("Set it to 15 cm.",)),
    (
        SettingLoad(what=SettingKind.SURFACE, words=Text.plain("Stand on a cushion")),
        ("Stand on a cushion.",),
    ),
    (SettingLoad(what=SettingKind.LEAN, words=Text.plain("Lean more!")), ("Lean more!",)),
]


@pytest.mark.parametrize(
    ("load", "expected"), LOADS, ids=[" ".join(words) or "body weight" for _, words in LOADS]
)
def test_a_load_says_what_to_use(load: Load, expected: tuple[str, ...]) -> None:
    assert WORDS.details(dose(loads=(load,))) == expected


OFTEN: list[tuple[Frequency, str]] = [
    (Frequency(days_per_week=n(3)), "Do this 3 days a week."),
    (Frequency(days_per_week=n(1)), "Do this 1 day a week."),
    (Frequency(days_per_week=n(2, 3)), "Do this 2 to 3 days a week."),
    (Frequency(days_per_week=n(7)), "Do this every day."),
    (Frequency(every_days=1), "Do this every day."),
    (Frequency(every_days=2), "Do this every other day."),
    (Frequency(every_days=3), "Do this every 3 days."),
    (Frequency(times_per_day=n(2)), "Do this 2 times a day."),
    (Frequency(times_per_day=n(1)), "Do this once a day."),
    (Frequency(days_per_week=n(5), times_per_day=n(1)), "Do this 5 days a week."),
    (
        Frequency(days_per_week=n(7), times_per_day=n(3)),
        "Do this every day, 3 times a day.",
    ),
    (Frequency(every_hours=1), "Do this every hour."),
    (
        Frequency(times_per_day=n(6), every_hours=2),
        "Do this 6 times a day, every 2 hours.",
    ),
    (
        Frequency(days_per_week=n(3), rest_days=1),
        "Do this 3 days a week. Rest at least 1 day in between.",
    ),
    (Frequency(most_days_running=1), "Never do it on two days in a row."),
    (
        Frequency(rest_days=2, most_days_running=3),
        "Rest at least 2 days in between. Do it on no more than 3 days in a row.",
    ),
    (Frequency(rest_days=1, most_days_running=1), "Rest at least 1 day in between."),
    (Frequency(), ""),
]


@pytest.mark.parametrize(("frequency", "expected"), OFTEN, ids=[words for _, words in OFTEN])
def test_how_often_leaves_nothing_out(frequency: Frequency, expected: str) -> None:
    assert " ".join(WORDS.details(dose(frequency=frequency))) == expected


@pytest.mark.parametrize(
    ("sides", "side", "expected"),
    [
        (Sides.AFFECTED, "", "Your sore leg."),
        (Sides.AFFECTED, "right", "Right leg."),
        (Sides.OTHER, "right", "Left leg."),
        (Sides.OTHER, "left", "Right leg."),
        (Sides.AFFECTED_THEN_OTHER, "left", "Left leg first, then right leg."),
        (Sides.AFFECTED_THEN_OTHER, "right", "Right leg first, then left leg."),
        (Sides.AFFECTED_THEN_OTHER, "", "Your sore leg first, then your good leg."),
        (Sides.AFFECTED, "both", "Each leg."),
        (Sides.OTHER, "both", "Each leg."),
        (Sides.EACH, "right", "Each leg."),
        (Sides.ALTERNATE, "", "Left, then right, in turn."),
    ],
)
def test_the_side_is_named_where_it_is_known(sides: Sides, side: str, expected: str) -> None:
    words = DoseWords(PHRASES, "en", "leg", side)
    assert words.details(dose(sides=sides)) == (expected,)
    assert words.details(dose(), sides) == (expected,)


@pytest.mark.parametrize("limb", ["arm", "leg", "body"])
def test_every_side_of_every_limb_has_words(limb: str) -> None:
    for side in ("", "left", "right", "both"):
        for sides in Sides:
            said = DoseWords(PHRASES, "en", limb, side).details(dose(sides=sides))
            assert len(said) == (sides is not Sides.BOTH_TOGETHER)


def test_both_sides_together_need_no_word() -> None:
    assert WORDS.details(dose(sides=Sides.BOTH_TOGETHER)) == ()


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        (
            # Tempo 3-1-2-0, as the trade writes lowering, pause, lifting, pause.
            {"tempo": Tempo(lowering_s=3, pause_low_s=1, lifting_s=2, pause_high_s=0)},
            "Take 2 seconds to go up. Take 3 seconds to come back. "
            "Wait 1 second before the next one.",
        ),
        ({"tempo": Tempo(pause_high_s=2)}, "Stay there for 2 seconds."),
        ({"tempo": Tempo(beats_per_minute=60)}, "Move to 60 beats a minute."),
        ({"tempo": Tempo(speed=Speed.SLOW)}, "Move slowly."),
        ({"range": RangeOfMovement(extent=Extent.COMFORTABLE)}, "Move only as far as feels OK."),
        ({"range": RangeOfMovement(extent=Extent.FULL)}, "Move all the way."),
        (
            {
                "range": RangeOfMovement(
                    extent=Extent.LIMITED,
                    limits=(
                        AngleLimit(joint=Joint.KNEE, motion=Motion.FLEXION, from_deg=0, to_deg=60),
                    ),
                )
            },
            "Do not go past 60 degrees of knee bend.",
        ),
        (
            {
                "range": RangeOfMovement(
                    extent=Extent.COMFORTABLE,
                    limits=(
                        AngleLimit(joint=Joint.KNEE, motion=Motion.FLEXION, from_deg=0, to_deg=60),
                    ),
                )
            },
            "Do not go past 60 degrees of knee bend. Move only as far as feels OK.",
        ),
    ],
)
def test_speed_and_range_are_sentences(facts: dict[str, object], expected: str) -> None:
    assert " ".join(WORDS.details(dose(**facts))) == expected


def week(first: int, last: int | None, **change: object) -> WeekRow:
    return WeekRow(from_week=first, to_week=last, change=DoseChange(**change))


def sets(count: int) -> Repetitions:
    return Repetitions(sets=n(count), reps=(n(10),))


def test_a_week_table_reads_row_by_row() -> None:
    """Heavy slow resistance by week (Beyer R et al. Am J Sports Med 2015;43:1704)."""
    table = dose(
        weeks=(
            week(1, 1, work=sets(1)),
            week(2, 3, work=sets(2)),
            week(4, 8, loads=(RepMaxLoad(reps=n(8)),)),
            week(9, None, loads=(RepMaxLoad(reps=n(6)),), rest=Rest(seconds=n(180))),
        )
    )
    assert WORDS.weeks(table) == (
        ("Week 1", "10 times"),
        ("Weeks 2 and 3", "2 sets of 10"),
        ("Weeks 4 to 8", "3 sets of 10. Use the most you can lift 8 times."),
        (
            "From week 9",
            "3 sets of 10. Use the most you can lift 6 times. Rest 3 minutes after each set.",
        ),
    )


def test_a_week_can_change_the_variant_and_the_side() -> None:
    words = DoseWords(PHRASES, "en", "leg", variants={"one-leg": "One leg."})
    table = dose(
        weeks=(
            week(1, 2),
            evolve(week(3, 4, work=sets(2), sides=Sides.EACH), variant="one-leg"),
            evolve(week(5, None), variant="gone"),
        )
    )
    assert words.weeks(table) == (
        ("Weeks 1 and 2", "3 sets of 10"),
        ("Weeks 3 and 4", "One leg. 2 sets of 10. Each leg."),
        ("From week 5", "3 sets of 10"),
    )


def test_a_week_says_what_ends_its_own_sets() -> None:
    table = dose(
        weeks=(week(1, None, work=Repetitions(sets=n(3), reps=(n(8),), until=Until.QUALITY)),)
    )
    assert WORDS.weeks(table) == (
        ("From week 1", "3 sets of 8. Stop each set before your form slips."),
    )


def test_a_week_repeats_no_rest_between_holds_that_stands_above() -> None:
    between = Rest(seconds=n(10))
    base = Holds(holds=n(5), hold_s=(n(30),), rest_between_holds=between)
    longer = Holds(holds=n(5), hold_s=(n(45),), rest_between_holds=between)
    table = dose(work=base, weeks=(week(2, None, work=longer),))
    assert WORDS.weeks(table) == (("From week 2", "5 holds of 45 seconds"),)


@pytest.mark.parametrize(
    ("label", "change", "expected"),
    [
        (
            # Light daily and heavy thrice a week, side by side.
            SessionLabel.LIGHT,
            DoseChange(frequency=Frequency(days_per_week=n(7)), loads=(EffortLoad(rating=x(3)),)),
            "Light days: every day. Effort: 3 out of 10.",
        ),
        (
            SessionLabel.HEAVY,
            DoseChange(
                work=Repetitions(sets=n(4), reps=(n(6),)),
                frequency=Frequency(days_per_week=n(3), rest_days=1),
                loads=(WeightLoad(amount=x(40)),),
                rest=Rest(seconds=n(120)),
                tempo=Tempo(speed=Speed.SLOW),
            ),
            "Hard days: 4 sets of 6, 3 days a week. Use 40 kg. Rest 2 minutes after each set. "
            "Move slowly. Rest at least 1 day in between.",
        ),
        (
            SessionLabel.TECHNIQUE,
            DoseChange(loads=(BodyWeightLoad(added=x(0)),)),
            "Practice days: 3 sets of 10.",
        ),
        (
            SessionLabel.MODERATE,
            DoseChange(work=Duration(seconds=n(600))),
            "Middle days: 10 minutes.",
        ),
    ],
)
def test_each_kind_of_session_says_all_that_differs(
    label: SessionLabel, change: DoseChange, expected: str
) -> None:
    assert WORDS.details(dose(sessions=(SessionKind(label=label, change=change),))) == (expected,)
