"""Whatever the dose: figures keep their order, and more is never less."""

from hypothesis import given
from hypothesis import strategies as st

from authoring.dosage.arithmetic.figure import Figure, covering
from authoring.dosage.arithmetic.timing import timing
from authoring.dosage.minutes import Timed, session_minutes
from authoring.dosage.progression.project import Setting, project
from authoring.dosage.progression.state import Change
from authoring.dosage.volume import Trained, Volume, add_up, week_volume
from authoring.model.base import evolve
from authoring.model.dose import Dose, Either, LeftOpen
from authoring.model.protocol import Progression
from authoring.model.vocabulary import DecidedBy, ProgressionMethod, Region, Sides
from tests.dosage.shorthand_values import odd_doses, sayable

ANY = sayable | odd_doses()

figures = st.tuples(st.floats(0, 1e4), st.none() | st.floats(0, 1e4)).map(
    lambda ends: Figure(ends[0], None if ends[1] is None else ends[0] + ends[1])
)


def in_order(figure: Figure) -> bool:
    return figure.low >= 0 and (figure.high is None or figure.low <= figure.high * (1 + 1e-9))


def figures_of(volume: Volume) -> list[Figure]:
    return [
        volume.sets,
        volume.repetitions,
        volume.contacts,
        volume.holds,
        volume.tension_s,
        volume.load_kg,
        volume.minutes,
    ]


@given(figures, figures, figures)
def test_sums_products_and_covers_keep_their_order(a: Figure, b: Figure, c: Figure) -> None:
    assert all(in_order(each) for each in (a + b, a * b, covering([a, b, c]), a.at_most(5)))
    assert covering([a, b]).low <= a.low
    assert (a + b).low >= a.low


@given(ANY, st.none() | st.sampled_from(Sides))
def test_low_is_never_above_high(dose: Dose, sides: Sides | None) -> None:
    made = timing(dose, sides)
    assert all(in_order(each) for each in (made.tension, made.work, made.rest, made.seconds))
    assert all(in_order(each) for each in figures_of(week_volume(Trained(dose=dose))))


@given(ANY)
def test_the_other_side_never_takes_less(dose: Dose) -> None:
    bare = evolve(dose, sides=None, session_limit_min=None, weeks=(), sessions=())
    if isinstance(bare.work, Either):
        return
    one, both = timing(bare, Sides.AFFECTED), timing(bare, Sides.EACH)
    assert both.work.low >= one.work.low
    assert both.seconds.high is None or one.seconds.high is not None
    if both.seconds.high is not None and one.seconds.high is not None:
        assert both.seconds.high >= one.seconds.high


@given(st.lists(ANY, max_size=4), ANY)
def test_one_exercise_more_never_shortens_a_session(doses: list[Dose], more: Dose) -> None:
    before = session_minutes([Timed(dose) for dose in doses]).total
    after = session_minutes([Timed(dose) for dose in (*doses, more)]).total
    assert after.low >= before.low - 1e-9
    if after.high is not None:
        assert before.high is not None
        assert after.high >= before.high - 1e-9


@given(st.lists(ANY, max_size=3))
def test_what_is_left_open_is_never_nought(doses: list[Dose]) -> None:
    left = Dose(work=LeftOpen(decided_by=DecidedBy.PATIENT))
    minutes = session_minutes([Timed(dose) for dose in (*doses, left)])
    assert minutes.total.high is None


@given(ANY, ANY)
def test_regions_add_up_to_the_whole_where_each_has_one(first: Dose, second: Dose) -> None:
    week = add_up(
        [
            Trained(dose=first, regions=(Region.KNEE,)),
            Trained(dose=second, regions=(Region.HIP,)),
        ]
    )
    parts = week.by_region[Region.KNEE] + week.by_region[Region.HIP]
    assert parts == week.total


@given(
    ANY,
    st.sampled_from(ProgressionMethod),
    st.integers(1, 30),
    st.none() | st.integers(2, 6),
)
def test_a_projection_has_as_many_weeks_as_asked_and_says_why_it_stops(
    dose: Dose, method: ProgressionMethod, weeks: int, lighter: int | None
) -> None:
    rule = Progression(method=method, lighter_week_every=lighter)
    found = project(dose, rule, weeks, Setting())
    assert [week.number for week in found.weeks] == list(range(1, weeks + 1))
    assert found.told
    assert all(told.code and told.text.endswith(".") for told in found.told)
    assert found.weeks[0].change is Change.START
    again = project(dose, rule, weeks, Setting())
    assert again == found
