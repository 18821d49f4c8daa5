"""Any field of any noun can be read and set by its path, and ids are fresh."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import ModelError, Node
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.edits import naming, tree
from authoring.model.edits.outcome import EditError
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, Status
from tests.model.edit_values import heel_raise, protocol, protocols, say, stage
from tests.strategies.values import values_of

CARD = heel_raise()
NOUNS = st.one_of(values_of(Card), values_of(Protocol), values_of(Clinic))


def every_path(root: Node) -> list[tree.Path]:
    paths = [
        (*path, name)
        for path, node in tree.nodes(root)
        for name in tree.hints_of(type(node))
        if name != "extra"
    ]
    lists = [p for p in paths if isinstance(tree.get_field(root, p), tuple)]
    items = [(*p, i) for p in lists for i in range(len(tree.get_field(root, p)))]
    return [*paths, *items]


@given(NOUNS, st.data())
def test_a_path_reads_back_what_was_set_there_and_text_of_it_leads_there(root, data):
    path = data.draw(st.sampled_from(every_path(root)))
    value = tree.get_field(root, path)
    assert tree.set_field(root, path, value) == root
    assert tree.parsed_path(tree.path_text(path)) == path


@given(NOUNS, st.data())
def test_a_set_text_is_read_back_and_the_old_one_restores_the_noun(root, data):
    texts = [path for path, _, value in tree.leaves(root) if isinstance(value, Text)]
    if not texts:
        return
    path = data.draw(st.sampled_from(texts))
    new = say(data.draw(st.text("abc ", max_size=8)))
    changed = tree.set_field(root, path, new)
    assert tree.get_field(changed, path) == new
    assert tree.set_field(changed, path, tree.get_field(root, path)) == root


@given(NOUNS, st.data())
def test_items_moved_put_in_and_taken_out_come_back(root, data):
    lists = [
        path
        for path in every_path(root)
        if isinstance(tree.get_field(root, path), tuple) and len(tree.get_field(root, path)) > 1
    ]
    lists = [path for path in lists if _is_free(root, path)]
    if not lists:
        return
    path = data.draw(st.sampled_from(lists))
    last = len(tree.get_field(root, path)) - 1
    index, to = data.draw(st.integers(0, last)), data.draw(st.integers(0, last))
    moved = tree.move_item(root, path, index=index, to=to)
    assert tree.get_field(moved, (*path, to)) == tree.get_field(root, (*path, index))
    assert tree.move_item(moved, path, index=to, to=index) == root


def _is_free(root: Node, path: tree.Path) -> bool:
    """Whether a list may be in any order and any length: no rule ties it to other fields."""
    return path[-1] in ("steps", "cues", "faults", "aims", "variants", "stages", "cautions")


def test_what_is_not_on_the_path_is_shared():
    changed = tree.set_field(CARD, ("variants", 0, "name"), say("On a chair"))
    assert all(new is old for new, old in zip(changed.variants[1:], CARD.variants[1:], strict=True))


@pytest.mark.parametrize(
    ("path", "new", "sentence"),
    [
        (("colour",), 1, "There is no colour here."),
        (("variants", 99), 1, "There is no variants[99] here."),
        (("variants", "0"), 1, "There is no variants.0 here."),
        (("variants", 0, "mode"), "dynamic", "variants[0].mode can’t hold this kind of value."),
        (("title",), "Heel raise", "title can’t hold this kind of value."),
        (("variants", 0, "rung"), True, "variants[0].rung can’t hold this kind of value."),
        (("variants", 0), None, "variants can’t hold this kind of value."),
        (("owner",), Mode.DYNAMIC, "owner can’t hold this kind of value."),
        ((), 1, "There is no place here."),
    ],
)
def test_a_place_or_value_that_is_none_is_refused(path, new, sentence):
    with pytest.raises(EditError) as caught:
        tree.set_field(CARD, path, new)
    assert caught.value.sentence == sentence


def test_limits_of_fields_hold_for_every_edit():
    with pytest.raises(ModelError, match=r"rung must be at most 20, and is 21\."):
        tree.set_field(CARD, ("variants", 0, "rung"), 21)


def test_fields_that_go_together_are_set_together():
    changed = tree.set_fields(protocol(), (), status=Status.RETIRED, version="1.0")
    assert (changed.status, changed.version) == (Status.RETIRED, "1.0")


@pytest.mark.parametrize("text", ["variants[x]", "a b", "[", "Title"])
def test_a_path_that_is_none_is_refused(text):
    with pytest.raises(EditError, match="is not a place in a file"):
        tree.parsed_path(text)


def test_a_noun_is_found_by_its_id():
    assert tree.path_of(CARD, "kick") == ("variants", 3, "cautions", 0)
    with pytest.raises(EditError, match="There is nothing here with the id “x”"):
        tree.path_of(CARD, "x")


# ---- ids -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("base", "taken", "expected"),
    [
        ("squat", set(), "squat"),
        ("squat", {"squat"}, "squat-2"),
        ("squat-2", {"squat", "squat-2"}, "squat-3"),
        ("s1", {"s1"}, "s1-2"),
    ],
)
def test_a_taken_id_counts_on(base, taken, expected):
    assert naming.fresh_id(base, taken=taken) == expected


@given(st.text(max_size=300))
def test_a_slug_of_any_words_fits_the_file_format(words):
    made = naming.slug_of(words, otherwise="stage")
    assert stage(made).id == made
    assert naming.fresh_id(made, taken={made}) != made


@given(protocols())
def test_a_copy_has_no_id_of_the_first_and_links_inside_it_follow(made):
    taken = naming.ids_in(made)
    copies, changed = naming.renewed(made.stages, taken=taken, points={"entry", "choice"})
    new = {each for stage_ in copies for each in tree.own_ids(stage_)}
    assert not new & taken
    assert set(changed) == set(tree.own_ids(made))
    for old, copy in zip(made.stages, copies, strict=True):
        for before, after in zip(old.entries(), copy.entries(), strict=True):
            assert after.id == changed[before.id]
            assert after.builds_on == (changed[before.builds_on] if before.builds_on else None)
