"""The rooms of a window that are made, one of them in sight."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import shiboken6
from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from authoring.editor.chunks import Chunks
from authoring.editor.room import Room
from authoring.editor.rooms import ROOMS
from authoring.editor.session import Session

WAITING = ""
"""Key of the empty room that stands in sight while there is no other."""
_IDLE_MS = 600


class Shelf(QStackedWidget):
    """Makes each room when it is first wanted, or beforehand while nothing else is to be done.

    Signals:
        made(Room): a room was made.
    """

    made = Signal(object)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._rooms: dict[str, Room] = {WAITING: Room(session)}
        self.addWidget(self._rooms[WAITING])
        self._idle = QTimer(self, singleShot=True, interval=_IDLE_MS)
        self._idle.timeout.connect(self._begin)
        self._steps: Chunks | None = None
        self._prepares = False

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of the rooms that are made."""
        return tuple(key for key in self._rooms if key != WAITING)

    def room(self, key: str) -> Room:
        """A room by its key; it is made now where it is not there yet."""
        if key not in self._rooms:
            room = next(entry for entry in ROOMS if entry.key == key).make(self._session)
            self._rooms[key] = room
            self.addWidget(room)
            self.made.emit(room)
        return self._rooms[key]

    def show_room(self, key: str) -> None:
        """Bring a room into sight."""
        self.setCurrentWidget(self.room(key))

    def prepare(self) -> None:
        """Make the rooms that nobody opened yet: soon, one at a time, between other events."""
        self._prepares = True
        self._idle.start()

    def _begin(self) -> None:
        if self._steps is None or self._steps.is_done:
            steps: list[Callable[[], object]] = [
                step
                for entry in ROOMS
                for step in (partial(self.room, entry.key), partial(self._polish, entry.key))
            ]
            self._steps = Chunks(steps, self)

    def _polish(self, key: str) -> None:
        """Bring the style to the parts of a room before they are seen."""
        room = self._rooms.get(key)
        for part in room.findChildren(QWidget) if room is not None else ():
            part.ensurePolished()

    def put_away(self, *, but: str) -> None:
        """Let go of the rooms, at once, but for one.

        Only from the event loop: a room must not go while it handles an event.
        """
        self._idle.stop()
        if self._steps is not None:
            self._steps.deleteLater()
            self._steps = None
        self.show_room(but)
        for key in self.keys:
            if key != but:
                shiboken6.delete(self._rooms.pop(key))
        if self._prepares:
            self._idle.start()
