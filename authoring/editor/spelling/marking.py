"""Marks under unknown words of a text field, and its menu of what may have been meant."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import (
    QAction,
    QContextMenuEvent,
    QTextCharFormat,
    QTextCursor,
)
from PySide6.QtWidgets import QMenu

from authoring.editor.i18n import tr
from authoring.editor.parts.word_marks import Edit, marks_of
from authoring.editor.session import Session
from authoring.editor.spelling.edits import with_clinic_word
from authoring.editor.spelling.shelf import Shelf, shelf_of


class SpellingMarks(QObject):
    """Underlines the unknown words of one field; made by :func:`attach`."""

    def __init__(self, edit: Edit, session: Session, language: str) -> None:
        super().__init__(edit)
        self._edit, self._session, self._language = edit, session, language
        self._shelf = shelf_of(session)
        self._shelf.arrived.connect(self._on_arrival)
        self._shelf.accepted_changed.connect(self.mark_anew)
        edit.installEventFilter(self)
        wave = QTextCharFormat.UnderlineStyle.SpellCheckUnderline
        marks_of(edit).show("spelling", self._spans, wave, "stop")
        self._shelf.dictionary(language)

    @property
    def language(self) -> str:
        """Tag of the language that the field is read in."""
        return self._language

    def speak(self, language: str) -> None:
        """Read the field in another language from now on."""
        if language != self._language:
            self._language = language
            self._shelf.dictionary(language)
            self.mark_anew()

    def unknown(self) -> tuple[str, ...]:
        """The words that are marked."""
        speller = self._shelf.speller(self._language)
        if speller is None:
            return ()
        return tuple(word for _, _, word in speller.unknown(self._edit.toPlainText()))

    def _spans(self, text: str) -> Iterator[tuple[int, int]]:
        speller = self._shelf.speller(self._language)
        if speller is not None:
            yield from ((start, end) for start, end, _word in speller.unknown(text))

    def _on_arrival(self, language: str) -> None:
        if language == self._language:
            self.mark_anew()

    def mark_anew(self) -> None:
        """Look all words up again; the field does not take that for a change of its text."""
        was_blocked = self._edit.blockSignals(True)
        marks_of(self._edit).rehighlight()
        self._edit.blockSignals(was_blocked)

    # ---- the menu ----------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ContextMenu and isinstance(event, QContextMenuEvent):
            menu = self.menu_at(event.pos(), by_key=event.reason() == event.Reason.Keyboard)
            if menu is not None:
                menu.popup(event.globalPos())
                return True
        return super().eventFilter(watched, event)

    def menu_at(self, at: QPoint, *, by_key: bool = False) -> QMenu | None:
        """The field's menu with what may have been meant; None over a known word."""
        cursor = self._edit.textCursor() if by_key else self._edit.cursorForPosition(at)
        spot = self._word_at(cursor.position())
        if spot is None:
            return None
        menu = self._edit.createStandardContextMenu()
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        first = menu.actions()[0] if menu.actions() else None
        _SpellingMenu(self, self._shelf, menu, first, spot)
        return menu

    def _word_at(self, position: int) -> tuple[int, int, str] | None:
        speller = self._shelf.speller(self._language)
        if speller is None:
            return None
        found = speller.unknown(self._edit.toPlainText())
        return next((spot for spot in found if spot[0] <= position <= spot[1]), None)

    def put(self, spot: tuple[int, int, str], word: str) -> None:
        """Put another word in the place of an unknown one."""
        start, end, _ = spot
        cursor = self._edit.textCursor()
        cursor.setPosition(start)
        cursor.setPosition(end, QTextCursor.MoveMode.KeepAnchor)
        cursor.insertText(word)

    def accept(self, word: str) -> None:
        """Make a word one of the clinic's own."""
        name = tr("Add “{word}” to clinic words", word=word)
        self._session.document.edit(name, lambda library: with_clinic_word(library, word))


class _SpellingMenu(QObject):
    """The first lines of a field's menu: filled when the words that may be meant are known."""

    def __init__(
        self,
        marks: SpellingMarks,
        shelf: Shelf,
        menu: QMenu,
        before: QAction | None,
        spot: tuple[int, int, str],
    ) -> None:
        super().__init__(menu)
        self._marks, self._menu, self._spot = marks, menu, spot
        self._waiting = QAction(tr("Looking for words that are near …"), menu)
        self._waiting.setEnabled(False)
        add = QAction(tr("Add “{word}” to clinic words", word=spot[2]), menu)
        add.triggered.connect(lambda: marks.accept(spot[2]))
        self._add = add
        for action in (self._waiting, add):
            menu.insertAction(before, action)  # type: ignore[arg-type]  # None is the end
        menu.insertSeparator(before)  # type: ignore[arg-type]  # None is the end
        shelf.suggested.connect(self._fill)
        shelf.suggest(marks.language, spot[2])

    def _fill(self, _language: str, word: str, words: tuple[str, ...]) -> None:
        if word != self._spot[2] or not self._waiting.isVisible():
            return
        for other in words:
            action = QAction(other, self._menu)
            action.triggered.connect(lambda _=False, new=other: self._marks.put(self._spot, new))
            self._menu.insertAction(self._add, action)
        if words:
            self._waiting.setVisible(False)
        else:
            self._waiting.setText(tr("No word is near to this one"))


def attach(edit: Edit, session: Session, language: str = "") -> SpellingMarks:
    """Mark the unknown words of a text field from now on.

    The menu of the field (right click, or the menu key) offers what may have been meant, and
    to add the word to the clinic's own. A language without a dictionary has no marks.

    Args:
        language: tag of the field's language; "" for the library's own. Call ``speak`` on
            what is returned when it changes.
    """
    return SpellingMarks(edit, session, language or session.library.manifest.language)
