"""Underlines the words that patients may not know, in the fields where they are written."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from PySide6.QtGui import QSyntaxHighlighter, QTextCharFormat, QTextDocument

from authoring.checks.plain_words import HardWord
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.theme import theme

Finder = Callable[[str], Sequence[HardWord]]


class HardWordMarks(QSyntaxHighlighter):
    """A dashed line under each hard word of one text."""

    def __init__(self, document: QTextDocument, find: Finder) -> None:
        super().__init__(document)
        self._find = find

    def highlightBlock(self, text: str) -> None:  # noqa: N802
        style = QTextCharFormat()
        style.setUnderlineStyle(QTextCharFormat.UnderlineStyle.DashUnderline)
        style.setUnderlineColor(theme().colour("note"))
        for found in self._find(text):
            self.setFormat(found.start, found.end - found.start, style)


def mark(texts: Iterable[TextField], find: Finder) -> None:
    """Mark hard words in fields from now on; those marked already stay so."""
    for field in texts:
        document = field.edit.document()
        if document.findChild(HardWordMarks) is None:
            HardWordMarks(document, find)
