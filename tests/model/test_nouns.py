"""Facts of all nouns at once, and the library's small look-ups."""

from __future__ import annotations

from enum import StrEnum

import pytest

from authoring.files.reference import all_nouns
from authoring.model.base import Node, fact_of, fields
from authoring.model.card import Card, Variant
from authoring.model.library import Library, LibraryFile, Term
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, TermKind

ID = "00000000-0000-4000-8000-000000000001"
NOUNS = [noun for noun in all_nouns() if issubclass(noun, Node)]
WORD_LISTS = [noun for noun in all_nouns() if issubclass(noun, StrEnum)]
NAME = Text.plain("N")


@pytest.mark.parametrize("noun", NOUNS, ids=lambda noun: noun.__name__)
def test_every_field_has_one_sentence_and_a_bound(noun: type[Node]) -> None:
    for field in fields(noun):
        if field.name == "extra":  # what it holds is bounded by the size of a file
            continue
        known = fact_of(field)
        assert known.doc[0].isupper() or known.doc[0].isdigit()
        assert known.doc.endswith((".", ".)"))
        if "tuple" in str(field.type):
            assert known.longest is not None, field.name
        if str(field.type).startswith(("int", "float")):
            assert known.low is not None, field.name
            assert known.high is not None, field.name
        if str(field.type).startswith("str"):
            assert known.pattern or known.longest is not None, field.name


@pytest.mark.parametrize("words", WORD_LISTS, ids=lambda words: words.__name__)
def test_words_of_closed_lists_are_said_once_each(words: type[StrEnum]) -> None:
    values = [word.value for word in words]
    assert len(set(values)) == len(values)
    assert len({value.lower() for value in values}) == len(values)
    assert all(value == value.strip() and value for value in values)


def test_kinds_tell_nouns_apart() -> None:
    kinds = [noun.KIND for noun in NOUNS if noun.KIND]
    assert len(set(kinds)) == len(kinds)


def test_variant_of_a_card_is_found_by_id() -> None:
    plain = Variant(id="plain", rung=0, name=NAME, mode=Mode.DYNAMIC)
    card = Card(id=ID, slug="c", language="en", title=NAME, variants=(plain,))
    assert card.variant("plain") is plain
    assert card.variant("other") is None


def test_terms_of_different_kinds_may_share_an_id() -> None:
    step = Term(id="step", kind=TermKind.KIT, name=NAME)
    move = Term(id="step", kind=TermKind.MOVEMENT, name=Text.plain("M"))
    manifest = LibraryFile(id=ID, name="L", language="en", terms=(step, move))
    assert manifest.term(TermKind.KIT, "step") is step
    assert manifest.term(TermKind.MOVEMENT, "step") is move
    assert manifest.term(TermKind.DEMAND, "step") is None
    assert manifest.term(TermKind.KIT, "box") is None


def test_library_cannot_be_changed_through_the_map_it_was_made_from() -> None:
    manifest = LibraryFile(id=ID, name="L", language="en")
    cards = {ID: Card(id=ID, slug="c", language="en", title=NAME)}
    library = Library(manifest=manifest, cards=cards)
    cards.clear()
    assert list(library.cards) == [ID]
    assert library.protocols == {}
    assert library.clinic is None
