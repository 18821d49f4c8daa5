"""The load of a card, as a clinician reads it."""

import json
from pathlib import Path

import pytest

from tests.commands.conftest import ANKLE, CARD, Run

HOP = Path("cards", "two-foot-hop.card.json")
LEG_RAISE = Path("cards", "straight-leg-raise.card.json")


def test_a_card_s_load_is_told_with_its_error_and_a_caution(library: Path, run: Run) -> None:
    answer = run("load", library / CARD)
    assert (answer.status, answer.err) == (0, "")
    lines = answer.out.splitlines()
    assert lines[0] == "Heel raise: load for 70 kg and 170 cm."
    assert lines[1] == (
        "An estimate for clinicians, of a body that stands still. It never chooses a variant "
        "and never moves a patient on."
    )
    assert lines[2] == "Rungs are compared by the moment at the joint: ankle."
    at = next(i for i, line in enumerate(lines) if "(heel-raise-one)" in line)
    feet = next(line for line in lines[at:] if "on the feet, right" in line)
    assert feet.split(maxsplit=4)[-1] == "100 % of body weight (90 to 110)"


def test_a_variant_without_a_drawn_picture_says_so(library: Path, run: Run) -> None:
    card = json.loads((library / CARD).read_text("utf-8"))
    variant = next(each for each in card["variants"] if each["id"] == "heel-raise-backpack")
    del variant["pictures"]
    (library / CARD).write_text(json.dumps(card), "utf-8")
    out = run("load", library / CARD).out.splitlines()
    at = next(i for i, line in enumerate(out) if "(heel-raise-backpack)" in line)
    assert out[at + 1] == "  not estimated: it has no picture that is drawn from a pose."


def test_a_hop_is_never_estimated(library: Path, run: Run) -> None:
    out = run("load", library / HOP).out
    assert "a still model says nothing about jumps and bounces" in out
    assert "N·m" not in out
    assert "%" not in out


def test_a_heavier_person_has_moments_in_proportion(library: Path, run: Run) -> None:
    # The right leg of the leg raise is free, so its moment goes with mass times stature.
    def hip(*more: str) -> float:
        out = run("load", library / LEG_RAISE, *more).out.partition("(slr-lying)")[2]
        line = next(line for line in out.splitlines() if line.startswith("  hip, right"))
        return float(line.split()[2])

    assert hip("--mass", "140") == pytest.approx(2 * hip(), rel=0.03)
    assert hip("--height", "187") == pytest.approx(1.1 * hip(), rel=0.03)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        (("--mass", "5"), "The mass must be 20 to 350 kg, and is 5; give another."),
        (("--mass", "nan"), "The mass must be 20 to 350 kg, and is nan; give another."),
        (("--height", "17"), "The height must be 90 to 230 cm, and is 17; give another."),
    ],
)
def test_a_body_that_nobody_has_is_refused(
    library: Path, run: Run, more: tuple[str, str], sentence: str
) -> None:
    answer = run("load", library / CARD, *more)
    assert (answer.status, answer.out, answer.err) == (2, "", f"rungbook: {sentence}\n")


def test_what_is_no_card_is_refused(library: Path, run: Run) -> None:
    answer = run("load", library / ANKLE)
    assert answer.status == 2
    assert answer.err.count("\n") == 1
    assert "name a card" in answer.err


def test_a_card_that_is_not_there_is_refused(library: Path, run: Run) -> None:
    answer = run("load", library / "cards" / "nothing.card.json")
    assert answer.status == 2
    assert answer.err.count("\n") == 1
