"""A photo is cut, levelled and brightened in a window of its own, then changes in one step."""

import io

import pytest
from PIL import Image
from PySide6.QtCore import QPoint, Qt
from pytestqt.qtbot import QtBot

from authoring.editor.library_edits import with_images
from authoring.editor.session import Session
from authoring.editor.workshop.photo_panel import PhotoPanel
from authoring.editor.workshop.picture_opening import open_photo


def photo() -> bytes:
    out = io.BytesIO()
    picture = Image.new("RGB", (200, 100), (100, 100, 100))
    picture.paste((200, 0, 0), (100, 0, 200, 100))
    picture.save(out, "PNG")
    return out.getvalue()


@pytest.fixture
def panel(qtbot: QtBot) -> PhotoPanel:
    made = PhotoPanel(photo())
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


def test_a_corner_is_pulled_with_the_mouse_and_moved_with_keys(
    panel: PhotoPanel, qtbot: QtBot
) -> None:
    corner = panel.view.corners["left", "top"]
    assert corner.accessibleName() == "Upper left"
    middle = corner.rect().center()
    qtbot.mousePress(corner, Qt.MouseButton.LeftButton, pos=middle)
    qtbot.mouseMove(corner, middle + QPoint(60, 20))
    qtbot.mouseRelease(corner, Qt.MouseButton.LeftButton, pos=middle)
    assert panel.edit.left > 0.05
    before = panel.edit.left
    corner.setFocus()
    qtbot.keyClick(corner, Qt.Key.Key_Right)
    assert panel.edit.left == pytest.approx(before + 0.01)


def test_each_change_can_be_taken_back_one_by_one(panel: PhotoPanel) -> None:
    panel.turn.setValue(50)
    panel.light.setValue(-30)
    assert (panel.edit.turn_deg, panel.edit.brightness) == (5.0, -0.3)
    panel.undo_button.click()
    assert (panel.edit.turn_deg, panel.edit.brightness) == (5.0, 0.0)
    panel.undo_button.click()
    assert panel.edit.is_none
    assert not panel.undo_button.isEnabled()


def test_the_new_photo_is_stored_by_its_hash_and_the_old_one_stays(
    session: Session, qtbot: QtBot
) -> None:
    from PySide6.QtWidgets import QWidget

    window = QWidget()
    qtbot.addWidget(window)
    document = session.document
    old = document.add_image(photo(), "png")
    document.edit("Add", lambda library: with_images(library, [old]))
    taken: list[str] = []
    panel = open_photo(session, old, window, taken.append)
    assert panel is not None
    panel.view.cut_to.emit(type(panel.edit)(left=0.5))
    panel.use.click()
    (name,) = taken
    assert name != old
    data = document.image_bytes(name)
    assert data is not None
    with Image.open(io.BytesIO(data)) as made:
        assert made.size == (100, 100)
        assert made.getpixel((50, 50)) == (200, 0, 0)
    assert document.image_bytes(old) == photo()


def test_a_photo_that_cannot_be_read_is_said_in_one_sentence(
    session: Session, qtbot: QtBot
) -> None:
    from PySide6.QtWidgets import QWidget

    window = QWidget()
    qtbot.addWidget(window)
    said: list[str] = []
    session.messages.told.connect(lambda message: said.append(message.sentence))
    assert open_photo(session, f"{'0' * 64}.png", window, said.append) is None
    assert said == ["This photo can't be read. Put in another copy of it."]
