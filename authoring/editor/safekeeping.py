"""What a window asks and says about saved, unsaved, lost and foreign work."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from authoring.editor import outside, recovery
from authoring.editor.i18n import tr
from authoring.editor.messages import Messages
from authoring.editor.outside import Outside
from authoring.editor.recovery import Recovered
from authoring.editor.safety_dialogs import Question, file_lines
from authoring.editor.storage import Storage
from authoring.editor.workers import sentence_of
from authoring.files.errors import FileProblem, OutsideChange
from authoring.files.saving import changed_nouns, name_of, noun_of, removed_ids


class Safekeeping(QObject):
    """Joins a window's storage to its messages and dialogs."""

    def __init__(self, storage: Storage, messages: Messages, window: QWidget) -> None:
        super().__init__(window)
        self._storage = storage
        self._messages = messages
        self._window = window
        self.question: Question | None = None
        self._on_saved: Callable[[], object] | None = None
        self._on_kept: Callable[[], object] | None = None
        self._leaving = False
        storage.save_failed.connect(self._say_failure)
        storage.saved.connect(self._after_save)
        storage.state_changed.connect(self._after_keep)
        storage.troubled.connect(messages.warn)
        storage.outside_found.connect(self._offer_outside)

    # ---- the recovery file ------------------------------------------------------

    def begin(self) -> None:
        """Claim the recovery file, offer what it holds, and watch the folder."""
        if self._storage.claim():
            try:
                kept = self._storage.found()
            except FileProblem as problem:
                self._messages.warn(str(problem), tr("Discard it"), self._storage.discard)
            else:
                if kept is not None:
                    self._offer_recovery(kept)
        else:
            self._messages.warn(
                tr(
                    "This library is open in another window of Rungbook, so this one keeps "
                    "no recovery copy. Save often, or close one of the two."
                )
            )
        self._storage.watch()

    def _offer_recovery(self, kept: Recovered) -> None:
        clock = kept.at.astimezone().strftime("%H:%M")
        day = kept.at.astimezone().date()
        lines = file_lines(recovery.told(self._storage.document.opened, kept))
        question = self._ask(
            tr("Unsaved work from {time} was found", time=clock),
            tr(
                "Rungbook ended on {day} before this work was saved. "
                "Nothing is written to the library until you save.",
                day=day,
            ),
            lines,
        )
        question.answer(tr("Restore"), lambda: self._restore(kept))
        question.answer(tr("Discard"), self._storage.discard)
        question.answer(tr("Decide later"))

    def _restore(self, kept: Recovered) -> None:
        self._storage.restore(kept)
        self._messages.tell(
            tr("The unsaved work is back. Save it, or undo."),
            tr("Undo"),
            self._storage.document.undo,
        )

    # ---- saving ---------------------------------------------------------------

    def _say_failure(self, error: BaseException) -> None:
        self._on_saved = None
        if not isinstance(error, OutsideChange):
            self._messages.warn(sentence_of(error), tr("Save again"), self._storage.save)

    def _after_save(self) -> None:
        then, self._on_saved = self._on_saved, None
        if then is not None:
            then()

    def may_close(self, close: Callable[[], object]) -> bool:
        """Whether the window may close now; else it is asked, and ``close`` called in time."""
        dirty = self._storage.document.is_dirty and not (self._leaving and self._storage.is_kept)
        if not dirty and not self._storage.is_saving:
            return True
        if not dirty:
            self._on_saved = close
            return False
        question = self._ask(
            tr("Save before closing?"),
            tr("There is unsaved work."),
            self._unsaved_lines(),
        )
        question.answer(tr("Save and close"), lambda: self._save_and(close))
        if self._storage.can_keep:
            question.answer(tr("Keep for next time"), lambda: self._keep_and(close))
        question.answer(tr("Stay here"))
        return False

    def _unsaved_lines(self) -> Sequence[str]:
        document = self._storage.document
        own = document.library.manifest.language
        lines = [name_of(noun, own) for noun in changed_nouns(document.on_disk, document.library)]
        for key in removed_ids(document.on_disk, document.library):
            noun = noun_of(document.on_disk, key)
            if noun is not None:
                lines += file_lines([(name_of(noun, own), "removed")])
        return lines

    def _save_and(self, close: Callable[[], object]) -> None:
        self._on_saved = close
        self._storage.save()

    def _keep_and(self, close: Callable[[], object]) -> None:
        self._on_kept = close
        self._storage.keep()

    def _after_keep(self) -> None:
        if self._on_kept is not None and self._storage.is_kept:
            then, self._on_kept = self._on_kept, None
            self._leaving = True
            then()
            self._leaving = False

    # ---- outside changes --------------------------------------------------------

    def _offer_outside(self, found: Outside) -> None:
        document = self._storage.document
        question = self._ask(
            tr("Somebody else changed this library"),
            tr(
                "These files were changed outside this window. "
                "Nothing of theirs or yours has been written over."
            ),
            file_lines(outside.names(found, document.library)),
        )
        question.answer(tr("Take theirs"), self._storage.take_theirs)
        question.answer(tr("Keep mine"), self._storage.keep_mine)
        question.answer(tr("Keep both"), self._storage.keep_both)
        question.answer(tr("Decide later"))

    def _ask(self, title: str, sentence: str, lines: Sequence[str]) -> Question:
        if self.question is not None:
            self.question.close()
        question = Question(title, sentence, lines, self._window)
        question.finished.connect(lambda _result: self._forget(question))
        self.question = question
        question.open()
        return question

    def _forget(self, question: Question) -> None:
        if self.question is question:
            self.question = None
