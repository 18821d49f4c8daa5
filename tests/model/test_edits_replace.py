"""Find and replace change words, and never what names or refers to things."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.base import ModelError, evolve
from authoring.model.clinic import Clinic
from authoring.model.edits.outcome import EditError
from authoring.model.edits.replace import Holder, Options, find, replace
from authoring.model.edits.tree import get_field, leaves, own_ids
from authoring.model.edits.variants import add_step, set_variant
from authoring.model.library import Library, Term
from authoring.model.protocol import Protocol
from authoring.model.sources import Reference
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind
from tests.model.edit_values import (
    CARD_IDS,
    CARDS,
    PROTOCOL_ID,
    block,
    entry,
    library,
    protocol,
    say,
    stage,
)
from tests.strategies.values import values_of

HEEL = CARDS[CARD_IDS[0]]


def worded() -> Library:
    """The word "heel" in a card (id and slug too), a protocol in two languages and the clinic."""
    card = add_step(HEEL, variant="seated", text=say("Lift your heels, heel by heel.")).value
    both = Text({"en": "Heel first", "de": "Heel zuerst"})
    made = protocol(
        stage("heel", block("b", entry("heel-1", note=both))),
        references=(Reference(id="heel", citation="Heel A. Heels. 2020.", doi="10.1234/heel"),),
    )
    clinic = Clinic(language="en", name=say("Heel Clinic"), email="heel@example.org")
    made_library = library(made, clinic=clinic)
    term = Term(id="heel", kind=TermKind.DEMAND, name=say("Heel load"), also=("heel work",))
    manifest = evolve(made_library.manifest, terms=(term,))
    return evolve(made_library, manifest=manifest, cards={**made_library.cards, HEEL.id: card})


def said(matches) -> list[tuple[str, str, str]]:
    return [(each.holder.value, each.words, each.context) for each in matches]


def test_words_are_found_and_ids_slugs_and_dois_are_not():
    assert said(find(worded(), "heel", Options(match_case=True))) == [
        ("card", "heel", "Lift your heels, heel by heel."),
        ("card", "heel", "Lift your heels, heel by heel."),
        ("card", "heel", "Lift your heels, heel by heel."),
        ("protocol", "heel", "heel"),
        ("clinic", "heel", "heel@example.org"),
        ("library", "heel", "heel work"),
    ]


@pytest.mark.parametrize(
    ("options", "count"),
    [
        (Options(), 13),
        (Options(whole_words=True), 11),
        (Options(match_case=True, whole_words=True), 5),
        (Options(language="de"), 1),
        (Options(holders=frozenset({Holder.CLINIC})), 2),
        (Options(holders=frozenset()), 0),
    ],
)
def test_options_narrow_what_is_found(options, count):
    assert len(find(worded(), "heel", options)) == count


def test_an_empty_pattern_is_found_nowhere_and_signs_are_no_wildcards():
    assert find(worded(), "") == ()
    assert find(worded(), "h..l") == ()
    assert len(find(worded(), "2020.")) == 1


def test_the_matches_that_are_wanted_are_replaced_and_no_others():
    made = worded()
    first, *_ = find(made, "heel", Options(match_case=True))
    after = replace(made, [first], "toe")
    assert after.cards[HEEL.id].variant("seated").steps == (say("Lift your toes, heel by heel."),)
    assert after.protocols == made.protocols


def test_all_matches_are_replaced_in_every_file_and_language():
    after = replace(worded(), find(worded(), "heel"), "toe", keep_capital=True)
    assert find(after, "heel") == ()
    (placed,) = after.protocols[PROTOCOL_ID].entries()
    assert placed.note == Text({"en": "Toe first", "de": "Toe zuerst"})
    assert (placed.id, after.protocols[PROTOCOL_ID].references[0].doi) == ("heel-1", "10.1234/heel")
    assert after.clinic.name == say("Toe Clinic")
    assert after.manifest.terms[0].also == ("toe work",)


def test_a_place_that_changed_since_is_refused():
    made = worded()
    matches = find(made, "heel", Options(holders=frozenset({Holder.CARD})))
    card = set_variant(made.cards[HEEL.id], variant="seated", steps=(say("Sit."),)).value
    changed = evolve(made, cards={**made.cards, HEEL.id: card})
    with pytest.raises(EditError, match="The words changed since they were found"):
        replace(changed, matches, "toe")


def test_a_text_that_must_have_words_keeps_some():
    made = worded()
    (citation,) = find(made, "Heel A. Heels. 2020.")
    with pytest.raises(ModelError, match="citation must not be empty"):
        replace(made, [citation], "")


@given(values_of(Protocol), st.sampled_from(["a", "e", " ", "1", "\n", "<b>"]))
def test_replacing_there_and_back_changes_nothing_and_no_id_moves(made, pattern):
    before = Library(manifest=library().manifest, protocols={made.id: made})
    options = Options(match_case=True, holders=frozenset({Holder.PROTOCOL}))
    matches = find(before, pattern, options)
    odd = "\uf8ff"
    if any(odd in str(value) for _, _, value in leaves(made)):
        return
    after = replace(before, matches, odd)
    assert own_ids(after.protocols[made.id]) == own_ids(made)
    assert find(after, pattern, options) == ()
    assert replace(after, find(after, odd, options), pattern) == before


@given(values_of(Protocol), st.sampled_from(["A", "e", "1"]), st.booleans(), st.booleans())
def test_every_match_stands_where_it_says(made, pattern, case, whole):
    before = Library(manifest=library().manifest, protocols={made.id: made})
    options = Options(match_case=case, whole_words=whole)
    for match in find(before, pattern, options):
        if match.holder is not Holder.PROTOCOL:
            continue
        value = get_field(made, match.path)
        words = value.values[match.language] if isinstance(value, Text) else value
        assert words[match.start : match.end] == match.words
        assert match.words.lower() == pattern.lower()
