"""Where a check must stay silent, and where it must speak all the same."""

import datetime as dt

import pytest

from authoring.checks.result import Strength
from authoring.model.base import evolve
from authoring.model.card import HoldDetail
from authoring.model.dose import (
    Holds,
)
from authoring.model.library import Library
from authoring.model.pain import PainBand
from authoring.model.vocabulary import (
    Mode,
    PainAction,
    TermKind,
)
from tests.checks.breaking import (
    FIRST,
)
from tests.checks.build import (
    CARD,
    CLINIC,
    HOLDS,
    PAIN,
    PROTOCOL,
    PROTOCOL_ID,
    TODAY,
    card_with,
    number,
    put,
    results,
    term,
    variant,
    with_card,
    with_clinic,
    with_terms,
)
from tests.checks.by_set_cases import SILENT_ROWS
from tests.checks.silent import EXPECTED, NARROW_JUMP, SILENT, until_week_two


@pytest.mark.parametrize(
    ("code", "library"),
    [(code, library) for code, _, library in (*SILENT, *SILENT_ROWS)],
    ids=[f"{code}: {case}" for code, case, _ in (*SILENT, *SILENT_ROWS)],
)
def test_it_is_silent(code: str, library: Library) -> None:
    assert code not in [result.code for result in results(library)]


def codes(library: Library) -> list[str]:
    return [result.code for result in results(library)]


def test_an_expected_response_is_no_caution() -> None:
    assert "caution-missing-for-demand" in codes(with_card(evolve(CARD, cautions=(EXPECTED,))))


def test_a_restriction_for_part_of_a_stage_is_a_should() -> None:
    found = results(until_week_two("hop"))
    (one,) = [result for result in found if result.code == "restriction-broken-by-variant"]
    assert one.strength is Strength.SHOULD
    assert "until week 2" in one.sentence


def test_a_restriction_rules_out_narrower_demands() -> None:
    narrow = evolve(
        with_card(NARROW_JUMP), protocols={PROTOCOL_ID: put(PROTOCOL, f"{FIRST}.start", "hop")}
    )
    assert "restriction-broken" in codes(narrow)


def test_a_ring_of_terms_ends() -> None:
    ring = with_terms(
        term(TermKind.DEMAND, "one", broader="two"), term(TermKind.DEMAND, "two", broader="one")
    )
    held = evolve(
        ring, cards=put(ring.cards, "", {CARD.id: put(CARD, "variants[3].demands", ("one",))})
    )
    assert codes(held).count("term-broader-cycle") == 1


def test_an_overdue_review_depends_on_the_day_alone() -> None:
    library = card_with("review_due", TODAY - dt.timedelta(days=1))
    assert "review-overdue" in codes(library)


def test_a_stand_in_may_be_on_another_rung() -> None:
    hold = HoldDetail(stands_in_for=("hop",))
    assert "hold-stands-in-for-nothing" not in codes(card_with("variants[1].hold", hold))


def test_every_hold_in_a_list_counts_towards_the_stretch() -> None:
    work = Holds(holds=number(low=2), hold_s=(number(low=20), number(low=30)))
    dose = evolve(HOLDS, work=work)
    library = card_with("variants[2]", variant("one-leg", 0, Mode.STRETCH, dose=dose))
    (one,) = [r for r in results(library) if r.code == "stretch-total-short"]
    assert "50 seconds in all" in one.sentence


def test_bands_of_pain_are_read_from_every_rule() -> None:
    rule = evolve(PAIN, during=(PainBand(up_to=6, action=PainAction.CARRY_ON), *PAIN.during[2:]))
    assert "pain-limit-high" in codes(with_clinic(evolve(CLINIC, pain=rule)))
