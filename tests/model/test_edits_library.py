"""Where cards are used, what a change touches, and edits that reach from card to protocol."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import evolve
from authoring.model.dose import DoseChange, WeekRow
from authoring.model.edits import library as edits
from authoring.model.edits.cards import set_card
from authoring.model.edits.outcome import EditError
from authoring.model.edits.steps import dose_of
from authoring.model.edits.uses import uses, what_changes, where_used
from authoring.model.edits.variants import remove_variant, set_variant
from authoring.model.library import Library, Term
from authoring.model.protocol import Branch
from authoring.model.vocabulary import BranchAction, Status, TermKind
from tests.model.edit_values import (
    CARD_IDS,
    CARDS,
    PROTOCOL_ID,
    assert_sound,
    block,
    entry,
    hold,
    library,
    protocol,
    protocols,
    reps,
    say,
    stage,
)

HEEL, BRIDGE, STAND = (CARDS[key] for key in CARD_IDS)


def used() -> Library:
    made = protocol(
        stage("s1", block("b1", entry("x", BRIDGE), entry("a", start="two-legs"))),
        stage("s2", block("b2", entry("b", start="one-leg", allowed=("two-legs", "one-leg")))),
        status=Status.APPROVED,
    )
    return library(made)


def test_uses_of_a_card_say_protocol_stage_and_number():
    found = where_used(used(), HEEL.id)
    assert [(use.protocol.id, use.stage, use.entry.id, use.number) for use in found] == [
        (PROTOCOL_ID, 0, "a", 2),
        (PROTOCOL_ID, 1, "b", 3),
    ]
    assert where_used(used(), STAND.id) == ()


def test_uses_of_a_variant_say_in_which_fields():
    found = uses(used(), HEEL.id, "two-legs")
    assert [(use.entry.id, use.fields) for use in found] == [("a", ("start",)), ("b", ("allowed",))]


def test_a_changed_dose_touches_the_entries_it_counts_for():
    after = set_variant(HEEL, variant="one-leg", dose=reps(5, 5)).value
    touched = what_changes(used(), HEEL, after)
    assert [(one.use.entry.id, one.variants, one.dose_changed) for one in touched] == [
        ("a", ("one-leg",), False),
        ("b", ("one-leg",), True),
    ]
    assert all(one.approved for one in touched)


def test_a_variant_that_an_entry_does_not_allow_does_not_touch_it():
    after = set_variant(HEEL, variant="one-leg-weight", dose=reps(5, 5)).value
    assert [one.use.entry.id for one in what_changes(used(), HEEL, after)] == ["a"]


def test_a_removed_variant_is_missing_where_it_is_named():
    after = remove_variant(HEEL, variant="two-legs").value
    touched = what_changes(used(), HEEL, after)
    assert [(one.use.entry.id, one.missing) for one in touched] == [
        ("a", ("two-legs",)),
        ("b", ("two-legs",)),
    ]


def test_what_no_patient_reads_touches_nothing_and_a_title_touches_all():
    reviewed = set_card(HEEL, last_review=dt.date(2026, 3, 2), owner="M. Okafor").value
    assert what_changes(used(), HEEL, reviewed) == ()
    renamed = set_card(HEEL, title=say("Calf raise")).value
    assert len(what_changes(used(), HEEL, renamed)) == 2


def test_a_card_in_use_is_not_removed():
    with pytest.raises(EditError) as caught:
        edits.remove_card(used(), card=HEEL.id)
    assert caught.value.sentence == (
        "Heel raise is used in Calf, exercise 2: put another card there first."
    )
    assert STAND.id not in edits.remove_card(used(), card=STAND.id).value.cards


def test_a_removed_protocol_is_told_where_a_branch_led_to_it():
    other = "00000000-0000-4000-8000-0000000000ab"
    branch = Branch(
        id="br", finding=say("Locks"), then=BranchAction.USE_PROTOCOL, protocol=PROTOCOL_ID
    )
    leading = evolve(protocol(stage("s1", branches=(branch,))), id=other, slug="other")
    made = library(protocol(), leading)
    edited = edits.remove_protocol(made, protocol=PROTOCOL_ID)
    assert [note.sentence for note in edited.notes] == [
        "A branch of Calf led to the protocol that is gone."
    ]
    with pytest.raises(EditError, match="The library has no protocol"):
        edits.remove_protocol(edited.value, protocol=PROTOCOL_ID)


def test_a_variant_that_entries_start_with_needs_another_in_its_place():
    with pytest.raises(EditError) as caught:
        edits.remove_variant(used(), card=HEEL.id, variant="two-legs")
    assert caught.value.sentence == (
        "Calf, exercise 2 starts with this variant: choose one to put in its place."
    )
    edited = edits.remove_variant(used(), card=HEEL.id, variant="two-legs", instead="seated")
    first, second = list(edited.value.protocols[PROTOCOL_ID].entries())[1:]
    assert (first.start, second.allowed) == ("seated", ("one-leg",))
    assert edited.value.cards[HEEL.id].variant("two-legs") is None


def test_a_dose_that_fitted_only_the_removed_variant_goes_with_a_note():
    made = library(
        protocol(stage("s1", block("b1", entry("a", start="two-legs-hold", dose=hold(3, 10)))))
    )
    edited = edits.remove_variant(made, card=HEEL.id, variant="two-legs-hold", instead="two-legs")
    (left,) = edited.value.protocols[PROTOCOL_ID].entries()
    assert (left.dose, left.dose_fits) == (None, ())
    assert edited.notes[-1].sentence == (
        "The dose written for exercise 1 is gone: it fitted no other variant."
    )


def test_a_removed_variant_is_in_no_week_table_and_stood_in_for_by_no_hold():
    weeks = (WeekRow(from_week=1, variant="one-leg", change=DoseChange()),)
    tabled = evolve(reps(3, 10), weeks=weeks)
    card = evolve(HEEL, variants=(evolve(HEEL.variants[0], dose=tabled), *HEEL.variants[1:]))
    made = library(
        protocol(stage("s1", block("b1", entry("a", dose=tabled, hold_dose=tabled)))),
        cards={**CARDS, HEEL.id: card},
    )
    assert uses(made, HEEL.id, "one-leg")[0].fields == ("dose", "hold_dose")
    edited = edits.remove_variant(made, card=HEEL.id, variant="one-leg")
    (left,) = edited.value.protocols[PROTOCOL_ID].entries()
    after = edited.value.cards[HEEL.id]
    assert [dose.week_variants() for dose in (left.dose, left.hold_dose)] == [(), ()]
    assert after.variants[0].dose.week_variants() == ()
    assert after.variant("one-leg-hold").hold.stands_in_for == ()


@given(protocols(fewest=1), st.data())
def test_no_entry_names_a_removed_variant_and_doses_never_change_in_silence(made, data):
    before = library(made)
    gone = data.draw(st.sampled_from(HEEL.variants)).id
    instead = data.draw(st.sampled_from([each.id for each in HEEL.variants if each.id != gone]))
    edited = edits.remove_variant(before, card=HEEL.id, variant=gone, instead=instead)
    after = edited.value.protocols[PROTOCOL_ID]
    assert_sound(after)
    assert uses(edited.value, HEEL.id, gone) == ()
    noted = {note.about for note in edited.notes}
    for old, new in zip(made.entries(), after.entries(), strict=True):
        if dose_of(old, CARDS[old.card]) != dose_of(new, edited.value.cards[new.card]):
            assert old.id in noted


def test_terms_are_added_changed_and_removed():
    chair = Term(id="chair", kind=TermKind.KIT, name=say("Chair"))
    sturdy = evolve(chair, name=say("Sturdy chair"))
    made = edits.with_term(used(), term=chair)
    changed = edits.with_term(made, term=sturdy)
    assert changed.manifest.terms == (sturdy,)
    assert edits.without_term(changed, kind=TermKind.KIT, term="chair") == used()


def test_a_slug_is_free_among_cards_and_protocols():
    assert edits.free_slug(used(), "calf", of=HEEL.id) == "calf-2"
    assert edits.free_slug(used(), "calf", of=PROTOCOL_ID) == "calf"
