"""The clinic room, driven as a person would: type, look, undo, follow the checks."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.dosage.pain import DEFAULT_RULE
from authoring.editor.clinic_room.page_section import PageSection
from authoring.editor.clinic_room.room import ClinicRoom
from authoring.editor.clinic_room.section import FormSection
from authoring.editor.clinic_room.sections import FORMS, Part, part_of
from authoring.editor.document import Document
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shapes import shapes_of
from authoring.editor.shell import MainWindow
from authoring.model.base import evolve
from authoring.model.clinic import Clinic, EmergencyWording
from authoring.model.text import Text
from authoring.model.vocabulary import PainAction
from tests.editor.clinic_drive import (
    LEFT,
    NAME,
    brand,
    clinic_of,
    emergency,
    opened,
    pain,
    settled,
    type_over,
    words,
)

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def room(window: MainWindow, qtbot: QtBot) -> ClinicRoom:
    return opened(window, qtbot)


# ---- the whole ------------------------------------------------------------------------------


def test_every_field_of_the_clinic_has_a_section() -> None:
    edited = {"brand", "emergency", "pain", *PageSection.fields}
    edited |= {name for names in FORMS.values() for name in names}
    assert edited == {shape.name for shape in shapes_of(Clinic)} - {"extra"}


def test_keys_walk_the_sections(room: ClinicRoom, window: MainWindow, qtbot: QtBot) -> None:
    qtbot.keyClick(room, Qt.Key.Key_2, ALT)
    assert room.part is Part.BRAND
    assert window.focusWidget() is room.tabs.button(Part.BRAND)
    qtbot.keyClick(window.focusWidget(), Qt.Key.Key_Right)
    assert room.part is Part.PAGE
    assert room.tabs.button(Part.PAGE).accessibleName() == "Section: Page"


def test_the_section_stays_when_the_text_grows(
    room: ClinicRoom, window: MainWindow, settings: Settings
) -> None:
    room.show_part(Part.PAIN)
    settings.scale = 1.3
    window.show_room("clinic")
    anew = window.room
    assert isinstance(anew, ClinicRoom)
    assert anew.part is Part.PAIN


def test_the_name_is_typed_printed_and_undone_as_one_step(
    room: ClinicRoom, window: MainWindow, document: Document, qtbot: QtBot
) -> None:
    section = room.sections[Part.CONTACT]
    assert isinstance(section, FormSection)
    section.focus_path("name")
    field = window.focusWidget()
    assert field is not None
    assert field.accessibleName() == "Name"
    type_over(qtbot, field, "Hill Clinic")
    assert clinic_of(document).name == Text.plain("Hill Clinic")
    assert room.title_words.text() == "Hill Clinic"
    assert "Hill Clinic" in window.windowTitle()
    settled(room, qtbot)
    assert "Hill Clinic" in words(room)
    assert document.undo_name == "Edit “Name”"
    document.undo()
    assert clinic_of(document).name == NAME
    settled(room, qtbot)
    assert "Larkfield Movement Clinic" in words(room)


def test_a_library_without_a_clinic_begins_one(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    document.edit("Take away", lambda library: evolve(library, clinic=None))
    assert room.empty.isVisible()
    assert not room.body.isVisible()
    qtbot.mouseClick(room.begin_button, LEFT)
    assert clinic_of(document).name == Text.plain("Invented library")
    assert room.body.isVisible()
    assert document.undo_name == "Set up the clinic"


def test_the_whole_page_is_one_button_away(
    room: ClinicRoom, window: MainWindow, qtbot: QtBot
) -> None:
    qtbot.mouseClick(room.whole, LEFT)
    assert window.header.button("handouts").isChecked()


def test_everything_that_takes_the_focus_has_a_name(room: ClinicRoom) -> None:
    emergency(room).own_button.click()
    pain(room).own_button.click()
    for part in Part:
        room.show_part(part)
        for widget in room.sections[part].findChildren(QWidget):
            if widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
                said = widget.accessibleName() or getattr(widget, "text", lambda: "")()
                assert said, (part, widget)


# ---- checks ---------------------------------------------------------------------------------


def test_checks_stand_beside_their_field_and_in_the_tab(room: ClinicRoom, session: Session) -> None:
    said = "The clinic's colour has a contrast of 1.07:1 to white."
    session.checks.results = (
        CheckResult("c", Strength.SHOULD, "brand.colour", said, "Darker.", Subject.CLINIC, ""),
    )
    session.checks.changed.emit()
    assert room.tabs.button(Part.BRAND).text() == "Brand  1"
    assert room.strip.isVisible()
    assert brand(room).rows["brand.colour"].fault == said
    session.checks.results = ()
    session.checks.changed.emit()
    assert brand(room).rows["brand.colour"].fault == ""
    assert not room.strip.isVisible()


@pytest.mark.parametrize(
    ("path", "part", "name"),
    [
        ("phone", Part.CONTACT, "Phone"),
        ("closed", Part.CONTACT, "Closed"),
        ("brand.ink", Part.BRAND, "Colour of text"),
        ("brand.logo.alt", Part.BRAND, "Logo: Choose a picture"),
        ("emergency", Part.EMERGENCY, "Write your own wording"),
        ("most_exercises", Part.PAGE, "Most exercises"),
        ("language", Part.PAGE, "Language"),
    ],
)
def test_a_check_leads_to_its_field(
    room: ClinicRoom, window: MainWindow, session: Session, path: str, part: Part, name: str
) -> None:
    session.go_to(Place(Subject.CLINIC, "", path))
    assert room.part is part is part_of(path)
    focus = window.focusWidget()
    assert focus is not None
    assert (focus.accessibleName() or getattr(focus, "text", str)()) == name


# ---- page -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "fault"),
    [
        ("en-GB", ""),
        ("english", "“english” is no language; write it as en or en-GB."),
        ("de", "Handouts can't be written in German yet; choose one of: English."),
    ],
)
def test_the_language_is_one_that_handouts_speak(
    room: ClinicRoom, document: Document, qtbot: QtBot, typed: str, fault: str
) -> None:
    room.show_part(Part.PAGE)
    section = room.sections[Part.PAGE]
    assert isinstance(section, PageSection)
    type_over(qtbot, section.language, typed)
    assert section.rows["language"].fault == fault
    if not fault:
        assert clinic_of(document).language == "en-GB"
        assert section.language.said.text() == "English (United Kingdom)"


def test_another_paper_changes_the_page(
    room: ClinicRoom, document: Document, window: MainWindow, qtbot: QtBot
) -> None:
    room.show_place(Subject.CLINIC, "", "paper")
    combo = window.focusWidget()
    assert combo is not None
    assert combo.accessibleName() == "Paper"
    qtbot.keyClick(combo, Qt.Key.Key_Down)
    assert clinic_of(document).paper.value == "letter"
    settled(room, qtbot)
    assert room.view.images.sizes()[0] == pytest.approx((612, 792), abs=0.5)


# ---- emergencies ----------------------------------------------------------------------------


def test_own_emergency_words_stand_in_the_sample_as_they_print(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = emergency(room)
    settled(room, qtbot)
    assert section.none.text().startswith("The standard wording prints: Call for an ambulance")
    assert "Call for an ambulance now if:" in words(room)
    qtbot.mouseClick(section.own_button, LEFT)
    assert document.undo_name == "Write own emergency wording"
    field = section.texts["emergency"]
    type_over(qtbot, field, "Call 112 now if:")
    wording = clinic_of(document).emergency
    assert isinstance(wording, EmergencyWording)
    assert wording.emergency == Text.plain("Call 112 now if:")
    settled(room, qtbot)
    assert "Call 112 now if:" in words(room)
    assert room.heading.text() == "A sample of the stop box and the pain rule"
    qtbot.mouseClick(section.standard_button, LEFT)
    assert clinic_of(document).emergency is None
    settled(room, qtbot)
    assert "Call for an ambulance now if:" in words(room)


# ---- pain -----------------------------------------------------------------------------------


def test_bands_are_moved_added_and_removed(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = pain(room)
    qtbot.mouseClick(section.own_button, LEFT)
    assert clinic_of(document).pain == DEFAULT_RULE
    assert section.during.bar.accessibleName() == (
        "0 to 2: Carry on, 3 to 5: Go easier, 6 to 10: Stop today"
    )
    type_over(qtbot, section.during.rows[1].top, "4")
    rule = clinic_of(document).pain
    assert rule is not None
    assert [band.up_to for band in rule.during] == [2, 4, 10]
    assert document.undo_name == "Move the end of a band"
    assert section.during.rows[2].span.text() == "5 to 10"
    qtbot.mouseClick(section.during.add_button, LEFT)
    rule = clinic_of(document).pain
    assert rule is not None
    assert [band.up_to for band in rule.during] == [2, 4, 7, 10]
    qtbot.mouseClick(section.during.rows[0].remove, LEFT)
    rule = clinic_of(document).pain
    assert rule is not None
    assert [band.up_to for band in rule.during] == [4, 7, 10]
    assert document.undo_name == "Remove a band"
    assert not section.during.rows[2].top.line.isEnabled()


def test_an_end_outside_its_neighbours_is_refused_and_put_back(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = pain(room)
    section.own_button.click()
    top = section.during.rows[0].top
    type_over(qtbot, top, "9")
    assert section.rows["pain.during"].fault == "This band must end above 0 and below 5."
    assert clinic_of(document).pain == DEFAULT_RULE
    section.during.add_button.setFocus()
    assert section.rows["pain.during"].fault == ""
    assert top.line.text() == "2"


def test_what_to_do_and_own_words_print(room: ClinicRoom, document: Document, qtbot: QtBot) -> None:
    section = pain(room)
    section.own_button.click()
    row = section.during.rows[2]
    assert row.action.combo.accessibleName() == "Pain during exercise, band 3: What to do"
    row.action.combo.setFocus()
    qtbot.keyClick(row.action.combo, Qt.Key.Key_End)
    type_over(qtbot, row.words, "Stop and ring us.")
    rule = clinic_of(document).pain
    assert rule is not None
    assert rule.during[2].action is PainAction.STOP_AND_CALL
    assert rule.during[2].words == Text.plain("Stop and ring us.")
    settled(room, qtbot)
    assert "Stop and ring us." in words(room)


def test_pain_after_exercise_may_differ(room: ClinicRoom, document: Document, qtbot: QtBot) -> None:
    section = pain(room)
    section.own_button.click()
    qtbot.mouseClick(section.after.add_button, LEFT)
    rule = clinic_of(document).pain
    assert rule is not None
    assert [band.up_to for band in rule.after] == [5, 10]
    document.undo()
    assert not section.after.bar.isVisible()
    section.drop_button.click()
    assert clinic_of(document).pain is None
    assert section.own_button.isVisible()
