"""How a command ends."""

from __future__ import annotations

from collections.abc import Callable
from enum import IntEnum

Tell = Callable[[str, int, int], None]
"""Called with what is being done, the pieces of work done and the pieces in all."""


def silent(what: str, done: int, total: int) -> None:
    """Tell nobody."""


class Exit(IntEnum):
    """Exit statuses; scripts rely on them.

    ``FOUND`` is at least one ``must`` result, or an unreadable file inside a library.
    ``UNUSABLE`` is a named path that can't be used, or wrong usage.
    """

    DONE = 0
    FOUND = 1
    UNUSABLE = 2
    UNWRITTEN = 3


class CommandError(Exception):
    """A command that can't go on: one sentence for the user, and the exit status."""

    def __init__(self, sentence: str, status: Exit) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.status = status
