"""Runs the Protocol checks over the library as it stands, away from the window."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.document import Document
from authoring.editor.place import is_within
from authoring.editor.workers import LatestTask, Token
from authoring.model.library import Library

if TYPE_CHECKING:
    from authoring.editor.check_process import LibraryJudge

Judge = Callable[[Library, dt.date], Sequence[CheckResult]]

_ORDER = {strength: index for index, strength in enumerate(Strength)}


def today() -> dt.date:
    """The day on this computer's clock."""
    return dt.datetime.now(tz=dt.UTC).astimezone().date()


class ProtocolChecks(QObject):
    """The results of the checks for one document; always for its latest value.

    Signals:
        changed(): there are new results.
        failed(error): the checks themselves failed.
    """

    changed = Signal()
    failed = Signal(object)

    def __init__(
        self, document: Document, judge: Judge | None = None, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._document = document
        self._judge = judge
        self._process: LibraryJudge | None = None
        self.results: tuple[CheckResult, ...] = ()
        self._asked: Library | None = None
        self._judged: Library | None = None
        self.task = LatestTask(self._work, delay_ms=300, parent=self)
        self.task.done.connect(self._take)
        self.task.failed.connect(self.failed)
        document.changed.connect(lambda _before, after: self._ask(after))

    @property
    def are_current(self) -> bool:
        """Whether the results are about the library as it stands."""
        return self._judged is not None and self._judged is self._document.library

    def start(self) -> None:
        """Judge the library as it stands."""
        self._ask(self._document.library)

    def _ask(self, library: Library) -> None:
        self._asked = library
        self.task.ask(library)

    def _work(self, library: Library, token: Token) -> tuple[CheckResult, ...]:
        if self._judge is not None:
            found = self._judge(library, today())
        else:
            found = self._own_judge()(library, today(), token.check)
        results = dict.fromkeys(found)
        return tuple(sorted(results, key=lambda result: _ORDER[result.strength]))

    def _own_judge(self) -> LibraryJudge:
        from authoring.editor.check_process import LibraryJudge  # noqa: PLC0415 - late: start-up

        if self._process is None:
            self._process = LibraryJudge()
        return self._process

    def close(self) -> None:
        """Check no more."""
        self.task.cancel()
        if self._process is not None:
            self._process.close()

    def _take(self, results: tuple[CheckResult, ...]) -> None:
        self._judged = self._asked
        if results != self.results:
            self.results = results
            self.changed.emit()

    def about(
        self, subject: Subject, subject_id: str = "", path: str = ""
    ) -> tuple[CheckResult, ...]:
        """Results about a file, at or inside a place of it; the most important first."""
        return tuple(
            result
            for result in self.results
            if result.subject is subject
            and result.subject_id == subject_id
            and is_within(result.path, path)
        )
