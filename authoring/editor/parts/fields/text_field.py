"""Words for people, in the language that is being edited."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QPlainTextEdit, QWidget

from authoring.editor.edit_words import refusal
from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.texts import languages_of, with_words, words_in
from authoring.editor.parts.labels import label
from authoring.editor.session import Session
from authoring.editor.spelling.marking import SpellingMarks, attach
from authoring.editor.theme import Type, theme
from authoring.model.base import ModelError
from authoring.model.text import Text


class GrowingEdit(QPlainTextEdit):
    """Text as high as its lines, between one and ``most_lines``. Tab leaves it."""

    def __init__(self, *, single_line: bool = False, most_lines: int = 12) -> None:
        super().__init__()
        self._single, self._most = single_line, most_lines
        self.setTabChangesFocus(True)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.document().setDocumentMargin(0)
        self.setViewportMargins(2, 0, 2, 0)  # as much as Qt's own line fields have
        self.document().contentsChanged.connect(self.updateGeometry)
        self.setSizePolicy(
            self.sizePolicy().horizontalPolicy(), self.sizePolicy().verticalPolicy().Fixed
        )

    def sizeHint(self) -> QSize:
        lines = max(1, round(self.document().size().height()))
        height = min(lines, self._most) * self.fontMetrics().lineSpacing()
        return QSize(theme().px(200), height + theme().px(12))

    def minimumSizeHint(self) -> QSize:
        return QSize(theme().px(80), self.sizeHint().height())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self._single and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            event.ignore()
            return
        super().keyPressEvent(event)


class TextField(ValueField):
    """A :class:`Text` in one language, the others named below.

    Without words in the language that is edited, the file's own words stand there as a
    hint in second text.
    """

    def __init__(
        self,
        own: str,
        language: str = "",
        *,
        optional: bool = False,
        single_line: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        """Args:
        own: tag of the file's own language.
        language: tag that is edited; "" for the file's own.
        optional: whether no words at all means None; otherwise an empty text.
        single_line: whether Enter is left to the form.
        """
        super().__init__(parent)
        self._own, self._language, self._optional = own, language, optional
        self.edit = GrowingEdit(single_line=single_line)
        self.holds(self.edit)
        self._others = label(style=Type.SMALL, soft=True, wrap=True)
        self._others.hide()
        self.layout_.addWidget(self._others)
        self.edit.textChanged.connect(self._read)
        self._showing = False
        self._marks: SpellingMarks | None = None

    @property
    def language(self) -> str:
        """The tag that is edited."""
        return self._language or self._own

    def mark_spelling(self, session: Session) -> None:
        """Mark the unknown words of the language that is edited from now on."""
        self._marks = attach(self.edit, session, self.language)

    def edit_in(self, language: str) -> None:
        """Edit another language from now on; "" for the file's own."""
        self._language = language
        if self._marks is not None:
            self._marks.speak(self.language)
        self.show_value(self.value)

    def show_value(self, value: Any) -> None:
        """Show a text or None."""
        self.value = value
        words = words_in(value, self._language, self._own)
        if words != self.edit.toPlainText():
            self._showing = True
            cursor_at_end = self.edit.textCursor().atEnd()
            position = self.edit.textCursor().position()
            self.edit.setPlainText(words)
            cursor = self.edit.textCursor()
            cursor.setPosition(len(words) if cursor_at_end else min(position, len(words)))
            self.edit.setTextCursor(cursor)
            self._showing = False
        self._say("")
        self._name_others()

    def _name_others(self) -> None:
        tags = languages_of(self.value, self._own)
        here = self.language in tags
        hint = "" if here else words_in(self.value, "", self._own)
        self.edit.setPlaceholderText(hint)
        others = [tag for tag in tags if tag != self.language]
        if not others:
            words = ""
        elif here:
            words = tr("Also in {languages}", languages=", ".join(others))
        else:
            words = tr("Not in {language} yet", language=self.language)
        self._others.setText(words)
        self._others.setVisible(bool(words))

    def _read(self) -> None:
        if self._showing:
            return
        typed = self.edit.toPlainText()
        try:
            text = with_words(self.value, self._language, self._own, typed)
        except ModelError as error:
            self.refuse(refusal(error))
            return
        if text is None and not self._optional:
            text = Text.plain("")
        self.offer(text)
        self._name_others()
