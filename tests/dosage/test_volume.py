"""Sets, counts, tension and load of a week, worked by hand."""

import pytest

from authoring.dosage.arithmetic.figure import Figure, Note, exactly
from authoring.dosage.arithmetic.often import often
from authoring.dosage.arithmetic.weights import KG_PER_LB, kg_by_set
from authoring.dosage.programme import stage_minutes, stage_week, weeks_of_tables
from authoring.dosage.shorthand import parse_dose
from authoring.dosage.volume import Trained, add_up, session_volume, week_volume
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.load import IntRange, NumberRange, WeightLoad
from authoring.model.protocol import Block, Choice, Entry, Stage
from authoring.model.vocabulary import BlockKind, Quantity, Region
from authoring.resources import examples

CARD = "00000000-0000-4000-8000-000000000001"


def ends(figure: Figure) -> tuple[float, float | None]:
    return figure.low, figure.high


@pytest.mark.parametrize(
    ("text", "days", "times"),
    [
        ("3 x 10, 3/wk", (3, 3), (3, 3)),
        ("3 x 10, 2-3/wk", (2, 3), (2, 3)),
        ("3 x 10, daily", (7, 7), (7, 7)),
        ("3 x 10, alt days", (3.5, 3.5), (3.5, 3.5)),
        # od, bd, tds, qds: once to four times a day (British National Formulary).
        ("3 x 10, od", (7, 7), (7, 7)),
        ("3 x 10, bd", (7, 7), (14, 14)),
        ("3 x 10, tds", (7, 7), (21, 21)),
        ("3 x 10, qds, 5/wk", (5, 5), (20, 20)),
        # Awake 14 to 16 hours, at the start and every two hours: 8 or 9 times.
        ("3 x 10, 2 hourly", (7, 7), (56, 63)),
        ("3 x 10, 1 rest day", (0, 3.5), (0, 3.5)),
        ("3 x 10", (0, None), (0, None)),
    ],
)
def test_a_frequency_gives_sessions_a_week(text: str, days: tuple, times: tuple) -> None:
    found = often(parse_dose(text).frequency)
    assert (ends(found.days), ends(found.times)) == (days, times)


@pytest.mark.parametrize(
    ("text", "sets", "reps", "load"),
    [
        ("3 x 10 @ 20 kg", (3, 3), (30, 30), (600, 600)),
        ("2-3 x 8-12 @ 20 kg", (2, 3), (16, 36), (320, 720)),
        ("12, 10, 8 @ 20 kg", (3, 3), (30, 30), (600, 600)),
        ("2 x 15 each side @ 4 kg", (2, 2), (60, 60), (240, 240)),
        ("3 x 10 @ 5 kg each hand", (3, 3), (30, 30), (300, 300)),
        ("to 100 reps @ 2 kg", (1, None), (100, 100), (200, 200)),
        ("3 x to fatigue @ 10 kg", (3, 3), (0, None), (0, None)),
        ("3 x 10 @ red band", (3, 3), (30, 30), (0, None)),
        ("3 x 10 @ BW", (3, 3), (30, 30), (0, None)),
        ("3 x 10 @ BW + 5 kg vest", (3, 3), (30, 30), (150, 150)),
        ("5 x 45 s hold @ 10 kg", (1, 5), (0, 0), (0, 0)),
        ("10 min", (1, 1), (0, 0), (0, 0)),
        ("as tolerated", (0, None), (0, None), (0, None)),
    ],
)
def test_a_session_adds_up(text: str, sets: tuple, reps: tuple, load: tuple) -> None:
    made = session_volume(parse_dose(text))
    if "hold" not in text:
        assert ends(made.sets) == sets
    assert ends(made.repetitions) == reps
    assert ends(made.load_kg) == pytest.approx(load)


def test_loads_by_set_meet_repetitions_by_set() -> None:
    # 12 x 20 + 10 x 25 + 8 x 30 = 730.
    heavier = tuple(NumberRange(low=kg) for kg in (20, 25, 30))
    load = WeightLoad(amount=heavier[0], per_set=heavier)
    made = session_volume(evolve(parse_dose("12/10/8"), loads=(load,)))
    assert ends(made.load_kg) == (730, 730)


def test_pounds_are_exact_kilograms() -> None:
    # NIST Special Publication 811, appendix B.8: 1 lb = 0.453 592 37 kg exactly.
    assert KG_PER_LB == 0.45359237
    assert ends(session_volume(parse_dose("3 x 10 @ 10 lb")).load_kg) == pytest.approx(
        (136.077711, 136.077711)
    )


def test_a_share_of_a_measured_maximum_has_a_weight() -> None:
    dose = parse_dose("3 x 8 @ 70% 1RM")
    assert kg_by_set(dose.loads, {})[0].unknown
    made = session_volume(dose, known={Quantity.ONE_RM: 50.0})
    assert ends(made.load_kg) == pytest.approx((840, 840))


@pytest.mark.parametrize(
    ("text", "contacts"),
    [
        ("3 x 10 hops", 30),
        ("2 x 8 jumps each side", 32),
        ("total 40 contacts", 40),
        ("3 x 10", 0),
        ("30 steps", 0),
    ],
)
def test_landings_are_counted(text: str, contacts: int) -> None:
    assert session_volume(parse_dose(text)).contacts == exactly(contacts)


def test_a_week_has_every_session_of_every_kind() -> None:
    # Heavy 3 x 6 thrice: 54; light 2 x 15 daily: 210.
    item = Trained(dose=parse_dose("heavy: 3 x 6, 3/wk; light: 2 x 15, daily"))
    assert ends(week_volume(item).repetitions) == (264, 264)


def test_a_week_table_changes_the_week() -> None:
    item = Trained(dose=parse_dose("3/wk; wk 1-2: 3 x 8; wk 3: same; wk 4+: 3 x 12, 2/wk"))
    found = [week_volume(item, week).repetitions.low for week in (1, 2, 3, 4, 20)]
    assert found == [72, 72, 72, 72, 72]
    assert week_volume(item, 4).sets == exactly(6)
    assert weeks_of_tables([item.dose, None]) == 4


def test_no_dose_and_no_frequency_are_unknown() -> None:
    without = week_volume(Trained(dose=None))
    assert without.sets.unknown
    assert Note.NO_DOSE in without.sets.notes
    seldom = week_volume(Trained(dose=parse_dose("3 x 10")))
    assert seldom.repetitions.unknown
    assert Note.NO_FREQUENCY in seldom.repetitions.notes


def test_regions_and_movements_are_added_up() -> None:
    items = [
        Trained(
            dose=parse_dose("3 x 10 @ 20 kg, 2/wk"),
            regions=(Region.KNEE, Region.HIP),
            movements=("squat",),
        ),
        Trained(dose=parse_dose("2 x 15 @ 10 kg, 3/wk"), regions=(Region.KNEE,)),
    ]
    week = add_up(items)
    assert week.total.sets == exactly(12)
    assert week.by_region[Region.KNEE].sets == exactly(12)
    assert week.by_region[Region.HIP].sets == exactly(6)
    assert week.by_movement["squat"].load_kg == exactly(1200)
    assert week.total.load_kg == exactly(2100)


# ---- stages --------------------------------------------------------------------------


def entry(name: str, text: str, **facts: object) -> Entry:
    return Entry(id=name, card=CARD, start="as-named", dose=parse_dose(text), **facts)


def stage(*blocks: Block, **facts: object) -> Stage:
    return Stage(id="one", name="One", blocks=blocks, **facts)


def test_rounds_of_a_circuit_multiply() -> None:
    circuit = Block(
        id="round",
        kind=BlockKind.CIRCUIT,
        rounds=IntRange(low=2, high=3),
        entries=(entry("a", "1 x 12 @ 5 kg, 2/wk"), entry("b", "1 x 10 hops @ 0 kg, 2/wk")),
    )
    week = stage_week(stage(circuit), {})
    assert ends(week.volume.total.sets) == (8, 12)
    assert ends(week.volume.total.load_kg) == (240, 360)
    assert ends(week.volume.total.contacts) == (40, 60)


def test_a_choice_takes_the_shortest_or_the_longest() -> None:
    block = Block(
        id="either",
        choices=(Choice(id="pick"),),
        entries=(
            entry("bike", "10 min, 2/wk", choice="pick"),
            entry("walk", "20 min, 2/wk", choice="pick"),
        ),
    )
    assert ends(stage_minutes(stage(block), {}).total) == (10, 20)
    minutes = stage_week(stage(block), {}).volume.total.minutes
    assert minutes.low == 0
    assert Note.CHOICE in minutes.notes


def test_an_entry_without_a_fitting_dose_takes_its_variant_s() -> None:
    other = Entry(
        id="a", card=CARD, start="as-named", dose=parse_dose("10 min"), dose_fits=("harder",)
    )
    assert stage_minutes(stage(Block(id="b", entries=(other,))), {}).total.unknown


def test_the_example_clinic_s_sessions_are_about_as_long_as_stated() -> None:
    """A sanity check of the assumed times against what a clinician wrote down."""
    library = open_library(examples() / "larkfield").library
    odd = []
    for protocol in library.protocols.values():
        for place in protocol.stages:
            computed = stage_minutes(place, library.cards, 1).total
            stated = place.session_minutes
            assert stated is not None
            if computed.high is None or not (
                computed.low <= 2 * stated.top and computed.high >= stated.low / 2
            ):
                odd.append((protocol.slug, place.id, computed.words(), stated))
    assert odd == []
