"""Underlines the words that patients may not know, in the fields where they are written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from PySide6.QtGui import QTextCharFormat

from authoring.editor.form_context import FormContext
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.word_marks import marks_of
from authoring.editor.workshop.reading import words_of_text

_KIND = "hard"


def mark(texts: Iterable[TextField], context: FormContext) -> None:
    """Mark hard words in fields from now on; those marked already stay so.

    Args:
        context: the card whose texts they are.
    """

    def find(words: str) -> Iterator[tuple[int, int]]:
        shown = context.language or context.own
        for found in words_of_text(words, shown, known_words(context)):
            yield found.start, found.end

    dashes = QTextCharFormat.UnderlineStyle.DashUnderline
    for field in texts:
        marks = marks_of(field.edit)
        if not marks.has(_KIND):
            marks.show(_KIND, find, dashes, "note")


def known_words(context: FormContext) -> frozenset[str]:
    """Words of the clinic that count as known, in lower case."""
    return frozenset(word.lower() for word in context.library.manifest.clinic_words)
