"""Edits of entries keep a protocol sound, and do what a physio asks of them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import ModelError
from authoring.model.edits import entries
from authoring.model.edits.outcome import EditError
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import BlockKind
from tests.model.edit_values import (
    CARD_IDS,
    CARDS,
    assert_sound,
    block,
    entry,
    frozen,
    protocol,
    protocols,
    reps,
    say,
    stage,
)

HEEL, BRIDGE, STAND = (CARDS[key] for key in CARD_IDS)


def ids(made: Protocol) -> list[str]:
    return [each.id for each in made.entries()]


def links(made: Protocol) -> dict[str, str | None]:
    return {each.id: each.builds_on for each in made.entries()}


def three_stages() -> Protocol:
    """A line a-b-c through three stages, and d alone."""
    return protocol(
        stage("s1", block("b1", entry("a", start="two-legs"))),
        stage("s2", block("b2", entry("b", builds_on="a"), entry("d", BRIDGE))),
        stage("s3", block("b3", entry("c", builds_on="b"))),
    )


def test_a_removed_entry_hands_its_place_in_the_line_on():
    edited = entries.remove_entry(three_stages(), entry="b")
    assert links(edited.value) == {"a": None, "d": None, "c": "a"}
    assert [note.sentence for note in edited.notes] == ["Exercise 3 builds on exercise 1 now."]
    assert edited.select == ("d",)


def test_several_entries_go_in_one_edit():
    edited = entries.remove_entries(three_stages(), entries=("a", "b"))
    assert links(edited.value) == {"d": None, "c": None}


def test_an_added_card_continues_the_last_entry_of_its_card_in_an_earlier_stage():
    edited = entries.add_card(three_stages(), card=HEEL, block="b2")
    new = entries.entry_of(edited.value, "heel-raise")
    assert (new.builds_on, new.start, new.dose) == ("a", "two-legs", None)


def test_an_added_card_can_continue_the_line_of_another_card():
    edited = entries.add_card(three_stages(), card=BRIDGE, block="b3", line="a", index=0)
    assert ids(edited.value) == ["a", "b", "d", "bridge", "c"]
    assert links(edited.value)["bridge"] == "b"


def test_an_added_card_can_build_on_nothing():
    edited = entries.add_card(three_stages(), card=HEEL, block="b3", linked=False)
    assert links(edited.value)["heel-raise"] is None


def test_a_new_card_starts_on_rung_0_and_rather_moves_than_holds():
    empty = protocol(stage("s1", block("b1")))
    edited = entries.add_card(empty, card=HEEL, block="b1")
    assert entries.entry_of(edited.value, "heel-raise").start == "two-legs"
    only_holds = entries.add_card(empty, card=STAND, block="b1")
    assert entries.entry_of(only_holds.value, "stand").start == "stand"


def test_a_card_added_to_a_stage_without_blocks_gets_a_main_block():
    edited = entries.add_card_to_stage(protocol(stage("s1")), card=HEEL, stage="s1")
    (home,) = edited.value.stages[0].blocks
    assert (home.kind, [each.id for each in home.entries]) == (BlockKind.MAIN, ["heel-raise"])


def test_an_entry_carries_on_into_the_next_stage():
    edited = entries.continue_entry(three_stages(), entry="d")
    assert links(edited.value)["d-2"] == "d"
    assert ids(edited.value) == ["a", "b", "d", "c", "d-2"]


def test_an_entry_of_the_last_stage_cannot_carry_on():
    with pytest.raises(EditError, match=r"There is no stage after this one: add one first\."):
        entries.continue_entry(three_stages(), entry="c")


def test_an_entry_that_moves_before_its_base_builds_on_what_comes_before_both():
    edited = entries.move_entry(three_stages(), entry="c", block="b2", index=0)
    assert ids(edited.value) == ["a", "c", "b", "d"]
    assert links(edited.value) == {"a": None, "c": "a", "b": "a", "d": None}


def test_moving_up_at_the_top_of_a_block_enters_the_block_above():
    two = protocol(stage("s1", block("b1", entry("a")), block("b2", entry("b"))))
    up = entries.move_entry_by(two, entry="b", by=-1).value
    assert [len(each.entries) for each in up.stages[0].blocks] == [2, 0]
    with pytest.raises(EditError, match="first exercise of its stage"):
        entries.move_entry_by(two, entry="a", by=-1)
    with pytest.raises(EditError, match="last exercise of its stage"):
        entries.move_entry_by(two, entry="b", by=1)


def test_an_entry_moves_to_the_block_of_its_kind_in_another_stage():
    two = protocol(
        stage("s1", block("w1", entry("a"), kind=BlockKind.WARM_UP)),
        stage("s2", block("m2"), block("w2", kind=BlockKind.WARM_UP)),
    )
    moved = entries.move_entry_to_stage(two, entry="a", by=1).value
    assert [len(each.entries) for each in moved.stages[1].blocks] == [0, 1]


def test_frozen_numbers_are_counted_anew_once_entries_change_places():
    edited = entries.move_entry(frozen(three_stages()), entry="d", block="b1", index=0)
    assert edited.value.numbers() == {"d": 1, "a": 2, "b": 3, "c": 4}
    assert "The exercises are numbered anew." in [note.sentence for note in edited.notes]


def test_frozen_numbers_stay_while_a_note_is_written():
    edited = entries.set_entry(frozen(three_stages()), entry="a", note=say("Slowly."))
    assert [each.number for each in edited.value.entries()] == [1, 2, 3, 4]


def test_a_dose_is_set_and_a_wrong_value_is_refused():
    edited = entries.set_entry(three_stages(), entry="a", dose=reps(4, 8), priority=1)
    assert entries.entry_of(edited.value, "a").dose == reps(4, 8)
    with pytest.raises(ModelError, match=r"priority must be at most 3, and is 4\."):
        entries.set_entry(three_stages(), entry="a", priority=4)
    with pytest.raises(EditError, match="dose can’t hold this kind of value"):
        entries.set_entry(three_stages(), entry="a", dose="3 x 8")
    with pytest.raises(EditError, match="builds_on has an edit of its own"):
        entries.set_entry(three_stages(), entry="a", builds_on="b")


@pytest.mark.parametrize("on", ["c", "b", "d"])
def test_an_entry_builds_on_earlier_ones_only(on):
    with pytest.raises(EditError, match="can only build on an earlier one"):
        entries.link_entry(three_stages(), entry="b", on=on)


def test_a_link_is_made_and_cut():
    cut = entries.link_entry(three_stages(), entry="c", on=None).value
    assert links(cut)["c"] is None
    assert entries.link_entry(cut, entry="c", on="b").value == three_stages()


# ---- any sound protocol ----------------------------------------------------------------

WITH_ENTRIES = protocols(fewest=1)


def any_entry(data: st.DataObject, made: Protocol) -> str:
    return data.draw(st.sampled_from(ids(made)))


def any_block(data: st.DataObject, made: Protocol) -> str:
    return data.draw(st.sampled_from([b.id for s in made.stages for b in s.blocks]))


@given(WITH_ENTRIES, st.data())
def test_adding_keeps_a_protocol_sound_and_removing_takes_it_back(made, data):
    home = any_block(data, made)
    card = data.draw(st.sampled_from(list(CARDS.values())))
    index = data.draw(st.none() | st.integers(-1, 4))
    edited = entries.add_card(made, card=card, block=home, index=index)
    assert_sound(edited.value)
    (new,) = edited.select
    assert set(ids(edited.value)) - set(ids(made)) == {new}
    back = entries.remove_entry(edited.value, entry=new).value
    assert back == entries.unfreeze_numbers(made).value


@given(WITH_ENTRIES, st.data())
def test_moving_keeps_every_entry_and_a_sound_protocol(made, data):
    one, home = any_entry(data, made), any_block(data, made)
    edited = entries.move_entry(made, entry=one, block=home, index=data.draw(st.integers(0, 4)))
    assert_sound(edited.value)
    assert sorted(ids(edited.value)) == sorted(ids(made))
    changed = {e.id for e in edited.value.entries() if e.builds_on != links(made)[e.id]}
    said = {note.about for note in edited.notes if "builds on" in note.sentence}
    assert changed == said


@given(WITH_ENTRIES, st.data())
def test_removing_keeps_a_protocol_sound(made, data):
    one = any_entry(data, made)
    edited = entries.remove_entry(made, entry=one)
    assert_sound(edited.value)
    assert set(ids(edited.value)) == set(ids(made)) - {one}
    heirs = [e for e in made.entries() if e.builds_on == one]
    for heir in heirs:
        assert links(edited.value)[heir.id] == links(made)[one]


@given(WITH_ENTRIES, st.data(), st.sampled_from(["up", "stage", "copy", "carry on"]))
def test_every_other_placing_keeps_a_protocol_sound_or_refuses(made, data, what):
    one, by = any_entry(data, made), data.draw(st.sampled_from([-1, 1]))
    edits = {
        "up": lambda: entries.move_entry_by(made, entry=one, by=by),
        "stage": lambda: entries.move_entry_to_stage(made, entry=one, by=by),
        "copy": lambda: entries.duplicate_entry(made, entry=one),
        "carry on": lambda: entries.continue_entry(made, entry=one),
    }
    try:
        edited = edits[what]()
    except EditError:
        return
    assert_sound(edited.value)


@given(WITH_ENTRIES, st.data())
def test_an_entry_moved_down_and_up_stands_where_it_stood(made, data):
    one = any_entry(data, made)
    try:
        down = entries.move_entry_by(made, entry=one, by=1).value
    except EditError:
        return
    assert ids(entries.move_entry_by(down, entry=one, by=-1).value) == ids(made)


@given(WITH_ENTRIES)
def test_freezing_keeps_the_numbers_and_unfreezing_takes_it_back(made):
    stiff = entries.freeze_numbers(made).value
    assert stiff.numbers() == made.numbers()
    assert all(each.number for each in stiff.entries())
    loose = entries.unfreeze_numbers(stiff).value
    assert loose == entries.unfreeze_numbers(made).value
