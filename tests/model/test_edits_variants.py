"""Edits of a card's ladder and of what stands in its variants."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.files.convert import from_json, to_json
from authoring.model.base import ModelError
from authoring.model.card import Card, Picture
from authoring.model.caution import Caution
from authoring.model.edits import cards, variants
from authoring.model.edits.outcome import EditError
from authoring.model.edits.tree import own_ids
from authoring.model.sources import Reference
from authoring.model.vocabulary import CautionKind, Mode, Urgency
from tests.model.edit_values import heel_raise, reps, say

CARD = heel_raise()


def rungs(card: Card) -> dict[str, int]:
    return {each.id: each.rung for each in card.variants}


def assert_sound_card(card: Card) -> None:
    ids = own_ids(card)
    assert len(ids) == len(set(ids))
    for each in card.variants:
        for other in each.hold.stands_in_for if each.hold is not None else ():
            assert card.variant(other) is not None
    assert from_json(Card, to_json(card)) == card


def test_a_new_variant_stands_after_the_others_of_its_rung():
    edited = variants.add_variant(CARD, rung=1, mode=Mode.DYNAMIC, name=say("One leg"))
    assert edited.select == ("one-leg-2",)
    assert list(rungs(edited.value))[5] == "one-leg-2"


def test_a_derived_variant_differs_only_in_what_is_said():
    edited = variants.derive_variant(
        CARD, source="one-leg", rung=2, name=say("One leg, 10 kg"), dose=reps(3, 6)
    )
    old, new = CARD.variant("one-leg"), edited.value.variant("one-leg-10-kg")
    assert (new.rung, new.dose, new.position) == (2, reps(3, 6), old.position)
    assert [each.text for each in new.cautions] == [each.text for each in old.cautions]
    assert new.cautions[0].id == "kick-2"
    assert_sound_card(edited.value)


def test_a_hold_made_of_a_moving_variant_stands_in_for_it_with_a_dose_of_its_own():
    edited = variants.derive_variant(
        CARD, source="seated", rung=-1, name=say("Seated, hold"), mode=Mode.ISOMETRIC
    )
    new = edited.value.variant(edited.select[0])
    assert (new.hold.stands_in_for, new.dose) == (("seated",), None)
    back = variants.derive_variant(
        edited.value, source=new.id, rung=-1, name=say("Again"), mode=Mode.DYNAMIC
    )
    assert back.value.variant("again").hold is None


def test_a_variant_moves_to_a_rung_beside_others_or_pushes_them_on():
    beside = variants.move_to_rung(CARD, variant="seated", rung=1).value
    assert rungs(beside)["seated"] == rungs(beside)["one-leg"] == 1
    pushed = variants.move_to_rung(CARD, variant="seated", rung=1, shift=True)
    assert rungs(pushed.value) == {
        "seated": 1,
        "two-legs": 0,
        "two-legs-hold": 0,
        "one-leg": 2,
        "one-leg-hold": 2,
        "one-leg-weight": 3,
    }
    assert pushed.notes[0].sentence == "“one leg” is on rung 2 now."


@pytest.mark.parametrize(
    ("rung", "expected"),
    [
        (1, [-1, 0, 0, 2, 2, 3]),
        (0, [-1, 0, 0, 2, 2, 3]),
        (-1, [-2, 0, 0, 1, 1, 2]),
        (3, [-1, 0, 0, 1, 1, 2]),
    ],
)
def test_a_new_rung_pushes_the_others_away_from_rung_0(rung, expected):
    assert list(rungs(variants.insert_rung(CARD, rung=rung).value).values()) == expected


def test_alternatives_of_a_rung_change_places():
    swapped = variants.reorder_on_rung(CARD, variant="two-legs", by=1).value
    assert list(rungs(swapped))[1:3] == ["two-legs-hold", "two-legs"]
    assert variants.reorder_on_rung(swapped, variant="two-legs", by=-1).value == CARD
    with pytest.raises(EditError, match="This variant is the first of its rung"):
        variants.reorder_on_rung(CARD, variant="two-legs", by=-1)
    with pytest.raises(EditError, match="This variant is the last of its rung"):
        variants.reorder_on_rung(CARD, variant="seated", by=1)


def test_a_hold_loses_the_removed_variant_it_stood_in_for():
    edited = variants.remove_variant(CARD, variant="one-leg")
    assert [note.sentence for note in edited.notes] == [
        "“one leg hold” stands in for no variant now."
    ]
    assert_sound_card(edited.value)


def test_steps_are_added_moved_and_removed():
    card = CARD
    for words in ("Push up.", "Wait.", "Lower."):
        card = variants.add_step(card, variant="seated", text=say(words)).value
    moved = variants.move_step(card, variant="seated", index=2, to=0).value
    assert moved.variant("seated").steps == (say("Lower."), say("Push up."), say("Wait."))
    for _ in range(3):
        moved = variants.remove_step(moved, variant="seated", index=0).value
    assert moved == CARD
    with pytest.raises(EditError, match=r"There is no variants\[0\]\.steps\[0\] here"):
        variants.remove_step(CARD, variant="seated", index=0)


def test_pictures_are_added_moved_and_removed():
    first, second = (Picture(pose=pose, alt=say(pose)) for pose in ("up", "down"))
    card = variants.add_picture(CARD, variant="seated", picture=first).value
    card = variants.add_picture(card, variant="seated", picture=second, index=0).value
    assert card.variant("seated").pictures == (second, first)
    card = variants.move_picture(card, variant="seated", index=0, to=1).value
    assert card.variant("seated").pictures == (first, second)
    card = variants.remove_picture(card, variant="seated", index=0).value
    assert variants.remove_picture(card, variant="seated", index=0).value == CARD


def test_cautions_are_added_changed_moved_and_removed():
    new = Caution(id="kick", kind=CautionKind.EXPECTED_RESPONSE, text=say("A mild ache."))
    added = variants.add_caution(CARD, caution=new)
    assert added.select == ("kick-2",)
    stop = variants.set_caution(added.value, caution="kick-2", kind=CautionKind.STOP_SIGN).value
    assert stop.cautions[0].urgency is Urgency.STOP_EXERCISE
    calm = variants.set_caution(stop, caution="kick-2", kind=CautionKind.PRECAUTION).value
    assert calm.cautions[0].urgency is None
    moved = variants.move_caution(calm, caution="kick-2", variant="seated").value
    assert (moved.cautions, moved.variant("seated").cautions[0].id) == ((), "kick-2")
    assert variants.remove_caution(moved, caution="kick-2").value == CARD


def test_a_stop_sign_without_urgency_is_refused():
    with pytest.raises(ModelError, match="A stop sign has an urgency"):
        variants.set_caution(CARD, caution="kick", kind=CautionKind.STOP_SIGN, urgency=None)
    with pytest.raises(EditError, match="nothing here with the id “seated”"):
        variants.remove_caution(CARD, caution="seated")


def test_fields_with_edits_of_their_own_are_refused():
    with pytest.raises(EditError, match="rung has an edit of its own"):
        variants.set_variant(CARD, variant="seated", rung=3)
    with pytest.raises(EditError, match="variants has an edit of its own"):
        cards.set_card(CARD, variants=())
    assert cards.set_card(CARD, owner="M. Okafor").value.owner == "M. Okafor"


def test_a_new_card_is_called_after_its_title_and_has_a_variant_to_start_with():
    made = cards.new_card(
        card_id="00000000-0000-4000-8000-0000000000cc",
        title=say("Heel raise"),
        language="en",
        slugs={"heel-raise"},
    )
    assert (made.slug, rungs(made)) == ("heel-raise-2", {"heel-raise": 0})
    copy = cards.copied_card(CARD, card_id=made.id, title=say("Toe raise"), slugs={"heel-raise"})
    assert (copy.slug, copy.variants) == ("toe-raise", CARD.variants)


def test_forbidden_set_ups_and_publications_get_ids():
    edited = cards.add_forbidden(CARD, set_up=say("On a stair edge"), why=say("You may fall."))
    assert edited.select == ("on-a-stair-edge",)
    book = Reference(id="kick", citation="Invented A. A book. 2020.")
    assert cards.add_reference(edited.value, reference=book).select == ("kick-2",)


def any_edit(card: Card, data: st.DataObject) -> Card:
    rung = data.draw(st.integers(-3, 4))
    which = data.draw(st.sampled_from(card.variants)).id
    mode = data.draw(st.sampled_from([Mode.DYNAMIC, Mode.ISOMETRIC, Mode.BALANCE]))
    name = say(data.draw(st.sampled_from(["One leg", "Kick", "Seated", "x"])))
    edits = [
        lambda: variants.add_variant(card, rung=rung, mode=mode, name=name),
        lambda: variants.derive_variant(card, source=which, rung=rung, name=name, mode=mode),
        lambda: variants.move_to_rung(
            card, variant=which, rung=rung, shift=data.draw(st.booleans())
        ),
        lambda: variants.insert_rung(card, rung=rung),
        lambda: variants.remove_variant(card, variant=which),
    ]
    return data.draw(st.sampled_from(edits))().value


@given(st.data())
def test_edits_of_the_ladder_keep_any_card_sound(data):
    card = CARD
    for _ in range(3):
        card = any_edit(card, data)
        assert_sound_card(card)


@given(st.data(), st.integers(-3, 4))
def test_a_pushing_variant_stands_alone_and_no_order_is_turned(data, rung):
    which = data.draw(st.sampled_from(CARD.variants)).id
    moved = variants.move_to_rung(CARD, variant=which, rung=rung, shift=True).value
    old, new = rungs(CARD), rungs(moved)
    assert new[which] == rung
    if old[which] != rung:
        assert [key for key, value in new.items() if value == rung] == [which]
    others = [key for key in old if key != which]
    assert [new[a] < new[b] for a in others for b in others] == [
        old[a] < old[b] for a in others for b in others
    ]


@given(st.data(), st.integers(-3, 4))
def test_an_added_or_derived_variant_is_taken_back(data, rung):
    which = data.draw(st.sampled_from(CARD.variants)).id
    for edited in (
        variants.add_variant(CARD, rung=rung, mode=Mode.STRETCH, name=say("New")),
        variants.derive_variant(CARD, source=which, rung=rung, name=say("New")),
    ):
        assert variants.remove_variant(edited.value, variant=edited.select[0]).value == CARD
