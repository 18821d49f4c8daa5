"""Many edits one after another keep a protocol sound, and never touch the value before."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.files.convert import to_json
from authoring.model.edits import blocks, choices, copying, criteria, entries, stages, starts
from authoring.model.edits.clip import clip_entries
from authoring.model.edits.ladder import Way
from authoring.model.edits.lines import progression_lines
from authoring.model.edits.outcome import Edited, EditError
from authoring.model.load import IntRange
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import BlockKind
from tests.model.edit_values import (
    CARDS,
    PROTOCOL_ID,
    assert_sound,
    library,
    protocols,
    say,
)


def edits_of(made: Protocol, data: st.DataObject) -> list[Callable[[], Edited[Protocol]]]:
    def pick(items: list[str]) -> str:
        return data.draw(st.sampled_from(items))

    one = pick([e.id for e in made.entries()] or ["none"])
    other = pick([e.id for e in made.entries()] or ["none"])
    home = pick([b.id for s in made.stages for b in s.blocks] or ["none"])
    there = pick([s.id for s in made.stages] or ["none"])
    card = CARDS[next((e.card for e in made.entries() if e.id == one), next(iter(CARDS)))]
    place = data.draw(st.integers(0, 3))
    by = data.draw(st.sampled_from([-1, 1]))
    return [
        lambda: entries.add_card(made, card=card, block=home, index=place),
        lambda: entries.add_card_to_stage(made, card=card, stage=there),
        lambda: entries.duplicate_entry(made, entry=one),
        lambda: entries.continue_entry(made, entry=one),
        lambda: entries.move_entry(made, entry=one, block=home, index=place),
        lambda: entries.move_entry_to_stage(made, entry=one, by=by),
        lambda: entries.remove_entry(made, entry=one),
        lambda: entries.link_entry(made, entry=one, on=other),
        lambda: entries.freeze_numbers(made),
        lambda: starts.step_start(made, entry=one, card=card, way=Way.HARDER),
        lambda: starts.switch_hold(made, entry=one, card=card),
        lambda: choices.make_choice(made, entries=(one, other)),
        lambda: choices.leave_choice(made, entry=one),
        lambda: blocks.add_block(made, stage=there, kind=BlockKind.WARM_UP),
        lambda: blocks.group_entries(made, entries=(one, other), rounds=IntRange(low=3)),
        lambda: blocks.ungroup_block(made, block=home),
        lambda: blocks.move_block(made, block=home, stage=there, index=place),
        lambda: blocks.remove_block(made, block=home),
        lambda: stages.add_stage(made, name=say("New"), index=place),
        lambda: stages.duplicate_stage(made, stage=there),
        lambda: stages.move_stage(made, stage=there, to=place),
        lambda: stages.remove_stage(made, stage=there),
        lambda: (
            criteria.remove_criterion(made, criterion=made.stages[0].move_on[0].id)
            if made.stages and made.stages[0].move_on
            else stages.add_stage(made, name=say("New"))
        ),
        lambda: _pasted(made, one, home),
    ]


def _pasted(made: Protocol, one: str, home: str) -> Edited[Protocol]:
    whole = library(made)
    clip = clip_entries(whole, protocol=PROTOCOL_ID, entries=[one])
    after = copying.paste_entries(whole, clip, protocol=PROTOCOL_ID, block=home)
    return Edited(after.value.protocols[PROTOCOL_ID], after.select, after.notes)


@settings(max_examples=60)
@given(protocols(), st.data())
def test_any_sequence_of_edits_keeps_a_protocol_sound(made, data):
    for _ in range(6):
        before = to_json(made)
        edit = data.draw(st.sampled_from(edits_of(made, data)))
        try:
            edited = edit()
        except EditError:
            continue
        assert to_json(made) == before
        made = edited.value
        assert_sound(made)
        in_lines = [key for line in progression_lines(made) for key in line.entries]
        assert sorted(in_lines) == sorted(e.id for e in made.entries())
        for note in edited.notes:
            assert "{" not in note.sentence
