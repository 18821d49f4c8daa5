"""What stands on the disk beside the editor's own files: broken, copied and unconfirmed ones."""

import errno
import json
import os
import random
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from authoring.editor import recovery
from authoring.editor.document import Document
from authoring.editor.library_edits import with_card
from authoring.editor.messages import Message
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.editor.storage import Storage
from authoring.files import journal_record
from authoring.files.errors import Unconfirmed
from authoring.files.filesystem import DISK
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.text import Text
from tests.editor.conftest import HEEL, SQUAT, make_card

pytestmark = pytest.mark.usefixtures("bare")

NEW = "00000000-0000-4000-8000-0000000000cc"
MIB = 1024 * 1024


def my_title(card: Card) -> Card:
    return evolve(card, title=Text.plain("My title"))


def saved(storage: Storage, qtbot: QtBot) -> None:
    with qtbot.waitSignal(storage.saved, timeout=10_000):
        storage.save()


def looked(storage: Storage) -> None:
    storage.look()
    storage.jobs.finish()


# ---- the recovery file ----------------------------------------------------------------


def test_unsaved_pictures_of_many_megabytes_come_back(session: Session, folder: Path) -> None:
    """Four pictures as a camera takes them; a file of a library is at most 16 MiB."""
    rng = random.Random(4)
    pictures = [rng.randbytes(4 * MIB) for _ in range(4)]
    names = [session.document.add_image(data, "jpg") for data in pictures]
    session.document.edit_card("Rename", HEEL, my_title)
    assert session.storage.claim()
    session.storage.keep()
    session.storage.jobs.finish()
    assert session.storage.path.stat().st_size > 21 * MIB
    kept = session.storage.found()
    assert kept is not None
    again = Storage(Document(open_library(folder)), session.storage.path.parents[1])
    again.restore(kept)
    assert [again.document.image_bytes(name) for name in names] == pictures
    assert again.document.library == session.library


def test_work_too_large_to_be_read_again_is_not_kept_silently(
    session: Session, told: list[Message], window: MainWindow, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(recovery, "LARGEST", 1000)
    window.safekeeping.begin()
    session.document.edit_card("Rename", HEEL, my_title)
    session.storage.keep()
    session.storage.jobs.finish()
    assert told[-1].sentence == (
        f"No recovery copy can be kept: {session.storage.path}: the unsaved work is too large "
        "for a recovery file; save it to the library now."
    )
    assert not session.storage.path.exists()
    session.document.undo()


# ---- files that can't be used ---------------------------------------------------------


def test_a_new_card_never_takes_the_name_of_a_broken_file(folder: Path, qtbot: QtBot) -> None:
    broken = folder / "cards" / "Hop.card.json"
    broken.write_text("{", encoding="utf-8")
    document = Document(open_library(folder))
    storage = Storage(document, folder.parent / "data")
    document.edit("Add card", lambda lib: with_card(lib, make_card(NEW, "hop", "Hop")))
    saved(storage, qtbot)
    assert open_library(folder).paths[NEW] == folder / "cards" / "hop-2.card.json"
    assert broken.read_text(encoding="utf-8") == "{"


@pytest.fixture
def copied(folder: Path) -> Path:
    """A copy of the squat, edited by hand, beside the squat."""
    cards = folder / "cards"
    data = json.loads((cards / "squat.card.json").read_text(encoding="utf-8"))
    copy = cards / "squat_copy.card.json"
    copy.write_text(json.dumps(data | {"title": "Squat, copied"}), encoding="utf-8")
    return copy


def test_a_copied_file_of_a_known_id_is_a_problem_and_no_change_of_the_original(
    session: Session,
    copied: Path,
    folder: Path,
    window: MainWindow,
    told: list[Message],
    qtbot: QtBot,
) -> None:
    with qtbot.assertNotEmitted(session.storage.outside_found):
        looked(session.storage)
        looked(session.storage)
    # The same is said when the folder is opened.
    (problem,) = open_library(folder).problems
    assert [message.sentence for message in told] == [str(problem)]
    assert str(problem) == (
        f"{copied}: this file has the same id as squat.card.json, so it was left out; "
        "delete one of the two, or give one a new id."
    )
    assert [str(one) for one in session.document.opened.problems] == [str(problem)]
    before = copied.read_bytes()
    session.document.edit_card("Rename", SQUAT, my_title)
    saved(session.storage, qtbot)
    assert copied.read_bytes() == before
    assert open_library(folder).library.cards[SQUAT].title == Text.plain("My title")


@pytest.mark.usefixtures("copied")
def test_a_copy_is_told_apart_from_the_changes_made_with_it(
    session: Session, folder: Path, qtbot: QtBot
) -> None:
    heel = folder / "cards" / "heel-raise.card.json"
    data = json.loads(heel.read_text(encoding="utf-8"))
    heel.write_text(json.dumps(data | {"title": "Their title"}), encoding="utf-8")
    with qtbot.waitSignal(session.storage.outside_found, timeout=10_000):
        session.storage.look()
    session.storage.take_theirs()
    assert session.library.cards[HEEL].title == Text.plain("Their title")
    assert session.library.cards[SQUAT].title == Text.plain("Squat")


def test_a_renamed_file_is_still_the_same_card(
    session: Session, folder: Path, qtbot: QtBot
) -> None:
    cards = folder / "cards"
    (cards / "squat.card.json").rename(cards / "zz-squat.card.json")
    with qtbot.waitSignal(session.storage.outside_found, timeout=10_000):
        session.storage.look()
    session.storage.take_theirs()
    assert session.document.opened.paths[SQUAT] == cards / "zz-squat.card.json"
    assert session.document.opened.problems == ()
    session.document.edit_card("Rename", SQUAT, my_title)
    saved(session.storage, qtbot)
    assert open_library(folder).library == session.library


def test_a_question_put_off_is_asked_again_when_saving_is_refused(
    session: Session, folder: Path, qtbot: QtBot
) -> None:
    session.document.edit_card("Rename", HEEL, my_title)
    heel = folder / "cards" / "heel-raise.card.json"
    data = json.loads(heel.read_text(encoding="utf-8"))
    heel.write_text(json.dumps(data | {"title": "Their title"}), encoding="utf-8")
    for action in (session.storage.look, session.storage.save, session.storage.save):
        with qtbot.waitSignal(session.storage.outside_found, timeout=10_000):
            action()
        session.storage.jobs.finish()


# ---- a disk that does not confirm -------------------------------------------------------


class Faulty:
    """The cards folder's flush fails once a new title stands in it."""

    def __init__(self, cards: Path, monkeypatch: pytest.MonkeyPatch, words: str) -> None:
        self.is_faulty = True
        sync = type(DISK).sync_folder

        def sync_folder(disk: object, folder: Path) -> None:
            if self.is_faulty and folder.name == "cards" and self._stands(cards, words):
                raise OSError(errno.EIO, os.strerror(errno.EIO))
            sync(DISK, folder)

        monkeypatch.setattr(type(DISK), "sync_folder", sync_folder)

    def _stands(self, cards: Path, words: str) -> bool:
        return any(words in path.read_text("utf-8") for path in cards.glob("[!.]*.card.json"))


@pytest.fixture
def once(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Faulty:
    """A disk that fails to confirm the first save, and answers when asked again."""
    faulty = Faulty(folder / "cards", monkeypatch, "My title")
    carry_out = journal_record.carry_out

    def then_mended(*args: object) -> object:
        try:
            return carry_out(*args)  # type: ignore[arg-type]
        finally:
            faulty.is_faulty = False

    monkeypatch.setattr("authoring.files.journal.carry_out", then_mended)
    return faulty


@pytest.mark.usefixtures("once")
def test_an_unconfirmed_save_is_said_to_be_one_and_the_next_one_blames_nobody(
    session: Session, folder: Path, window: MainWindow, told: list[Message], qtbot: QtBot
) -> None:
    window.safekeeping.begin()
    session.document.edit_card("Rename", HEEL, my_title)
    with qtbot.waitSignal(session.storage.save_failed, timeout=10_000):
        session.storage.save()
    session.storage.jobs.finish()
    assert [message.sentence for message in told] == [
        f"{folder}: saved, but the disk did not confirm it; "
        "save again, and have the disk or share checked."
    ]
    assert session.document.is_dirty
    assert session.storage.path.is_file()
    heel = folder / "cards" / "heel-raise.card.json"
    first = heel.stat().st_ino
    with qtbot.assertNotEmitted(session.storage.outside_found):
        looked(session.storage)
        saved(session.storage, qtbot)
    assert heel.stat().st_ino != first, "it is written anew, not only taken as saved"
    assert not session.document.is_dirty
    assert open_library(folder).library == session.library


@pytest.mark.usefixtures("once")
def test_undoing_what_was_not_confirmed_can_be_saved(
    session: Session, folder: Path, qtbot: QtBot
) -> None:
    session.document.edit_card("Rename", HEEL, my_title)
    with qtbot.waitSignal(session.storage.save_failed, timeout=10_000):
        session.storage.save()
    session.document.undo()
    assert session.document.is_dirty
    saved(session.storage, qtbot)
    assert open_library(folder).library.cards[HEEL].title == Text.plain("Heel raise")


def test_a_disk_that_answers_late_is_not_taken_for_somebody_else(
    session: Session, folder: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    faulty = Faulty(folder / "cards", monkeypatch, "My title")
    session.document.edit_card("Rename", HEEL, my_title)
    with qtbot.assertNotEmitted(session.storage.outside_found):
        with qtbot.waitSignal(session.storage.save_failed, timeout=10_000) as failed:
            session.storage.save()
        assert isinstance(failed.args[0], Unconfirmed)
        looked(session.storage)
        faulty.is_faulty = False
        saved(session.storage, qtbot)
        looked(session.storage)
    assert open_library(folder).library == session.library
