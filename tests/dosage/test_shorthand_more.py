"""Loads by set, weight taken off, a last set of its own, and more ways to write the same."""

import pytest

from authoring.dosage.shorthand import ShorthandError, parse_dose, write_dose
from authoring.model.dose import Repetitions
from authoring.model.load import (
    BodyWeightLoad,
    EffortLoad,
    Load,
    NumberRange,
    UnitLoad,
    WeightLoad,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Carried, Unit, Until, WeightUnit


def n(low: float, high: float | None = None) -> NumberRange:
    return NumberRange(low=low, high=high)


@pytest.mark.parametrize(
    ("text", "load"),
    [
        ("@ 20/25/30 kg", WeightLoad(amount=n(20), per_set=(n(20), n(25), n(30)))),
        ("@ 20,25,30 kg", WeightLoad(amount=n(20), per_set=(n(20), n(25), n(30)))),
        (
            "@ 20/25/30 kg bar in 2.5 kg steps max 40 kg",
            WeightLoad(
                amount=n(20),
                per_set=(n(20), n(25), n(30)),
                carried=Carried.BAR,
                step=2.5,
                cap=40,
            ),
        ),
        (
            "@ step height 10/15/20 cm",
            UnitLoad(
                amount=n(10),
                per_set=(n(10), n(15), n(20)),
                unit=Unit.CENTIMETRES,
                what=Text.plain("step height"),
            ),
        ),
        ("@ BW - 20 kg", BodyWeightLoad(assisted=n(20))),
        (
            "@ BW-20-25 lb machine",
            BodyWeightLoad(assisted=n(20, 25), unit=WeightUnit.LB, carried=Carried.MACHINE),
        ),
        ("@ 7 RPE", EffortLoad(rating=n(7))),
        ("@ 7-8 RPE", EffortLoad(rating=n(7, 8))),
    ],
)
def test_loads_by_set_taken_off_and_after_their_number(text: str, load: Load) -> None:
    dose = parse_dose(f"3 x 8 {text}")
    assert dose.loads == (load,)
    assert parse_dose(str(write_dose(dose))) == dose


@pytest.mark.parametrize(
    ("text", "until"),
    [
        ("3 x 8, last set to fatigue", Until.FATIGUE),
        ("3 x 8 last set to failure @ 20 kg", Until.FATIGUE),
        ("3 x 8, last set max good form, rest 60 s", Until.GOOD_FORM),
        ("12/10/8, last set quality", Until.QUALITY),
    ],
)
def test_a_last_set_may_end_otherwise(text: str, until: Until) -> None:
    dose = parse_dose(text)
    assert isinstance(dose.work, Repetitions)
    assert dose.work.last_set_until is until
    assert parse_dose(str(write_dose(dose))) == dose


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2 x 10/side", "2 x 10 each side"),
        ("2 x 10 ea", "2 x 10 each side"),
        ("3 x 10 eod", "3 x 10, alt days"),
        ("3 x 10 three times a week", "3 x 10, 3/wk"),
        ("3 x 10 thrice weekly", "3 x 10, 3/wk"),
    ],
)
def test_more_of_what_is_written_is_taken(text: str, written: str) -> None:
    """Common practice, no source."""
    assert write_dose(parse_dose(text)) == written


@pytest.mark.parametrize(
    ("text", "characters", "sentence"),
    [
        ("4 x 8 @ 20/25/30 kg", "@ 20/25/30 kg", "3 loads are listed for 4 sets."),
        (
            "5 min, last set to fatigue",
            "last set to fatigue",
            "There are no sets of repetitions whose last could end otherwise.",
        ),
    ],
)
def test_what_does_not_fit_is_shown_where_it_stands(
    text: str, characters: str, sentence: str
) -> None:
    with pytest.raises(ShorthandError) as caught:
        parse_dose(text)
    assert text[caught.value.start : caught.value.end] == characters
    assert caught.value.sentence == sentence
