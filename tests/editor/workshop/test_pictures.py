"""Photos from files, drops and the clipboard."""

from collections.abc import Callable
from pathlib import Path

from PIL import Image
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent, QImage
from PySide6.QtWidgets import (
    QApplication,
)
from pytestqt.qtbot import QtBot

from authoring.editor.messages import Message
from authoring.editor.workshop.room import WorkshopRoom
from tests.editor.conftest import words
from tests.editor.workshop.driving import card, focused_name, form

Key, Mod = Qt.Key, Qt.KeyboardModifier


def photo_file(folder: Path, name: str = "knee.jpg") -> Path:
    exif = Image.Exif()
    exif[0x010F] = "Invented camera"  # Make, Exif standard (JEITA CP-3451)
    path = folder / name
    Image.new("RGB", (40, 60), (200, 30, 30)).save(path, "JPEG", exif=exif)
    return path


def take(room: WorkshopRoom, qtbot: QtBot, *sources: Path | QImage) -> None:
    with qtbot.waitSignal(room.on_photos.intake.added, timeout=5000):
        room.on_photos.take(sources)


def test_a_photo_is_cleaned_added_and_asks_for_its_words(
    room: WorkshopRoom, qtbot: QtBot, tmp_path: Path
) -> None:
    before = room.session.library
    take(room, qtbot, photo_file(tmp_path))
    (picture,) = card(room).variants[0].pictures
    assert picture.image is not None
    assert picture.image in room.session.library.images
    data = room.session.document.image_bytes(picture.image)
    assert data is not None
    assert b"Invented camera" not in data
    assert focused_name() == "Words for people who can't see picture 1"
    row = form(room).pictures.rows[0]
    assert row.alt_row.fault == "Say what it shows, for people who can't see it."
    qtbot.keyClicks(QApplication.focusWidget(), "On tiptoe at a chair.")
    assert card(room).variants[0].pictures[0].alt == words("On tiptoe at a chair.")
    assert row.alt_row.fault == ""
    room.session.document.undo()
    assert room.session.document.undo_name == "Add a picture"
    room.session.document.undo()
    assert room.session.library.cards == before.cards


def test_photos_are_dropped_on_the_form(room: WorkshopRoom, qtbot: QtBot, tmp_path: Path) -> None:
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(photo_file(tmp_path, name))) for name in ("a.jpg",)])
    with qtbot.waitSignal(room.on_photos.intake.added, timeout=5000):
        drop = QDropEvent(
            QPointF(20, 200),
            Qt.DropAction.CopyAction,
            mime,
            Qt.MouseButton.LeftButton,
            Mod.NoModifier,
        )
        room.bench.form.dropEvent(drop)
    assert len(card(room).variants[0].pictures) == 1


def test_a_picture_is_pasted(
    room: WorkshopRoom, qtbot: QtBot, press: Callable[..., None], told: list[Message]
) -> None:
    clipboard = QApplication.clipboard()
    clipboard.setText("no picture")
    press(Key.Key_V, Mod.ControlModifier | Mod.ShiftModifier)
    assert told[-1].sentence == "The clipboard holds no picture."
    picture = QImage(30, 30, QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.darkGreen)
    clipboard.setImage(picture)
    with qtbot.waitSignal(room.on_photos.intake.added, timeout=5000):
        press(Key.Key_V, Mod.ControlModifier | Mod.ShiftModifier)
    (added,) = card(room).variants[0].pictures
    assert (added.image or "").endswith(".png")


def test_a_file_that_is_no_picture_is_refused_in_a_sentence(
    room: WorkshopRoom, qtbot: QtBot, tmp_path: Path, told: list[Message]
) -> None:
    path = tmp_path / "notes.png"
    path.write_text("only words", encoding="utf-8")
    room.on_photos.take([path, tmp_path / "gone.png"])
    qtbot.waitUntil(lambda: len(told) == 2, timeout=5000)
    assert [message.sentence for message in told] == [
        "notes.png is no PNG, JPEG or WebP picture. Save it as one of these first.",
        "gone.png can't be read: No such file or directory.",
    ]


def test_pictures_are_put_in_order_and_removed(
    room: WorkshopRoom, qtbot: QtBot, tmp_path: Path
) -> None:
    blue = tmp_path / "blue.png"
    Image.new("RGB", (20, 20), (0, 0, 200)).save(blue)
    take(room, qtbot, photo_file(tmp_path), blue)
    assert room.session.document.undo_name == "Add 2 pictures"
    first, second = (p.image for p in card(room).variants[0].pictures)
    rows = form(room).pictures.rows
    qtbot.mouseClick(rows[1].up, Qt.MouseButton.LeftButton)
    assert [p.image for p in card(room).variants[0].pictures] == [second, first]
    qtbot.mouseClick(rows[0].remove, Qt.MouseButton.LeftButton)
    assert [p.image for p in card(room).variants[0].pictures] == [first]
