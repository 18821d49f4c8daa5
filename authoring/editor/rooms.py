"""The rooms of the window: which there are, and how to reach each."""

from __future__ import annotations

import importlib
from importlib.util import find_spec

from attrs import frozen
from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.checks.result import Subject
from authoring.editor.i18n import mark, tr
from authoring.editor.parts.labels import label
from authoring.editor.room import Room
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme


@frozen
class RoomEntry:
    """A room as the window knows it before it is made.

    Attributes:
        key: stable name.
        name: English name on its button; translate with ``tr`` when shown.
        keys: shortcut that opens it.
        also: another one.
        module, cls: where its class is; it is imported when the room is first opened.
        subjects: kinds of file whose places are shown in it.
    """

    key: str
    name: str
    keys: str
    module: str
    cls: str
    subjects: tuple[Subject, ...] = ()
    also: str = ""

    @property
    def is_there(self) -> bool:
        """Whether its package is part of this installation."""
        package = self.module.rpartition(".")[0]
        return find_spec(package) is not None and find_spec(self.module) is not None

    def make(self, session: Session) -> Room:
        """The room itself, or a plain page where its package is not installed."""
        if not self.is_there:
            return MissingRoom(session, tr(self.name))
        made = getattr(importlib.import_module(self.module), self.cls)(session)
        if not isinstance(made, Room):
            raise TypeError(f"{self.module}.{self.cls} is no Room")
        return made


_ROOT = "authoring.editor"

ROOMS: tuple[RoomEntry, ...] = (
    RoomEntry(
        "protocols",
        mark("Protocols"),
        "Ctrl+1",
        f"{_ROOT}.stage_map.room",
        "StageMapRoom",
        (Subject.PROTOCOL,),
    ),
    RoomEntry(
        "cards", mark("Cards"), "Ctrl+2", f"{_ROOT}.workshop.room", "WorkshopRoom", (Subject.CARD,)
    ),
    RoomEntry("tailor", mark("Tailor"), "Ctrl+7", f"{_ROOT}.tailor.room", "TailorRoom", also="F9"),
    RoomEntry("handouts", mark("Handouts"), "Ctrl+3", f"{_ROOT}.page.room", "PageRoom"),
    RoomEntry(
        "library",
        mark("Library"),
        "Ctrl+4",
        f"{_ROOT}.library_room.room",
        "LibraryRoom",
        (Subject.LIBRARY,),
    ),
    RoomEntry(
        "clinic",
        mark("Clinic"),
        "Ctrl+5",
        f"{_ROOT}.clinic_room.room",
        "ClinicRoom",
        (Subject.CLINIC,),
    ),
    RoomEntry("poses", mark("Poses"), "Ctrl+6", f"{_ROOT}.pose_room.room", "PoseRoom"),
)


def room_for(subject: Subject) -> RoomEntry:
    """The room in which places of this kind of file are shown."""
    return next((entry for entry in ROOMS if subject in entry.subjects), ROOMS[0])


def bring_all() -> None:
    """Import every room and the page maker; on a thread, so that a first use is quick."""
    for entry in ROOMS:
        if entry.is_there:
            importlib.import_module(entry.module)
    importlib.import_module(f"{_ROOT}.page.composing")


class MissingRoom(Room):
    """Stands where a room's package is not installed."""

    def __init__(self, session: Session, name: str, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self._name = name
        layout = QVBoxLayout(self)
        gap = theme().px(24)
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.addWidget(label(name, Type.TITLE))
        layout.addWidget(label(tr("This room is not part of this installation."), soft=True))
        layout.addStretch(1)

    def title(self) -> str:
        """The room's name."""
        return self._name
