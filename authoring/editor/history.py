"""Undo and redo over immutable values. No Qt here."""

from __future__ import annotations

from typing import Generic, TypeVar

from attrs import frozen

V = TypeVar("V")

_MOST_STEPS = 1000


@frozen
class Step(Generic[V]):
    """One edit: its name ("Move entry") and the value before it.

    ``merge_key`` is not empty for typing: edits with one key follow each other as one step.
    """

    name: str
    before: V
    merge_key: str = ""


@frozen
class History(Generic[V]):
    """A value and the steps that led to it; ``undone`` holds what redo brings back."""

    value: V
    steps: tuple[Step[V], ...] = ()
    undone: tuple[Step[V], ...] = ()

    def edited(self, name: str, value: V, merge_key: str = "") -> History[V]:
        """The history after an edit; nothing changes where the value does not."""
        if value == self.value:
            return self
        last = self.steps[-1] if self.steps else None
        if merge_key and last is not None and last.merge_key == merge_key and not self.undone:
            return History(value, self.steps)
        kept = self.steps[-(_MOST_STEPS - 1) :]
        return History(value, (*kept, Step(name, self.value, merge_key)))

    def sealed(self) -> History[V]:
        """The same history, whose last step takes no more edits in."""
        if not self.steps or not self.steps[-1].merge_key:
            return self
        last = self.steps[-1]
        return History(self.value, (*self.steps[:-1], Step(last.name, last.before)), self.undone)

    def undo(self) -> History[V]:
        """The history one step back; the same where there is none."""
        if not self.steps:
            return self
        last = self.steps[-1]
        redo = Step(last.name, self.value)
        return History(last.before, self.steps[:-1], (*self.undone, redo))

    def redo(self) -> History[V]:
        """The history one step on again; the same where nothing was undone."""
        if not self.undone:
            return self
        step = self.undone[-1]
        return History(step.before, (*self.steps, Step(step.name, self.value)), self.undone[:-1])

    @property
    def undo_name(self) -> str:
        """Name of the edit that undo takes back, "" for none."""
        return self.steps[-1].name if self.steps else ""

    @property
    def redo_name(self) -> str:
        """Name of the edit that redo brings back, "" for none."""
        return self.undone[-1].name if self.undone else ""
