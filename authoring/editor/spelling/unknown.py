"""Every unknown word of a library, with how often and where it stands. No Qt here."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping

from attrs import field, frozen
from immutabledict import immutabledict

from authoring.checks.result import Subject
from authoring.editor.place import Place
from authoring.editor.spelling.dictionaries import Dictionary
from authoring.editor.spelling.words import Speller, words_in
from authoring.model.base import Node
from authoring.model.edits.tree import leaves, path_text
from authoring.model.library import Library
from authoring.model.text import Text

_MOST_PLACES = 50
Step = Callable[[int, int], None]
Shelf = Callable[[str], Dictionary | None]


@frozen
class Unknown:
    """A word that no dictionary and no clinic word covers.

    Attributes:
        word: as it is written.
        language: tag of the texts it stands in.
        count: how often.
        places: where, at most the first fifty.
    """

    word: str
    language: str
    count: int
    places: tuple[Place, ...]


@frozen
class Report:
    """The spelling of a library.

    Attributes:
        words: unknown words, the most frequent first.
        unchecked: texts in languages without a dictionary, by tag.
        checked: words that were looked up.
    """

    words: tuple[Unknown, ...] = ()
    unchecked: Mapping[str, int] = field(factory=immutabledict, converter=immutabledict)
    checked: int = 0


@frozen
class _Noun:
    """What is unknown to the dictionaries in one noun."""

    noun: Node
    unknown: tuple[tuple[str, str, Place], ...]
    unchecked: Mapping[str, int]
    checked: int


class SpellingReport:
    """Makes reports of a library; nouns that no edit touched are read once."""

    def __init__(self, shelf: Shelf) -> None:
        """Args:
        shelf: the dictionary of a language, or None.
        """
        self._shelf = shelf
        self._read: dict[tuple[Subject, str], _Noun] = {}

    def of(self, library: Library, step: Step = lambda _done, _of: None) -> Report:
        """The spelling of a library as it stands.

        Args:
            step: told how far it is; may raise to stop.
        """
        nouns = list(_nouns(library))
        read: dict[tuple[Subject, str], _Noun] = {}
        for done, (place, noun, own) in enumerate(nouns):
            key = (place.subject, place.subject_id)
            known = self._read.get(key)
            if known is None or known.noun is not noun:
                step(done, len(nouns))
                known = self._read[key] = self._look(place, noun, own)
            read[key] = known
        self._read = read
        return _gathered(read.values(), library.manifest.clinic_words)

    def _look(self, place: Place, noun: Node, own: str) -> _Noun:
        unknown: list[tuple[str, str, Place]] = []
        unchecked: Counter[str] = Counter()
        checked = 0
        for path, _known, value in leaves(noun):
            if not isinstance(value, Text):
                continue
            for tag, text in value.values.items():
                language = tag or own
                dictionary = self._shelf(language)
                if dictionary is None:
                    unchecked[language] += 1
                    continue
                there = Place(place.subject, place.subject_id, path_text(path))
                for _start, _end, word in words_in(text):
                    checked += 1
                    if not dictionary.knows(word):
                        unknown.append((word, language, there))
        return _Noun(noun, tuple(unknown), dict(unchecked), checked)


def _nouns(library: Library) -> Iterator[tuple[Place, Node, str]]:
    for card in library.cards.values():
        yield Place(Subject.CARD, card.id), card, card.language
    for protocol in library.protocols.values():
        yield Place(Subject.PROTOCOL, protocol.id), protocol, protocol.language
    if library.clinic is not None:
        yield Place(Subject.CLINIC), library.clinic, library.clinic.language
    yield Place(Subject.LIBRARY), library.manifest, library.manifest.language


class _NoDictionary:
    def knows(self, _word: str) -> bool:
        return False

    def suggest(self, _word: str) -> tuple[str, ...]:
        return ()


def _gathered(read: Iterable[_Noun], accepted: tuple[str, ...]) -> Report:
    own = Speller(_NoDictionary(), accepted)
    places: dict[tuple[str, str], list[Place]] = {}
    counts: Counter[tuple[str, str]] = Counter()
    unchecked: Counter[str] = Counter()
    checked = 0
    for noun in read:
        checked += noun.checked
        unchecked.update(noun.unchecked)
        for word, language, place in noun.unknown:
            if own.accepts(word):
                continue
            key = (word, language)
            counts[key] += 1
            kept = places.setdefault(key, [])
            if len(kept) < _MOST_PLACES and place not in kept[-1:]:
                kept.append(place)
    order = sorted(counts, key=lambda key: (-counts[key], key[0].casefold(), key))
    words = tuple(Unknown(*key, counts[key], tuple(places[key])) for key in order)
    return Report(words, unchecked, checked)
