"""How the tests of the clinic room drive it."""

from __future__ import annotations

import io

from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from authoring.editor.clinic_room.brand_section import BrandSection
from authoring.editor.clinic_room.emergency_section import EmergencySection
from authoring.editor.clinic_room.pain_section import PainSection
from authoring.editor.clinic_room.room import ClinicRoom
from authoring.editor.clinic_room.sections import Part
from authoring.editor.document import Document
from authoring.editor.parts.fields.base import focus_target
from authoring.editor.shell import MainWindow
from authoring.model.clinic import Clinic
from authoring.model.text import Text

LEFT = Qt.MouseButton.LeftButton
NAME = Text.plain("Larkfield Movement Clinic")


def opened(window: MainWindow, qtbot: QtBot) -> ClinicRoom:
    """The room, its first page shown."""
    window.show_room("clinic")
    made = window.room
    assert isinstance(made, ClinicRoom)
    settled(made, qtbot)
    return made


def settled(room: ClinicRoom, qtbot: QtBot) -> None:
    """Wait until the page in sight is that of the clinic as it stands."""
    qtbot.waitUntil(lambda: not room.preview.task.is_busy, timeout=20_000)


def clinic_of(document: Document) -> Clinic:
    clinic = document.library.clinic
    assert clinic is not None
    return clinic


def words(room: ClinicRoom) -> str:
    return " ".join(room.view.images.words(0).split())


def brand(room: ClinicRoom) -> BrandSection:
    room.show_part(Part.BRAND)
    section = room.sections[Part.BRAND]
    assert isinstance(section, BrandSection)
    return section


def emergency(room: ClinicRoom) -> EmergencySection:
    room.show_part(Part.EMERGENCY)
    section = room.sections[Part.EMERGENCY]
    assert isinstance(section, EmergencySection)
    return section


def pain(room: ClinicRoom) -> PainSection:
    room.show_part(Part.PAIN)
    section = room.sections[Part.PAIN]
    assert isinstance(section, PainSection)
    return section


def type_over(qtbot: QtBot, widget: QWidget, words: str) -> None:
    """Replace what stands in a field, as a person does."""
    target = focus_target(widget)
    target.setFocus()
    qtbot.keyClick(target, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClicks(target, words) if words else qtbot.keyClick(target, Qt.Key.Key_Delete)


def png(colour: str = "navy") -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (40, 20), colour).save(out, "PNG")
    return out.getvalue()
