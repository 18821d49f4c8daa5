"""Where something is, in words: "8, Heel raise, stage 3, dose". No Qt here."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from authoring.checks.result import CheckResult
from authoring.editor.i18n import tr
from authoring.editor.place import Place, steps
from authoring.editor.vocabulary_words import field_words
from authoring.files.library import CLINIC, MANIFEST
from authoring.files.saving import name_of, noun_of
from authoring.model.base import Node
from authoring.model.card import Variant
from authoring.model.library import Library, Term
from authoring.model.protocol import Block, Entry, Protocol, Stage


def where(library: Library, result: CheckResult) -> str:
    """The place of a check's result, the file first where it is no protocol."""
    return words_of_place(library, Place.of(result))


def where_inside(library: Library, result: CheckResult) -> str:
    """The place of a check's result within its file, for a room that shows that file alone."""
    place = Place.of(result)
    noun = noun_of(library, place.subject_id or CLINIC)
    inside = [] if noun is None else [*_inside(library, noun, noun, steps(place.path))]
    return ", ".join(part for part in reversed(inside) if part) or where(library, result)


def words_of_place(library: Library, place: Place) -> str:
    """A place in words, as exactly as it still exists."""
    key = place.subject_id or (CLINIC if place.subject.value == "clinic" else MANIFEST)
    noun = noun_of(library, key)
    if noun is None:
        return ""
    own = library.manifest.language
    inside = list(_inside(library, noun, noun, steps(place.path)))
    return ", ".join(part for part in (*reversed(inside), name_of(noun, own)) if part)


def _inside(library: Library, root: Node, node: Node, way: Sequence[str | int]) -> Iterator[str]:
    """Words for each step of a path, the outermost first."""
    if not way or not isinstance(way[0], str):
        return
    value = getattr(node, way[0], None)
    index = way[1] if len(way) > 1 and isinstance(way[1], int) else None
    rest = way[1:] if index is None else way[2:]
    if index is not None and isinstance(value, tuple) and index < len(value):
        value = value[index]
        yield _item(library, root, value, field_words(type(node), way[0]), index)
    elif not (isinstance(value, Node) and rest):
        yield field_words(type(node), way[0]).lower()
        return
    if isinstance(value, Node):
        yield from _inside(library, root, value, rest)


def _item(library: Library, root: Node, item: object, field: str, index: int) -> str:
    language = str(getattr(root, "language", library.manifest.language))
    match item:
        case Stage():
            return tr("stage {n}", n=index + 1)
        case Block():
            return ""
        case Entry():
            return _entry(library, root, item)
        case Variant() | Term():
            return item.name.best(language, language) or f"{field} {index + 1}"
    return f"{field.lower()} {index + 1}"


def _entry(library: Library, root: Node, entry: Entry) -> str:
    card = library.cards.get(entry.card)
    title = card.title.best(card.language, card.language) if card is not None else entry.id
    number = root.numbers().get(entry.id) if isinstance(root, Protocol) else None
    return title if number is None else f"{number} {title}"
