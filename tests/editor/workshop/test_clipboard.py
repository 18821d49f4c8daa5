"""Variants on the clipboard: within a card, into another, as words for other programs."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from authoring.editor.library_edits import with_manifest
from authoring.editor.messages import Message
from authoring.editor.workshop.room import WorkshopRoom
from authoring.model.base import evolve
from authoring.model.card import KitNeed
from tests.editor.conftest import SQUAT
from tests.editor.workshop.driving import card, focused_name, names, text

Key, Mod = Qt.Key, Qt.KeyboardModifier


@pytest.fixture
def copied(room: WorkshopRoom, press: Callable[..., None]) -> WorkshopRoom:
    """The room, with "Two legs" on the clipboard."""
    press(Key.Key_C, Mod.ControlModifier)
    return room


def test_a_variant_is_pasted_beside_itself_under_another_id(
    copied: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    press(Key.Key_V, Mod.ControlModifier)
    assert names(copied) == ["Two legs", "One leg", "Two legs"]
    assert len({variant.id for variant in card(copied).variants}) == 3
    assert copied.session.document.undo_name == "Paste a variant"
    assert focused_name() == "Two legs, moving, as named, 3 by 8 to 12"


def test_copying_says_so(
    room: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    press(Key.Key_C, Mod.ControlModifier)
    assert told[-1].sentence == "“Two legs” is copied."


def test_other_programs_get_words(copied: WorkshopRoom) -> None:
    said = QApplication.clipboard().text()
    assert "Two legs" in said
    assert "Push up onto your toes." in said


def test_a_variant_goes_to_another_card_with_the_kit_that_it_needs(
    room: WorkshopRoom, press: Callable[..., None]
) -> None:
    document = room.session.document
    two = evolve(card(room).variants[0], equipment=(KitNeed(kit="chair"),))
    document.edit_card("Kit", card(room).id, lambda one: evolve(one, variants=(two,)))
    press(Key.Key_C, Mod.ControlModifier)
    manifest = room.session.library.manifest
    without = tuple(term for term in manifest.terms if term.id != "chair")
    document.edit("Terms", lambda lib: with_manifest(lib, evolve(manifest, terms=without)))
    room.session.choose_card(SQUAT)
    room.focus_first()
    press(Key.Key_V, Mod.ControlModifier)
    assert card(room).variants[-1].equipment == (KitNeed(kit="chair"),)
    assert "chair" in {term.id for term in room.session.library.manifest.terms}


def test_its_photo_comes_along(
    room: WorkshopRoom, press: Callable[..., None], qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "a.png"
    Image.new("RGB", (20, 20), (200, 30, 30)).save(path)
    with qtbot.waitSignal(room.on_photos.intake.added, timeout=5000):
        room.on_photos.take([path])
    name = card(room).variants[0].pictures[0].image
    assert name is not None
    room.focus_first()
    press(Key.Key_C, Mod.ControlModifier)
    # As in another library, which has never seen the picture.
    document = room.session.document
    document.undo()
    document._images.clear()
    assert document.image_bytes(name) is None
    press(Key.Key_V, Mod.ControlModifier)
    assert card(room).variants[-1].pictures[0].image == name
    assert document.image_bytes(name) is not None
    assert name in room.session.library.images


def test_in_a_text_the_keys_copy_and_paste_words(
    copied: WorkshopRoom, press: Callable[..., None]
) -> None:
    edit = text(copied, "steps[0]").edit
    edit.setFocus()
    edit.selectAll()
    press(Key.Key_C, Mod.ControlModifier)
    assert QApplication.clipboard().text() == "Push up onto your toes."
    press(Key.Key_V, Mod.ControlModifier)
    assert len(card(copied).variants) == 2


def test_what_fits_nowhere_is_said(
    room: WorkshopRoom, press: Callable[..., None], told: list[Message]
) -> None:
    QApplication.clipboard().setText("words of another program")
    press(Key.Key_V, Mod.ControlModifier)
    assert told[-1].sentence == "There is nothing on the clipboard that fits here."
