"""A monkey at the keyboard and the mouse breaks nothing, and what it wrote can be undone."""

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from authoring.editor.appearance import Appearance
from authoring.editor.safekeeping import Safekeeping
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.files.library import open_library
from tests.editor.conftest import no_checks
from tests.editor.monkey import Monkey
from tests.editor.whole import Dialogs, Strays, larkfield, whole_window

QUICK, LONG = 600, 10_000


@pytest.fixture
def clinic(
    tmp_path: Path,
    settings: Settings,
    appearance: Appearance,
    monkeypatch: pytest.MonkeyPatch,
    qapp: QApplication,
) -> Iterator[MainWindow]:
    Dialogs(monkeypatch)
    # It may ask to close, and answer the question; but it stays for the next event.
    may_close = Safekeeping.may_close

    def ask_and_stay(kept: Safekeeping, close: Callable[[], object]) -> bool:
        may_close(kept, close)
        return False

    monkeypatch.setattr(Safekeeping, "may_close", ask_and_stay)
    folder = larkfield(tmp_path / "larkfield")
    with whole_window(folder, settings, appearance, tmp_path / "data", no_checks) as window:
        yield window
    qapp.setLayoutDirection(Qt.LayoutDirection.LeftToRight)


def let_loose(window: MainWindow, qtbot: QtBot, qtlog: object, seed: int, events: int) -> None:
    """Let a monkey loose; a failure tells its seed and the last things that it did."""
    diary = window.session.document.folder.parent / "diary.txt"
    monkey = Monkey(window, seed, diary)
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    strays = Strays(app)
    try:
        with qtbot.captureExceptions() as raised:
            for number in range(events):
                monkey.act()
                warned = [r.message for r in qtlog.records if not r.ignored]  # type: ignore[attr-defined]
                done = "\n".join(monkey.last)
                assert not raised, f"seed {seed}, event {number}:\n{done}\n{raised[0]}"
                assert not warned, f"seed {seed}, event {number}:\n{done}\n{warned}"
                assert not strays.found, f"seed {seed}, event {number}:\n{done}\n{strays.found}"
                assert window.isVisible(), f"seed {seed}, event {number}:\n{done}"
    finally:
        app.removeEventFilter(strays)
        monkey.close()


def check_value(window: MainWindow, qtbot: QtBot) -> None:
    """What is in the window can be saved and read back, and undone to what there was."""
    document, storage = window.session.document, window.session.storage
    qtbot.waitUntil(lambda: not storage.is_saving, timeout=20_000)
    if document.is_dirty:
        with qtbot.waitSignal(storage.saved, timeout=20_000):
            storage.save()
    assert open_library(document.folder).library == document.library


@pytest.mark.parametrize("seed", [1, 2])
def test_random_events_break_nothing(
    clinic: MainWindow, qtbot: QtBot, qtlog: object, seed: int
) -> None:
    let_loose(clinic, qtbot, qtlog, seed, QUICK // 2)
    check_value(clinic, qtbot)


@pytest.mark.long
def test_ten_thousand_random_events_break_nothing(
    clinic: MainWindow, qtbot: QtBot, qtlog: object, record_property: object
) -> None:
    seed = int(os.environ.get("RUNGBOOK_SEED", "0"))
    let_loose(clinic, qtbot, qtlog, seed, LONG)
    check_value(clinic, qtbot)
    record_property("cases", LONG)  # type: ignore[operator]
