"""Watches the window's event loop: how long each action keeps it from answering."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from attrs import frozen
from PySide6.QtCore import QEventLoop, QObject, Qt, QTimer

BEAT_MS = 1
_MOST_WAITS = 30


@frozen
class Held:
    """How long one action held the window up, at its longest stretch.

    Attributes:
        name: the action.
        wall_s: by the clock; other programs' share of the computer is in it.
        work_s: the window's thread's own computing in that time.
    """

    name: str
    wall_s: float
    work_s: float

    def __str__(self) -> str:
        return f"{self.wall_s * 1000:6.1f} ms, {self.work_s * 1000:6.1f} ms own  {self.name}"


class Watch(QObject):
    """Beats once a millisecond; a beat that comes late tells of a window held up."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[Held] = []
        self._timer = QTimer(self, interval=BEAT_MS, timerType=Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._beat)
        self._last = (0.0, 0.0)
        self._wall_s = self._work_s = 0.0

    def _beat(self) -> None:
        now = (time.perf_counter(), time.thread_time())
        wall = now[0] - self._last[0]
        self._wall_s = max(self._wall_s, wall)
        self._work_s = max(self._work_s, min(wall, now[1] - self._last[1]))
        self._last = now

    @contextmanager
    def _watching(self, name: str) -> Iterator[None]:
        self._wall_s = self._work_s = 0.0
        self._last = (time.perf_counter(), time.thread_time())
        self._timer.start()
        yield
        self._beat()
        self._timer.stop()
        self.found.append(Held(name, self._wall_s, self._work_s))

    def act(
        self,
        name: str,
        action: Callable[[], object],
        settle_ms: int = 400,
        until: Callable[[], bool] = lambda: True,
    ) -> Held:
        """Do an action inside the event loop and watch until what follows it has settled.

        Args:
            until: true once it has; it is asked again after each further ``settle_ms``.
        """
        loop = QEventLoop()
        failed: list[BaseException] = []

        def run() -> None:
            try:
                action()
            except BaseException as error:  # noqa: BLE001 - raised below, out of the loop
                failed.append(error)

        with self._watching(name):
            QTimer.singleShot(0, run)
            for _ in range(_MOST_WAITS):
                QTimer.singleShot(settle_ms, loop.quit)
                loop.exec()
                if until():
                    break
        if failed:
            raise failed[0]
        return self.found[-1]
