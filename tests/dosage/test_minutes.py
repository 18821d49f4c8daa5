"""Minutes of sets, holds, intervals, sides, circuits and whole sessions, worked by hand."""

import pytest

from authoring.dosage.arithmetic.assumptions import Assumptions
from authoring.dosage.arithmetic.figure import Figure, Note, covering, exactly, unknown
from authoring.dosage.arithmetic.timing import timing
from authoring.dosage.minutes import Timed, assumed, exercise_minutes, session_minutes
from authoring.dosage.shorthand import parse_dose
from authoring.model.dose import Rest
from authoring.model.load import IntRange
from authoring.model.protocol import Block
from authoring.model.vocabulary import BlockKind, Sides

CIRCUIT = Block(
    id="circuit",
    kind=BlockKind.CIRCUIT,
    rounds=IntRange(low=3),
    rest_between_rounds=Rest(seconds=IntRange(low=60)),
    rest_between_entries=Rest(seconds=IntRange(low=15)),
)


@pytest.mark.parametrize(
    ("text", "tension", "rest"),
    [
        # Rio E et al., Br J Sports Med 2015;49:1277-1283: five holds of 45 s with two minutes
        # between them; 225 s under tension, 11 min 45 s in all.
        ("5 x 45 s hold, rest 120 s", (225, 225), (480, 480)),
        # All others worked by hand: repetitions x seconds of one + rests between.
        ("3 x 10, tempo 3-1-1-0, rest 90 s", (150, 150), (180, 180)),
        ("3 x 8-12, tempo 2-0-1-0, rest 60-90 s", (72, 108), (120, 180)),
        ("12/10/8, tempo 2-0-2-0, rest 60 s", (120, 120), (120, 120)),
        ("3 x 10 x 5 s hold, rest 5 s between holds, rest 60 s", (150, 150), (255, 255)),
        ("3 x 10/20/30 s hold, rest 10 s", (60, 60), (20, 20)),
        ("2 x 5 min, rest 2 min", (600, 600), (120, 120)),
        ("4 x 100 m @ 6 km/h, rest 30 s", (240, 240), (90, 90)),
        ("1 km @ 5:30/km", (330, 330), (0, 0)),
        ("3 x 10, 60 bpm, rest 60 s", (30, 60), (120, 120)),
        ("3 x 10, lower 3 s, rest 60 s", (120, 150), (120, 120)),
        # Five at a time: six sets, five rests.
        ("total 30, tempo 2-0-1-0, rest 20 s", (90, 90), (0, 100)),
        ("total 30 in up to 4 sets, tempo 2-0-1-0, rest 20 s", (90, 90), (0, 60)),
        ("3 x max good form (cap 15), tempo 1-0-1-0, rest 30 s", (6, 90), (60, 60)),
        ("3 x to fatigue, tempo 1-0-1-0, rest 30 s", (0, None), (60, 60)),
        ("2 x 10, tempo 1-0-1-0, rest 1:2", (40, 40), (40, 40)),
        # As long as a set: with open sets of five or more, 0 to 5 sixths of the work.
        ("total 30, tempo 1-0-1-0, rest 1:1", (60, 60), (0, 50)),
        ("3 x 10, tempo 1-0-1-0, rest until other side done", (60, 60), (40, 40)),
        ("3 x 10 each side, tempo 1-0-1-0, rest until other side done", (120, 120), (0, 0)),
    ],
)
def test_work_and_rest_add_up(text: str, tension: tuple, rest: tuple) -> None:
    made = timing(parse_dose(text))
    assert (made.tension.low, made.tension.high) == pytest.approx(tension)
    assert (made.rest.low, made.rest.high) == pytest.approx(rest)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        # 6 x (1 + 2) + 5 + 5 minutes.
        ("warm-up 5 min walk, 6 x (1 min run / 2 min walk), cool-down 5 min walk", 28, 28),
        ("10 min", 10, 10),
        ("45 min, max 20 min", 20, 20),
        ("(3 x 10, tempo 2-0-2-0, rest 60 s) or 5 min", 4, 5),
    ],
)
def test_minutes_of_one_exercise(text: str, low: float, high: float) -> None:
    minutes = exercise_minutes(parse_dose(text))
    assert (minutes.low, minutes.high) == pytest.approx((low, high))


def test_only_work_parts_of_intervals_are_under_tension() -> None:
    made = timing(parse_dose("warm-up 5 min walk, 6 x (1 min run / 2 min walk)"))
    assert made.tension == exactly(360)
    assert made.work == exactly(360 + 720 + 300)


def test_the_other_side_works_while_one_rests() -> None:
    # Two sets of 10 x 3 s a side with 60 s: right 30, left 30, 30 left of the rest, again:
    # 150 s; or each side rests after each set: 120 s + 3 x 60 s.
    made = timing(parse_dose("2 x 10 each side, tempo 2-0-1-0, rest 60 s"))
    assert made.work == exactly(120)
    assert (made.seconds.low, made.seconds.high) == (150, 300)


@pytest.mark.parametrize(
    ("sides", "seconds"),
    [
        (None, (30, 30)),
        (Sides.BOTH_TOGETHER, (30, 30)),
        (Sides.AFFECTED, (30, 30)),
        (Sides.EACH, (60, 60)),
        (Sides.AFFECTED_THEN_OTHER, (60, 60)),
        (Sides.ALTERNATE, (30, 60)),
    ],
)
def test_sides_that_the_entry_names_count(sides: Sides | None, seconds: tuple) -> None:
    work = timing(parse_dose("1 x 10, tempo 2-0-1-0"), sides).work
    assert (work.low, work.high) == seconds


def test_a_circuit_goes_round() -> None:
    # One round: 30 s + 15 s + 40 s = 85 s; three rounds with 60 s between: 375 s.
    items = [
        Timed(parse_dose("1 x 10, tempo 2-0-1-0"), block=CIRCUIT),
        Timed(parse_dose("1 x 40 s hold"), block=CIRCUIT),
    ]
    minutes = session_minutes(items)
    assert minutes.total.low == minutes.total.high == pytest.approx(375 / 60)
    assert minutes.work.low == pytest.approx(210 / 60)
    assert minutes.rest.low == pytest.approx(120 / 60)
    assert minutes.change_over.low == pytest.approx(45 / 60)


def test_changes_between_exercises_are_assumed_and_said() -> None:
    items = [Timed(parse_dose("10 min")), Timed(parse_dose("5 min"))]
    minutes = session_minutes(items, assume=Assumptions(change_over_s=(60, 120)))
    assert (minutes.total.low, minutes.total.high) == (16, 17)
    assert list(assumed(minutes)) == [Note.CHANGE_OVER]


def test_what_is_left_open_is_unknown_and_never_nought() -> None:
    minutes = session_minutes([Timed(parse_dose("as tolerated"))])
    assert minutes.total.unknown
    assert minutes.total.words("min") == "unknown"
    with_another = session_minutes([Timed(parse_dose("10 min")), Timed(None)])
    assert with_another.total.words("min") == "at least 10.5 min"
    assert Note.NO_DOSE in with_another.total.notes


def test_a_block_states_what_can_not_be_computed() -> None:
    block = Block(id="main", minutes=IntRange(low=10, high=15))
    open_ended = session_minutes([Timed(parse_dose("3 x to fatigue"), block=block)])
    assert (open_ended.total.low, open_ended.total.high) == (10, 15)
    assert Note.BLOCK_MINUTES in open_ended.total.notes
    computed = session_minutes([Timed(parse_dose("5 min"), block=block)])
    assert computed.total == exactly(5)


def test_a_week_table_counts_by_week() -> None:
    dose = parse_dose("wk 1-2: 2 x 5 min, rest 0 s; wk 3+: 3 x 5 min, rest 0 s")
    found = [exercise_minutes(dose, week=week).words() for week in (1, 2, 3, 9)]
    assert found == ["10", "10", "15", "15"]


def test_kinds_of_session_give_a_range() -> None:
    dose = parse_dose("heavy: 10 min, 3/wk; light: 4 min, daily")
    assert exercise_minutes(dose).words("min") == "4 to 10 min"


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        (exactly(3), "3"),
        (Figure(1.25, 2), "1.2 to 2"),
        (Figure(5, None), "at least 5"),
        (unknown(), "unknown"),
        (exactly(0), "0"),
        (covering([exactly(2), unknown(Note.LEFT_OPEN)]), "unknown"),
        (unknown() * exactly(0), "0"),
    ],
)
def test_a_figure_says_what_is_known(figure: Figure, words: str) -> None:
    assert figure.words() == words
