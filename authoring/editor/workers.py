"""Work away from the window: the latest wish wins, and nothing blocks.

A :class:`LatestTask` runs one pure function over an immutable snapshot on a thread
of its own. Asking again while it works makes the earlier result unwanted.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from functools import cache
from itertools import count
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from authoring.editor.i18n import tr
from authoring.editor.sentences import said

SLOW_MS = 1000
"""After this long, progress and a way to cancel are shown."""

_TELL_S = 0.05


class Stopped(Exception):  # noqa: N818 - no error: the work is not wanted any more
    """Raised inside work whose result is not wanted any more."""


class Token:
    """Handed to the work, so that it can notice that it is not wanted and tell how far it is."""

    def __init__(self, tell: Callable[[int, int], None]) -> None:
        self._event = threading.Event()
        self._tell = tell
        self._told = 0.0

    @property
    def is_stopped(self) -> bool:
        """Whether the result is not wanted any more."""
        return self._event.is_set()

    def stop(self) -> None:
        """Say that the result is not wanted any more."""
        self._event.set()

    def check(self) -> None:
        """Raises :class:`Stopped` where the result is not wanted any more."""
        if self._event.is_set():
            raise Stopped

    def step(self, done: int, of: int) -> None:
        """Tell that ``done`` of ``of`` parts are done; raises as :meth:`check`.

        As often as wanted: it is passed on some times a second only.
        """
        self.check()
        now = time.monotonic()
        if now - self._told >= _TELL_S or done >= of:
            self._told = now
            self._tell(done, of)


Work = Callable[[Any, Token], Any]


def sentence_of(error: BaseException) -> str:
    """What a failure says to the user: its own sentence, or that the program is at fault."""
    whole = getattr(error, "whole", "")
    if whole:
        return said(whole)
    if getattr(error, "sentence", ""):
        return str(error)
    return tr(
        "The program failed at this ({kind}: {words}). Your work is still here.",
        kind=type(error).__name__,
        words=str(error)[:200] or "-",
    )


class _Post(QObject):
    """Carries news from the threads to the window; it outlives every task.

    A task may go while its thread is about to tell something: a signal of the task's own
    would then be sent by an object that is half gone.

    Signals:
        ended(key of the task, number of the wish, future)
        stepped(key of the task, number of the wish, done, of)
    """

    ended = Signal(int, int, object)
    stepped = Signal(int, int, int, int)


@cache
def _post() -> _Post:
    return _Post()


_KEYS = count()


class LatestTask(QObject):
    """Runs ``work(snapshot, token)`` on a thread; only the latest wish's result comes back.

    Signals (all in the window's thread):
        done(result): the result of the latest snapshot.
        failed(error): the exception that ended the latest work; see :func:`sentence_of`.
        busy_changed(bool): work began or none is left.
        slow(): it has been working for a second; show progress and a way to cancel.
        progressed(done, of): the work told how far it is.
    """

    done = Signal(object)
    failed = Signal(object)
    busy_changed = Signal(bool)
    slow = Signal()
    progressed = Signal(int, int)

    def __init__(self, work: Work, *, delay_ms: int = 150, parent: QObject | None = None) -> None:
        """Args:
        work: pure function of an immutable snapshot and a :class:`Token`.
        delay_ms: wait for this long without another wish before beginning.
        """
        super().__init__(parent)
        self._work = work
        self._number = 0
        self._snapshot: object = None
        self._waits = False
        self._running: tuple[int, Token] | None = None
        self._was_busy = False
        self._pool = ThreadPoolExecutor(1, "rungbook-work")
        # The thread begins here, idle: begun with work, it would keep the window waiting
        # until the work lets go for the first time.
        self._pool.submit(int)
        self._delay = QTimer(self, singleShot=True, interval=delay_ms)
        self._delay.timeout.connect(self._begin)
        self._slow = QTimer(self, singleShot=True, interval=SLOW_MS)
        self._slow.timeout.connect(self.slow)
        self._key = next(_KEYS)
        _post().ended.connect(self._end)
        _post().stepped.connect(self._step)
        self.destroyed.connect(lambda _=None, pool=self._pool: pool.shutdown(wait=False))

    @property
    def is_busy(self) -> bool:
        """Whether a wish is waiting or being worked on."""
        return self._waits or (self._running is not None and self._running[0] == self._number)

    def ask(self, snapshot: object) -> None:
        """Wish for the result of this snapshot; an earlier wish is dropped."""
        self._number += 1
        self._snapshot = snapshot
        self._waits = True
        if self._running is not None:
            self._running[1].stop()
        self._delay.start()
        self._tell_busy()

    def ask_now(self, snapshot: object) -> None:
        """As :meth:`ask`, without waiting for further wishes."""
        self.ask(snapshot)
        self._delay.stop()
        self._begin()

    def cancel(self) -> None:
        """Drop the wish; nothing is sent for it any more."""
        self._number += 1
        self._waits = False
        self._delay.stop()
        if self._running is not None:
            self._running[1].stop()
        self._tell_busy()

    def _begin(self) -> None:
        if not self._waits or self._running is not None:
            return
        self._waits = False
        key, number, post = self._key, self._number, _post()
        token = Token(lambda done, of: post.stepped.emit(key, number, done, of))
        self._running = (number, token)
        self._slow.start()
        future = self._pool.submit(self._work, self._snapshot, token)
        future.add_done_callback(lambda ended: post.ended.emit(key, number, ended))

    def _end(self, key: int, number: int, future: Future[Any]) -> None:
        if key != self._key:
            return
        self._running = None
        self._slow.stop()
        wanted = number == self._number
        error = None if future.cancelled() else future.exception()
        if self._waits and not self._delay.isActive():
            self._begin()
        self._tell_busy()
        if not wanted or isinstance(error, Stopped):
            return
        if error is not None:
            self.failed.emit(error)
        else:
            self.done.emit(future.result())

    def _step(self, key: int, number: int, done: int, of: int) -> None:
        if key == self._key and number == self._number:
            self.progressed.emit(done, of)

    def _tell_busy(self) -> None:
        if self.is_busy != self._was_busy:
            self._was_busy = self.is_busy
            self.busy_changed.emit(self._was_busy)
