"""Jobs that must all be done, one after the other, away from the window."""

from __future__ import annotations

import sys
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any

from PySide6.QtCore import QCoreApplication, QEventLoop, QObject, Signal

Then = Callable[[Any, BaseException | None], object]


_TURN_S = 0.0005


def take_short_turns() -> None:
    """Let the window have the interpreter back after half a millisecond of a thread's work.

    With Python's own five milliseconds, a window that draws while a thread computes waits
    that long after each call into Qt that lets the interpreter go.
    """
    sys.setswitchinterval(_TURN_S)


class Jobs(QObject):
    """A line of jobs on one thread; each one's end comes back in the window's thread."""

    _ended = Signal(object, object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = ThreadPoolExecutor(1, "rungbook-jobs")
        self._waiting = 0
        self._ended.connect(self._end)
        self.destroyed.connect(lambda _=None, pool=self._pool: pool.shutdown(wait=False))

    @property
    def is_busy(self) -> bool:
        """Whether a job is waiting or being done, or its end not told yet."""
        return self._waiting > 0

    def run(self, work: Callable[[], Any], then: Then) -> None:
        """Do a job after those before it.

        Args:
            work: what to do, over immutable snapshots.
            then: gets the result and None, or None and what ended the work.
        """
        self._waiting += 1
        self._pool.submit(work).add_done_callback(lambda future: self._post(future, then))

    def _post(self, future: Future[Any], then: Then) -> None:
        try:
            self._ended.emit(future, then)
        except RuntimeError:  # the window is gone
            return

    def _end(self, future: Future[Any], then: Then) -> None:
        self._waiting -= 1
        error = future.exception()
        then(None if error is not None else future.result(), error)

    def finish(self) -> None:
        """Come back when every job is done and told; the window stays responsive."""
        flags = QEventLoop.ProcessEventsFlag.WaitForMoreEvents
        while self.is_busy:
            QCoreApplication.processEvents(flags)
