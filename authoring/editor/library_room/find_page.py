"""Finding: a field, filters, what was found, and a preview of the chosen."""

from __future__ import annotations

import re
from collections.abc import Sequence

from PySide6.QtCore import QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.edits import noun_of
from authoring.editor.library_room.empty import EmptyPage
from authoring.editor.library_room.filters import Filters
from authoring.editor.library_room.finder import by_title, finder_of
from authoring.editor.library_room.nouns import NounActions
from authoring.editor.library_room.page import LibraryPage
from authoring.editor.library_room.preview import Preview
from authoring.editor.library_room.results import ResultList
from authoring.editor.library_room.steering import Steering
from authoring.editor.parts.labels import label, line
from authoring.editor.protocol_checks import today
from authoring.editor.room import KeyHint
from authoring.editor.search.index import Found, Query
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.editor.workers import sentence_of
from authoring.model.library import Library

_PREVIEW_MS = 40
"""The preview follows when typing and arrows pause for so long."""
_KEPT_WORDS = "library_room/words"


class FindPage(LibraryPage):
    """The page."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.nouns = NounActions(session)
        self._finder = finder_of(session)
        self._found = Found()
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr("Find by title, step, cue, kit, condition, reference …"))
        self.field.setAccessibleName(tr("Find in the library"))
        self.field.setProperty("pane", True)
        self.filters = Filters()
        self.list = ResultList(today())
        self.preview = Preview(session)
        self.count = label(style=Type.SMALL, soft=True)
        self.guess = label(style=Type.SMALL, wrap=True)
        self.make_button = QPushButton()
        self.clear_button = QPushButton(tr("Clear words and filters"))
        self.empty = EmptyPage(self.make_button, self.clear_button)
        self.stack = QStackedWidget()
        self._previewing = QTimer(self, singleShot=True, interval=_PREVIEW_MS)
        self._previewing.timeout.connect(self._show_preview)
        self.field.setText(session.settings.kept(_KEPT_WORDS))
        self._build()
        self._connect()

    def _build(self) -> None:
        used = theme()
        gap = used.px(16)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(gap)
        layout.addWidget(self.filters)
        layout.addWidget(self._middle(), 1)
        layout.addWidget(self.preview)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        used, wide = theme(), self.width()
        self.filters.setFixedWidth(min(used.px(230), int(wide * 0.2)))
        self.preview.setFixedWidth(min(used.px(340), int(wide * 0.28)))

    def _middle(self) -> QWidget:
        used = theme()
        sheet = QFrame()
        sheet.setProperty("panel", True)
        inside = QVBoxLayout(sheet)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.setSpacing(0)
        head = QVBoxLayout()
        head.setContentsMargins(used.px(12), used.px(12), used.px(12), used.px(8))
        head.setSpacing(used.px(6))
        head.addWidget(self.field)
        below = QHBoxLayout()
        below.setSpacing(used.px(12))
        below.addWidget(self.count)
        below.addWidget(self.guess, 1)
        head.addLayout(below)
        inside.addLayout(head)
        inside.addWidget(line())
        self.stack.addWidget(self.list)
        self.stack.addWidget(self.empty)
        inside.addWidget(self.stack, 1)
        return sheet

    def _connect(self) -> None:
        self.field.textChanged.connect(self._on_words)
        self.field.returnPressed.connect(self.open)
        self._steering = Steering(self.field, self.list)
        self.filters.chosen_changed.connect(self.ask)
        self._finder.found.connect(self._show)
        self._finder.found_early.connect(self._show_early)
        self._finder.failed.connect(self._show_failure)
        self._finder.progressed.connect(self._show_progress)
        self.list.wanted.connect(lambda _row: self.open())
        self.list.shown.connect(self._show_row)
        self.preview.open_wanted.connect(self.open)
        self.preview.copy_wanted.connect(self.copy)
        self.preview.delete_wanted.connect(self.delete)
        self.preview.place_wanted.connect(self.session.go_to)
        self.make_button.clicked.connect(self._make)
        self.clear_button.clicked.connect(self.clear)

    # ---- asking ------------------------------------------------------------------

    def refresh(self, before: Library, after: Library) -> None:
        """Search anew in what the library is now."""
        if not self._finder.is_ready and not self.list.ids:
            self.list.show_found(by_title(after), after)
        self.ask()

    def focus_first(self) -> None:
        """Put the focus on the field, its words chosen."""
        self.field.setFocus()
        self.field.selectAll()

    def hints(self) -> Sequence[KeyHint]:
        """Keys of the field, the filters or the rows."""
        if self.filters.isAncestorOf(self.focusWidget()):
            return (
                KeyHint(tr("Space"), tr("tick")),
                KeyHint("← →", tr("close and open a filter")),
            )
        keys = [
            KeyHint("↑ ↓", tr("choose")),
            KeyHint(tr("Enter"), tr("open")),
            KeyHint("Ctrl D", tr("duplicate")),
        ]
        if self.list.hasFocus():
            keys.append(KeyHint(tr("Del"), tr("delete")))
        return keys

    def ask(self) -> None:
        """Search for what stands in the field and is ticked."""
        self._finder.ask(Query(today(), self.field.text(), self.filters.chosen))

    def _on_words(self, words: str) -> None:
        self.session.settings.keep(_KEPT_WORDS, words)
        self.ask()

    def clear(self) -> None:
        """Show everything."""
        self.filters.clear()
        self.field.clear()
        self.field.setFocus()

    # ---- showing -----------------------------------------------------------------

    def _show(self, found: Found, library: Library) -> None:
        self._found = found
        self.filters.show_counts(found, library)
        self.list.show_found(found, library)
        self.count.setText(self._count_words(found))
        self.guess.setText(_guess_words(found))
        self.stack.setCurrentIndex(0 if found.ids else 1)
        if not found.ids:
            self._say_none(found)

    def _show_early(self, found: Found, library: Library) -> None:
        """Show what is found so far; the count goes on saying how far the reading is."""
        self._found = found
        self.filters.show_counts(found, library)
        self.list.show_found(found, library)
        self.stack.setCurrentIndex(0)

    def _count_words(self, found: Found) -> str:
        if len(found.ids) == found.of:
            return tr_n("{n} card or protocol", "{n} cards and protocols", found.of)
        return tr("{n} of {of}", n=len(found.ids), of=found.of)

    def _say_none(self, found: Found) -> None:
        words = _one_line(self.field.text())
        if not found.of:
            title = tr("Nothing here yet")
            text = tr(
                "A card holds one exercise with its easier and harder ways. A protocol places "
                "cards in stages. Begin with a card."
            )
            make = tr("New card")
        elif words:
            title = tr("Nothing holds “{words}”", words=words)
            text = tr("Search looks in titles, steps, cues, kit, conditions and references.")
            make = tr("New card “{title}”", title=words)
        else:
            title = tr("No card or protocol fits all the filters")
            text = tr("Untick one of them to see more.")
            make = ""
        self.empty.say(title, text)
        self.make_button.setText(make)
        self.make_button.setVisible(bool(make))
        self.clear_button.setVisible(bool(found.of))

    def _show_failure(self, error: BaseException) -> None:
        self.count.setText(sentence_of(error))

    def _show_progress(self, done: int, of: int) -> None:
        if of > 100:
            self.count.setText(tr("Reading {done} of {of} …", done=done, of=of))

    def _show_row(self, row: int) -> None:
        self.preview.set_able(able=row >= 0)
        self._previewing.start()

    def _show_preview(self) -> None:
        self.preview.show_noun(noun_of(self.session.library, self.list.current_id))
        self.moved.emit()

    # ---- acting ------------------------------------------------------------------

    def open(self) -> None:
        """Open the chosen row where it matched."""
        row = self.list.current
        noun_id = self.list.current_id
        if noun_id:
            face = self.list.face(row)
            self.nouns.open(noun_id, face.path if face is not None else "")

    def copy(self) -> None:
        """Duplicate the chosen row."""
        if self.list.current_id:
            self.nouns.copy(self.list.current_id)

    def delete(self) -> None:
        """Delete the chosen row."""
        if self.list.current_id:
            self.nouns.delete(self.list.current_id)

    def _make(self) -> None:
        self.nouns.new_card(_one_line(self.field.text()) if self._found.of else "")


def _one_line(words: str) -> str:
    return re.sub(r"\s+", " ", words).strip()[:120]


def _guess_words(found: Found) -> str:
    """Says which words are spelled nowhere, and what is shown instead."""
    guesses = [one for one in found.wanted if one.is_guess]
    if not guesses or not found.ids:
        return ""
    said = [
        tr("“{word}” as {others}", word=one.word, others=", ".join(one.others[:3]))
        for one in guesses
    ]
    return tr("Read {words}.", words="; ".join(said))
