"""Texts and links made to be slow or endless do not hold the checks up."""

import time

import pytest

from authoring.checks.references import rings
from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.vocabulary import TermKind
from tests.checks.build import CARD, LIBRARY, put, results, say, term, with_card

LONGEST = 20_000


@pytest.mark.parametrize(
    "words",
    ["." * LONGEST, "1 " * (LONGEST // 2), "1" + " " * (LONGEST - 1), "a" * LONGEST, "½%" * 9999],
    ids=["stops", "numbers", "blanks", "one word", "signs"],
)
def test_a_text_of_the_greatest_length_takes_little_time(words: str) -> None:
    library = with_card(put(CARD, "variants[2].steps[1]", say(words)))
    before = time.process_time()
    results(library)
    assert time.process_time() - before < 5


def deep(count: int) -> Library:
    links = [term(TermKind.DEMAND, f"demand-{n}", broader=f"demand-{n + 1}") for n in range(count)]
    links.append(term(TermKind.DEMAND, f"demand-{count}"))
    manifest = evolve(LIBRARY.manifest, terms=(*LIBRARY.manifest.terms, *links))
    library = with_card(put(CARD, "variants[0].demands", ("demand-0",)))
    return evolve(library, manifest=manifest)


def test_a_long_row_of_ever_wider_terms_is_followed_to_its_end() -> None:
    before = time.process_time()
    assert results(deep(4000)) == ()
    assert time.process_time() - before < 5


def test_rings_are_found_once_and_rows_are_none() -> None:
    assert rings({"a": "b", "b": "c", "c": "a"}) == [["a", "b", "c"]]
    assert rings({"x": "a", "a": "b", "b": "a"}) == [["a", "b"]]
    assert rings({"a": "a", "b": None}) == [["a"]]
    assert rings({"a": "b", "b": "gone"}) == []
