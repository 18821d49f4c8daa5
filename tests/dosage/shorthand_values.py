"""Doses drawn at random, with and without things that the shorthand has no words for."""

from hypothesis import strategies as st

from authoring.model.base import evolve
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
    sets_of,
)
from authoring.model.load import (
    BandLoad,
    BodyWeightLoad,
    EffortLoad,
    IntRange,
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

# ---- doses that the shorthand says in full -------------------------------------------


def maybe(values: st.SearchStrategy) -> st.SearchStrategy:
    return st.none() | values


def ints(low: int, high: int) -> st.SearchStrategy[IntRange]:
    return st.tuples(st.integers(low, high), maybe(st.integers(0, 40))).map(
        lambda ends: IntRange(low=ends[0], high=None if ends[1] is None else ends[0] + ends[1])
    )


def amounts(high: int) -> st.SearchStrategy[float]:
    return st.integers(0, high * 100).map(lambda hundredths: hundredths / 100) | st.integers(
        0, high
    )


def numbers(high: int, low: float = 0) -> st.SearchStrategy[NumberRange]:
    def ordered(ends: tuple[float, float | None]) -> NumberRange:
        if ends[1] is None:
            return NumberRange(low=ends[0])
        return NumberRange(low=min(ends), high=max(ends))  # type: ignore[type-var]

    inside = amounts(high).filter(lambda value: value > low or low == 0)
    return st.tuples(inside, maybe(inside)).map(ordered)


counts = ints(1, 30)
times = ints(1, 1200) | st.integers(1, 30).map(lambda minutes: IntRange(low=60 * minutes))
activities = st.sampled_from(["run", "walk", "pedal easily", "jog on grass", "rest", "work", "hop"])
rests = (
    st.builds(Rest, seconds=ints(0, 600))
    | st.builds(Rest, times_work=amounts(20))
    | st.builds(Rest, until=st.sampled_from(RestUntil))
)
part_seconds = maybe(amounts(120))
tempos = st.builds(
    Tempo,
    lowering_s=part_seconds,
    pause_low_s=part_seconds,
    lifting_s=part_seconds,
    pause_high_s=part_seconds,
    beats_per_minute=maybe(st.integers(10, 300)),
    speed=maybe(st.sampled_from(Speed)),
).filter(lambda tempo: tempo != Tempo())
angles = st.builds(
    AngleLimit,
    joint=st.sampled_from(Joint),
    motion=st.sampled_from(Motion),
    from_deg=st.integers(-60, 200),
    to_deg=st.integers(-60, 200),
)
ranges = st.builds(
    RangeOfMovement,
    extent=st.sampled_from(Extent),
    limits=st.lists(angles, max_size=3).map(tuple),
)
frequencies = st.builds(
    Frequency,
    times_per_day=maybe(counts),
    every_hours=maybe(st.integers(1, 24)),
    days_per_week=maybe(
        st.sampled_from([IntRange(low=3), IntRange(low=1, high=7), IntRange(low=7)])
    ),
    every_days=maybe(st.integers(1, 60)),
    rest_days=maybe(st.integers(0, 30)),
    most_days_running=maybe(st.integers(1, 31)),
).filter(lambda frequency: frequency != Frequency())

steps = {"step": maybe(amounts(20)), "cap": maybe(amounts(100))}
kilos = st.sampled_from(WeightUnit)
paces = st.builds(
    PaceLoad,
    word=maybe(st.sampled_from(PaceWord)),
    speed_km_h=maybe(numbers(30)),
    seconds_per_km=maybe(numbers(900)),
    can_talk=maybe(st.booleans()),
).filter(lambda pace: pace != PaceLoad())
measures = st.sampled_from(
    [quantity for quantity in Quantity if quantity not in (Quantity.N_RM, Quantity.OTHER)]
).map(lambda quantity: Measure(quantity=quantity)) | st.integers(2, 30).map(
    lambda reps: Measure(quantity=Quantity.N_RM, reps=reps)
)
free_loads = (
    st.builds(
        BodyWeightLoad,
        added=numbers(100),
        unit=kilos,
        carried=st.sampled_from(Carried),
        **steps,
    )
    | st.builds(
        BodyWeightLoad,
        assisted=numbers(100),
        unit=kilos,
        carried=st.sampled_from(Carried),
        **steps,
    )
    | st.builds(BodyWeightLoad, cap=amounts(100), unit=kilos, carried=st.sampled_from(Carried))
    | st.just(BodyWeightLoad())
    | st.builds(
        WeightLoad, amount=numbers(300), unit=kilos, carried=st.sampled_from(Carried), **steps
    )
    | st.builds(RepMaxLoad, reps=counts)
    | st.builds(
        BandLoad,
        band=maybe(st.sampled_from(["band", "light-band", "band-2", "2-band"])),
        strength=maybe(
            st.sampled_from(["red band", "a light band", "medium", "x-heavy"]).map(Text.plain)
        ),
        force_n=maybe(numbers(200)),
    )
    | st.builds(EffortLoad, rating=numbers(10))
    | st.builds(ReserveLoad, reps=ints(0, 5))
    | paces
    | st.builds(
        UnitLoad,
        amount=numbers(200),
        unit=st.sampled_from(
            [
                *(Unit.CENTIMETRES, Unit.METRES, Unit.KILOMETRES),
                *(Unit.NEWTONS, Unit.NEWTON_METRES, Unit.MMHG, Unit.DEGREES),
            ]
        ),
        what=maybe(st.sampled_from(["step height", "cuff pressure"]).map(Text.plain)),
        **steps,
    )
    | st.builds(
        SettingLoad,
        what=st.sampled_from(SettingKind),
        words=st.sampled_from(["foam pad", "Stop at a mild pull.", "3 finger widths"]).map(
            Text.plain
        ),
    )
)
percents = st.builds(PercentLoad, of=measures, per_set=numbers(120).map(lambda one: (one,)))
loads = st.lists(free_loads | percents, max_size=3).map(tuple)


def listed(value: st.SearchStrategy[IntRange]) -> st.SearchStrategy[tuple[IntRange, ...]]:
    return st.lists(value, min_size=2, max_size=5).map(tuple)


ended = st.sampled_from([until for until in Until if until is not Until.COUNT])
repetitions = (
    st.builds(
        Repetitions,
        sets=counts,
        reps=counts.map(lambda one: (one,)),
        counting=st.sampled_from(Counting),
        until=st.sampled_from(Until),
    )
    | st.builds(Repetitions, sets=counts, counting=st.sampled_from(Counting), until=ended)
    | st.builds(
        lambda reps, counting, until: Repetitions(
            sets=IntRange(low=len(reps)), reps=reps, counting=counting, until=until
        ),
        listed(counts),
        st.sampled_from(Counting),
        st.sampled_from(Until),
    )
    | st.builds(Repetitions, sets=counts, reps=counts.map(lambda one: (one,)), last_set_until=ended)
)
holds = (
    st.builds(
        Holds,
        sets=counts,
        holds=counts,
        hold_s=times.map(lambda one: (one,)),
        until=st.sampled_from(Until),
        rest_between_holds=maybe(rests),
    )
    | st.builds(Holds, sets=counts, holds=counts, until=ended, rest_between_holds=maybe(rests))
    | st.builds(
        lambda sets, hold_s: Holds(sets=sets, holds=IntRange(low=len(hold_s)), hold_s=hold_s),
        counts,
        listed(times),
    )
)


def parts(*roles: IntervalRole) -> st.SearchStrategy[Interval]:
    shared = {
        "role": st.sampled_from(roles),
        "activity": activities.map(Text.plain),
        "loads": loads,
    }
    return st.builds(Interval, seconds=times, **shared) | st.builds(
        Interval, metres=numbers(9000, 0.001), **shared
    )


intervals = st.builds(
    lambda rounds, before, middle, after: Intervals(
        rounds=rounds, parts=(*before, *middle, *after)
    ),
    counts,
    st.lists(parts(IntervalRole.WARM_UP), max_size=1),
    st.lists(parts(IntervalRole.WORK, IntervalRole.RECOVER), min_size=1, max_size=3),
    st.lists(parts(IntervalRole.COOL_DOWN), max_size=1),
)
simple = (
    repetitions
    | holds
    | st.builds(
        TotalRepetitions,
        total=ints(1, 300),
        most_sets=maybe(st.integers(1, 100)),
        counting=st.sampled_from(Counting),
        until=ended,
    )
    | st.builds(Duration, bouts=counts, seconds=times)
    | st.builds(Distance, bouts=counts, metres=numbers(9000, 0.001))
    | intervals
    | st.builds(
        LeftOpen,
        decided_by=st.sampled_from(DecidedBy),
        words=maybe(st.just(Text.plain("as the wound allows"))),
    )
)


def doses(works: st.SearchStrategy, **more: st.SearchStrategy) -> st.SearchStrategy[Dose]:
    return st.builds(
        Dose,
        work=works,
        loads=loads,
        rest=maybe(rests),
        tempo=maybe(tempos),
        range=maybe(ranges),
        sides=maybe(st.sampled_from(Sides)),
        frequency=maybe(frequencies),
        session_limit_min=maybe(st.integers(1, 480)),
        minimum_sessions=maybe(st.integers(1, 200)),
        **more,
    )


choices = st.builds(
    Either,
    doses=st.lists(st.builds(Dose, work=simple) | doses(simple), min_size=2, max_size=3).map(tuple),
)
works = simple | choices
changes = st.builds(
    DoseChange,
    work=maybe(works),
    loads=maybe(loads),
    rest=maybe(rests),
    tempo=maybe(tempos),
    range=maybe(ranges),
    frequency=maybe(frequencies),
)


@st.composite
def week_rows(draw: st.DrawFn) -> tuple[WeekRow, ...]:
    rows, week = [], 1
    for _ in range(draw(st.integers(0, 3))):
        first = week + draw(st.integers(0, 2))
        week = first + draw(st.integers(0, 3)) + 1
        rows.append(WeekRow(from_week=first, to_week=week - 1, change=draw(changes)))
    if rows and draw(st.booleans()):
        rows[-1] = evolve(rows[-1], to_week=None)
    return tuple(rows)


session_kinds = st.lists(
    st.builds(SessionKind, label=st.sampled_from(SessionLabel), change=changes), max_size=2
).map(tuple)
sayable = doses(works, weeks=week_rows(), sessions=session_kinds) | doses(works)


# ---- doses with things that have no words in it ------------------------------------------

odd_texts = st.sampled_from(
    [
        "run / walk",
        "foam, then sand",
        "a or b",
        "",
        " two  spaces ",
        "@ home",
        "5 kg",
        "x",
        "9 to 5",
    ]
).map(Text.plain) | st.just(Text({"en": "run", "de": "laufen"}))
zero = st.just(IntRange(low=0))
odd_floats = st.floats(0, 1_000_000, allow_nan=False).map(lambda low: NumberRange(low=low))
odd_loads = (
    st.builds(BandLoad, strength=odd_texts)
    | st.builds(SettingLoad, what=st.sampled_from(SettingKind), words=odd_texts)
    | st.builds(UnitLoad, amount=odd_floats, unit=st.sampled_from(Unit), what=maybe(odd_texts))
    | st.builds(WeightLoad, amount=odd_floats)
    | st.builds(BodyWeightLoad, unit=kilos, carried=st.sampled_from(Carried))
    | st.builds(RepMaxLoad, reps=zero)
    | st.just(PaceLoad())
    | st.builds(
        PercentLoad,
        of=st.builds(
            Measure,
            quantity=st.sampled_from(Quantity),
            reps=maybe(st.integers(1, 20)),
            name=maybe(odd_texts),
            unit=maybe(st.sampled_from(Unit)),
            valid_weeks=maybe(st.integers(1, 9)),
        ),
        per_set=st.lists(odd_floats | numbers(100), min_size=1, max_size=3).map(tuple),
    )
)
odd_works = (
    st.builds(Repetitions, sets=zero | counts, reps=(zero | counts).map(lambda one: (one,)))
    | st.builds(Holds, sets=zero, hold_s=counts.map(lambda one: (one,)))
    | st.builds(Holds, hold_s=st.lists(zero | counts, min_size=1, max_size=1).map(tuple))
    | st.builds(TotalRepetitions, total=zero | counts, until=st.sampled_from(Until))
    | st.builds(Duration, bouts=zero | counts, seconds=zero | counts)
    | st.builds(Distance, bouts=zero | counts, metres=odd_floats)
    | st.builds(
        Intervals,
        rounds=counts,
        parts=st.lists(
            st.builds(
                Interval,
                role=st.sampled_from(IntervalRole),
                activity=odd_texts,
                seconds=zero | counts,
            ),
            min_size=1,
            max_size=3,
        ).map(tuple),
    )
    | st.builds(LeftOpen, words=odd_texts)
)


@st.composite
def odd_doses(draw: st.DrawFn, deep: int = 3) -> Dose:
    """Doses of which the shorthand may lack words, choices within choices included."""
    if deep and draw(st.integers(0, 3)) == 0:
        chosen = draw(st.lists(odd_doses(deep=deep - 1), min_size=2, max_size=2))
        work = Either(doses=tuple(chosen))
    else:
        work = draw(odd_works | simple)
    weeks = draw(week_rows()) if draw(st.booleans()) else ()
    fitting = {0, 1} if weeks else {0, 1, sets_of(work)}
    loads = draw(st.lists(odd_loads, max_size=2))
    return Dose(
        work=work,
        loads=tuple(load for load in loads if len(getattr(load, "per_set", ())) in fitting),
        tempo=draw(maybe(st.just(Tempo()))),
        frequency=draw(maybe(st.just(Frequency()) | st.builds(Frequency, days_per_week=zero))),
        weeks=weeks,
    )
