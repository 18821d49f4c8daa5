"""Progression lines: every entry stands in exactly one, and steps say what changed."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given

from authoring.model.base import evolve
from authoring.model.edits.choices import make_choice
from authoring.model.edits.lines import line_name, line_of, packed_rows, progression_lines
from authoring.model.edits.outcome import EditError
from authoring.model.edits.steps import Changed, step
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Region
from tests.model.edit_values import (
    CARD_IDS,
    CARDS,
    block,
    entry,
    protocol,
    protocols,
    reps,
    say,
    stage,
)

HEEL, BRIDGE, STAND = (CARDS[key] for key in CARD_IDS)


def branching() -> Protocol:
    """a, then b, then c and d from b; h is of a's card without a link; e alone."""
    return protocol(
        stage("s1", block("b1", entry("e", BRIDGE), entry("a"))),
        stage("s2", block("b2", entry("b", builds_on="a"), entry("h"))),
        stage("s3", block("b3", entry("c", builds_on="b"), entry("d", STAND, builds_on="b"))),
    )


def test_linked_entries_are_one_line_whose_cells_hold_branches_side_by_side():
    cells = [line.cells for line in progression_lines(branching())]
    assert cells == [
        (("e",), (), ()),
        (("a",), ("b",), ("c", "d")),
        ((), ("h",), ()),
    ]


def test_a_line_knows_its_links_span_and_first_entry():
    line = line_of(branching(), "d")
    assert [(link.base, link.entry) for link in line.links] == [("a", "b"), ("b", "c"), ("b", "d")]
    assert (line.first, line.span, line.entries) == ("a", (0, 2), ("a", "b", "c", "d"))


def test_unlinked_entries_of_a_choice_share_the_cell_they_are_chosen_for():
    made = protocol(
        stage("s1", block("b1", entry("a"))),
        stage("s2", block("b2", entry("x", BRIDGE), entry("b", builds_on="a"))),
    )
    chosen = make_choice(made, entries=("x", "b")).value
    assert [line.cells for line in progression_lines(chosen)] == [(("a",), ("x", "b"))]


def test_a_choice_does_not_weld_two_lines_into_one():
    made = protocol(
        stage("s1", block("b1", entry("a"), entry("b", BRIDGE))),
        stage("s2", block("b2", entry("c", builds_on="a"), entry("d", BRIDGE, builds_on="b"))),
    )
    chosen = make_choice(made, entries=("c", "d")).value
    assert len(progression_lines(chosen)) == 2


def test_an_unknown_entry_has_no_line():
    with pytest.raises(EditError, match="This protocol has no exercise “z”"):
        line_of(branching(), "z")


@given(protocols())
def test_every_entry_stands_in_exactly_one_line_in_the_cell_of_its_stage(made):
    lines = progression_lines(made)
    counted = Counter(key for line in lines for key in line.entries)
    assert counted == Counter(each.id for each in made.entries())
    for index, each in enumerate(made.stages):
        there = {key for line in lines for key in line.cells[index]}
        assert there == {one.id for one in each.entries()}


@given(protocols())
def test_lines_are_joined_by_links_and_ordered_by_first_entries(made):
    lines = progression_lines(made)
    order = [each.id for each in made.entries()]
    firsts = [order.index(line.first) for line in lines]
    assert firsts == sorted(firsts)
    for each in made.entries():
        if each.builds_on is not None:
            assert each.builds_on in line_of(made, each.id).entries
    assert sum(len(line.links) for line in lines) == sum(
        each.builds_on is not None for each in made.entries()
    )


@given(protocols())
def test_packed_rows_keep_every_line_and_never_two_in_one_stage(made):
    lines = progression_lines(made)
    rows = packed_rows(made, lines, cards=CARDS)
    assert sorted(line.first for row in rows for line in row) == sorted(
        line.first for line in lines
    )
    for row in rows:
        for before, after in pairwise(row):
            assert before.span[1] < after.span[0]


def test_lines_that_train_the_same_share_a_row():
    made = protocol(
        stage("s1", block("b1", entry("a", HEEL), entry("e", BRIDGE))),
        stage("s2", block("b2", entry("s", STAND))),
    )
    rows = packed_rows(made, progression_lines(made), cards=CARDS)
    assert [[line.first for line in row] for row in rows] == [["a", "s"], ["e"]]


def test_a_line_is_called_after_its_card_purpose_or_part_of_the_body():
    made = branching()
    alone, line, _ = progression_lines(made)
    purposes = {"calf-strength": say("Strong calves")}
    assert line_name(made, alone, cards=CARDS).words == say("Bridge")
    named = line_name(made, line, cards=CARDS, purposes=purposes, library_language="en")
    assert (named.words, named.language) == (say("Strong calves"), "en")
    unnamed = line_name(made, line, cards=CARDS)
    assert (unnamed.words, unnamed.regions) == (None, (Region.FOOT_ANKLE,))
    elsewhere = {**CARDS, STAND.id: evolve(STAND, regions=())}
    assert line_name(made, line, cards=elsewhere).words == say("Heel raise")
    assert line_name(made, line, cards={}).words is None


# ---- steps -----------------------------------------------------------------------------


def test_a_step_counts_rungs_and_names_what_changed():
    found = step(entry("a", start="two-legs-hold"), entry("b", start="one-leg"), CARDS)
    assert found is not None
    assert found.rungs == 1
    assert found.changed == (Changed.VARIANT, Changed.MODE, Changed.WORK)
    assert (found.dose_before, found.dose_after) == (
        HEEL.variant("two-legs-hold").dose,
        reps(3, 12),
    )


def test_a_step_may_be_the_dose_alone():
    found = step(entry("a", start="one-leg"), entry("b", start="one-leg", dose=reps(4, 8)), CARDS)
    assert found is not None
    assert (found.rungs, found.changed) == (0, (Changed.WORK,))


def test_nothing_changed_is_a_step_without_changes():
    found = step(entry("a"), entry("b"), CARDS)
    assert found is not None
    assert (found.rungs, found.changed) == (0, ())


def test_heights_of_two_cards_are_not_compared():
    assert step(entry("a"), entry("b", BRIDGE), CARDS) is None
    assert step(entry("a"), entry("b"), {}) is None
    assert step(entry("a"), entry("b", start="gone"), CARDS) is None
