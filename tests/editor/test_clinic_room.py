"""The clinic room, driven as a person would: type, choose, drop, look, undo."""

import io
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDragEnterEvent, QDropEvent, QGuiApplication, QImage
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.dosage.pain import DEFAULT_RULE
from authoring.editor.clinic_room.brand_section import BrandSection
from authoring.editor.clinic_room.emergency_section import EmergencySection
from authoring.editor.clinic_room.page_section import PageSection
from authoring.editor.clinic_room.pain_section import PainSection
from authoring.editor.clinic_room.room import ClinicRoom
from authoring.editor.clinic_room.section import FormSection
from authoring.editor.clinic_room.sections import FORMS, Part, part_of
from authoring.editor.document import Document
from authoring.editor.parts.fields.base import focus_target
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shapes import shapes_of
from authoring.editor.shell import MainWindow
from authoring.model.base import evolve
from authoring.model.clinic import Brand, Clinic, EmergencyWording, Logo
from authoring.model.text import Text
from authoring.model.vocabulary import PainAction

LEFT = Qt.MouseButton.LeftButton
ALT = Qt.KeyboardModifier.AltModifier
NAME = Text.plain("Larkfield Movement Clinic")


@pytest.fixture
def room(window: MainWindow, qtbot: QtBot) -> ClinicRoom:
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
    assert room.tabs.button(Part.BRAND).text() == "Brand (1)"
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


# ---- brand ----------------------------------------------------------------------------------


def test_a_typed_colour_is_judged_at_once(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = brand(room)
    type_over(qtbot, section.colour, "ffd84d")
    assert clinic_of(document).brand.colour == "#FFD84D"
    assert document.undo_name == "Edit “Clinic's colour”"
    # ColorAide, wcag21: 1.3832 on white.
    assert section.verdicts.sentences[3] == (
        "Headings in the clinic's colour: 1.38:1 – Fails: can't be read. "
        "Prints in the text colour instead."
    )
    document.undo()
    assert clinic_of(document).brand.colour == Brand().colour
    assert section.colour.line.text() == Brand().colour
    assert "AAA, easy to read" in section.verdicts.sentences[3]


def test_what_is_no_colour_is_said_at_the_field(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = brand(room)
    type_over(qtbot, section.ink, "navy")
    assert section.rows["brand.ink"].fault == (
        "“#NAVY” is not a colour: write # and six of the signs 0–9 and A–F, as in #123F5C."
    )
    assert clinic_of(document).brand.ink == Brand().ink


def test_the_patch_opens_the_colour_dialog(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = brand(room)
    assert section.colour.patch.accessibleName() == (
        "Clinic's colour: choose a colour, now #123F5C"
    )
    section.colour.patch.setFocus()
    qtbot.keyClick(section.colour.patch, Qt.Key.Key_Space)
    dialog = section.colour.dialog
    assert dialog is not None
    dialog.setCurrentColor(QColor("#005030"))
    dialog.accept()
    assert clinic_of(document).brand.colour == "#005030"
    assert section.colour.line.text() == "#005030"
    assert section.colour.patch.accessibleName().endswith("now #005030")


def test_only_fonts_that_can_be_printed_are_offered(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = brand(room)
    combo = section.family.combo
    offered = [combo.itemText(index) for index in range(combo.count())]
    assert offered == ["Atkinson Hyperlegible Next", "Noto Sans"]
    combo.setFocus()
    qtbot.keyClick(combo, Qt.Key.Key_Up)
    assert clinic_of(document).brand.font == "Atkinson Hyperlegible Next"
    settled(room, qtbot)
    assert room.notice.sentence == ""
    assert "Larkfield Movement Clinic" in words(room)


# ---- logo -----------------------------------------------------------------------------------


def taken(section: BrandSection, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not section.logo.is_busy, timeout=10_000)


def test_a_logo_is_chosen_printed_and_removed(
    room: ClinicRoom, document: Document, tmp_path: Path, qtbot: QtBot
) -> None:
    section = brand(room)
    path = tmp_path / "logo.png"
    path.write_bytes(png())
    section.logo.ask = lambda _parent: path
    qtbot.mouseClick(section.logo.choose_button, LEFT)
    taken(section, qtbot)
    logo = clinic_of(document).brand.logo
    assert isinstance(logo, Logo)
    assert logo.alt == NAME
    assert logo.image in document.library.images
    assert document.undo_name == "Choose the logo"
    settled(room, qtbot)
    assert room.notice.sentence == ""
    qtbot.mouseClick(section.logo.remove_button, LEFT)
    assert clinic_of(document).brand.logo is None
    assert document.undo_name == "Remove the logo"
    document.undo()
    assert clinic_of(document).brand.logo == logo
    assert section.logo.alt_row.isVisible()


def test_a_logo_is_dropped_in(
    room: ClinicRoom, document: Document, tmp_path: Path, qtbot: QtBot
) -> None:
    section = brand(room)
    path = tmp_path / "logo.webp"
    Image.new("RGB", (30, 30), "teal").save(path, "WEBP")
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    where, copy, none = QPointF(5, 5), Qt.DropAction.CopyAction, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(where.toPoint(), copy, data, LEFT, none)
    section.logo.dragEnterEvent(enter)
    assert enter.isAccepted()
    section.logo.dropEvent(QDropEvent(where, copy, data, LEFT, none))
    taken(section, qtbot)
    assert isinstance(clinic_of(document).brand.logo, Logo)


def test_a_logo_is_pasted(room: ClinicRoom, document: Document, qtbot: QtBot) -> None:
    section = brand(room)
    picture = QImage(20, 10, QImage.Format.Format_RGB32)
    picture.fill(QColor("maroon"))
    QGuiApplication.clipboard().setImage(picture)
    section.logo.choose_button.setFocus()
    qtbot.keyClick(section.logo.choose_button, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    taken(section, qtbot)
    logo = clinic_of(document).brand.logo
    assert isinstance(logo, Logo)
    data = document.image_bytes(logo.image)
    assert data is not None
    with Image.open(io.BytesIO(data)) as image:
        assert image.size == (20, 10)


def test_pasting_without_a_picture_is_said(room: ClinicRoom, qtbot: QtBot) -> None:
    section = brand(room)
    QGuiApplication.clipboard().setText("words")
    qtbot.mouseClick(section.logo.paste_button, LEFT)
    assert section.rows["brand.logo"].fault == "No picture has been copied."


def test_a_file_that_is_no_picture_is_refused_beside_the_logo(
    room: ClinicRoom, document: Document, tmp_path: Path, qtbot: QtBot
) -> None:
    section = brand(room)
    path = tmp_path / "logo.txt"
    path.write_text("words", encoding="utf-8")
    section.logo.take(path)
    taken(section, qtbot)
    assert section.rows["brand.logo"].fault == (
        "logo.txt is no PNG or JPEG picture. Save it as one of these first."
    )
    assert clinic_of(document).brand.logo is None


def test_a_logo_keeps_words_for_those_who_cannot_see_it(
    room: ClinicRoom, document: Document, qtbot: QtBot
) -> None:
    section = brand(room)
    section.logo.take(png())
    taken(section, qtbot)
    type_over(qtbot, section.logo.alt, "")
    assert section.logo.alt_row.fault == "Say in a few words what the logo shows."
    logo = clinic_of(document).brand.logo
    assert isinstance(logo, Logo)
    assert logo.alt == NAME
    qtbot.keyClicks(section.logo.alt.edit, "A lark")
    logo = clinic_of(document).brand.logo
    assert isinstance(logo, Logo)
    assert logo.alt == Text.plain("A lark")
    assert section.logo.alt_row.fault == ""


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
