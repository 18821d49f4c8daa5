"""Python's search for unreachable cycles, kept in the window's thread and short.

Left to itself, it runs in whichever thread asks for memory next. On a worker's thread it
would take down objects of Qt that only the window's thread may touch, and it would look
through the whole library each time: a quarter of a second at a thousand cards.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer

_INTERVAL_MS = 1000


def collect_due() -> None:
    """Collect the generation that is due by Python's own thresholds, in this thread."""
    due = [count > most for count, most in zip(gc.get_count(), gc.get_threshold(), strict=True)]
    if any(due):
        gc.collect(max(generation for generation, is_due in enumerate(due) if is_due))


class Garbage(QObject):
    """Collects by a timer of the window's thread, in place of Python's own times."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        gc.disable()
        self._timer = QTimer(self, interval=_INTERVAL_MS)
        self._timer.timeout.connect(self.collect)
        self._timer.start()

    def collect(self) -> None:
        """Collect what is due."""
        collect_due()

    def stop(self) -> None:
        """Leave it to Python again."""
        self._timer.stop()
        gc.unfreeze()
        gc.enable()


def spare_what_is_there() -> None:
    """Search what is alive now no more; for a library just read, whose values hold no cycles."""
    if not gc.isenabled():
        gc.freeze()
