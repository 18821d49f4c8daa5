"""``rungbook compare``: what differs between two files or two libraries, in sentences."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from attrs import frozen
from immutabledict import immutabledict

from authoring.commands.outcome import CommandError, Exit
from authoring.exchange.compare import Change, compare
from authoring.exchange.libraries import files_of
from authoring.exchange.words import Words
from authoring.files.documents import read_document
from authoring.files.library import is_library, open_library
from authoring.model.base import ModelError, Node
from authoring.model.library import Library
from authoring.model.sentence import say
from authoring.model.text import Text


@frozen
class Told:
    """One difference.

    Attributes:
        document: title of the file it is in; "" where two files were named.
        part: id of the part; "" for the file as a whole.
    """

    document: str
    change: Change
    part: str
    field: str
    sentence: str


def compared(old: Path, new: Path, form: str) -> str:
    """All that differs as ``text`` or as ``json``; raises as :func:`compare_paths`."""
    told = compare_paths(old, new)
    if form == "json":
        return json.dumps(as_json(told), indent=2, ensure_ascii=False)
    return as_text(told)


def compare_paths(old: Path, new: Path) -> tuple[Told, ...]:
    """All that differs, one sentence each.

    Raises:
        FileProblem: a path can't be read.
        CommandError: the two are not of one kind.
    """
    try:
        if is_library(old) and is_library(new):
            return tuple(_libraries(open_library(old).library, open_library(new).library))
        before, after = read_document(old).document, read_document(new).document
        return tuple(_files(before, after, titles_near(new)))
    except ModelError as error:
        raise CommandError(str(error), Exit.UNUSABLE) from error


def titles_near(path: Path) -> Mapping[str, str]:
    """Titles of the cards of the library that a file lies in, none where it lies in none."""
    folder = path.resolve().parent.parent
    return titles(open_library(folder).library) if is_library(folder) else immutabledict()


def titles(library: Library) -> dict[str, str]:
    """Titles of a library's cards, by id."""
    return {
        card.id: card.title.best(card.language, card.language) for card in library.cards.values()
    }


def _files(old: Node, new: Node, cards: Mapping[str, str], document: str = "") -> Iterator[Told]:
    words = Words(old, new, cards)
    for each in compare(old, new):
        if each.told:
            yield Told(document, each.change, each.key[1], each.field, words.sentence(each))


def _libraries(old: Library, new: Library) -> Iterator[Told]:
    cards = {**titles(old), **titles(new)}
    before, after = files_of(old), files_of(new)
    for key, document in after.items():
        title = title_of(document)
        if key in before:
            yield from _files(before[key], document, cards, title)
        else:
            yield Told(title, Change.ADDED, "", "", say("{name} added.", name=title))
    for key, document in before.items():
        if key not in after:
            title = title_of(document)
            yield Told(title, Change.REMOVED, "", "", say("{name} removed.", name=title))


def title_of(document: Node) -> str:
    """What people call a file."""
    title: Text | str = getattr(document, "title", "") or getattr(document, "name", "")
    if isinstance(title, str):
        return title
    language = getattr(document, "language", "en")
    return title.best(language, language)


def as_text(told: tuple[Told, ...]) -> str:
    """One line a difference, under the title of its file."""
    lines: list[str] = []
    last = ""
    for each in told:
        if each.document != last:
            lines.append(each.document)
            last = each.document
        lines.append(f"  {each.sentence}" if each.document else each.sentence)
    return "\n".join(lines) or "Nothing differs."


def as_json(told: tuple[Told, ...]) -> list[dict[str, str]]:
    """The differences as plain values."""
    return [
        {
            "document": each.document,
            "change": each.change.value,
            "part": each.part,
            "field": each.field,
            "sentence": str(each.sentence),
        }
        for each in told
    ]
