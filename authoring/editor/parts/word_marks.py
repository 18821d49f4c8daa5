"""Lines under some words of a text field, of several kinds at once.

A document has one of these: two highlighters would each take the other's lines away.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtGui import QSyntaxHighlighter, QTextCharFormat, QTextDocument
from PySide6.QtWidgets import QPlainTextEdit, QTextEdit

from authoring.editor.theme import theme

Edit = QPlainTextEdit | QTextEdit
Spans = Callable[[str], Iterable[tuple[int, int]]]
"""From the words of a paragraph to the spans to mark, in UTF-16 units from its beginning."""

_HELD = "_word_marks"


class WordMarks(QSyntaxHighlighter):
    """The lines of one document; got by :func:`marks_of`."""

    def __init__(self, document: QTextDocument) -> None:
        super().__init__(document)
        self._kinds: dict[str, tuple[Spans, QTextCharFormat.UnderlineStyle, str]] = {}

    def show(
        self, kind: str, find: Spans, style: QTextCharFormat.UnderlineStyle, token: str
    ) -> None:
        """Mark what ``find`` finds; of two lines under one word the later kind's is seen.

        Args:
            kind: name of the kind; one that is there already is replaced.
            token: the line's colour.
        """
        self._kinds[kind] = (find, style, token)
        self.rehighlight()

    def has(self, kind: str) -> bool:
        """Whether marks of a kind are shown."""
        return kind in self._kinds

    def highlightBlock(self, text: str) -> None:
        for _kind, (find, style, token) in sorted(self._kinds.items(), key=lambda item: item[0]):
            line = QTextCharFormat()
            line.setUnderlineStyle(style)
            line.setUnderlineColor(theme().colour(token))
            for start, end in find(text):
                self.setFormat(start, end - start, line)


def marks_of(edit: Edit) -> WordMarks:
    """The marks of a field's document, made at the first call.

    The field itself holds them: found among the document's children, they would come back
    as another Python object, whose kinds are not set, once the first one had gone.
    """
    held = getattr(edit, _HELD, None)
    if not isinstance(held, WordMarks):
        held = WordMarks(edit.document())
        setattr(edit, _HELD, held)
    return held
