"""The index: it follows a library and answers queries, all in memory.

An index belongs to one thread at a time. Updating stops between two nouns when asked
to, and goes on from there the next time.
"""

from __future__ import annotations

import datetime as dt
import re
import sqlite3
import unicodedata
from collections.abc import Callable, Iterable, Mapping, Sequence

from attrs import evolve, field, frozen
from immutabledict import immutabledict

from authoring.editor.search.facets import (
    Chosen,
    Facet,
    FacetSets,
    conditions_by_card,
    keys_of,
)
from authoring.editor.search.gathering import gather
from authoring.editor.search.near import Vocabulary, forgiven
from authoring.editor.search.pieces import Noun, TermKey, Terms, terms_of
from authoring.model.library import Library

_MANY = 1500
"""More matches than this are not weighed against each other."""
_WEIGHTS = "16.0, 8.0, 4.0, 1.0, 0.5"
_WORD = re.compile(r"[^\W_]+")

Step = Callable[[int, int], None]
"""Told (done, of) between two nouns; may raise to stop."""


def folded(words: str) -> str:
    """Words without case and accents, as the index keeps them."""
    plain = unicodedata.normalize("NFKD", words.lower())
    return "".join(letter for letter in plain if not unicodedata.combining(letter))


def words_of(query: str) -> tuple[str, ...]:
    """The words of a query, folded, each once."""
    return tuple(dict.fromkeys(_WORD.findall(folded(query))))


@frozen
class Query:
    """What to find.

    Attributes:
        words: as typed; every word must be there.
        chosen: values chosen by facet.
        today: the day that reviews are seen from.
    """

    today: dt.date
    words: str = ""
    chosen: Chosen = field(factory=immutabledict, converter=immutabledict)


@frozen
class Wanted:
    """One word of a query, and what it stands for.

    Attributes:
        word: the word, folded.
        begins: whether words that begin with it count.
        others: further words that count: those that hold it, or those it is near to.
    """

    word: str
    begins: bool
    others: tuple[str, ...] = ()

    @property
    def is_guess(self) -> bool:
        """Whether nothing is spelled so, and near words are shown instead."""
        return not self.begins and bool(self.others)


@frozen
class Found:
    """What a query found.

    Attributes:
        ids: cards and protocols, the best first; by title where no words were asked for.
        counts: how many each value of a facet would leave.
        wanted: what each word was taken for.
        of: how many nouns there are.
    """

    ids: tuple[str, ...] = ()
    counts: Mapping[Facet, Mapping[str, int]] = field(factory=immutabledict)
    wanted: tuple[Wanted, ...] = ()
    of: int = 0


@frozen
class _Row:
    noun: Noun
    place: int
    used_for: frozenset[str]
    terms: frozenset[TermKey]
    title: str
    is_stale: bool = False


def _no_step(_done: int, _of: int) -> None:
    return


class SearchIndex:
    """Full text, facets and vocabulary of one library."""

    def __init__(self) -> None:
        self._base = sqlite3.connect(":memory:", check_same_thread=False, isolation_level=None)
        self._base.execute(
            "CREATE VIRTUAL TABLE found USING fts5(title, names, terms, words, citations,"
            " tokenize=\"unicode61 remove_diacritics 2\", prefix='1 2')"
        )
        self._base.execute("CREATE VIRTUAL TABLE known USING fts5vocab(found, row)")
        self._rows: dict[str, _Row] = {}
        self._ids: dict[int, str] = {}
        self._free: list[int] = []
        self._facets = FacetSets()
        self._terms: Terms = {}
        self._vocabulary: Vocabulary | None = None
        self._by_title: tuple[int, ...] | None = None

    def close(self) -> None:
        """Give the memory back."""
        self._base.close()

    # ---- following the library -----------------------------------------------------

    def update(self, library: Library, step: Step = _no_step) -> int:
        """Take over what changed since the last update; how many nouns were read anew.

        Args:
            step: told how far it is; what it raises is let through, between two nouns.
        """
        nouns: dict[str, Noun] = {**library.cards, **library.protocols}
        for gone in [key for key in self._rows if key not in nouns]:
            self._drop(gone)
        terms = terms_of(library)
        changed = _changed_terms(self._terms, terms)
        if changed:
            for key, row in self._rows.items():
                if row.terms & changed:
                    self._rows[key] = evolve(row, is_stale=True)
        self._terms = terms
        used_for = conditions_by_card(library)
        self._refacet(nouns, used_for)
        stale = [noun for noun in nouns.values() if self._is_stale(noun)]
        # One transaction: on its own, each noun would be written out and merged at once.
        self._base.execute("BEGIN")
        try:
            for done, noun in enumerate(stale):
                step(done, len(stale))
                self._put(noun, used_for.get(noun.id, frozenset()))
        finally:
            self._base.execute("COMMIT")
        return len(stale)

    def _is_stale(self, noun: Noun) -> bool:
        row = self._rows.get(noun.id)
        return row is None or row.noun is not noun or row.is_stale

    def _refacet(self, nouns: Mapping[str, Noun], used_for: Mapping[str, frozenset[str]]) -> None:
        """Sort cards anew whose protocols changed while they did not."""
        for key, row in self._rows.items():
            now = used_for.get(key, frozenset())
            if now != row.used_for and nouns[key] is row.noun:
                self._facets.put(row.place, keys_of(row.noun, now), row.noun.review_due)
                self._rows[key] = evolve(row, used_for=now)

    def _put(self, noun: Noun, used_for: frozenset[str]) -> None:
        known = noun.id in self._rows
        place = self._take_place(noun.id)
        found = gather(noun, self._terms)
        if known:
            self._base.execute("DELETE FROM found WHERE rowid = ?", (place,))
        self._base.execute(
            "INSERT INTO found(rowid, title, names, terms, words, citations)"
            " VALUES (?, ?, ?, ?, ?, ?)",
            (place, *("\n".join(column) for column in found.columns)),
        )
        self._facets.put(place, keys_of(noun, used_for), noun.review_due)
        title = folded(noun.title.best(noun.language, noun.language))
        self._rows[noun.id] = _Row(noun, place, used_for, frozenset(found.terms), title)
        self._vocabulary = self._by_title = None

    def _take_place(self, key: str) -> int:
        row = self._rows.get(key)
        if row is not None:
            return row.place
        place = self._free.pop() if self._free else len(self._ids) + 1
        self._ids[place] = key
        return place

    def _drop(self, key: str) -> None:
        row = self._rows.pop(key)
        self._base.execute("DELETE FROM found WHERE rowid = ?", (row.place,))
        self._facets.drop(row.place)
        del self._ids[row.place]
        self._free.append(row.place)
        self._vocabulary = self._by_title = None

    # ---- finding ---------------------------------------------------------------------

    def find(self, query: Query) -> Found:
        """What fits a query: as it is spelled, else with slips forgiven."""
        words = words_of(query.words)
        if not words:
            return self._found(query, self._titles(), ())
        wanted = tuple(self._wanted(word, guess=False) for word in words)
        places = self._matching(wanted)
        if not places:
            wanted = tuple(self._wanted(word, guess=True) for word in words)
            places = self._matching(wanted)
        return self._found(query, places, wanted)

    def _found(self, query: Query, places: Sequence[int], wanted: tuple[Wanted, ...]) -> Found:
        every = self._facets.every if not wanted else _bits(places)
        counts = self._facets.counts(every, query.chosen, query.today)
        if any(query.chosen.values()):
            fits = self._facets.fitting(query.chosen, query.today)
            inside = fits.to_bytes(fits.bit_length() // 8 + 1, "little")
            places = [place for place in places if _has(inside, place)]
        ids = tuple(self._ids[place] for place in places)
        return Found(ids, counts, wanted, len(self._rows))

    def _wanted(self, word: str, *, guess: bool) -> Wanted:
        known = self._known_words()
        begins = known.begins(word)
        others = known.holding(word)
        if not begins or (guess and forgiven(word)):
            others += [near for near in known.near(word) if near != word]
        return Wanted(word, begins, tuple(dict.fromkeys(others)))

    def _matching(self, wanted: Iterable[Wanted]) -> list[int]:
        """Places that match: titles that say it all, then the best; very many go by title."""
        groups = [_group(one) for one in wanted]
        if not all(groups):
            return []
        match = " AND ".join(groups)
        titled = set(self._places("found MATCH ?", f"{{title}} : ({match})"))
        order: Sequence[int] = self._places("found MATCH ?", match)
        if len(order) <= _MANY:
            order = self._places(f"found MATCH ? ORDER BY bm25(found, {_WEIGHTS}), rowid", match)
        else:
            every = set(order)
            order = [place for place in self._titles() if place in every]
        first = [place for place in order if place in titled]
        return [*first, *(place for place in order if place not in titled)]

    def _places(self, where: str, match: str) -> list[int]:
        rows = self._base.execute(f"SELECT rowid FROM found WHERE {where}", (match,))  # noqa: S608
        return [place for (place,) in rows]

    def _known_words(self) -> Vocabulary:
        if self._vocabulary is None:
            rows = self._base.execute("SELECT term FROM known")
            self._vocabulary = Vocabulary(term for (term,) in rows)
        return self._vocabulary

    def _titles(self) -> tuple[int, ...]:
        """The places by title."""
        if self._by_title is None:
            rows = sorted(self._rows.items(), key=lambda item: (item[1].title, item[0]))
            self._by_title = tuple(row.place for _, row in rows)
        return self._by_title


def _changed_terms(before: Terms, after: Terms) -> frozenset[TermKey]:
    if before is after:
        return frozenset()
    keys = before.keys() | after.keys()
    return frozenset(key for key in keys if before.get(key) is not after.get(key))


def _group(wanted: Wanted) -> str:
    begun = [f'"{wanted.word}"*'] if wanted.begins else []
    terms = [*begun, *(f'"{other}"' for other in wanted.others)]
    return f"({' OR '.join(terms)})" if terms else ""


def _bits(places: Iterable[int]) -> int:
    found = bytearray()
    for place in places:
        byte = place >> 3
        if byte >= len(found):
            found.extend(bytes(byte + 1 - len(found)))
        found[byte] |= 1 << (place & 7)
    return int.from_bytes(found, "little")


def _has(inside: bytes, place: int) -> bool:
    return place >> 3 < len(inside) and bool(inside[place >> 3] >> (place & 7) & 1)
