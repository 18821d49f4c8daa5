"""Builds something large in small pieces, so that the window stays quick meanwhile."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QObject, QTimer, Signal


class Chunks(QObject):
    """Runs steps in order, one each time the window has nothing else to do.

    Signals:
        finished(): the last step has run.
    """

    finished = Signal()

    def __init__(self, steps: Sequence[Callable[[], object]], parent: QObject) -> None:
        super().__init__(parent)
        self._steps = list(steps)
        self._timer = QTimer(self, interval=0)
        self._timer.timeout.connect(self._next)
        self._timer.start()

    @property
    def is_done(self) -> bool:
        """Whether every step has run."""
        return not self._steps

    def finish(self) -> None:
        """Run all that is left now."""
        while self._steps:
            self._next()

    def _next(self) -> None:
        if self._steps:
            self._steps.pop(0)()
        if not self._steps and self._timer.isActive():
            self._timer.stop()
            self.finished.emit()
