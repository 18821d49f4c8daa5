"""What the shorthand writes it reads back, and no text at all can upset it."""

import random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from authoring.dosage.shorthand import ShorthandError, parse_dose, why_not, write_dose
from authoring.model.dose import Dose
from tests.dosage.shorthand_values import odd_doses, sayable

slow = settings(deadline=None, suppress_health_check=list(HealthCheck))


@given(dose=sayable)
@slow
def test_every_dose_made_of_the_trades_parts_is_written_and_read_back(dose: Dose) -> None:
    assert why_not(dose) is None
    text = write_dose(dose)
    assert text is not None
    assert parse_dose(text) == dose
    assert text.isascii()


@given(dose=sayable)
@slow
def test_the_form_for_reading_is_read_back_too(dose: Dose) -> None:
    text = write_dose(dose, pretty=True)
    assert text is not None
    assert parse_dose(text) == dose


@given(dose=sayable)
@slow
def test_what_was_read_is_written_in_one_form_only(dose: Dose) -> None:
    text = write_dose(dose)
    assert text is not None
    assert write_dose(parse_dose(text)) == text


@given(dose=odd_doses())
@slow
def test_a_dose_is_written_whole_or_refused_with_a_reason(dose: Dose) -> None:
    text = write_dose(dose)
    if text is None:
        assert why_not(dose).endswith(".")
    else:
        assert parse_dose(text) == dose
        assert why_not(dose) is None


# ---- texts ---------------------------------------------------------------------------------

FRAGMENTS = [
    *("3 x 8-12", "5 x 45 s hold", "12,10,8", "12, 10, 8", "3 sets of 10", "to 100 reps", "10 min"),
    *("4 x 20 m", "3 x to fatigue", "3 x max good form", "(cap 15)", "quality", "hold 5 s", "3/7"),
    *(
        "6 x (1 min run / 2 min walk)",
        "warm-up 5 min walk",
        "as tolerated",
        "rest 90 s",
        "30 steps",
    ),
    *("90 s rest", "rest 1:2", "rest 1:30", "rest 5 s between holds", "no rest", "@", "RPE 7"),
    *("rest 3:1", "@ step-height 20 cm", "@ red or blue band"),
    *("@ 70% 1RM", "@ 60/70/80% 1RM", "@ 10RM", "@ BW + 5 kg", "in 1 kg steps", "max 8 kg"),
    *("red band", "band: medium", "(kit band)", "@ surface: foam", "@ 20 cm", "brisk", "5:30/km"),
    *("tempo 3-1-X-0", "lower 3 s", "60 bpm", "slow", "full range", "knee 0-45 deg", "each side"),
    *("both", "bd", "3/wk", "alt days", "every 2 days", "2 hourly", "1 rest day", "max 20 min"),
    *(
        "at least 3 sessions",
        "or",
        "(",
        ")",
        ",",
        ";",
        "/",
        "x",
        "wk 1-2:",
        "wk 3+:",
        "heavy:",
        "same",
    ),
    *(
        "no load",
        "x 3",
        "3 sets",
        "3 reps",
        "x 2/day",
        "to",
        "-",
        "3",
        "8-12",
        "2,5 kg",
        "kg",
        "s",
        "m",
        "min",
        "%",
        "RM",
        ":",
        "hold",
    ),
]
fragments = st.lists(st.sampled_from(FRAGMENTS), min_size=1, max_size=7)
joined = st.tuples(fragments, st.sampled_from([" ", ", ", ""])).map(
    lambda made: made[1].join(made[0])
)


@st.composite
def mutated(draw: st.DrawFn) -> str:
    text = draw(joined | sayable.map(lambda dose: write_dose(dose) or ""))
    chance = random.Random(draw(st.integers(0, 2**32)))
    for _ in range(draw(st.integers(1, 4))):
        at = chance.randrange(len(text) + 1)
        sign = chance.choice("0123456789 ,.;:/-–x×()@%'\"+½°smkgRMàß٣\n\u202f")
        text = chance.choice([text[:at] + text[at + 1 :], text[:at] + sign + text[at:], text[:at]])
    return text


def read_or_refused(text: str) -> Dose | ShorthandError:
    try:
        return parse_dose(text)
    except ShorthandError as error:
        return error


@given(text=joined | mutated() | st.text(max_size=60))
@settings(slow, max_examples=400)
def test_any_text_is_refused_in_a_sentence_or_read_and_written_back(text: str) -> None:
    found = read_or_refused(text)
    if isinstance(found, ShorthandError):
        assert 0 <= found.start <= found.end <= len(text)
        assert found.sentence.endswith(".")
        assert found.mend.endswith((".", "?"))
    else:
        assert why_not(found) is None
        assert parse_dose(write_dose(found) or "") == found
        assert parse_dose(write_dose(found, pretty=True) or "") == found
