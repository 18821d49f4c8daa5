"""Edits of a whole protocol, of its life, and of the parts that stand in its lists."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import ModelError, evolve
from authoring.model.caution import Caution, RedFlag
from authoring.model.edits import parts, protocols
from authoring.model.edits.entries import move_entry_by, set_entry
from authoring.model.edits.outcome import EditError
from authoring.model.edits.tree import own_ids
from authoring.model.protocol import Activity, Lesson, Protocol
from authoring.model.sources import Reference, Source
from authoring.model.vocabulary import Basis, CautionKind, Status, Urgency
from tests.model.edit_values import (
    PROTOCOL_ID,
    assert_sound,
    block,
    entry,
    protocol,
    say,
    stage,
)
from tests.model.edit_values import protocols as any_protocol

TODAY = dt.date(2026, 3, 2)


def made() -> Protocol:
    return protocol(stage("s1", block("b1", entry("a"), entry("b"))))


def test_a_new_protocol_is_a_draft_with_the_stages_named():
    new = protocols.new_protocol(
        protocol_id=PROTOCOL_ID,
        title=say("Calf strain"),
        language="en",
        slugs={"calf-strain"},
        stages=[say("Calm"), say("Load"), say("Calm")],
    )
    assert (new.slug, new.status) == ("calf-strain-2", Status.DRAFT)
    assert [each.id for each in new.stages] == ["calm", "load", "calm-2"]
    assert_sound(new)


def test_approval_freezes_numbers_and_names_who_and_when():
    done = protocols.approved(made(), reviewer="M. Okafor", date=TODAY).value
    assert [each.number for each in done.entries()] == [1, 2]
    assert (done.status, done.approvals[0].reviewer, done.last_review) == (
        Status.APPROVED,
        "M. Okafor",
        TODAY,
    )
    with pytest.raises(ModelError, match="reviewer must not be empty"):
        protocols.approved(made(), reviewer="", date=TODAY)
    with pytest.raises(EditError, match="A retired protocol is not approved"):
        protocols.approved(protocols.retired(made()).value, reviewer="M. Okafor", date=TODAY)


def test_only_a_draft_is_sent_for_review():
    sent = protocols.sent_for_review(made()).value
    assert sent.status is Status.IN_REVIEW
    with pytest.raises(EditError, match="Only a draft is sent for review"):
        protocols.sent_for_review(sent)


@pytest.mark.parametrize(
    ("version", "after"), [("0.1", "0.2"), ("1.9", "1.10"), ("2", "2.1"), ("1.2.3", "1.2.4")]
)
def test_a_reopened_protocol_is_a_draft_of_the_next_version(version, after):
    done = protocols.approved(
        evolve(made(), version=version), reviewer="M. Okafor", date=TODAY
    ).value
    draft = protocols.reopened(done)
    assert (draft.value.version, draft.value.status, draft.value.approvals) == (
        after,
        Status.DRAFT,
        (),
    )
    assert draft.notes[0].sentence == f"This is a draft of version {after} now."


def test_what_was_approved_does_not_change_under_the_same_approval():
    done = protocols.approved(made(), reviewer="M. Okafor", date=TODAY).value
    worded = set_entry(done, entry="a", note=say("Slowly.")).value
    moved = move_entry_by(done, entry="a", by=1).value
    for after in (worded, moved):
        assert protocols.reopened_if_changed(done, after).value.status is Status.DRAFT
    dated = protocols.set_protocol(done, review_due=dt.date(2027, 3, 2)).value
    retired = protocols.retired(done).value
    for after in (done, dated, retired):
        assert protocols.reopened_if_changed(done, after).value == after
    assert protocols.reopened_if_changed(made(), moved).value == moved


def test_a_copy_starts_its_life_anew():
    done = protocols.approved(made(), reviewer="M. Okafor", date=TODAY).value
    other = "00000000-0000-4000-8000-0000000000ab"
    copy = protocols.copied_protocol(done, protocol_id=other, title=say("Calf"), slugs={"calf"})
    assert copy == evolve(made(), id=other, slug="calf-2")


def test_fields_with_edits_of_their_own_are_refused():
    with pytest.raises(EditError, match="status has an edit of its own"):
        protocols.set_protocol(made(), status=Status.APPROVED)


# ---- parts -------------------------------------------------------------------------------


def part(which: str) -> tuple[tuple[str | int, ...], object]:
    return {
        "lesson": (("education",), Lesson(id="a", title=say("Rest"), text=say("Sleep."))),
        "flag": (
            ("red_flags",),
            RedFlag(id="a", question=say("Hot?"), action=say("Ring."), urgency=Urgency.SAME_DAY),
        ),
        "activity": (("stages", 0, "activities"), Activity(id="a", text=say("Walk."))),
    }[which]


@pytest.mark.parametrize("which", ["lesson", "flag", "activity"])
def test_a_part_is_added_copied_moved_and_removed(which):
    path, new = part(which)
    added = parts.add_part(made(), path=path, part=new)
    assert added.select == ("a-2",)
    copied = parts.duplicate_part(added.value, part="a-2")
    assert copied.select == ("a-3",)
    moved = parts.move_part(copied.value, part="a-3", to=0).value
    assert [each for each in own_ids(moved) if each.startswith("a-")] == ["a-3", "a-2"]
    one = parts.remove_part(moved, part="a-3").value
    assert one == added.value
    assert parts.remove_part(one, part="a-2").value == made()


def test_a_part_of_the_wrong_kind_does_not_fit_its_list():
    with pytest.raises(EditError, match="red_flags can’t hold this kind of value"):
        parts.add_part(made(), path=("red_flags",), part=part("lesson")[1])


def test_a_caution_that_becomes_a_stop_sign_says_where_it_leads():
    calm = Caution(id="c", kind=CautionKind.PRECAUTION, text=say("Mind your calf."))
    with_it = parts.add_part(made(), path=("cautions",), part=calm).value
    stop = parts.set_part(with_it, part="c", kind=CautionKind.STOP_SIGN).value
    assert stop.cautions[0].urgency is Urgency.STOP_EXERCISE
    assert parts.set_part(stop, part="c", kind=CautionKind.PRECAUTION).value == with_it


def test_a_publication_that_is_named_stays():
    book = Reference(id="book", citation="Invented A. 2020.")
    rests = (Source(basis=Basis.PUBLISHED, reference="book"),)
    with_it = parts.add_part(made(), path=("references",), part=book).value
    named = set_entry(with_it, entry="a", sources=rests).value
    with pytest.raises(EditError) as caught:
        parts.remove_part(named, part="book")
    assert caught.value.sentence == (
        "Sources still name this publication (1): take it out there first."
    )
    assert parts.remove_part(with_it, part="book").value == made()


@given(any_protocol(), st.data())
def test_an_added_part_keeps_any_protocol_sound_and_is_taken_back(before, data):
    path, new = part(data.draw(st.sampled_from(["lesson", "flag", "activity"])))
    taken = evolve(new, id=data.draw(st.sampled_from(own_ids(before))))
    edited = parts.add_part(before, path=path, part=taken)
    assert_sound(edited.value)
    assert parts.remove_part(edited.value, part=edited.select[0]).value == before
