"""The one form in which the shorthand writes a dose, and what it refuses to write."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from immutabledict import immutabledict

from authoring.dosage import shorthand
from authoring.dosage.shorthand import ShorthandError, parse_dose, why_not, write_dose
from authoring.files.convert import from_json
from authoring.model.base import evolve
from authoring.model.dose import (
    Dose,
    DoseChange,
    Either,
    Frequency,
    Holds,
    Interval,
    Intervals,
    Repetitions,
    Rest,
    Tempo,
    TotalRepetitions,
    WeekRow,
    Work,
)
from authoring.model.load import (
    BodyWeightLoad,
    IntRange,
    Load,
    Measure,
    NumberRange,
    PaceLoad,
    PercentLoad,
    SettingLoad,
    UnitLoad,
    WeightLoad,
)
from authoring.model.sources import Source
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Basis,
    Carried,
    IntervalRole,
    Quantity,
    SettingKind,
    Sides,
    Unit,
    Until,
    WeightUnit,
)
from tests.strategies.values import values_of

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"

# Common practice, no source: the forms in which clinicians write and print doses.
FORMS = [
    ("3x8-12, 90 sec rest, 3 times a week", "3 x 8-12, rest 90 s, 3/wk"),
    ("12,10,8", "12/10/8"),
    ("12", "1 x 12"),
    ("30 steps", "30 steps"),
    ("1 steps", "1 step"),
    ("2 x 15 each side bd", "2 x 15 each side, bd"),
    ("5 x 45 sec holds with 2 min rest", "5 x 45 s hold, rest 2 min"),
    ("hold 60 s", "60 s hold"),
    ("rest 60 s, 60 s", "1 min, rest 60 s"),
    ("1500 m", "1.5 km"),
    ("1450 m", "1450 m"),
    ("6 x (5 metres hop / 60 s walk)", "6 x (5 metres hop / 1 min walk)"),
    ("3 x as many as good form, max 15", "3 x max good form (cap 15)"),
    ("to 100 reps", "total 100"),
    ("2 x 3/7", "2 x 3/7"),
    ("3 x 10, knee 0-45 deg, slow", "3 x 10, slow, knee flexion 0-45 deg"),
    ("3 x 10 rest 1:10.0", "3 x 10, rest 1:10.0"),
    ("(3 x 10, rest 60 s) or 10 min", "(3 x 10, rest 60 s) or (10 min)"),
    ("wk 1-2: 3 x 8; wk 3: same", "wk 1-2: 3 x 8; wk 3: same"),
    ("3 x 8; wk 1-2: 3 x 8", "wk 1-2: 3 x 8"),
]


@pytest.mark.parametrize(("text", "form"), FORMS, ids=[text for text, _ in FORMS])
def test_a_dose_is_written_in_one_form(text: str, form: str) -> None:
    assert write_dose(parse_dose(text)) == form


PRETTY = [
    ("3 x 8-12, rest 90 s, 3/wk", "3\u00a0× 8–12, rest 90\u202fs, 3/wk"),
    ("12/10/8 @ 2-4 kg each hand", "12/10/8 @ 2–4\u202fkg each hand"),
    ("3 x 10, knee flexion -5 to 45 deg", "3\u00a0× 10, knee flexion -5 to 45\u202fdeg"),
    ("3 x 8, tempo 3-1-X-0", "3\u00a0× 8, tempo 3-1-X-0"),
]


@pytest.mark.parametrize(("plain", "pretty"), PRETTY)
def test_the_form_for_reading_has_real_signs_and_spaces(plain: str, pretty: str) -> None:
    dose = parse_dose(plain)
    assert write_dose(dose, pretty=True) == pretty
    assert write_dose(dose) == plain
    assert parse_dose(pretty) == dose


def part(role: IntervalRole, activity: str = "run") -> Interval:
    return Interval(role=role, activity=Text.plain(activity), seconds=IntRange(low=60))


THREE_AMOUNTS = tuple(NumberRange(low=each) for each in (5, 6, 7))


def reps(low: int = 8) -> Repetitions:
    return Repetitions(sets=IntRange(low=3), reps=(IntRange(low=low),))


UNSAYABLE_WORK: list[tuple[Work, str]] = [
    (
        evolve(reps(), last_set_until=Until.COUNT),
        "The shorthand has no words for a last set that ends at its count.",
    ),
    (
        Holds(
            sets=IntRange(low=2),
            holds_by_set=(IntRange(low=8), IntRange(low=6)),
            hold_s=(IntRange(low=10),),
        ),
        "The shorthand can't list holds by set.",
    ),
    (
        Intervals(sets=IntRange(low=2), rounds=IntRange(low=6), parts=(part(IntervalRole.WORK),)),
        "The shorthand can't say sets of intervals.",
    ),
    (
        Intervals(
            rounds=IntRange(low=6),
            parts=(part(IntervalRole.WORK),),
            rest_between_sets=Rest(seconds=IntRange(low=60)),
        ),
        "The shorthand can't say sets of intervals.",
    ),
    (reps(0), "The shorthand can't say a number of repetitions of 0."),
    (
        Holds(hold_s=(IntRange(low=0),)),
        "The shorthand can't say work of 0 seconds.",
    ),
    (
        TotalRepetitions(total=IntRange(low=9), until=Until.COUNT),
        "The shorthand can't say a total whose sets end at a count that is not given.",
    ),
    (
        Intervals(
            rounds=IntRange(low=2), parts=(part(IntervalRole.WORK), part(IntervalRole.WARM_UP))
        ),
        "The shorthand can only say intervals with warm-up first and cool-down last.",
    ),
    (
        Intervals(rounds=IntRange(low=2), parts=(part(IntervalRole.WORK, "run / walk"),)),
        "The shorthand can't hold the words of an interval's activity, because it uses their "
        "signs itself.",
    ),
    (
        Intervals(rounds=IntRange(low=2), parts=(part(IntervalRole.WORK, "5 hops"),)),
        "The shorthand needs an interval's activity to start with a letter.",
    ),
    (
        Either(
            doses=(
                Dose(work=reps(), weeks=(WeekRow(from_week=1, change=DoseChange()),)),
                Dose(work=reps()),
            )
        ),
        "The shorthand can't say a week or session table inside a choice.",
    ),
    (
        Either(
            doses=(
                Dose(work=reps(), sources=(Source(basis=Basis.COMMON_PRACTICE),)),
                Dose(work=reps()),
            )
        ),
        "The shorthand can't hold the sources of one choice.",
    ),
]


@pytest.mark.parametrize(("work", "reason"), UNSAYABLE_WORK, ids=[row[1] for row in UNSAYABLE_WORK])
def test_work_without_words_is_refused_with_the_reason(work: Work, reason: str) -> None:
    assert write_dose(Dose(work=work)) is None
    assert why_not(Dose(work=work)) == reason


UNSAYABLE_LOADS: list[tuple[Load, str]] = [
    (
        WeightLoad(amount=NumberRange(low=500), per_set=THREE_AMOUNTS),
        "The shorthand can't say a load whose first set differs from what its list says.",
    ),
    (
        UnitLoad(amount=NumberRange(low=500), per_set=THREE_AMOUNTS, unit=Unit.CENTIMETRES),
        "The shorthand can't say a load whose first set differs from what its list says.",
    ),
    (
        UnitLoad(amount=NumberRange(low=45), unit=Unit.FEET),
        "The shorthand has no load that is measured in 'ft'.",
    ),
    (PaceLoad(), "The shorthand can't say a pace of which nothing is known."),
    (
        BodyWeightLoad(unit=WeightUnit.LB),
        "The shorthand can't say how an added weight of nothing is carried.",
    ),
    (
        BodyWeightLoad(carried=Carried.VEST),
        "The shorthand can't say how an added weight of nothing is carried.",
    ),
    (
        PercentLoad(
            of=Measure(quantity=Quantity.ONE_RM, valid_weeks=6), per_set=(NumberRange(low=70),)
        ),
        "The shorthand can't say the age of the test behind a percentage.",
    ),
    (
        PercentLoad(of=Measure(quantity=Quantity.OTHER), per_set=(NumberRange(low=70),)),
        "The shorthand has no words for what these percentages are of.",
    ),
    (
        UnitLoad(amount=NumberRange(low=3), unit=Unit.POINTS),
        "The shorthand has no load that is measured in 'points'.",
    ),
    (
        SettingLoad(what=SettingKind.SURFACE, words=Text({"en": "foam", "de": "Matte"})),
        "The shorthand holds one language, and a setting has several.",
    ),
    (
        SettingLoad(what=SettingKind.SURFACE, words=Text.plain("foam, then sand")),
        "The shorthand can't hold the words of a setting, because it uses their signs itself.",
    ),
    (
        UnitLoad(amount=NumberRange(low=3), unit=Unit.CENTIMETRES, what=Text.plain("each hand")),
        None,
    ),
    (
        UnitLoad(amount=NumberRange(low=3), unit=Unit.CENTIMETRES, what=Text.plain("RPE")),
        "Words in this dose would be read as shorthand.",
    ),
    (
        WeightLoad(amount=NumberRange(low=1e-30)),
        "The shorthand has no room for a number as exact as 1e-30.",
    ),
]


@pytest.mark.parametrize(
    ("load", "reason"),
    UNSAYABLE_LOADS,
    ids=[str(row[0].KIND) + (row[1] or "")[:60] for row in UNSAYABLE_LOADS],
)
def test_loads_without_words_are_refused_with_the_reason(load: Load, reason: str | None) -> None:
    dose = Dose(work=reps(), loads=(load,))
    assert why_not(dose) == reason
    assert (write_dose(dose) is None) == bool(reason)


@pytest.mark.parametrize(
    ("facts", "what"),
    [({"tempo": Tempo()}, "a tempo"), ({"frequency": Frequency()}, "a frequency")],
)
def test_an_empty_part_is_not_left_out_in_silence(facts: dict[str, Any], what: str) -> None:
    dose = Dose(work=reps(), **facts)
    assert why_not(dose) == f"The shorthand can't say {what} of which nothing is known."


@pytest.mark.parametrize(
    ("row", "reason"),
    [
        (
            WeekRow(from_week=2, variant="one-leg", change=DoseChange()),
            "The shorthand can't change the variant in a week.",
        ),
        (
            WeekRow(from_week=2, change=DoseChange(sides=Sides.EACH)),
            "The shorthand can't change the side in a week or session.",
        ),
    ],
)
def test_what_a_week_changes_without_words_is_refused(row: WeekRow, reason: str) -> None:
    assert why_not(Dose(work=reps(), weeks=(row,))) == reason


@given(values_of(Dose))
def test_any_dose_is_written_whole_or_not_at_all(dose: Dose) -> None:
    text = write_dose(dose)
    if text is None:
        assert why_not(dose)
    else:
        assert parse_dose(text, dose) == dose


def test_unknown_fields_inside_a_dose_are_not_left_out_in_silence() -> None:
    rest = Rest(seconds=IntRange(low=60), extra=immutabledict({"newer": 1}))
    assert why_not(Dose(work=reps(), rest=rest)) == (
        "The shorthand can't hold fields that this version does not know."
    )


def test_sources_and_unknown_fields_of_a_dose_outlive_an_edit_of_its_text() -> None:
    before = Dose(
        work=reps(),
        sources=(Source(basis=Basis.COMMON_PRACTICE),),
        extra=immutabledict({"newer": 1}),
    )
    assert write_dose(before) == "3 x 8"
    assert parse_dose("3 x 10", before) == evolve(before, work=reps(10))


def documented() -> list[str]:
    table = (shorthand.__doc__ or "").split("=\n")[1]
    flat = re.sub(r"\s+", " ", table)
    return [words for words in re.findall(r"``(.+?)``", flat) if words not in NO_CLAUSE]


NO_CLAUSE = ("m", "@", "X", "work", "recover", ": words", "in 0.5 kg steps max 8 kg", "x")
"""Words that the table explains and that are no clause of their own."""

AROUND = (
    *("{}", "3 x 8, {}", "3 x 8 @ {}", "5 x 45 s hold, {}"),
    "{}, 6 x (1 min run / 2 min walk)",
)


@pytest.mark.parametrize("words", documented())
def test_every_form_of_the_documented_grammar_is_read(words: str) -> None:
    def readable(text: str) -> bool:
        try:
            return why_not(parse_dose(text)) is None
        except ShorthandError:
            return False

    assert any(readable(around.format(words)) for around in AROUND)


def doses_in(value: Any) -> Iterator[Any]:
    if isinstance(value, dict):
        if isinstance(value.get("dose"), dict):
            yield value["dose"]
        for inner in value.values():
            yield from doses_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from doses_in(inner)


def test_the_doses_of_the_example_clinic_are_written_and_read_back() -> None:
    written = total = 0
    for path in sorted(EXAMPLES.rglob("*.json")):
        for data in doses_in(json.loads(path.read_text(encoding="utf-8"))):
            dose = from_json(Dose, data)
            text = write_dose(dose)
            total += 1
            if text is None:
                assert why_not(dose)
            else:
                written += 1
                assert parse_dose(text, dose) == dose
    assert total > 100
    assert written >= 0.9 * total
