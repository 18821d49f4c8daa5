"""Doses as the trade writes them, and what each of them means.

Where a notation is published its source stands beside it; all others are common practice,
no source.
"""

from typing import Any

import pytest

from authoring.dosage.shorthand import parse_dose
from authoring.model.dose import (
    AngleLimit,
    Distance,
    Dose,
    DoseChange,
    Duration,
    Either,
    Frequency,
    Holds,
    Interval,
    Intervals,
    LeftOpen,
    RangeOfMovement,
    Repetitions,
    Rest,
    SessionKind,
    Tempo,
    TotalRepetitions,
    WeekRow,
    Work,
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
    Counting,
    DecidedBy,
    Extent,
    IntervalRole,
    Joint,
    Motion,
    PaceWord,
    Quantity,
    RestUntil,
    SessionLabel,
    SettingKind,
    Sides,
    Speed,
    Unit,
    Until,
    WeightUnit,
)


def r(low: int, high: int | None = None) -> IntRange:
    return IntRange(low=low, high=high)


def n(low: float, high: float | None = None) -> NumberRange:
    return NumberRange(low=low, high=high)


def reps(sets: int, *each: IntRange | int, **more: Any) -> Repetitions:
    counts = tuple(r(one) if isinstance(one, int) else one for one in each)
    return Repetitions(sets=r(sets), reps=counts, **more)


def hold(holds: int, seconds: int, sets: int = 1, **more: Any) -> Holds:
    return Holds(sets=r(sets), holds=r(holds), hold_s=(r(seconds),), **more)


def part(role: IntervalRole, seconds: int, what: str, **more: Any) -> Interval:
    return Interval(role=role, seconds=r(seconds), activity=Text.plain(what), **more)


def rest_s(low: int, high: int | None = None) -> Rest:
    return Rest(seconds=r(low, high))


def week(low: int, high: int | None, **change: Any) -> WeekRow:
    return WeekRow(from_week=low, to_week=high, change=DoseChange(**change))


WORK, RECOVER = IntervalRole.WORK, IntervalRole.RECOVER
RUN_WALK = (part(WORK, 60, "run"), part(RECOVER, 120, "walk"))

WORKS: list[tuple[str, Work]] = [
    # "8-12 RM", "1-3 sets": American College of Sports Medicine, Progression models in
    # resistance training (2009), value from memory.
    ("3 x 8-12", reps(3, r(8, 12))),
    ("3x8-12", reps(3, r(8, 12))),
    ("3 X 8 - 12", reps(3, r(8, 12))),
    ("3 × 8–12", reps(3, r(8, 12))),
    ("3*8 to 12", reps(3, r(8, 12))),
    ("3 sets of 8-12", reps(3, r(8, 12))),
    ("3 sets x 8-12 reps", reps(3, r(8, 12))),
    ("3 sets, 8 reps", reps(3, 8)),
    ("8 reps x 3 sets", reps(3, 8)),
    ("8 reps, 3 sets", reps(3, 8)),
    ("1 set of 15", reps(1, 15)),
    ("15 reps", reps(1, 15)),
    ("15", reps(1, 15)),
    ("4 x 15.", reps(4, 15)),
    ("2-3 x 10-15", Repetitions(sets=r(2, 3), reps=(r(10, 15),))),
    ("12,10,8", reps(3, 12, 10, 8)),
    ("12, 10, 8", reps(3, 12, 10, 8)),
    ("12/10/8", reps(3, 12, 10, 8)),
    ("3 x 12/10/8 reps", reps(3, 12, 10, 8)),
    ("10-12/8-10/6-8", reps(3, r(10, 12), r(8, 10), r(6, 8))),
    ("2 x 3/7", reps(2, 3, 7)),
    ("30 steps", reps(1, 30, counting=Counting.STEPS)),
    # Contacts count the volume of plyometrics: National Strength and Conditioning
    # Association, Essentials of Strength Training and Conditioning, value from memory.
    ("3 x 20 contacts", reps(3, 20, counting=Counting.CONTACTS)),
    ("3 x 10 hops", reps(3, 10, counting=Counting.HOPS)),
    ("1 catch", reps(1, 1, counting=Counting.CATCHES)),
    ("5 x 5 breaths", reps(5, 5, counting=Counting.BREATHS)),
    ("3 x to fatigue", Repetitions(sets=r(3), until=Until.FATIGUE)),
    ("3 sets to failure", Repetitions(sets=r(3), until=Until.FATIGUE)),
    ("3 x 10 to fatigue", reps(3, 10, until=Until.FATIGUE)),
    ("3 x 6 quality", reps(3, 6, until=Until.QUALITY)),
    ("3 x 6, stop before failure", reps(3, 6, until=Until.QUALITY)),
    ("3 x max good form", Repetitions(sets=r(3), until=Until.GOOD_FORM)),
    ("3 x max good form (cap 15)", reps(3, 15, until=Until.GOOD_FORM)),
    ("3 x as many as good form, max 15", reps(3, 15, until=Until.GOOD_FORM)),
    ("to 100 reps", TotalRepetitions(total=r(100))),
    ("total 100", TotalRepetitions(total=r(100))),
    ("total 50 in up to 5 sets", TotalRepetitions(total=r(50), most_sets=5)),
    # 5 x 45 s isometric holds: Rio and others, British Journal of Sports Medicine (2015),
    # value from memory.
    ("5 x 45 s hold", hold(5, 45)),
    ('5 x 45" hold', hold(5, 45)),
    ("5x45sec holds", hold(5, 45)),
    ("5 holds of 45 secs", hold(5, 45)),
    ("hold 45 s x 5", hold(5, 45)),
    ("45 s hold x 5", hold(5, 45)),
    ("Hold 45 seconds, 5 times", hold(5, 45)),
    ("30 s hold", hold(1, 30)),
    ("3 x 10 x 5 s hold", hold(10, 5, sets=3)),
    ("3 sets of 10 x 5 s holds", hold(10, 5, sets=3)),
    ("3 x 10, 5 s hold", hold(10, 5, sets=3)),
    ("10 reps, hold for 5 seconds", hold(10, 5)),
    ("1 min 30 s hold", hold(1, 90)),
    ("1,5 min hold", hold(1, 90)),
    ("5 x 30-45 s hold", Holds(holds=r(5), hold_s=(r(30, 45),))),
    ("30 s to 1 min hold", Holds(hold_s=(r(30, 60),))),
    ("10/20/30 s hold", Holds(holds=r(3), hold_s=(r(10), r(20), r(30)))),
    ("3 x hold to fatigue", Holds(holds=r(3), until=Until.FATIGUE)),
    ("5 x 45 s hold quality", hold(5, 45, until=Until.QUALITY)),
    ("10 min", Duration(seconds=r(600))),
    ("2 x 5 mins", Duration(bouts=r(2), seconds=r(300))),
    ("5 x 45 s", Duration(bouts=r(5), seconds=r(45))),
    ("1 h", Duration(seconds=r(3600))),
    ("400 m", Distance(metres=n(400))),
    ("4 x 20 m", Distance(bouts=r(4), metres=n(20))),
    ("1,5 km", Distance(metres=n(1500))),
    ("6 x (1 min run / 2 min walk)", Intervals(rounds=r(6), parts=RUN_WALK)),
    (
        "warm-up 5 min walk, 6 x (1 min run / 2 min walk), cool-down 5 min walk",
        Intervals(
            rounds=r(6),
            parts=(
                part(IntervalRole.WARM_UP, 300, "walk"),
                *RUN_WALK,
                part(IntervalRole.COOL_DOWN, 300, "walk"),
            ),
        ),
    ),
    (
        "4 x (work 30 s step-ups / work 30 s squats @ RPE 7 / 60 s rest)",
        Intervals(
            rounds=r(4),
            parts=(
                part(WORK, 30, "step-ups"),
                part(WORK, 30, "squats", loads=(EffortLoad(rating=n(7)),)),
                part(WORK, 60, "rest"),
            ),
        ),
    ),
    ("3 x 10 or 5 x 30 s hold", Either(doses=(Dose(work=reps(3, 10)), Dose(work=hold(5, 30))))),
    (
        "(3 x 10, rest 60 s) or (10 min)",
        Either(
            doses=(Dose(work=reps(3, 10), rest=rest_s(60)), Dose(work=Duration(seconds=r(600))))
        ),
    ),
    ("as tolerated", LeftOpen(decided_by=DecidedBy.PATIENT)),
    (
        "per surgeon: see the letter",
        LeftOpen(decided_by=DecidedBy.SURGEON, words=Text.plain("see the letter")),
    ),
]


@pytest.mark.parametrize(("text", "work"), WORKS, ids=[text for text, _ in WORKS])
def test_work_is_read_as_the_trade_means_it(text: str, work: Work) -> None:
    assert parse_dose(text) == Dose(work=work)


ONE_RM = Measure(quantity=Quantity.ONE_RM)
MVC = Measure(quantity=Quantity.MAX_EFFORT)

LOADS: list[tuple[str, Load]] = [
    # Percent of 1RM and repetition maxima: National Strength and Conditioning Association,
    # as above.
    ("@ 70% 1RM", PercentLoad(of=ONE_RM, per_set=(n(70),))),
    ("@70 % of 1 RM", PercentLoad(of=ONE_RM, per_set=(n(70),))),
    ("@ 60-70% 1RM", PercentLoad(of=ONE_RM, per_set=(n(60, 70),))),
    ("@ 60/70/80% 1RM", PercentLoad(of=ONE_RM, per_set=(n(60), n(70), n(80)))),
    (
        "@ 80% 10RM",
        PercentLoad(of=Measure(quantity=Quantity.N_RM, reps=10), per_set=(n(80),)),
    ),
    ("@ 10RM", RepMaxLoad(reps=r(10))),
    ("@ 8-10 RM", RepMaxLoad(reps=r(8, 10))),
    ("@ 70% MVC", PercentLoad(of=MVC, per_set=(n(70),))),
    ("@ 70% MVIC", PercentLoad(of=MVC, per_set=(n(70),))),
    (
        "@ 80% HRmax",
        PercentLoad(of=Measure(quantity=Quantity.MAX_HEART_RATE), per_set=(n(80),)),
    ),
    ("@ 10% BW", PercentLoad(of=Measure(quantity=Quantity.BODY_WEIGHT), per_set=(n(10),))),
    ("@ 2-4 kg", WeightLoad(amount=n(2, 4))),
    ("@ 2,5 kg", WeightLoad(amount=n(2.5))),
    ("10 lbs", WeightLoad(amount=n(10), unit=WeightUnit.LB)),
    ("@ 2 kg each hand", WeightLoad(amount=n(2), carried=Carried.EACH_HAND)),
    (
        "@ 1 kg cuff in 0.5 kg steps max 3 kg",
        WeightLoad(amount=n(1), carried=Carried.CUFF, step=0.5, cap=3),
    ),
    ("@ BW", BodyWeightLoad()),
    ("@ BW + 5 kg", BodyWeightLoad(added=n(5))),
    ("@ bodyweight + 5-10 kg vest", BodyWeightLoad(added=n(5, 10), carried=Carried.VEST)),
    # Effort from 0 to 10: Borg's category-ratio scale (1982), value from memory.
    ("@ RPE 7", EffortLoad(rating=n(7))),
    ("effort 6-8/10", EffortLoad(rating=n(6, 8))),
    # Repetitions in reserve: Zourdos and others, Journal of Strength and Conditioning
    # Research (2016), value from memory.
    ("@ RIR 2", ReserveLoad(reps=r(2))),
    ("1-2 RIR", ReserveLoad(reps=r(1, 2))),
    ("2 in reserve", ReserveLoad(reps=r(2))),
    ("red band", BandLoad(strength=Text.plain("red band"))),
    ("@ band: medium", BandLoad(strength=Text.plain("medium"))),
    (
        "@ red band (kit red-band, 20-40 N)",
        BandLoad(band="red-band", strength=Text.plain("red band"), force_n=n(20, 40)),
    ),
    ("@ brisk", PaceLoad(word=PaceWord.BRISK)),
    ("@ 5-6 km/h can talk", PaceLoad(speed_km_h=n(5, 6), can_talk=True)),
    ("@ 5:30/km", PaceLoad(seconds_per_km=n(330))),
    ("@ 40 mmHg", UnitLoad(amount=n(40), unit=Unit.MMHG)),
    (
        "@ step height 20 cm",
        UnitLoad(amount=n(20), unit=Unit.CENTIMETRES, what=Text.plain("step height")),
    ),
    ("@ surface: foam", SettingLoad(what=SettingKind.SURFACE, words=Text.plain("foam"))),
]


@pytest.mark.parametrize(("text", "load"), LOADS, ids=[text for text, _ in LOADS])
def test_loads_are_read_as_the_trade_means_them(text: str, load: Load) -> None:
    assert parse_dose(f"3 x 8 {text}") == Dose(work=reps(3, 8), loads=(load,))


BESIDE: list[tuple[str, dict[str, Any]]] = [
    ("rest 90 s", {"rest": rest_s(90)}),
    ("90s rest", {"rest": rest_s(90)}),
    ("with 60-90 sec rest", {"rest": rest_s(60, 90)}),
    ("rest 2-3 min", {"rest": rest_s(120, 180)}),
    ("no rest", {"rest": rest_s(0)}),
    ("rest as long as set", {"rest": Rest(times_work=1)}),
    # Work to rest as a ratio: National Strength and Conditioning Association, as above.
    ("rest 1:3", {"rest": Rest(times_work=3)}),
    ("rest 2:1", {"rest": Rest(times_work=0.5)}),
    ("rest until ready", {"rest": Rest(until=RestUntil.READY)}),
    ("rest walk back", {"rest": Rest(until=RestUntil.WALK_BACK)}),
    (
        "tempo 3-1-2-0",
        {"tempo": Tempo(lowering_s=3, pause_low_s=1, lifting_s=2, pause_high_s=0)},
    ),
    ("tempo 3120", {"tempo": Tempo(lowering_s=3, pause_low_s=1, lifting_s=2, pause_high_s=0)}),
    ("tempo 3-0-3", {"tempo": Tempo(lowering_s=3, pause_low_s=0, lifting_s=3)}),
    (
        "tempo 3-1-X-0",
        {"tempo": Tempo(lowering_s=3, pause_low_s=1, pause_high_s=0, speed=Speed.EXPLOSIVE)},
    ),
    ("3 s lower, 1 s lift", {"tempo": Tempo(lowering_s=3, lifting_s=1)}),
    ("pause 2 s at bottom", {"tempo": Tempo(pause_low_s=2)}),
    ("60 bpm", {"tempo": Tempo(beats_per_minute=60)}),
    ("slow", {"tempo": Tempo(speed=Speed.SLOW)}),
    ("full range", {"range": RangeOfMovement(extent=Extent.FULL)}),
    ("comfortable ROM", {"range": RangeOfMovement(extent=Extent.COMFORTABLE)}),
    (
        "knee 0-45 deg",
        {
            "range": RangeOfMovement(
                extent=Extent.LIMITED,
                limits=(
                    AngleLimit(joint=Joint.KNEE, motion=Motion.FLEXION, from_deg=0, to_deg=45),
                ),
            )
        },
    ),
    (
        "ankle DF -10 to 10°",
        {
            "range": RangeOfMovement(
                extent=Extent.LIMITED,
                limits=(
                    AngleLimit(
                        joint=Joint.ANKLE, motion=Motion.DORSIFLEXION, from_deg=-10, to_deg=10
                    ),
                ),
            )
        },
    ),
    ("each side", {"sides": Sides.EACH}),
    ("per leg", {"sides": Sides.EACH}),
    ("both", {"sides": Sides.BOTH_TOGETHER}),
    ("affected side", {"sides": Sides.AFFECTED}),
    ("unaffected side", {"sides": Sides.OTHER}),
    ("alternate", {"sides": Sides.ALTERNATE}),
    ("affected then other", {"sides": Sides.AFFECTED_THEN_OTHER}),
    # Latin abbreviations: British National Formulary, "Abbreviations and symbols", value
    # from memory.
    ("od", {"frequency": Frequency(times_per_day=r(1))}),
    ("bd", {"frequency": Frequency(times_per_day=r(2))}),
    ("b.d.", {"frequency": Frequency(times_per_day=r(2))}),
    ("tds", {"frequency": Frequency(times_per_day=r(3))}),
    ("QDS", {"frequency": Frequency(times_per_day=r(4))}),
    ("twice a day", {"frequency": Frequency(times_per_day=r(2))}),
    ("3 x/day", {"frequency": Frequency(times_per_day=r(3))}),
    ("5 times a day", {"frequency": Frequency(times_per_day=r(5))}),
    ("daily", {"frequency": Frequency(every_days=1)}),
    ("alt days", {"frequency": Frequency(every_days=2)}),
    ("every 3 days", {"frequency": Frequency(every_days=3)}),
    ("hourly", {"frequency": Frequency(every_hours=1)}),
    ("2 hourly", {"frequency": Frequency(every_hours=2)}),
    ("2-hourly", {"frequency": Frequency(every_hours=2)}),
    ("3/wk", {"frequency": Frequency(days_per_week=r(3))}),
    ("3-4/week", {"frequency": Frequency(days_per_week=r(3, 4))}),
    ("3 days a week", {"frequency": Frequency(days_per_week=r(3))}),
    ("3x/wk, bd", {"frequency": Frequency(days_per_week=r(3), times_per_day=r(2))}),
    ("3/wk, 1 rest day", {"frequency": Frequency(days_per_week=r(3), rest_days=1)}),
    ("max 3 days running", {"frequency": Frequency(most_days_running=3)}),
    ("max 20 min", {"session_limit_min": 20}),
    ("up to 20 min", {"session_limit_min": 20}),
    ("at least 3 sessions", {"minimum_sessions": 3}),
]


@pytest.mark.parametrize(("text", "given"), BESIDE, ids=[text for text, _ in BESIDE])
def test_what_stands_beside_the_work_is_read(text: str, given: dict[str, Any]) -> None:
    expected = Dose(work=reps(3, 8), **given)
    assert parse_dose(f"3 x 8 {text}") == expected
    assert parse_dose(f"3 x 8, {text}") == expected


WHOLE: list[tuple[str, Dose]] = [
    (
        "3 x 8-12, rest 90 s, 3/wk",
        Dose(work=reps(3, r(8, 12)), rest=rest_s(90), frequency=Frequency(days_per_week=r(3))),
    ),
    (
        "2 x 15 each side bd",
        Dose(work=reps(2, 15), sides=Sides.EACH, frequency=Frequency(times_per_day=r(2))),
    ),
    # Eccentric heel drops, 3 x 15 twice daily, 7 days a week: Alfredson and others, American
    # Journal of Sports Medicine (1998), value from memory.
    (
        "3 x 15 bd, 7/wk, slow",
        Dose(
            work=reps(3, 15),
            tempo=Tempo(speed=Speed.SLOW),
            frequency=Frequency(times_per_day=r(2), days_per_week=r(7)),
        ),
    ),
    # Isometric holds at 70% of the strongest effort with 2 minutes of rest: Rio and others,
    # as above.
    (
        "5 x 45 s hold @ 70% MVC, rest 2 min between holds",
        Dose(
            work=hold(5, 45, rest_between_holds=rest_s(120)),
            loads=(PercentLoad(of=MVC, per_set=(n(70),)),),
        ),
    ),
    # Heavy slow resistance: 15RM in week 1, 12RM in weeks 2 and 3, 10RM in weeks 4 and 5, 8RM
    # in weeks 6 to 8, 6RM after that, 4 sets, three times a week, 3 s up and 3 s down:
    # Kongsgaard and others, Scandinavian Journal of Medicine & Science in Sports (2009),
    # value from memory.
    (
        "tempo 3-0-3-0, rest 2-3 min, 3/wk; wk 1: 4 x 15 @ 15RM; wk 2-3: 4 x 12 @ 12RM; "
        "wk 4-5: 4 x 10 @ 10RM; wk 6-8: 4 x 8 @ 8RM; wk 9+: 4 x 6 @ 6RM",
        Dose(
            work=reps(4, 15),
            tempo=Tempo(lowering_s=3, pause_low_s=0, lifting_s=3, pause_high_s=0),
            rest=rest_s(120, 180),
            frequency=Frequency(days_per_week=r(3)),
            weeks=tuple(
                week(low, high, work=reps(4, most), loads=(RepMaxLoad(reps=r(most)),))
                for low, high, most in (
                    (1, 1, 15),
                    (2, 3, 12),
                    (4, 5, 10),
                    (6, 8, 8),
                    (9, None, 6),
                )
            ),
        ),
    ),
    (
        "3 x 8; wk 1-2: same; wk 3-4: 3 x 10, from wk 5: rest 2 min, no load",
        Dose(
            work=reps(3, 8),
            weeks=(
                week(1, 2),
                week(3, 4, work=reps(3, 10)),
                week(5, None, rest=rest_s(120), loads=()),
            ),
        ),
    ),
    (
        "heavy: 3 x 6 @ 8RM, 3/wk; light: 2 x 15, daily",
        Dose(
            work=reps(3, 6),
            sessions=(
                SessionKind(
                    label=SessionLabel.HEAVY,
                    change=DoseChange(
                        work=reps(3, 6),
                        loads=(RepMaxLoad(reps=r(8)),),
                        frequency=Frequency(days_per_week=r(3)),
                    ),
                ),
                SessionKind(
                    label=SessionLabel.LIGHT,
                    change=DoseChange(work=reps(2, 15), frequency=Frequency(every_days=1)),
                ),
            ),
        ),
    ),
    (
        "3 x 10 @ 5 kg or 10 min, 3/wk",
        Dose(
            work=Either(
                doses=(
                    Dose(work=reps(3, 10), loads=(WeightLoad(amount=n(5)),)),
                    Dose(work=Duration(seconds=r(600))),
                )
            ),
            frequency=Frequency(days_per_week=r(3)),
        ),
    ),
    (
        "@ 20 kg @ RPE 7, 3 x 8",
        Dose(work=reps(3, 8), loads=(WeightLoad(amount=n(20)), EffortLoad(rating=n(7)))),
    ),
]


@pytest.mark.parametrize(("text", "dose"), WHOLE, ids=[text[:40] for text, _ in WHOLE])
def test_whole_doses_are_read_as_the_trade_means_them(text: str, dose: Dose) -> None:
    assert parse_dose(text) == dose
