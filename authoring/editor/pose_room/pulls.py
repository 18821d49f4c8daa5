"""Pulls with the mouse and pushes with the keys, each an edit of the pose."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from authoring.editor.i18n import tr
from authoring.editor.pose_room import edits
from authoring.editor.pose_room.pulling import Pull
from authoring.editor.pose_room.words import handle_words
from authoring.figures.dragging import Handle

if TYPE_CHECKING:
    from authoring.editor.pose_room.room import PoseRoom


class Pulls(QObject):
    """What the handles of a room do.

    Signals:
        moved(pull): a pull goes on; None where it ended without an edit.
    """

    moved = Signal(object)

    def __init__(self, room: PoseRoom) -> None:
        super().__init__(room)
        self._room = room
        self._pull: Pull | None = None

    @property
    def goes_on(self) -> bool:
        """Whether the mouse holds a handle."""
        return self._pull is not None

    def _begun(self, handle: Handle) -> Pull | None:
        seen = self._room.seen_now()
        if seen is None or seen.body is None:
            return None
        return Pull(seen.wanted.pose, seen.wanted.index, handle, seen.body, seen.body)

    def begin(self, handle: Handle) -> None:
        """Take hold of a handle."""
        self._room.session.document.seal()
        self._pull = self._begun(handle)

    def go_on(self, right_cm: float, up_cm: float) -> None:
        """Pull the handle to so far from where it was taken, cm on paper."""
        if self._pull is not None:
            self._pull = self._pull.to(right_cm, up_cm)
            self.moved.emit(self._pull)

    def end(self) -> None:
        """Let the handle go: the pull becomes one edit."""
        pull, self._pull = self._pull, None
        if pull is None:
            return
        made = pull.made
        if made == pull.pose or not self._room.edit(lambda _pose: made, _name(pull.handle)):
            self.moved.emit(None)

    def push(self, handle: Handle, right_cm: float, up_cm: float) -> None:
        """Push a handle by so much, cm on paper; steps in a row are one step of undo."""
        pull = self._begun(handle)
        if pull is None:
            return
        made = pull.to(right_cm, up_cm).made
        if made == pull.pose:
            self._room.session.tell(_stuck(pull))
            return
        key = f"push:{handle.name}:{handle.side.value}"
        self._room.edit(lambda _pose: made, _name(handle), key)

    def let_go(self, handle: Handle) -> None:
        """Let a hand or foot rest on nothing at this moment."""
        pose, index = self._room.pose, self._room.index
        if pose is not None and edits.holds(pose, index, handle):
            name = tr("Let go with {what}", what=handle_words(handle).lower())
            self._room.edit(lambda pose: edits.let_go(pose, index, handle), name)


def _name(handle: Handle) -> str:
    return tr("Move {what}", what=handle_words(handle).lower())


def _stuck(pull: Pull) -> str:
    what = handle_words(pull.handle)
    if edits.holds(pull.pose, pull.index, pull.handle):
        return tr("{what} rests on something and stays there; press Del to let it go.", what=what)
    return tr("{what} can't go further: a joint is at its end.", what=what)
