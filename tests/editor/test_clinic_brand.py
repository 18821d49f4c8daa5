"""The brand editor, driven as a person would: colours, font, logo."""

import io
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QColor, QDragEnterEvent, QDropEvent, QGuiApplication, QImage
from pytestqt.qtbot import QtBot

from authoring.editor.clinic_room.brand_section import BrandSection
from authoring.editor.clinic_room.room import ClinicRoom
from authoring.editor.document import Document
from authoring.editor.shell import MainWindow
from authoring.model.clinic import Brand, Logo
from authoring.model.text import Text
from tests.editor.clinic_drive import (
    LEFT,
    NAME,
    brand,
    clinic_of,
    opened,
    png,
    settled,
    type_over,
    words,
)


@pytest.fixture
def room(window: MainWindow, qtbot: QtBot) -> ClinicRoom:
    return opened(window, qtbot)


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
        "logo.txt is no PNG, JPEG or WebP picture. Save it as one of these first."
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
