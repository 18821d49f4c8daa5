"""Find and replace in the words of a library: never in ids, references, colours or names of files.

Finding gives every place, so that a preview can show them and leave some out; replacing
takes those that are wanted.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum
from typing import TypeVar

import attrs

from authoring.model.base import Fact, Node, evolve
from authoring.model.edits.library import with_card, with_clinic, with_protocol
from authoring.model.edits.outcome import refuse
from authoring.model.edits.tree import Path, get_field, leaves, set_field
from authoring.model.library import Library
from authoring.model.text import OWN, Text

_N = TypeVar("_N", bound=Node)


class Holder(StrEnum):
    """What kind of file words stand in."""

    CARD = "card"
    PROTOCOL = "protocol"
    CLINIC = "clinic"
    LIBRARY = "library"


@attrs.frozen
class Options:
    """How to look.

    Attributes:
        match_case: whether "Knee" is another word than "knee".
        whole_words: whether the pattern must not be part of a longer word.
        language: only words in this language ("" for any); a bare tag finds its regions too.
        holders: kinds of file to look in.
    """

    match_case: bool = False
    whole_words: bool = False
    language: str = ""
    holders: frozenset[Holder] = frozenset(Holder)


@attrs.frozen
class Match:
    """One place where words were found.

    Attributes:
        holder, id: kind of file and id of it ("" for the clinic and the library).
        path: the text or string in it.
        language: key of a :class:`Text`'s words; "" for the file's own, and for plain strings.
        start, end: characters from and up to, in those words.
        words: what stands there.
        context: all the words of the place.
    """

    holder: Holder
    id: str
    path: Path
    language: str
    start: int
    end: int
    words: str
    context: str


_NAMES_OF_THINGS = frozenset({"letterhead", "font", "unit", "system", "code"})
"""Plain strings that name a file, a font, a unit or a coding system."""


def _is_words(name: str, known: Fact) -> bool:
    pointing = known.pattern or known.term or known.points_to
    return not pointing and name not in _NAMES_OF_THINGS


def _name(path: Path) -> str:
    return next(str(step) for step in reversed(path) if isinstance(step, str))


def find(library: Library, pattern: str, options: Options | None = None) -> tuple[Match, ...]:
    """Every place where a pattern stands, cards first, then protocols, clinic and library.

    The pattern is plain words, not a regular expression. Matches don't overlap. An empty
    pattern is found nowhere.
    """
    return tuple(each_match(library, pattern, options))


def each_match(library: Library, pattern: str, options: Options | None = None) -> Iterator[Match]:
    """What :func:`find` finds, one by one, so that a long search can show progress and stop."""
    wanted = options or Options()
    if pattern:
        yield from _found(library, _compiled(pattern, wanted), wanted)


def _compiled(pattern: str, options: Options) -> re.Pattern[str]:
    plain = re.escape(pattern)
    if options.whole_words:
        plain = rf"(?<!\w){plain}(?!\w)"
    return re.compile(plain, 0 if options.match_case else re.IGNORECASE)


def _nouns(library: Library) -> Iterator[tuple[Holder, str, Node, str]]:
    for card in library.cards.values():
        yield Holder.CARD, card.id, card, card.language
    for protocol in library.protocols.values():
        yield Holder.PROTOCOL, protocol.id, protocol, protocol.language
    if library.clinic is not None:
        yield Holder.CLINIC, "", library.clinic, library.clinic.language
    yield Holder.LIBRARY, "", library.manifest, library.manifest.language


def _found(library: Library, wanted: re.Pattern[str], options: Options) -> Iterator[Match]:
    for holder, noun_id, noun, own in _nouns(library):
        if holder not in options.holders:
            continue
        for path, known, value in leaves(noun):
            if type(value) is str and not _is_words(_name(path), known):
                continue
            for tag, words in _by_language(value).items():
                if not _speaks(tag or own, options.language):
                    continue
                for hit in wanted.finditer(words):
                    yield Match(holder, noun_id, path, tag, *hit.span(), hit[0], words)


def _by_language(value: Text | str) -> Mapping[str, str]:
    return value.values if isinstance(value, Text) else {OWN: value}


def _speaks(tag: str, wanted: str) -> bool:
    return not wanted or tag == wanted or tag.partition("-")[0] == wanted


# ---- replacing ----------------------------------------------------------------------------


def replace(
    library: Library, matches: Iterable[Match], replacement: str, *, keep_capital: bool = False
) -> Library:
    """The library with other words in the place of the matches.

    Args:
        keep_capital: a match that starts with a capital is replaced by words that do.

    Raises:
        EditError: a place changed since it was found, or two matches overlap.
        ModelError: a text grows longer than its field may be, or must not be empty.
    """
    by_noun: dict[tuple[Holder, str], dict[tuple[Path, str], list[Match]]] = {}
    for match in matches:
        places = by_noun.setdefault((match.holder, match.id), {})
        places.setdefault((match.path, match.language), []).append(match)
    for (holder, noun_id), places in by_noun.items():
        library = _with_places(library, holder, noun_id, places, replacement, keep_capital)
    return library


def _with_places(
    library: Library,
    holder: Holder,
    noun_id: str,
    places: Mapping[tuple[Path, str], list[Match]],
    replacement: str,
    keep_capital: bool,
) -> Library:
    def changed(noun: _N | None) -> _N:
        if noun is None:
            raise _moved()
        for (path, tag), matches in places.items():
            noun = _with_words(noun, path, tag, matches, replacement, keep_capital)
        return noun

    if holder is Holder.CARD:
        return with_card(library, card=changed(library.cards.get(noun_id)))
    if holder is Holder.PROTOCOL:
        return with_protocol(library, protocol=changed(library.protocols.get(noun_id)))
    if holder is Holder.CLINIC:
        return with_clinic(library, clinic=changed(library.clinic))
    return evolve(library, manifest=changed(library.manifest))


def _moved() -> Exception:
    return refuse("The words changed since they were found: find them again.")


def _with_words(
    noun: _N, path: Path, tag: str, matches: list[Match], replacement: str, keep_capital: bool
) -> _N:
    old = get_field(noun, path)
    words = _by_language(old).get(tag) if isinstance(old, Text | str) else None
    if words is None:
        raise _moved()
    new = _replaced(words, matches, replacement, keep_capital)
    if isinstance(old, Text):
        return set_field(noun, path, Text({**old.values, tag: new}))
    return set_field(noun, path, new)


def _replaced(words: str, matches: list[Match], replacement: str, keep_capital: bool) -> str:
    end = len(words)
    for match in sorted(matches, key=lambda each: each.start, reverse=True):
        if match.end > end or words[match.start : match.end] != match.words:
            raise _moved()
        end = match.start
        new = _capital(replacement) if keep_capital and match.words[:1].isupper() else replacement
        words = words[: match.start] + new + words[match.end :]
    return words


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
