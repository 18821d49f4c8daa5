"""Two sound changes that are not sound together are named."""

from __future__ import annotations

from authoring.exchange.loose_ends import loose_ends
from authoring.exchange.merge import merge
from authoring.model.edits.entries import link_entry, remove_entry
from tests.model.edit_values import block, entry, protocol, stage


def test_an_exercise_built_on_one_that_the_other_side_removed_is_named() -> None:
    base = protocol(stage("early", block("main", entry("lift"), entry("more"))))
    mine = remove_entry(base, entry="lift").value
    theirs = link_entry(base, entry="more", on="lift").value
    merged = merge(base, mine, theirs)
    assert merged.value is not None
    assert loose_ends(merged.value, mine, theirs) == ("more names entry lift, which is gone.",)
    assert loose_ends(base, base) == ()
