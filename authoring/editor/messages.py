"""Quiet messages to the user. Nothing here waits for an answer."""

from __future__ import annotations

from collections.abc import Callable

from attrs import frozen
from PySide6.QtCore import QObject, Signal


@frozen
class Message:
    """One sentence, and at most one thing to do about it ("Undo", "Show").

    ``is_problem`` messages stay until they are put away; others go by themselves.
    """

    sentence: str
    action_name: str = ""
    action: Callable[[], object] | None = None
    is_problem: bool = False


class Messages(QObject):
    """Where everything that a window has to say goes.

    Signals:
        told(Message): something was said.
    """

    told = Signal(object)

    def tell(
        self, sentence: str, action_name: str = "", action: Callable[[], object] | None = None
    ) -> None:
        """Say one sentence that goes away by itself."""
        self.told.emit(Message(sentence, action_name, action))

    def warn(
        self, sentence: str, action_name: str = "", action: Callable[[], object] | None = None
    ) -> None:
        """Say one sentence that stays until it is put away."""
        self.told.emit(Message(sentence, action_name, action, is_problem=True))
