"""Criteria at the borders of stages: added, changed, moved, grouped and removed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, TimePassed
from authoring.model.edits import criteria
from authoring.model.edits.criteria import Border
from authoring.model.edits.outcome import EditError
from authoring.model.edits.tree import own_ids
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Since
from tests.model.edit_values import assert_sound, protocol, protocols, say, stage


def words(criterion_id: str, text: str = "Walks well") -> InWords:
    return InWords(id=criterion_id, words=say(text))


def gated() -> Protocol:
    return protocol(
        stage("s1", move_on=(words("a"), words("b"), words("c"))),
        stage("s2", step_back=(AllOf(id="g", parts=(words("p"), words("q"))),)),
    )


def names(made: Protocol, index: int, border: Border) -> list[str]:
    return [each.id for each in getattr(made.stages[index], border)]


def test_a_criterion_is_added_under_a_fresh_id():
    edited = criteria.add_criterion(
        gated(), stage="s2", border=Border.ENTRY, criterion=words("a"), index=0
    )
    assert names(edited.value, 1, Border.ENTRY) == ["a-2"]
    assert edited.select == ("a-2",)


def test_a_changed_criterion_keeps_its_id_and_place_in_its_group():
    new = TimePassed(id="whatever", since=Since.OPERATION, at_least=6)
    changed = criteria.change_criterion(gated(), criterion="q", new=new).value
    (group,) = changed.stages[1].step_back
    assert [(part.id, type(part)) for part in group.parts] == [("p", InWords), ("q", TimePassed)]


def test_a_criterion_may_become_a_group_and_ids_stay_unique():
    new = AnyOf(id="x", parts=(words("a"), words("b")))
    changed = criteria.change_criterion(gated(), criterion="a", new=new).value
    assert changed.stages[0].move_on[0].id == "a"
    assert_sound(changed)


def test_a_group_of_two_that_loses_one_is_the_other():
    edited = criteria.remove_criterion(gated(), criterion="p")
    assert edited.value.stages[1].step_back == (words("q"),)
    assert [note.about for note in edited.notes] == ["q"]


def test_criteria_move_within_and_between_borders():
    first = criteria.move_criterion(
        gated(), criterion="c", stage="s1", border=Border.MOVE_ON, index=0
    ).value
    assert names(first, 0, Border.MOVE_ON) == ["c", "a", "b"]
    over = criteria.move_criterion(first, criterion="c", stage="s2", border=Border.ENTRY).value
    assert names(over, 0, Border.MOVE_ON) == ["a", "b"]
    assert names(over, 1, Border.ENTRY) == ["c"]


def test_a_criterion_is_copied_after_itself():
    edited = criteria.duplicate_criterion(gated(), criterion="g")
    assert names(edited.value, 1, Border.STEP_BACK) == ["g", "g-2"]
    assert_sound(edited.value)


@pytest.mark.parametrize("all_of", [True, False])
def test_criteria_are_grouped_and_ungrouped(all_of):
    edited = criteria.group_criteria(gated(), criteria=("c", "b"), all_of=all_of)
    group = edited.value.stages[0].move_on[1]
    assert isinstance(group, AllOf if all_of else AnyOf)
    assert [part.id for part in group.parts] == ["b", "c"]
    assert criteria.ungroup_criteria(edited.value, group=group.id).value == gated()


@pytest.mark.parametrize(
    ("chosen", "sentence"),
    [
        (("a",), "A group needs two criteria or more."),
        (("a", "p"), "Group criteria of one list: move them together first."),
        (("p", "q"), "These criteria are a group of their own already."),
        (("a", "z"), "This protocol has no criterion “z”."),
    ],
)
def test_groups_that_make_no_sense_are_refused(chosen, sentence):
    with pytest.raises(EditError) as caught:
        criteria.group_criteria(gated(), criteria=chosen)
    assert caught.value.sentence == sentence


def test_what_is_no_group_is_not_ungrouped():
    with pytest.raises(EditError, match="This criterion is no group"):
        criteria.ungroup_criteria(gated(), group="a")


def every_criterion(made: Protocol) -> list[Criterion]:
    top = [each for one in made.stages for border in Border for each in getattr(one, border)]
    return [*top, *(part for each in top if isinstance(each, AllOf) for part in each.parts)]


@given(protocols(), st.data())
def test_edits_of_criteria_keep_any_protocol_sound(made, data):
    one = data.draw(st.sampled_from(every_criterion(made)))
    there, border = data.draw(st.sampled_from(made.stages)).id, data.draw(st.sampled_from(Border))
    edited = data.draw(
        st.sampled_from(
            [
                lambda: criteria.add_criterion(made, stage=there, border=border, criterion=one),
                lambda: criteria.change_criterion(made, criterion=one.id, new=words("n")),
                lambda: criteria.duplicate_criterion(made, criterion=one.id),
                lambda: criteria.remove_criterion(made, criterion=one.id),
                lambda: criteria.move_criterion(
                    made, criterion=one.id, stage=there, border=border, index=0
                ),
            ]
        )
    )()
    assert_sound(edited.value)


@given(protocols(), st.data())
def test_an_added_criterion_is_taken_back(made, data):
    there, border = data.draw(st.sampled_from(made.stages)).id, data.draw(st.sampled_from(Border))
    edited = criteria.add_criterion(made, stage=there, border=border, criterion=words("new"))
    assert set(own_ids(edited.value)) - set(own_ids(made)) == set(edited.select)
    back = criteria.remove_criterion(edited.value, criterion=edited.select[0]).value
    assert back == made
