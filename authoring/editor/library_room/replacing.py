"""Finding and replacing words across a library, for showing beforehand. No Qt here."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence

from attrs import field, frozen
from immutabledict import immutabledict

from authoring.checks.result import Subject
from authoring.editor.i18n import tr
from authoring.editor.library_room.faces import Line
from authoring.editor.library_room.words import field_of, title_of
from authoring.editor.place import Place
from authoring.editor.search.showing import excerpt
from authoring.model.base import Node
from authoring.model.edits.replace import Holder, Match, Options, each_match, replace
from authoring.model.edits.tree import leaves, path_text
from authoring.model.library import Library
from authoring.model.text import OWN, Text
from authoring.model.vocabulary import Status

_SUBJECTS: Mapping[Holder, Subject] = {
    Holder.CARD: Subject.CARD,
    Holder.PROTOCOL: Subject.PROTOCOL,
    Holder.CLINIC: Subject.CLINIC,
    Holder.LIBRARY: Subject.LIBRARY,
}
Key = tuple[Holder, str, str, str, int]


@frozen
class Wish:
    """What to find, and what to put in its place.

    Attributes:
        pattern: plain words to find.
        new: plain words to put there.
        keep_capital: whether a match with a capital gets words with a capital.
        options: where and how to look.
    """

    pattern: str = ""
    new: str = ""
    keep_capital: bool = True
    options: Options = field(factory=Options)


@frozen
class Change:
    """One place as it is and as it would be.

    Attributes:
        before, after: excerpts with what changes marked.
        file: title of the card or protocol, or what else it is.
        what: the field, by its label.
        place: where it is.
    """

    before: Line
    after: Line
    file: str
    what: str
    place: Place


def find_all(
    library: Library, wish: Wish, step: Callable[[], None] = lambda: None
) -> tuple[Match, ...]:
    """Every match of a wish.

    Args:
        step: called at every match; may raise to stop.
    """
    found = []
    for match in each_match(library, wish.pattern, wish.options):
        step()
        found.append(match)
    return tuple(found)


@frozen
class Matches:
    """What was found, for showing.

    Attributes:
        keys: what tells each match from the others.
        languages: tags of the library's languages.
    """

    library: Library
    wish: Wish
    matches: tuple[Match, ...] = ()
    keys: tuple[Key, ...] = ()
    languages: tuple[str, ...] = ()


def matches_of(library: Library, wish: Wish, step: Callable[[], None] = lambda: None) -> Matches:
    """Find a wish, with all that showing needs.

    Args:
        step: called at every match; may raise to stop.
    """
    found = find_all(library, wish, step)
    keys = tuple(key_of(match) for match in found)
    return Matches(library, wish, found, keys, tuple(sorted(languages_in(library))))


def key_of(match: Match) -> Key:
    """What tells a match from the others, also after another search."""
    return (match.holder, match.id, path_text(match.path), match.language, match.start)


def new_words(match: Match, wish: Wish) -> str:
    """What a match becomes."""
    if wish.keep_capital and match.words[:1].isupper():
        return wish.new[:1].upper() + wish.new[1:]
    return wish.new


def change_of(match: Match, wish: Wish, library: Library) -> Change:
    """A match for showing."""
    new = new_words(match, wish)
    after = match.context[: match.start] + new + match.context[match.end :]
    end = match.start + len(new)
    noun = _noun(match, library)
    return Change(
        before=Line(*excerpt(match.context, ((match.start, match.end),))),
        after=Line(*excerpt(after, ((match.start, end),) if new else ())),
        file=_file_words(match, library),
        what=field_of(noun, match.path) if noun is not None else "",
        place=Place(_SUBJECTS[match.holder], match.id, path_text(match.path)),
    )


def _noun(match: Match, library: Library) -> Node | None:
    if match.holder is Holder.CLINIC:
        return library.clinic
    if match.holder is Holder.LIBRARY:
        return library.manifest
    return library.cards.get(match.id) or library.protocols.get(match.id)


def _file_words(match: Match, library: Library) -> str:
    noun = library.cards.get(match.id) or library.protocols.get(match.id)
    if noun is not None:
        return title_of(noun, library)
    return tr("Clinic") if match.holder is Holder.CLINIC else tr("Words and kit")


def files_in(matches: Collection[Match]) -> int:
    """How many files some matches stand in."""
    return len({(match.holder, match.id) for match in matches})


def approved_in(matches: Collection[Match], library: Library) -> int:
    """How many approved protocols some matches stand in: changing them makes them drafts."""
    ids = {match.id for match in matches if match.holder is Holder.PROTOCOL}
    found = (library.protocols.get(key) for key in ids)
    return sum(one is not None and one.status is Status.APPROVED for one in found)


def replaced(library: Library, matches: Sequence[Match], wish: Wish) -> Library:
    """The library with the matches replaced.

    Raises:
        EditError: a place changed since it was found.
        ModelError: a text would not fit its field any more.
    """
    return replace(library, matches, wish.new, keep_capital=wish.keep_capital)


def languages_in(library: Library) -> Mapping[str, int]:
    """The languages of the library's texts, and how many texts each has."""
    counts: dict[str, int] = {}
    nouns: list[tuple[Node, str]] = [(library.manifest, library.manifest.language)]
    nouns += [(card, card.language) for card in library.cards.values()]
    nouns += [(protocol, protocol.language) for protocol in library.protocols.values()]
    for noun, own in nouns:
        for _path, _known, value in leaves(noun):
            for tag in value.values if isinstance(value, Text) else ():
                language = own if tag == OWN else tag
                counts[language] = counts.get(language, 0) + 1
    return immutabledict(counts)
