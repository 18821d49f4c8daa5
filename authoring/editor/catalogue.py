"""Interface catalogues: ``python -m authoring.editor.catalogue`` brings them up to date.

Every literal that the code hands to ``tr``, ``tr_n`` or ``mark`` is found by Babel's own
extractor, and so is every sentence of the rooms below (``say``, ``say_n``) and of an edit
(``note``, ``refuse``); the words of fields, nouns and closed lists come from the model. A
catalogue keeps its translations; messages that are gone are dropped, new ones are added
empty.
"""

from __future__ import annotations

import enum
import io
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from authoring.editor.shapes import Shape, shapes_of
from authoring.editor.vocabulary_words import (
    english_of_class,
    english_of_field,
    english_of_member,
)
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import LibraryFile
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol

ROOT = Path(__file__).parent
LOCALES = ROOT / "locale"
KEYWORDS = {"tr": None, "tr_n": (1, 2), "mark": None}
ROOMS = (
    ("model", "**.py"),
    # The words of a dose for patients have catalogues of their own.
    ("dosage", "shorthand*.py"),
    ("checks", "**.py"),
    ("files", "**.py"),
)
ROOM_KEYWORDS = {"say": None, "say_n": (1, 2), "note": None, "refuse": None}
# Files of the editor that raise what the rooms below raise.
SPEAKING = ("recovery.py", "clinic_room/bands.py")
EDIT_KEYWORDS = {"note": None, "refuse": None}

Message = str | tuple[str, str]


def code_messages(root: Path = ROOT) -> dict[Message, list[tuple[str, int]]]:
    """Messages of the code, each with the files it stands in."""
    return _extracted(root, "**.py", KEYWORDS)


def room_messages() -> dict[Message, list[tuple[str, int]]]:
    """Sentences of the rooms below, and those with which edits refuse or tell more."""
    found = _extracted(ROOT, "**/edits.py", EDIT_KEYWORDS)
    for file in SPEAKING:
        found |= _extracted(ROOT, file, ROOM_KEYWORDS)
    for room, files in ROOMS:
        found |= _extracted(ROOT.parent / room, files, ROOM_KEYWORDS)
    return found


def _extracted(
    root: Path, files: str, keywords: Mapping[str, tuple[int, ...] | None]
) -> dict[Message, list[tuple[str, int]]]:
    found: dict[Message, list[tuple[str, int]]] = {}
    extracted = extract_from_dir(str(root), method_map=[(files, "python")], keywords=keywords)
    for name, _line, message, _comments, _context in extracted:
        key: Message = message if isinstance(message, str) else (message[0], message[1])
        # No line numbers: else every edit of the code would change the catalogues.
        found.setdefault(key, []).append((Path(name).as_posix(), 0))
    return found


def model_messages() -> dict[Message, list[tuple[str, int]]]:
    """Words of the nouns, their fields and closed lists."""
    return {words: [("model", 0)] for words in sorted(set(_model_words())) if words}


def _model_words() -> Iterator[str]:
    seen: set[type] = set()
    queue: list[type] = [Card, Protocol, Clinic, LibraryFile, Pose]
    while queue:
        cls = queue.pop()
        if cls in seen:
            continue
        seen.add(cls)
        if issubclass(cls, enum.Enum):
            yield from (english_of_member(member) for member in cls)
        elif issubclass(cls, Node):
            yield english_of_class(cls)
            for shape in shapes_of(cls):
                yield english_of_field(cls, shape.name)
                yield shape.known.doc
                queue += shape.types if shape.shape in (Shape.NODE, Shape.ENUM) else ()


def all_messages() -> dict[Message, list[tuple[str, int]]]:
    """Every message of the interface."""
    return {**model_messages(), **room_messages(), **code_messages()}


def updated(old: Catalog, language: str) -> Catalog:
    """A catalogue with every message of the interface and the translations it had."""
    new = Catalog(locale=language, project="Rungbook", charset="utf-8", fuzzy=False)
    known = {_key(message.id): message for message in old if message.id}
    for key, places in sorted(all_messages().items(), key=lambda item: str(item[0])):
        last = known.get(key)
        string = last.string if last is not None else ""
        names = sorted({name for name, _ in places})
        new.add(key, string, locations=[(name, 0) for name in names])
    return new


def _key(message_id: object) -> Message:
    if isinstance(message_id, str):
        return message_id
    if isinstance(message_id, list | tuple):
        return (str(message_id[0]), str(message_id[1]))
    raise TypeError(f"{message_id!r} is no message")


def text_of(catalogue: Catalog) -> str:
    """A catalogue as its file holds it."""
    out = io.BytesIO()
    write_po(out, catalogue, width=100, omit_header=False, include_lineno=False, sort_output=True)
    return (
        "\n".join(
            line
            for line in out.getvalue().decode("utf-8").splitlines()
            if not line.startswith(('"POT-Creation-Date', '"PO-Revision-Date', '"Generated-By'))
        )
        + "\n"
    )


def read(path: Path, language: str) -> Catalog:
    """A catalogue, empty where there is no file yet."""
    if not path.is_file():
        return Catalog(locale=language)
    with path.open("rb") as file:
        return read_po(file, locale=language)


def main(languages: list[str]) -> None:
    """Bring catalogues up to date: those named, else all there are."""
    for language in languages or [path.stem for path in sorted(LOCALES.glob("*.po"))]:
        path = LOCALES / f"{language}.po"
        catalogue = updated(read(path, language), language)
        path.write_text(text_of(catalogue), encoding="utf-8")
        missing = sum(1 for message in catalogue if message.id and not _is_done(message.string))
        sys.stdout.write(f"{path.name}: {len(catalogue)} messages, {missing} not translated\n")


def _is_done(string: object) -> bool:
    return all(string) if isinstance(string, tuple | list) else bool(string)


if __name__ == "__main__":
    main(sys.argv[1:])
