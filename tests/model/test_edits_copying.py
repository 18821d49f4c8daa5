"""Copy and paste within a library and between two: sound files, and nothing left behind."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.dosage.clip_text import as_text
from authoring.files.convert import from_json, to_json
from authoring.handout.catalogue import load_phrases
from authoring.model.base import evolve
from authoring.model.card import Picture
from authoring.model.edits import copying
from authoring.model.edits.choices import make_choice
from authoring.model.edits.clip import (
    Clip,
    clip_entries,
    clip_stages,
    clip_variants,
    images_in,
)
from authoring.model.edits.outcome import EditError
from authoring.model.edits.stages import remove_stage
from authoring.model.edits.tree import own_ids
from authoring.model.edits.variants import add_picture, set_variant
from authoring.model.library import Library, Term
from authoring.model.protocol import Branch
from authoring.model.sources import Reference, Source
from authoring.model.text import Text
from authoring.model.vocabulary import Basis, BranchAction, TermKind
from tests.model.edit_values import (
    CARD_IDS,
    CARDS,
    PROTOCOL_ID,
    assert_sound,
    block,
    entry,
    library,
    protocol,
    protocols,
    reps,
    say,
    stage,
)

HEEL, BRIDGE, STAND = (CARDS[key] for key in CARD_IDS)
OTHER_ID = "00000000-0000-4000-8000-0000000000ab"
IMAGE = f"{'b' * 64}.png"
TRIAL = Reference(id="trial", citation="Invented A. A trial. 2020.", doi="10.1234/ABC")
RESTS = (Source(basis=Basis.PUBLISHED, reference="trial"),)


def home() -> Library:
    """A library whose heel raise needs kit, a picture and a publication."""
    card = set_variant(HEEL, variant="seated", position="sitting").value
    picture = Picture(image=IMAGE, alt=say("Heels up"))
    card = add_picture(card, variant="seated", picture=picture).value
    made = protocol(
        stage("s1", block("b1", entry("a", sources=RESTS), entry("x", BRIDGE))),
        stage("s2", block("b2", entry("b", builds_on="a"), entry("c", builds_on="b"))),
        references=(TRIAL, Reference(id="unused", citation="Invented B. 2021.")),
    )
    terms = (
        Term(id="sitting", kind=TermKind.POSITION, name=say("Sitting"), broader="low"),
        Term(id="low", kind=TermKind.POSITION, name=say("Low")),
        Term(id="lying", kind=TermKind.POSITION, name=say("Lying")),
    )
    made_library = library(made)
    return evolve(
        made_library,
        cards={**CARDS, card.id: card},
        manifest=evolve(made_library.manifest, terms=terms),
    )


def away(language: str = "en", **facts: object) -> Library:
    """Another library, without cards, whose protocol has an entry called "a" too."""
    made = protocol(stage("s1", block("b1", entry("a", STAND), **facts)))
    moved = evolve(made, id=OTHER_ID, slug="other", language=language)
    bare = library(moved, cards={STAND.id: STAND})
    return evolve(bare, manifest=evolve(bare.manifest, language=language))


def copied(*entries: str) -> Clip:
    return clip_entries(home(), protocol=PROTOCOL_ID, entries=entries)


def pasted(clip: Clip, into: Library | None = None, **where: object):
    return copying.paste_entries(into or away(), clip, protocol=OTHER_ID, block="b1", **where)


def test_a_clip_carries_cards_terms_and_publications_and_no_more():
    clip = copied("b", "a")
    assert [each.id for each in clip.entries] == ["a", "b"]
    assert [card.slug for card in clip.cards] == ["heel-raise"]
    assert [term.id for term in clip.terms] == ["sitting", "low"]
    assert clip.references == (TRIAL,)
    assert images_in(clip) == {IMAGE}


def test_a_clip_goes_through_json():
    clip = copied("a", "b")
    assert from_json(Clip, to_json(clip)) == clip


def test_pasted_entries_bring_their_card_and_keep_the_links_among_them():
    edited = pasted(copied("a", "b"))
    after = edited.value.protocols[OTHER_ID]
    assert_sound(after)
    assert [(e.id, e.builds_on) for e in after.entries()] == [
        ("a", None),
        ("a-2", None),
        ("b", "a-2"),
    ]
    assert edited.select == ("a-2", "b")
    assert HEEL.id in edited.value.cards
    assert [term.id for term in edited.value.manifest.terms] == ["sitting", "low"]
    assert after.references == (TRIAL,)
    assert edited.notes == ()


def test_a_link_to_what_was_not_copied_is_cut_in_another_protocol():
    after = pasted(copied("c")).value.protocols[OTHER_ID]
    assert [e.builds_on for e in after.entries()] == [None, None]


def test_a_link_to_what_was_not_copied_stays_in_the_same_protocol():
    clip = copied("c")
    edited = copying.paste_entries(home(), clip, protocol=PROTOCOL_ID, block="b2")
    assert [(e.id, e.builds_on) for e in edited.value.protocols[PROTOCOL_ID].entries()][-1] == (
        "c-2",
        "b",
    )


def test_the_same_publication_is_not_taken_twice():
    into = away()
    known = evolve(TRIAL, id="abc-2020", doi="10.1234/abc", note="Ours.")
    other = evolve(into.protocols[OTHER_ID], references=(known,))
    into = evolve(into, protocols={OTHER_ID: other})
    after = pasted(copied("a"), into).value.protocols[OTHER_ID]
    assert after.references == (known,)
    assert [e.sources[0].reference for e in after.entries() if e.sources] == ["abc-2020"]


def test_another_publication_of_the_same_id_gets_another():
    into = away()
    theirs = Reference(id="trial", citation="Invented Z. Another trial. 2019.")
    other = evolve(into.protocols[OTHER_ID], references=(theirs,))
    after = pasted(copied("a"), evolve(into, protocols={OTHER_ID: other})).value
    assert [each.id for each in after.protocols[OTHER_ID].references] == ["trial", "trial-2"]
    (entry_,) = (e for e in after.protocols[OTHER_ID].entries() if e.sources)
    assert entry_.sources[0].reference == "trial-2"


def test_plain_words_keep_their_language_in_a_file_of_another():
    source = home()
    noted = evolve(
        source.protocols[PROTOCOL_ID],
        stages=(stage("s1", block("b1", entry("a", note=say("Slowly.")))),),
    )
    clip = clip_entries(
        evolve(source, protocols={PROTOCOL_ID: noted}), protocol=PROTOCOL_ID, entries=["a"]
    )
    after = pasted(clip, away("de")).value
    (_, new) = after.protocols[OTHER_ID].entries()
    assert new.note == Text({"en": "Slowly."})
    assert after.manifest.terms[0].name == Text({"en": "Sitting"})
    assert after.cards[HEEL.id].title == say("Heel raise")


def test_the_librarys_own_card_stays_and_a_note_says_what_it_lacks():
    own = evolve(HEEL, variants=HEEL.variants[1:])
    into = away()
    into = evolve(into, cards={**into.cards, own.id: own})
    edited = pasted(copied("a"), into)
    assert edited.value.cards[HEEL.id] == own
    assert [note.sentence for note in edited.notes] == [
        "Heel raise is not the same in this library; this library’s stays.",
        "Exercise 2 names a variant that this library’s card does not have.",
    ]


def test_a_card_whose_file_name_is_taken_gets_another():
    into = away()
    named = evolve(STAND, slug="heel-raise")
    edited = pasted(copied("a"), evolve(into, cards={STAND.id: named}))
    assert edited.value.cards[HEEL.id].slug == "heel-raise-2"


def test_a_choice_comes_along_with_two_of_its_entries_and_not_with_one():
    made = home()
    chosen = make_choice(made.protocols[PROTOCOL_ID], entries=("b", "c")).value
    made = evolve(made, protocols={PROTOCOL_ID: chosen})
    both = clip_entries(made, protocol=PROTOCOL_ID, entries=["b", "c"])
    after = pasted(both).value.protocols[OTHER_ID]
    assert [e.choice for e in after.entries()] == [None, "choice", "choice"]
    one = clip_entries(made, protocol=PROTOCOL_ID, entries=["c"])
    after = pasted(one).value.protocols[OTHER_ID]
    assert [e.choice for e in after.entries()] == [None, None]
    again = copying.paste_entries(made, both, protocol=PROTOCOL_ID, block="b2").value
    assert_sound(again.protocols[PROTOCOL_ID])
    assert len(again.protocols[PROTOCOL_ID].stages[1].blocks[0].choices) == 2


def test_stages_are_pasted_with_branches_that_lead_somewhere():
    made = home().protocols[PROTOCOL_ID]
    branches = tuple(
        Branch(id=f"br-{to}", finding=say("Swells"), then=BranchAction.GO_TO_STAGE, stage=to)
        for to in ("s1", "s2")
    )
    made = evolve(made, stages=(made.stages[0], evolve(made.stages[1], branches=branches)))
    source = evolve(home(), protocols={PROTOCOL_ID: made})
    clip = clip_stages(source, protocol=PROTOCOL_ID, stages=["s2"])
    edited = copying.paste_stages(away(), clip, protocol=OTHER_ID, index=0)
    after = edited.value.protocols[OTHER_ID]
    assert_sound(after)
    assert [(each.id, len(list(each.entries()))) for each in after.stages] == [("s2", 2), ("s1", 1)]
    assert [branch.stage for branch in after.stages[0].branches] == [None, "s2"]


def test_variants_are_pasted_into_another_card():
    clip = clip_variants(home(), card=HEEL.id, variants=["seated", "one-leg-hold"])
    edited = copying.paste_variants(away(), clip, card=STAND.id)
    after = edited.value.cards[STAND.id]
    assert [each.id for each in after.variants][2:] == ["seated", "one-leg-hold"]
    assert after.variant("one-leg-hold").hold.stands_in_for == ()
    assert [term.id for term in edited.value.manifest.terms] == ["sitting", "low"]
    again = copying.paste_variants(home(), clip, card=HEEL.id).value.cards[HEEL.id]
    assert again.variant("one-leg-hold-2").hold.stands_in_for == ("one-leg",)
    assert len(own_ids(again)) == len(set(own_ids(again)))


def test_a_clip_of_other_things_is_refused():
    clip = copied("a")
    with pytest.raises(EditError, match="No stages were copied"):
        copying.paste_stages(away(), clip, protocol=OTHER_ID)
    with pytest.raises(EditError, match="No variants were copied"):
        copying.paste_variants(away(), clip, card=STAND.id)
    with pytest.raises(EditError, match="No exercises were copied"):
        pasted(evolve(clip, entries=()))


@given(protocols(fewest=1), protocols(), st.data(), st.booleans())
def test_pasting_anything_anywhere_keeps_a_protocol_sound(source, target, data, same):
    made = library(source)
    names = [each.id for each in source.entries()]
    some = data.draw(st.lists(st.sampled_from(names), min_size=1, unique=True))
    clip = clip_entries(made, protocol=PROTOCOL_ID, entries=some)
    whole = clip_stages(made, protocol=PROTOCOL_ID, stages=[source.stages[-1].id])
    into = source if same else evolve(target, id=OTHER_ID)
    there = library(into)
    index = data.draw(st.none() | st.integers(0, 3))
    after = copying.paste_stages(there, whole, protocol=into.id, index=index).value
    assert_sound(after.protocols[into.id])
    blocks = [b.id for s in into.stages for b in s.blocks]
    if blocks:
        home_block = data.draw(st.sampled_from(blocks))
        edited = copying.paste_entries(there, clip, protocol=into.id, block=home_block, index=index)
        assert_sound(edited.value.protocols[into.id])
        assert len(edited.select) == len(some)


@given(protocols())
def test_a_pasted_stage_that_is_removed_leaves_the_stages_as_they_were(made):
    from authoring.model.edits.entries import unfreeze_numbers

    clip = clip_stages(library(made), protocol=PROTOCOL_ID, stages=[made.stages[0].id])
    edited = copying.paste_stages(library(made), clip, protocol=PROTOCOL_ID)
    after = edited.value.protocols[PROTOCOL_ID]
    back = remove_stage(after, stage=edited.select[0]).value
    assert unfreeze_numbers(back) == unfreeze_numbers(made)


# ---- as text ----------------------------------------------------------------------------


def test_copied_stages_read_as_numbered_exercises_with_doses_in_words():
    made = protocol(
        stage("settle", block("b", entry("a"), entry("d", BRIDGE, dose=reps(2, 8)))),
        stage("load", block("c", entry("e", BRIDGE, note=say("Slowly.")))),
    )
    clip = clip_stages(library(made), protocol=PROTOCOL_ID, stages=["settle", "load"])
    assert as_text(clip, load_phrases("en")) == (
        "settle\n"
        "\n"
        "1. Heel raise: seated\n"
        "   3 sets of 20\n"
        "2. Bridge: bridge\n"
        "   2 sets of 8\n"
        "\n"
        "load\n"
        "\n"
        "3. Bridge: bridge\n"
        "   Slowly.\n"
    )


def test_copied_variants_read_as_steps():
    card = set_variant(HEEL, variant="seated", steps=(say("Push up."), say("Lower."))).value
    made = evolve(library(), cards={card.id: card})
    clip = clip_variants(made, card=card.id, variants=["seated"])
    assert as_text(clip, load_phrases("en")) == (
        "seated\n   3 sets of 20\n   1. Push up.\n   2. Lower.\n"
    )
