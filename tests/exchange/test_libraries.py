"""Libraries and single conflicts: what merges by itself, and what a person must choose."""

from __future__ import annotations

from authoring.exchange.conflict import Conflict, ConflictKind, Side
from authoring.exchange.libraries import files_of, merge_libraries
from authoring.exchange.merge import choose, merge
from authoring.exchange.words import Words
from authoring.model.base import evolve
from authoring.model.edits.entries import move_entry, remove_entry
from authoring.model.protocol import Protocol
from tests.model.edit_values import (
    CARD_IDS,
    PROTOCOL_ID,
    block,
    entry,
    library,
    protocol,
    reps,
    say,
    stage,
)

BASE = protocol(
    stage("early", block("main", entry("lift", dose=reps(3, 10)), entry("more"))),
    stage("late", block("strong", entry("last"))),
)


def dosed(made: Protocol, count: int) -> Protocol:
    """The protocol with another dose for its first exercise."""
    stages = made.stages
    first = stages[0].blocks[0]
    lift = evolve(first.entries[0], dose=reps(3, count))
    changed = evolve(first, entries=(lift, *first.entries[1:]))
    return evolve(made, stages=(evolve(stages[0], blocks=(changed,)), *stages[1:]))


def test_a_move_and_a_change_of_the_same_exercise_combine() -> None:
    merged = merge(
        BASE, move_entry(BASE, entry="lift", block="strong", index=0).value, dosed(BASE, 12)
    )
    assert merged.value is not None
    assert not merged.conflicts
    moved = merged.value.stages[1].blocks[0].entries[0]
    assert (moved.id, moved.dose) == ("lift", reps(3, 12))


def test_two_doses_are_one_conflict_that_is_chosen() -> None:
    merged = merge(BASE, dosed(BASE, 12), dosed(BASE, 15))
    (conflict,) = merged.open
    said = Words(merged.mine, merged.theirs, {CARD_IDS[0]: "Heel raise"}).conflict(conflict)
    assert said == "Heel raise: dose is 3\u00a0× 12 here and 3\u00a0× 15 there."
    settled = choose(merged, conflict, Side.THEIRS)
    assert settled.value == dosed(BASE, 15)
    assert not settled.open


def test_deleting_what_the_other_changed_is_a_conflict() -> None:
    gone = remove_entry(BASE, entry="lift").value
    merged = merge(BASE, gone, dosed(BASE, 12))
    (conflict,) = merged.open
    assert conflict.kind is ConflictKind.DELETED
    assert choose(merged, conflict, Side.MINE).value == gone
    assert choose(merged, conflict, Side.THEIRS).value == dosed(BASE, 12)


def test_edits_of_two_files_of_a_library_merge_by_themselves() -> None:
    base = library(BASE)
    card = evolve(base.cards[CARD_IDS[0]], title=say("Calf raise"))
    mine = evolve(base, cards={**base.cards, card.id: card}, images=frozenset({"a"}))
    theirs = evolve(base, protocols={BASE.id: dosed(BASE, 12)}, images=frozenset({"b"}))
    merged = merge_libraries(base, mine, theirs)
    assert not merged.conflicts
    assert not merged.faults
    assert merged.files[card.id] == card
    assert merged.files[PROTOCOL_ID] == dosed(BASE, 12)
    assert merged.images == {"a", "b"}
    assert merge_libraries(base, mine, base).files == files_of(mine)


def test_a_file_deleted_here_and_changed_there_is_chosen() -> None:
    base = library(BASE)
    mine, theirs = evolve(base, protocols={}), evolve(base, protocols={BASE.id: dosed(BASE, 12)})
    merged = merge_libraries(base, mine, theirs)
    (conflict,) = merged.conflicts[PROTOCOL_ID]
    assert isinstance(conflict, Conflict)
    assert PROTOCOL_ID not in merged.files
    kept = merge_libraries(base, mine, theirs, {(PROTOCOL_ID, conflict.name): Side.THEIRS})
    assert kept.files[PROTOCOL_ID] == dosed(BASE, 12)
