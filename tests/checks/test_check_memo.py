"""Kept results are the results that would be found anew."""

import datetime as dt
import gc

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.checks.context import Shelf
from authoring.checks.library import check_card, check_library, iter_library
from authoring.checks.memo import Memo
from authoring.model.base import evolve
from authoring.model.library import Library
from tests.checks.breaking import FIRST
from tests.checks.broken import BROKEN
from tests.checks.build import (
    CARD,
    CARD_ID,
    CLINIC,
    LIBRARY,
    PROTOCOL,
    PROTOCOL_ID,
    TERMS,
    TODAY,
    put,
)

LIBRARIES = [LIBRARY, *(library for _, library, _ in BROKEN)]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(LIBRARIES), min_size=2, max_size=6), st.integers(0, 2))
def test_one_memo_through_many_libraries_changes_no_result(
    libraries: list[Library], days: int
) -> None:
    memo = Memo()
    for library in libraries:
        for today in (TODAY, TODAY + dt.timedelta(days=400 * days)):
            assert check_library(library, today, memo) == check_library(library, today)


def checked(before: Library, after: Library, today: dt.date = TODAY) -> set[int]:
    """Places of the files of ``after`` whose results are other objects than before."""
    memo = Memo()
    first = list(iter_library(before, TODAY, memo))
    second = list(iter_library(after, today, memo))
    kept = {id(results) for results in first if results}
    return {place for place, results in enumerate(second) if results and id(results) not in kept}


# Results are compared by identity, so each file must have one: no review date is set.
CARD_DUE = evolve(CARD, review_due=None)
NOISY = evolve(
    LIBRARY,
    cards={CARD_ID: CARD_DUE},
    protocols={PROTOCOL_ID: evolve(PROTOCOL, review_due=None)},
    clinic=evolve(CLINIC, closed=None),
)
WHOLE, CLINIC_PLACE, PROTOCOL_PLACE, CARD_PLACE = range(4)


@pytest.mark.parametrize(
    ("change", "anew"),
    [
        ({}, set()),
        ({"cards": {CARD_ID: evolve(CARD_DUE, owner="Somebody")}}, {CARD_PLACE, PROTOCOL_PLACE}),
        ({"clinic": evolve(CLINIC, closed=None, email="a@b")}, {CLINIC_PLACE, PROTOCOL_PLACE}),
        (
            {"protocols": {PROTOCOL_ID: put(NOISY.protocols[PROTOCOL_ID], f"{FIRST}.priority", 1)}},
            {PROTOCOL_PLACE},
        ),
        # A term that neither card nor protocol asks about.
        ({"manifest": evolve(LIBRARY.manifest, terms=(*TERMS[:5], *TERMS[6:]))}, set()),
        ({"manifest": evolve(LIBRARY.manifest, clinic_words=("physio",))}, {CARD_PLACE}),
    ],
    ids=["nothing", "card", "clinic", "protocol", "unrelated term", "words of the clinic"],
)
def test_only_what_an_edit_touches_is_checked_anew(
    change: dict[str, object], anew: set[int]
) -> None:
    assert checked(NOISY, evolve(NOISY, **change)) - {WHOLE} == anew


def test_a_term_that_is_asked_about_makes_its_files_run_anew() -> None:
    (jump,) = [term for term in TERMS if term.id == "jump"]
    terms = tuple(evolve(term, needs_caution=False) if term is jump else term for term in TERMS)
    after = evolve(NOISY, manifest=evolve(NOISY.manifest, terms=terms))
    assert checked(NOISY, after) - {WHOLE} == {PROTOCOL_PLACE, CARD_PLACE}


def test_a_missing_picture_is_seen_at_once() -> None:
    memo = Memo()
    assert check_library(LIBRARY, TODAY, memo) == ()
    found = check_library(evolve(LIBRARY, images=frozenset()), TODAY, memo)
    assert {result.code for result in found} == {"reference-missing-image"}


def test_the_day_is_part_of_the_question() -> None:
    memo = Memo()
    assert check_library(LIBRARY, TODAY, memo) == ()
    later = check_library(LIBRARY, dt.date(2028, 1, 1), memo)
    assert {result.code for result in later} == {"review-overdue"}


def test_a_card_that_nobody_holds_is_forgotten() -> None:
    memo = Memo()
    shelf = Shelf.of(LIBRARY, TODAY)
    card = evolve(CARD, owner="Short-lived")
    check_card(card, shelf, memo)
    assert len(memo) == 1
    del card
    gc.collect()
    assert len(memo) == 0


def test_an_equal_card_that_is_another_object_is_checked_for_itself() -> None:
    memo = Memo()
    shelf = Shelf.of(LIBRARY, TODAY)
    twin = evolve(CARD)
    assert check_card(CARD, shelf, memo) == check_card(twin, shelf, memo)
    assert len(memo) == 2
