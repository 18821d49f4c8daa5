"""Lost work comes back: after a kill, after closing, and never over somebody else's."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from authoring.editor.document import Document
from authoring.editor.messages import Message
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.storage import Storage
from authoring.files.errors import FileProblem
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.text import Text
from tests.editor.conftest import HEEL, SQUAT, no_checks

pytestmark = pytest.mark.usefixtures("bare")


def found_title(card: Card) -> Card:
    return evolve(card, title=Text.plain("Lost and found"))


@pytest.fixture
def killed(folder: Path, tmp_path: Path) -> Path:
    """Data folder left by a program that was killed with unsaved work."""
    data = tmp_path / "data"
    command = [sys.executable, "-m", "tests.editor.crash_writer"]
    process = subprocess.Popen(
        [*command, str(folder), str(data), HEEL, SQUAT],
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(__file__).parents[2],
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "kept\n"
    process.kill()
    process.wait()
    process.stdout.close()
    return data


def test_work_of_a_killed_program_is_offered_and_restored(
    killed: Path, window: MainWindow, session: Session, told: list[Message]
) -> None:
    window.safekeeping.begin()
    question = window.safekeeping.question
    assert question is not None
    assert question.windowTitle().startswith("Unsaved work from ")
    assert question.windowTitle().endswith(" was found")
    assert question.lines == ["Lost and found: changed", "Squat: removed"]
    question.answers["Restore"].click()
    assert session.library.cards[HEEL].title == Text.plain("Lost and found")
    assert SQUAT not in session.library.cards
    assert session.document.is_dirty
    assert told[-1].sentence == "The unsaved work is back. Save it, or undo."
    assert session.document.undo_name == "Restore unsaved work"
    session.document.undo()
    assert session.library.cards[HEEL].title == Text.plain("Heel raise")


def test_discarded_work_is_not_offered_again(
    killed: Path, window: MainWindow, session: Session
) -> None:
    window.safekeeping.begin()
    question = window.safekeeping.question
    assert question is not None
    question.answers["Discard"].click()
    session.storage.jobs.finish()
    assert session.storage.found() is None


def test_restored_work_is_never_saved_over_what_changed_meanwhile(
    killed: Path, folder: Path, session: Session, qtbot: QtBot
) -> None:
    path = folder / "cards" / "heel-raise.card.json"
    data = json.loads(path.read_text(encoding="utf-8"))
    data["title"] = "Their title"
    path.write_text(json.dumps(data), encoding="utf-8")
    document = Document(open_library(folder))
    storage = Storage(document, killed)
    assert storage.claim()
    kept = storage.found()
    assert kept is not None
    storage.restore(kept)
    with qtbot.waitSignal(storage.save_failed, timeout=10_000):
        storage.save()
    storage.jobs.finish()
    assert json.loads(path.read_text(encoding="utf-8"))["title"] == "Their title"
    assert document.library.cards[HEEL].title == Text.plain("Lost and found")


def test_a_damaged_recovery_file_is_said_to_be_so(killed: Path, session: Session) -> None:
    session.storage.path.write_bytes(b'{"format": "rungbook/recovery"')
    assert session.storage.claim()
    with pytest.raises(FileProblem, match="this recovery file is damaged"):
        session.storage.found()


def test_saving_takes_the_recovery_file_away(session: Session, qtbot: QtBot) -> None:
    assert session.storage.claim()
    session.document.edit_card("Rename", HEEL, found_title)
    session.storage.keep()
    session.storage.jobs.finish()
    assert session.storage.path.is_file()
    assert "recovery copy kept" in session.storage.state_words()
    with qtbot.waitSignal(session.storage.saved, timeout=10_000):
        session.storage.save()
    session.storage.jobs.finish()
    assert not session.storage.path.exists()


def test_a_second_window_over_one_library_says_that_it_keeps_no_copy(
    session: Session, settings: Settings, folder: Path, window: MainWindow, told: list[Message]
) -> None:
    other = Session(
        Document(open_library(folder)),
        settings,
        judge=no_checks,
        data=session.storage.path.parents[1],
    )
    assert other.storage.claim()
    window.safekeeping.begin()
    assert told[-1].sentence == (
        "This library is open in another window of Rungbook, so this one keeps no recovery "
        "copy. Save often, or close one of the two."
    )
    other.storage.close()


@pytest.mark.parametrize(
    ("answer", "on_disk", "kept"),
    [
        ("Save and close", "Lost and found", False),
        ("Keep for next time", "Heel raise", True),
    ],
)
def test_closing_never_loses_work(
    answer: str,
    on_disk: str,
    kept: bool,
    window: MainWindow,
    session: Session,
    folder: Path,
    qtbot: QtBot,
) -> None:
    window.safekeeping.begin()
    session.document.edit_card("Rename", HEEL, found_title)
    assert not window.close()
    question = window.safekeeping.question
    assert question is not None
    assert list(question.answers) == ["Save and close", "Keep for next time", "Stay here"]
    assert question.lines == ["Lost and found"]
    with qtbot.waitSignal(window.closed, timeout=10_000):
        question.answers[answer].click()
    assert open_library(folder).library.cards[HEEL].title == Text.plain(on_disk)
    assert session.storage.path.is_file() is kept


def test_staying_keeps_the_window(window: MainWindow, session: Session) -> None:
    session.document.edit_card("Rename", HEEL, found_title)
    assert not window.close()
    question = window.safekeeping.question
    assert question is not None
    question.answers["Stay here"].click()
    assert window.isVisible()
    assert session.document.is_dirty
    session.document.undo()


@pytest.fixture
def changed_outside(folder: Path, session: Session, window: MainWindow, qtbot: QtBot) -> None:
    """Both sides changed the heel raise; they deleted the squat and added a hop."""
    session.document.edit_card("Rename", HEEL, found_title)
    cards = folder / "cards"
    data = json.loads((cards / "heel-raise.card.json").read_text(encoding="utf-8"))
    new = dict(data, title="Hop", slug="hop", id="00000000-0000-4000-8000-0000000000dd")
    data["title"] = "Their title"
    (cards / "heel-raise.card.json").write_text(json.dumps(data), encoding="utf-8")
    (cards / "squat.card.json").unlink()
    (cards / "hop.card.json").write_text(json.dumps(new), encoding="utf-8")
    with qtbot.waitSignal(session.storage.outside_found, timeout=10_000):
        session.storage.look()


def titles(session: Session) -> list[str]:
    return sorted(card.title.values[""] for card in session.library.cards.values())


@pytest.mark.parametrize(
    ("answer", "after", "dirty"),
    [
        ("Take theirs", ["Hop", "Their title"], False),
        ("Keep both", ["Hop", "Lost and found (mine)", "Their title"], True),
        ("Keep mine", ["Lost and found", "Squat"], True),
    ],
)
@pytest.mark.usefixtures("changed_outside")
def test_outside_changes_are_offered_and_the_answer_is_saved(
    answer: str,
    after: list[str],
    dirty: bool,
    session: Session,
    window: MainWindow,
    folder: Path,
    qtbot: QtBot,
) -> None:
    question = window.safekeeping.question
    assert question is not None
    assert question.windowTitle() == "Somebody else changed this library"
    assert question.lines == [
        "Their title: changed",
        "Squat: deleted or moved",
        "Hop: new",
    ]
    question.answers[answer].click()
    assert titles(session) == after
    assert session.document.is_dirty is dirty
    with qtbot.waitSignal(session.storage.saved, timeout=10_000):
        session.storage.save()
    assert open_library(folder).library == session.library
