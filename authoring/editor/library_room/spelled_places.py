"""Where an unknown word stands, as a row."""

from __future__ import annotations

import re

from authoring.editor.i18n import tr
from authoring.editor.library_room.faces import Line
from authoring.editor.library_room.rows import Row
from authoring.editor.library_room.words import field_of, title_of
from authoring.editor.place import Place
from authoring.editor.search.showing import excerpt
from authoring.model.base import ModelError, Node
from authoring.model.edits.tree import get_field, parsed_path
from authoring.model.library import Library
from authoring.model.text import Text


def place_row(place: Place, word: str, library: Library) -> Row:
    """The text of a place with the word marked, and the file and field it is in."""
    noun, title = _noun(place, library)
    try:
        path = parsed_path(place.path)
        text = get_field(noun, path)
    except ModelError:
        return Row(Line(title))
    words = next((w for w in _all_words(text) if word in w), "")
    hits = [hit.span() for hit in re.finditer(rf"\b{re.escape(word)}\b", words)]
    what = field_of(noun, path) if noun is not None else ""
    return Row(title=Line(*excerpt(words, hits)), below=Line(title), far=what)


def _all_words(text: object) -> tuple[str, ...]:
    return tuple(text.values.values()) if isinstance(text, Text) else (str(text),)


def _noun(place: Place, library: Library) -> tuple[Node | None, str]:
    noun = library.cards.get(place.subject_id) or library.protocols.get(place.subject_id)
    if noun is not None:
        return noun, title_of(noun, library)
    if place.subject == "clinic":
        return library.clinic, tr("Clinic")
    return library.manifest, tr("Words and kit")
