"""Words that only a page on a screen has: names of its controls."""

from __future__ import annotations

from attrs import frozen


@frozen
class ScreenWords:
    """Names of the controls that only a page on a screen has; no word of the sheet itself.

    Attributes:
        start, stop: of the clock of an exercise.
        kept, clear: where the ticks of the diary are kept, and how to clear them.
    """

    start: str = "Start the clock"
    stop: str = "Stop the clock"
    kept: str = "Your ticks stay on this device."
    clear: str = "Clear the ticks"
