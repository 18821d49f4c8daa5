"""One line of words for any noun, for closed rows of forms. No Qt here."""

from __future__ import annotations

import datetime as dt
import enum
from collections.abc import Iterator

from authoring.dosage.shorthand import write_dose
from authoring.editor.criterion_words import CriterionWords
from authoring.editor.i18n import ltr, tr
from authoring.editor.parts.fields.reading import write_range
from authoring.editor.pose_room.words import line_of
from authoring.editor.shapes import shapes_of
from authoring.editor.vocabulary_words import class_words, field_words, unit_of, words_of
from authoring.model.base import Node, said
from authoring.model.criterion import AllOf, AnyOf, InWords, Measured, TimePassed
from authoring.model.dose import Dose
from authoring.model.library import LibraryFile
from authoring.model.load import IntRange, NumberRange
from authoring.model.text import Text

_MOST_WORDS = 90
_SKIPPED = ("id", "sources", "codes")


def summary(
    value: object, own: str, language: str = "", manifest: LibraryFile | None = None
) -> str:
    """A noun in one line; its class's name where it says nothing yet.

    Args:
        own: language of the file.
        language: language wanted; "" for the file's own.
        manifest: the library's record, which names what criteria measure.
    """
    if isinstance(value, Measured | InWords | TimePassed | AllOf | AnyOf):
        said_of_it = CriterionWords(manifest, own, language or own).line(value)
        return _cut(said_of_it) or class_words(type(value))
    if isinstance(value, Dose):
        words = write_dose(value, pretty=True)
        if words is not None:
            return ltr(words)
    posed = line_of(value)
    if posed is not None:
        return _cut(posed)
    if not isinstance(value, Node):
        return _plain("", value, own, language)
    parts = [part for part in _parts(value, own, language) if part]
    text = ", ".join(dict.fromkeys(parts)) or class_words(type(value))
    return _cut(text)


def _cut(text: str) -> str:
    return text if len(text) <= _MOST_WORDS else text[: _MOST_WORDS - 1].rstrip() + "…"


def _parts(node: Node, own: str, language: str) -> Iterator[str]:
    if node.KIND:
        yield class_words(type(node))
    for shape in shapes_of(type(node)):
        value = getattr(node, shape.name)
        if shape.name in _SKIPPED or value is None or value == ():
            continue
        if isinstance(value, tuple):
            if len(value) == 1 or not isinstance(value[0], Node):
                yield ", ".join(_plain(shape.name, item, own, language) for item in value[:4])
            else:
                yield tr("{n} {what}", n=len(value), what=class_words(type(value[0])).lower())
        elif value is True:
            yield field_words(type(node), shape.name).lower()
        elif isinstance(value, int | float) and value is not False and not unit_of(shape.name):
            yield f"{field_words(type(node), shape.name).lower()} {said(value)}"
        else:
            yield _plain(shape.name, value, own, language)


def _plain(name: str, value: object, own: str, language: str) -> str:
    words = _unmarked(value, own, language)
    unit = unit_of(name)
    return f"{words} {unit}" if words and unit and not isinstance(value, str) else words


def _unmarked(  # noqa: PLR0911  (one line a kind)
    value: object, own: str, language: str
) -> str:
    match value:
        case None | False:
            return ""
        case True:
            return tr("Yes")
        case Text():
            return value.best(language or own, own).strip()
        case enum.Enum():
            return words_of(value)
        case IntRange() | NumberRange():
            return write_range(value)
        case Node():
            return summary(value, own, language)
        case int() | float():
            return said(value)
        case dt.date():
            return str(value)
    return str(value)
