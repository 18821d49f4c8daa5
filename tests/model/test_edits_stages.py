"""Edits of stages, blocks and choices keep a protocol sound."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import evolve
from authoring.model.edits import blocks, choices, entries, stages
from authoring.model.edits.outcome import EditError
from authoring.model.load import IntRange
from authoring.model.protocol import Branch, Protocol
from authoring.model.vocabulary import BlockKind, BranchAction
from tests.model.edit_values import (
    CARD_IDS,
    CARDS,
    assert_sound,
    block,
    entry,
    protocol,
    protocols,
    say,
    stage,
)

BRIDGE = CARDS[CARD_IDS[1]]


def two_stages() -> Protocol:
    return protocol(
        stage("calm", block("b1", entry("a"), entry("d", BRIDGE))),
        stage("load", block("b2", entry("b", builds_on="a"))),
    )


def shape(made: Protocol) -> list[list[list[str]]]:
    return [[[e.id for e in b.entries] for b in s.blocks] for s in made.stages]


def links(made: Protocol) -> dict[str, str | None]:
    return {each.id: each.builds_on for each in made.entries()}


# ---- stages ---------------------------------------------------------------------------


def test_a_new_stage_has_an_id_from_its_name_and_a_main_block():
    edited = stages.add_stage(two_stages(), name=say("Back to running!"), index=0)
    new = edited.value.stages[0]
    assert (new.id, [b.kind for b in new.blocks]) == ("back-to-running", [BlockKind.MAIN])
    assert edited.select == ("back-to-running",)


@pytest.mark.parametrize(
    ("name", "expected"),
    [("Écarté", "ecarte"), ("Load", "load-2"), ("الركبة", "stage"), ("-- 2 --", "2")],
)
def test_ids_of_stages_are_plain_and_unique(name, expected):
    assert stages.add_stage(two_stages(), name=say(name)).select == (expected,)


def test_a_copied_stage_carries_every_line_on():
    edited = stages.duplicate_stage(two_stages(), stage="load")
    assert shape(edited.value)[2] == [["b-2"]]
    assert links(edited.value)["b-2"] == "b"
    unlinked = stages.duplicate_stage(two_stages(), stage="load", linked=False)
    assert links(unlinked.value)["b-2"] == "a"


def test_a_removed_stage_leaves_lines_and_a_branch_that_says_so():
    made = stages.move_stage(two_stages(), stage="load", to=1).value
    edited = stages.remove_stage(made, stage="calm")
    assert links(edited.value) == {"b": None}
    assert edited.select == ("load",)


def test_a_removed_exercise_is_left_out_by_no_branch():
    branch = Branch(id="sore", finding=say("Sore"), then=BranchAction.LEAVE_OUT, entries=("a", "b"))
    made = two_stages()
    made = evolve(made, stages=(made.stages[0], evolve(made.stages[1], branches=(branch,))))
    edited = stages.remove_stage(made, stage="calm")
    assert edited.value.stages[0].branches[0].entries == ("b",)
    assert "A branch of stage 1 left out an exercise that is gone." in [
        note.sentence for note in edited.notes
    ]


def test_a_stage_moved_before_its_base_is_unlinked_with_a_note():
    edited = stages.move_stage(two_stages(), stage="load", to=0)
    assert [note.sentence for note in edited.notes] == ["Exercise 1 builds on none now."]


def test_a_renamed_stage_keeps_its_id():
    edited = stages.rename_stage(two_stages(), stage="calm", name=say("Settle"))
    assert (edited.value.stages[0].id, edited.value.stages[0].name) == ("calm", say("Settle"))


def test_an_unknown_stage_or_field_is_refused():
    with pytest.raises(EditError, match="This protocol has no stage “x”"):
        stages.remove_stage(two_stages(), stage="x")
    with pytest.raises(EditError, match="There is no colour here"):
        stages.set_stage(two_stages(), stage="calm", colour="red")


@given(protocols(), st.data())
def test_edits_of_stages_keep_any_protocol_sound(made, data):
    which = data.draw(st.sampled_from(made.stages)).id
    edited = data.draw(
        st.sampled_from(
            [
                lambda: stages.add_stage(made, name=say("New"), index=data.draw(st.integers(0, 4))),
                lambda: stages.duplicate_stage(made, stage=which, linked=data.draw(st.booleans())),
                lambda: stages.move_stage(made, stage=which, to=data.draw(st.integers(0, 4))),
                lambda: stages.remove_stage(made, stage=which),
            ]
        )
    )()
    assert_sound(edited.value)


@given(protocols(), st.data())
def test_a_copied_stage_that_is_removed_leaves_the_protocol_as_it_was(made, data):
    which = data.draw(st.sampled_from(made.stages)).id
    copied = stages.duplicate_stage(made, stage=which)
    back = stages.remove_stage(copied.value, stage=copied.select[0]).value
    assert entries.unfreeze_numbers(back) == entries.unfreeze_numbers(made)


# ---- blocks ---------------------------------------------------------------------------


def test_a_warm_up_goes_first_and_others_before_the_cool_down():
    made = protocol(stage("s", block("m"), block("c", kind=BlockKind.COOL_DOWN)))
    first = blocks.add_block(made, stage="s", kind=BlockKind.WARM_UP).value
    both = blocks.add_block(first, stage="s", kind=BlockKind.CIRCUIT).value
    assert [b.id for b in both.stages[0].blocks] == ["warm-up", "m", "circuit", "c"]


def long_block() -> Protocol:
    return protocol(stage("s", block("home", *(entry(each) for each in "abcde"))))


def test_grouped_entries_stand_in_a_circuit_where_the_first_of_them_stood():
    edited = blocks.group_entries(long_block(), entries=("d", "b"), rounds=IntRange(low=3))
    assert shape(edited.value) == [[["a"], ["b", "d"], ["c", "e"]]]
    assert edited.value.stages[0].blocks[1].rounds == IntRange(low=3)


@pytest.mark.parametrize("chosen", ["ab", "bc", "de", "abcde"])
def test_an_ungrouped_circuit_leaves_the_block_as_it_was(chosen):
    made = long_block()
    grouped = blocks.group_entries(made, entries=tuple(chosen), rounds=IntRange(low=2))
    back = blocks.ungroup_block(grouped.value, block=grouped.select[0]).value
    assert shape(back) == shape(made)
    if chosen != "abcde":
        assert back == made


def test_entries_of_two_blocks_cannot_be_grouped():
    with pytest.raises(EditError, match="Group exercises of one block"):
        blocks.group_entries(two_stages(), entries=("a", "b"))
    with pytest.raises(EditError, match="Choose the exercises first"):
        blocks.group_entries(two_stages(), entries=())


def test_a_circuit_that_is_one_no_more_loses_its_rounds():
    made = blocks.set_block_kind(
        long_block(), block="home", kind=BlockKind.CIRCUIT, rounds=IntRange(low=3)
    ).value
    edited = blocks.set_block_kind(made, block="home", kind=BlockKind.MAIN)
    assert edited.value == long_block()
    assert [note.sentence for note in edited.notes] == ["The block has no rounds now."]


@given(protocols(fewest=1), st.data())
def test_edits_of_blocks_keep_any_protocol_sound(made, data):
    home = data.draw(st.sampled_from([b for s in made.stages for b in s.blocks]))
    there = data.draw(st.sampled_from(made.stages)).id
    some = tuple(e.id for e in home.entries if data.draw(st.booleans()))
    edits = [
        lambda: blocks.add_block(made, stage=there, kind=data.draw(st.sampled_from(BlockKind))),
        lambda: blocks.duplicate_block(made, block=home.id),
        lambda: blocks.move_block(
            made, block=home.id, stage=there, index=data.draw(st.integers(0, 3))
        ),
        lambda: blocks.remove_block(made, block=home.id),
        lambda: blocks.set_block_kind(
            made, block=home.id, kind=data.draw(st.sampled_from(BlockKind))
        ),
        lambda: blocks.ungroup_block(made, block=home.id),
    ]
    if some:
        edits.append(lambda: blocks.group_entries(made, entries=some))
    edited = data.draw(st.sampled_from(edits))()
    assert_sound(edited.value)


# ---- choices --------------------------------------------------------------------------


def test_a_choice_is_made_left_and_gone():
    made = long_block()
    chosen = choices.make_choice(made, entries=("a", "b", "c"), pick=2).value
    assert [e.choice for e in chosen.entries()] == ["choice"] * 3 + [None] * 2
    two = choices.leave_choice(chosen, entry="b").value
    assert [e.choice for e in two.entries()] == ["choice", None, "choice", None, None]
    none = choices.leave_choice(two, entry="c")
    assert none.value == made
    assert [note.about for note in none.notes] == ["a"]


def test_a_choice_is_joined_and_dissolved():
    made = long_block()
    chosen = choices.make_choice(made, entries=("a", "b")).value
    joined = choices.join_choice(chosen, entry="e", choice="choice").value
    assert [e.id for e in joined.entries() if e.choice] == ["a", "b", "e"]
    assert choices.dissolve_choice(joined, choice="choice").value == made


@pytest.mark.parametrize(
    ("given_", "sentence"),
    [
        ({"entries": ("a",)}, "A choice needs two exercises or more."),
        ({"entries": ("a", "b"), "pick": 2}, "A choice must leave at least one exercise out."),
    ],
)
def test_a_choice_that_is_none_is_refused(given_, sentence):
    with pytest.raises(EditError) as caught:
        choices.make_choice(long_block(), **given_)
    assert caught.value.sentence == sentence


def test_an_entry_that_moves_out_of_its_block_leaves_its_choice():
    made = protocol(stage("s", block("home", *(entry(e) for e in "ab")), block("c")))
    chosen = choices.make_choice(made, entries=("a", "b")).value
    edited = entries.move_entry(chosen, entry="b", block="c")
    assert [e.choice for e in edited.value.entries()] == [None, None]
    assert edited.value.stages[0].blocks[0].choices == ()
    back = entries.move_entry(edited.value, entry="b", block="home").value
    assert back == made


def test_a_choice_says_how_many_to_do():
    chosen = choices.make_choice(long_block(), entries=("a", "b", "c")).value
    said = choices.set_choice(chosen, choice="choice", pick=2, words=say("What you like."))
    (choice,) = said.value.stages[0].blocks[0].choices
    assert (choice.pick, choice.words) == (2, say("What you like."))
    with pytest.raises(EditError, match="leave at least one"):
        choices.set_choice(chosen, choice="choice", pick=3, words=None)


def test_a_choice_split_by_a_circuit_stays_with_its_first_entry():
    chosen = choices.make_choice(long_block(), entries=("a", "b", "c")).value
    edited = blocks.group_entries(chosen, entries=("c", "d"))
    assert_sound(edited.value)
    assert [e.choice for e in edited.value.entries()] == ["choice", "choice", None, None, None]
    assert evolve(edited.notes[0], about="").sentence.startswith("Exercise 3 is in no")
