"""What an approved protocol offers first, and what takes that away again."""

import shutil
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from authoring.checks.result import Subject
from authoring.editor.document import Document
from authoring.editor.page import room as page_room
from authoring.editor.page.room import PageRoom
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.text import Text
from tests.editor.page_jobs import EXAMPLE, TODAY, protocol, used_card


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The example clinic, with the versions that were approved."""
    place = tmp_path / "larkfield"
    shutil.copytree(EXAMPLE, place)
    return place


@pytest.fixture
def room(
    window: MainWindow, session: Session, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> PageRoom:
    """The first stage of an approved protocol, on a day before its review."""
    monkeypatch.setattr(page_room, "today", lambda: TODAY)
    session.settings.keep("page/stages", f"{protocol().id}:1")
    session.choose_protocol(protocol().id)
    window.show_room("handouts")
    made = window.room
    assert isinstance(made, PageRoom)
    settled(made, qtbot)
    return made


def settled(room: PageRoom, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: not room.preview.task.is_busy, timeout=30_000)


def words(room: PageRoom) -> str:
    pages = range(room.view.images.count)
    return " ".join(" ".join(room.view.images.words(page).split()) for page in pages)


def one_step_more(card: Card) -> Card:
    more = Text.plain("Do it once more.")
    return evolve(card, variants=tuple(evolve(v, steps=(*v.steps, more)) for v in card.variants))


def test_an_approved_page_is_printed_first(room: PageRoom) -> None:
    assert room.notice.sentence == ""
    assert room.print_button.property("main")
    assert room.print_button.text() == "Print…"
    assert not room.save_button.property("main")
    assert room.save_button.text() == "Save the page…"
    assert "Draft, not for patients" not in words(room)


def test_a_card_changed_after_approval_makes_a_draft_and_is_one_button_away(
    room: PageRoom, document: Document, session: Session, qtbot: QtBot
) -> None:
    places: list[Place] = []
    session.place_asked.connect(places.append)
    card = used_card()
    document.edit_card("Edit step", card.id, one_step_more)
    settled(room, qtbot)
    assert room.notice.sentence == (
        f"Draft, not for patients: the card {card.slug!r} was changed after the protocol was "
        "approved."
    )
    assert "Draft, not for patients" in words(room)
    assert room.print_button.text() == "Print a draft…"
    assert room.save_button.property("main")
    assert room.notice.button.text() == "Show it"
    room.notice.button.click()
    assert places == [Place(Subject.CARD, card.id)]


def test_undo_gives_the_patients_page_back(
    room: PageRoom, document: Document, qtbot: QtBot
) -> None:
    document.edit_card("Edit step", used_card().id, one_step_more)
    settled(room, qtbot)
    document.undo()
    settled(room, qtbot)
    assert room.notice.sentence == ""
    assert room.print_button.property("main")
    assert "Draft, not for patients" not in words(room)
