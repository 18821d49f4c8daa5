"""Work done in the rooms survives closing, a kill, and somebody else's changes."""

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from authoring.checks.result import Subject
from authoring.editor.appearance import Appearance
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.stage_map.room import StageMapRoom
from authoring.files.library import open_library
from authoring.model.library import Library
from tests.editor.conftest import no_checks
from tests.editor.whole import focus_of, keep_active, larkfield, whole_window

Opener = Callable[[], MainWindow]
ROOT = Path(__file__).parents[2]


@pytest.fixture
def clinic(tmp_path: Path) -> Path:
    return larkfield(tmp_path / "larkfield")


@pytest.fixture
def opens(
    clinic: Path, tmp_path: Path, settings: Settings, appearance: Appearance
) -> Iterator[Opener]:
    """Opens the library in a window; the one before goes, as at the end of the program."""
    with ExitStack() as last:

        def begin() -> MainWindow:
            last.close()
            made = whole_window(clinic, settings, appearance, tmp_path / "data", no_checks)
            return last.enter_context(made)

        yield begin


def press(window: MainWindow, key: Qt.Key, held: Qt.KeyboardModifier) -> None:
    keep_active(window)
    QTest.keyClick(focus_of(window), key, held)


def duplicate_an_exercise(window: MainWindow) -> Library:
    """Edit in the map, by its key."""
    window.show_room("protocols")
    room = window.room
    assert isinstance(room, StageMapRoom)
    assert room.model is not None
    room.selecting.entry(room.model.cells[0].entry.id)
    press(window, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert window.session.document.undo_name == "Duplicate exercise"
    return window.session.library


def answer(window: MainWindow, words: str) -> None:
    question = window.safekeeping.question
    assert question is not None
    question.answers[words].click()


def test_save_and_close_writes_what_the_map_did(opens: Opener, clinic: Path, qtbot: QtBot) -> None:
    window = opens()
    done = duplicate_an_exercise(window)
    press(window, Qt.Key.Key_W, Qt.KeyboardModifier.ControlModifier)
    assert window.isVisible()
    with qtbot.waitSignal(window.closed, timeout=10_000):
        answer(window, "Save and close")
    assert open_library(clinic).library == done


def test_what_is_kept_for_next_time_is_offered_then_and_not_written_before(
    opens: Opener, clinic: Path, qtbot: QtBot
) -> None:
    window = opens()
    before = window.session.library
    done = duplicate_an_exercise(window)
    window.close()
    with qtbot.waitSignal(window.closed, timeout=10_000):
        answer(window, "Keep for next time")
    assert open_library(clinic).library == before
    again = opens()
    answer(again, "Restore")
    assert again.session.library == done
    assert again.session.document.is_dirty


def test_closing_twice_in_a_row_still_asks(opens: Opener) -> None:
    window = opens()
    done = duplicate_an_exercise(window)
    for _ in range(2):
        assert not window.close()
        answer(window, "Stay here")
    assert window.session.library == done


def test_closing_while_a_save_is_under_way_waits_for_it(
    opens: Opener, clinic: Path, qtbot: QtBot
) -> None:
    window = opens()
    done = duplicate_an_exercise(window)
    with qtbot.waitSignal(window.closed, timeout=10_000):
        window.save()
        window.close()
        if window.safekeeping.question is not None:
            answer(window, "Save and close")
    assert open_library(clinic).library == done


def test_words_typed_before_a_kill_are_offered_and_restored(
    opens: Opener, clinic: Path, tmp_path: Path
) -> None:
    command = [sys.executable, "-m", "tests.editor.whole_crash"]
    process = subprocess.Popen(
        [*command, str(clinic), str(tmp_path / "data"), " and hold on"],
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )
    assert process.stdout is not None
    with process.stdout:
        said = process.stdout.readline()
        process.kill()
        process.wait()
    assert said == "kept\n"
    window = opens()
    card = window.session.card
    assert card is not None
    name = card.variants[0].name.best("en", "en")
    answer(window, "Restore")
    restored = window.session.library.cards[card.id].variants[0].name.best("en", "en")
    assert restored == f"{name} and hold on"
    window.show_room("cards")
    window.room.show_place(Subject.CARD, card.id, "variants[0].name")
    assert focus_of(window).toPlainText() == restored  # type: ignore[attr-defined]


@pytest.fixture
def foreign(clinic: Path) -> Callable[[], None]:
    """Somebody else renames the protocol that the window shows first."""

    def change() -> None:
        library = open_library(clinic)
        path = library.paths[next(iter(library.library.protocols))]
        data = json.loads(path.read_text(encoding="utf-8"))
        data["title"] = "Their title"
        path.write_text(json.dumps(data), encoding="utf-8")

    return change


@pytest.mark.parametrize("words", ["Take theirs", "Keep mine", "Keep both"])
def test_a_protocol_that_both_changed_is_never_lost(
    words: str, opens: Opener, clinic: Path, foreign: Callable[[], None], qtbot: QtBot
) -> None:
    window = opens()
    storage = window.session.storage
    mine = duplicate_an_exercise(window).protocols[window.session.protocol_id]
    foreign()
    with qtbot.waitSignal(storage.outside_found, timeout=10_000):
        window.save()
    found = open_library(clinic).library.protocols[mine.id]
    assert found.title.best("en", "en") == "Their title"
    assert window.session.library.protocols[mine.id] == mine
    answer(window, words)
    with qtbot.waitSignal(storage.saved, timeout=10_000):
        window.save()
    titles = {
        protocol.title.best("en", "en"): len(tuple(protocol.entries()))
        for protocol in open_library(clinic).library.protocols.values()
    }
    own = mine.title.best("en", "en")
    many = len(tuple(mine.entries()))
    expected = {
        "Take theirs": {"Their title": many - 1},
        "Keep mine": {own: many},
        "Keep both": {"Their title": many - 1, f"{own} (mine)": many},
    }[words]
    assert {title: titles.get(title) for title in expected} == expected
    if words == "Take theirs":
        window.session.document.undo()
        assert window.session.library.protocols[mine.id] == mine
