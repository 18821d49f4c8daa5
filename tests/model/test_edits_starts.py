"""What an entry starts with: along the card's ladder, and from moving to holding."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import evolve
from authoring.model.edits import starts
from authoring.model.edits.entries import entry_of
from authoring.model.edits.ladder import Way, is_hold
from authoring.model.edits.outcome import Edited, EditError
from authoring.model.edits.steps import dose_of
from authoring.model.protocol import Protocol
from tests.model.edit_values import (
    CARD_IDS,
    CARDS,
    assert_sound,
    block,
    entry,
    hold,
    protocol,
    reps,
    stage,
)

HEEL, BRIDGE, STAND = (CARDS[key] for key in CARD_IDS)


def one(**facts: object) -> Protocol:
    return protocol(stage("s", block("b", entry("a", HEEL, **facts))))


def start(edited: Edited[Protocol]) -> str:
    return entry_of(edited.value, "a").start


@pytest.mark.parametrize(
    ("now", "way", "then"),
    [
        ("seated", Way.HARDER, "two-legs"),
        ("two-legs", Way.HARDER, "one-leg"),
        ("two-legs", Way.EASIER, "seated"),
        ("two-legs-hold", Way.HARDER, "one-leg-hold"),
        ("one-leg-weight", Way.EASIER, "one-leg"),
    ],
)
def test_a_start_walks_the_ladder_among_its_own_kind(now, way, then):
    assert start(starts.step_start(one(start=now), entry="a", card=HEEL, way=way)) == then


def test_a_rung_without_an_allowed_variant_is_skipped():
    made = one(start="seated", allowed=("seated", "one-leg"))
    assert start(starts.step_start(made, entry="a", card=HEEL, way=Way.HARDER)) == "one-leg"


@pytest.mark.parametrize(
    ("facts", "way", "sentence"),
    [
        ({"start": "one-leg-weight"}, Way.HARDER, "Heel raise has no harder variant."),
        ({"start": "seated"}, Way.EASIER, "Heel raise has no easier variant."),
        (
            {"start": "two-legs", "allowed": ("two-legs",)},
            Way.HARDER,
            "No harder variant of Heel raise is allowed here.",
        ),
        (
            {"start": "two-legs", "allowed": ("two-legs",)},
            Way.EASIER,
            "No easier variant of Heel raise is allowed here.",
        ),
    ],
)
def test_the_end_of_the_ladder_is_said(facts, way, sentence):
    with pytest.raises(EditError) as caught:
        starts.step_start(one(**facts), entry="a", card=HEEL, way=way)
    assert caught.value.sentence == sentence


@given(st.sampled_from(HEEL.variants), st.sampled_from(list(Way)))
def test_a_step_is_taken_back_by_the_step_the_other_way(variant, way):
    made = one(start=variant.id)
    try:
        there = starts.step_start(made, entry="a", card=HEEL, way=way)
    except EditError:
        return
    other = Way.EASIER if way is Way.HARDER else Way.HARDER
    assert starts.step_start(there.value, entry="a", card=HEEL, way=other).value == made
    assert_sound(there.value)


@pytest.mark.parametrize(
    ("now", "then"),
    [
        ("one-leg", "one-leg-hold"),
        ("one-leg-hold", "one-leg"),
        ("two-legs", "two-legs-hold"),
        ("seated", "two-legs-hold"),
    ],
)
def test_moving_becomes_its_hold_and_back(now, then):
    assert start(starts.switch_hold(one(start=now), entry="a", card=HEEL)) == then


def test_a_card_without_a_counterpart_says_so():
    made = protocol(stage("s", block("b", entry("a", BRIDGE))))
    with pytest.raises(EditError, match=r"^Bridge has no variant that is held\.$"):
        starts.switch_hold(made, entry="a", card=BRIDGE)
    made = protocol(stage("s", block("b", entry("a", STAND))))
    with pytest.raises(EditError, match=r"^Stand on one leg has no variant that moves\.$"):
        starts.switch_hold(made, entry="a", card=STAND)


def test_a_dose_goes_along_to_another_moving_variant():
    made = one(start="two-legs", dose=reps(3, 10))
    edited = starts.set_start(made, entry="a", card=HEEL, variant="one-leg")
    assert dose_of(entry_of(edited.value, "a"), HEEL) == reps(3, 10)
    assert edited.notes[0].sentence == (
        "The dose written for exercise 1 counts for this variant now: check that it fits."
    )


def test_a_dose_of_repetitions_stays_behind_when_a_hold_takes_over():
    made = one(start="two-legs", dose=reps(3, 10))
    edited = starts.switch_hold(made, entry="a", card=HEEL)
    new = entry_of(edited.value, "a")
    assert dose_of(new, HEEL) == hold(5, 30)
    assert dose_of(new, HEEL, "two-legs") == reps(3, 10)
    back = entry_of(starts.switch_hold(edited.value, entry="a", card=HEEL).value, "a")
    assert dose_of(back, HEEL) == reps(3, 10)


def test_a_start_outside_the_allowed_becomes_allowed():
    made = one(start="two-legs", allowed=("two-legs",))
    edited = starts.set_start(made, entry="a", card=HEEL, variant="seated")
    assert entry_of(edited.value, "a").allowed == ("two-legs", "seated")
    assert edited.notes[0].sentence == "Exercise 1 allows this variant now."


def test_lists_of_variants_are_kept_in_the_order_of_the_card():
    edited = starts.set_variants(
        one(start="seated"),
        entry="a",
        card=HEEL,
        allowed=("one-leg", "seated"),
        may_hold=("one-leg-hold", "two-legs-hold"),
        together=("one-leg",),
        dose_fits=("one-leg", "seated"),
    )
    new = entry_of(edited.value, "a")
    assert new.allowed == ("seated", "one-leg")
    assert new.may_hold == ("two-legs-hold", "one-leg-hold")
    assert (new.together, new.dose_fits) == (("one-leg",), ("seated", "one-leg"))


@pytest.mark.parametrize(
    ("lists", "sentence"),
    [
        ({"allowed": ("two-legs",)}, "The variant that the exercise starts with must stay"),
        ({"may_hold": ("one-leg",)}, "“one-leg” is not a hold."),
        ({"together": ("seated",)}, "The variant that the exercise starts with is done anyway."),
        ({"dose_fits": ("jump",)}, "Heel raise has no variant “jump”."),
    ],
)
def test_lists_that_make_no_sense_are_refused(lists, sentence):
    with pytest.raises(EditError) as caught:
        starts.set_variants(one(start="seated"), entry="a", card=HEEL, **lists)
    assert caught.value.sentence.startswith(sentence)


def test_another_card_takes_the_place_in_the_line():
    made = protocol(
        stage("s", block("b", entry("a"))),
        stage("t", block("c", entry("b", builds_on="a", dose=reps(1, 1), allowed=("seated",)))),
    )
    new = entry_of(starts.change_card(made, entry="b", card=BRIDGE).value, "b")
    assert (new.card, new.start, new.builds_on) == (BRIDGE.id, "bridge", "a")
    assert (new.dose, new.allowed) == (None, ())


def test_the_wrong_card_is_refused():
    with pytest.raises(EditError, match="This exercise is not of the card Bridge"):
        starts.switch_hold(one(), entry="a", card=BRIDGE)


@given(st.data())
def test_any_start_is_one_of_its_card_and_allowed(data):
    names = [each.id for each in HEEL.variants]
    first = data.draw(st.sampled_from(names))
    allowed = tuple(dict.fromkeys([first, *data.draw(st.lists(st.sampled_from(names)))]))
    made = one(start=first, allowed=allowed, dose=data.draw(st.none() | st.just(reps(2, 5))))
    wanted = data.draw(st.sampled_from(names))
    new = entry_of(starts.set_start(made, entry="a", card=HEEL, variant=wanted).value, "a")
    assert new.start == wanted
    assert new.start in new.allowed
    before = entry_of(made, "a")
    same_kind = is_hold(HEEL.variant(first)) == is_hold(HEEL.variant(wanted))
    if before.dose and same_kind:
        assert dose_of(new, HEEL) == before.dose
    assert evolve(new, start=first, allowed=allowed, dose_fits=()) == before
