"""Runs the Protocol checks over the library as it stands, away from the window."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence

from PySide6.QtCore import QObject, Signal

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.document import Document
from authoring.editor.place import is_within
from authoring.editor.workers import LatestTask, Token
from authoring.model.library import Library

Judge = Callable[[Library, dt.date], Sequence[CheckResult]]

_ORDER = {strength: index for index, strength in enumerate(Strength)}


def today() -> dt.date:
    """The day on this computer's clock."""
    return dt.datetime.now(tz=dt.UTC).astimezone().date()


def checker() -> Judge:
    """The checks, with a memory, so that only what changed is judged again."""
    from authoring.checks.library import check_library  # noqa: PLC0415 - late: start-up time

    return check_library


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
        self.results: tuple[CheckResult, ...] = ()
        self.task = LatestTask(self._work, delay_ms=300, parent=self)
        self.task.done.connect(self._take)
        self.task.failed.connect(self.failed)
        document.changed.connect(lambda _before, after: self.task.ask(after))

    def start(self) -> None:
        """Judge the library as it stands."""
        self.task.ask(self._document.library)

    def _work(self, library: Library, _token: Token) -> tuple[CheckResult, ...]:
        if self._judge is None:
            self._judge = checker()
        results = dict.fromkeys(self._judge(library, today()))
        return tuple(sorted(results, key=lambda result: _ORDER[result.strength]))

    def _take(self, results: tuple[CheckResult, ...]) -> None:
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
