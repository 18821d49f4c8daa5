"""Wording for a child or a carer has the places and plural forms of the phrase it stands for."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from authoring import resources
from authoring.dosage.phrases import Phrases, places_of
from authoring.handout.catalogue import load_phrases
from authoring.handout.choices import Audience
from authoring.handout.errors import HandoutError
from authoring.handout.readers import phrases_for

FILES = sorted((resources.phrases() / "readers").glob("*.json"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_each_phrase_stands_for_one_of_the_catalogue(path: Path) -> None:
    data = json.loads(path.read_text("utf-8"))
    assert set(data["readers"]) == set(Audience) - {Audience.ADULT}
    base = load_phrases(data["language"]).entries
    for reader in data["readers"].values():
        assert list(reader) == sorted(reader)
        for key, entry in reader.items():
            assert isinstance(entry, str) == isinstance(base[key], str), key
            forms = {"": entry} if isinstance(entry, str) else entry
            whole = base[key]
            known = [whole] if isinstance(whole, str) else list(whole.values())
            places = {place for form in known for place in places_of(form)}
            for form in forms.values():
                assert places_of(form) <= places, key


def test_an_adult_reads_the_catalogue_as_it_stands() -> None:
    phrases = load_phrases("en-GB")
    assert phrases_for(phrases, Audience.ADULT) is phrases


def test_a_language_without_wording_for_a_reader_is_refused_in_a_sentence() -> None:
    with pytest.raises(HandoutError, match="no wording for a child in the language 'xx'"):
        phrases_for(Phrases("xx", {}), Audience.CHILD)
