"""Spelling of the library: unknown words, where they stand, and what to do about them."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from authoring.editor import i18n
from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.empty import EmptyPage
from authoring.editor.library_room.faces import Line
from authoring.editor.library_room.page import LibraryPage
from authoring.editor.library_room.replacing import Wish
from authoring.editor.library_room.rows import Row, RowList
from authoring.editor.library_room.word_sheet import WordSheet
from authoring.editor.parts.labels import label, line
from authoring.editor.parts.segmented import Segmented
from authoring.editor.room import KeyHint
from authoring.editor.session import Session
from authoring.editor.spelling.dictionaries import Dictionary, load
from authoring.editor.spelling.edits import with_clinic_word, without_clinic_word
from authoring.editor.spelling.shelf import shelf_of
from authoring.editor.spelling.unknown import Report, SpellingReport, Unknown
from authoring.editor.theme import Type, theme
from authoring.editor.workers import LatestTask, Token, sentence_of
from authoring.model.edits.replace import Options
from authoring.model.library import Library

UNKNOWN, OWN_WORDS = "unknown", "own"


class SpellingPage(LibraryPage):
    """Words on one side, the chosen word on the other."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self._report = Report()
        self._library = session.library
        self._has_report = False
        self._reporter = SpellingReport(_Shelf())
        choices = [(UNKNOWN, tr("Unknown words")), (OWN_WORDS, tr("Clinic words"))]
        self.which = Segmented(tr("Words"), choices, UNKNOWN)
        self.list = RowList(tr("Unknown words"), low=True, far=110)
        self.notes = label(style=Type.SMALL, soft=True, wrap=True)
        self.sheet = WordSheet(shelf_of(session))
        self.empty = EmptyPage()
        self.stack = QStackedWidget()
        self.task = LatestTask(self._read, delay_ms=150, parent=self)
        self._build()
        self._connect()

    def _build(self) -> None:
        used = theme()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(used.px(16))
        side = QFrame()
        side.setProperty("panel", True)
        side.setFixedWidth(used.px(330))
        inside = QVBoxLayout(side)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.setSpacing(0)
        head = QVBoxLayout()
        head.setContentsMargins(used.px(12), used.px(12), used.px(12), used.px(8))
        head.addWidget(self.which)
        inside.addLayout(head)
        inside.addWidget(line())
        inside.addWidget(self.list, 1)
        foot = QVBoxLayout()
        foot.setContentsMargins(used.px(14), used.px(8), used.px(14), used.px(8))
        foot.addWidget(self.notes)
        inside.addWidget(line())
        inside.addLayout(foot)
        layout.addWidget(side)
        sheet = QFrame()
        sheet.setProperty("panel", True)
        column = QVBoxLayout(sheet)
        column.setContentsMargins(1, 1, 1, 1)
        self.stack.addWidget(self.sheet)
        self.stack.addWidget(self.empty)
        column.addWidget(self.stack)
        layout.addWidget(sheet, 1)

    def _connect(self) -> None:
        self.which.chosen.connect(lambda _which: self._show())
        self.list.shown.connect(self._show_word)
        self.list.wanted.connect(lambda _row: self.sheet.places.setFocus())
        self.sheet.place_wanted.connect(self.session.go_to)
        self.sheet.add_wanted.connect(self.add)
        self.sheet.change_wanted.connect(self.change)
        self.sheet.remove_wanted.connect(self.remove)
        self.task.done.connect(self._take)
        self.task.failed.connect(lambda error: self.notes.setText(sentence_of(error)))

    # ---- reading -----------------------------------------------------------------

    def refresh(self, before: Library, after: Library) -> None:
        """Read what changed."""
        if not self._has_report:
            self._say_empty(tr("Reading the words of the library …"))
        self.task.ask(after)

    def _read(self, library: Library, token: Token) -> tuple[Report, Library]:
        return self._reporter.of(library, token.step), library

    def _take(self, result: tuple[Report, Library]) -> None:
        self._report, self._library = result
        self._has_report = True
        self._show()

    # ---- showing -----------------------------------------------------------------

    @property
    def _own_words(self) -> tuple[str, ...]:
        return self._library.manifest.clinic_words

    def _show(self) -> None:
        row = max(self.list.current, 0)
        own = self.which.value == OWN_WORDS
        number = len(self._own_words) if own else len(self._report.words)
        self.list.setAccessibleName(tr("Clinic words") if own else tr("Unknown words"))
        self.list.rows.show_rows(number, self._own_row if own else self._word_row)
        self.list.choose(row)
        self.notes.setText(self._notes())
        if not number:
            self._say_none(own=own)
        else:
            self._show_word(self.list.current)

    def _word_row(self, row: int) -> Row:
        unknown = self._report.words[row]
        times = tr_n("{n} time", "{n} times", unknown.count)
        several = len({word.language for word in self._report.words}) > 1
        far = f"{unknown.language} · {times}" if several else times
        return Row(Line(unknown.word), far=far)

    def _own_row(self, row: int) -> Row:
        return Row(Line(self._own_words[row]))

    def _notes(self) -> str:
        checked = tr_n("{n} word looked up.", "{n} words looked up.", self._report.checked)
        silent = [
            tr(
                "No dictionary for {language}: its texts are not checked.",
                language=i18n.language_name(tag) or tag,
            )
            for tag in sorted(self._report.unchecked)
        ]
        return " ".join((checked, *silent))

    def _say_none(self, *, own: bool) -> None:
        if own:
            title = tr("No clinic words yet")
            words = tr(
                "Words of the trade that no dictionary has, and names of your own. What you add "
                "here is accepted for everybody who uses this library."
            )
        elif not self._report.checked:
            title = tr("Nothing to check")
            words = tr("There are no texts in a language that this computer has a dictionary for.")
        else:
            title = tr("Every word is known")
            words = tr("Words that no dictionary and no clinic word covers will be listed here.")
        self._say_empty(title, words)

    def _say_empty(self, title: str, words: str = "") -> None:
        self.empty.say(title, words)
        self.stack.setCurrentIndex(1)

    def _chosen(self) -> Unknown | None:
        row = self.list.current
        if self.which.value == OWN_WORDS or not 0 <= row < len(self._report.words):
            return None
        return self._report.words[row]

    def _show_word(self, row: int) -> None:
        unknown = self._chosen()
        if unknown is not None:
            self.sheet.show_unknown(unknown, self._library)
            self.stack.setCurrentIndex(0)
        elif self.which.value == OWN_WORDS and 0 <= row < len(self._own_words):
            self.sheet.show_own(self._own_words[row])
            self.stack.setCurrentIndex(0)
        self.moved.emit()

    # ---- acting ------------------------------------------------------------------

    def add(self) -> None:
        """Make the chosen word one of the clinic's own."""
        unknown = self._chosen()
        if unknown is None:
            return
        word, document = unknown.word, self.session.document
        name = tr("Add “{word}” to clinic words", word=word)
        if document.edit(name, lambda library: with_clinic_word(library, word)):
            said = tr("“{word}” is a clinic word now.", word=word)
            self.session.tell(said, tr("Undo"), document.undo)

    def remove(self) -> None:
        """Take the chosen word off the clinic's own."""
        row = self.list.current
        if self.which.value != OWN_WORDS or not 0 <= row < len(self._own_words):
            return
        word, document = self._own_words[row], self.session.document
        name = tr("Remove “{word}” from clinic words", word=word)
        if document.edit(name, lambda library: without_clinic_word(library, word)):
            said = tr("“{word}” is no clinic word any more.", word=word)
            self.session.tell(said, tr("Undo"), document.undo)

    def change(self, new: str) -> None:
        """Change the chosen word everywhere, on the page for that."""
        unknown = self._chosen()
        if unknown is not None:
            options = Options(match_case=True, whole_words=True, language=unknown.language)
            self.replace_wanted.emit(Wish(unknown.word, new, keep_capital=False, options=options))

    def focus_first(self) -> None:
        """Put the focus on the words."""
        self.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def hints(self) -> Sequence[KeyHint]:
        """Keys of the lists."""
        return (KeyHint("↑ ↓", tr("choose")), KeyHint(tr("Enter"), tr("see where")))


class _Shelf:
    """Dictionaries read on the thread that asks, each once."""

    def __init__(self) -> None:
        self._read: dict[str, Dictionary | None] = {}

    def __call__(self, language: str) -> Dictionary | None:
        if language not in self._read:
            self._read[language] = load(language)
        return self._read[language]
