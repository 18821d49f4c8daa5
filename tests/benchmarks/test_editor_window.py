"""How soon the window is there, and how soon it shows what was done."""

import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from itertools import cycle
from pathlib import Path
from statistics import median

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from authoring.editor import i18n
from authoring.editor.appearance import Appearance
from authoring.editor.focus_ring import FocusRing
from authoring.editor.page.room import PageRoom
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.stage_map.room import StageMapRoom
from authoring.model.base import evolve
from authoring.model.text import Text
from tests.editor.whole import Dialogs, focus_of, keep_active, larkfield, whole_window

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.qt_log_ignore("This plugin does not support", extend=True)


def seconds_to(word: str, *arguments: str) -> float:
    """Seconds from starting a program to its word."""
    begun = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-m", "tests.benchmarks.editor_start", *arguments],
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )
    assert process.stdout is not None
    while process.stdout.readline().strip() != word:
        assert process.poll() is None
    taken = time.perf_counter() - begun
    process.kill()
    process.wait()
    process.stdout.close()
    return taken


@pytest.mark.parametrize(
    ("word", "limit_s"), [("shown", 1.5), ("ready", 6.0)], ids=["first-window", "library-window"]
)
def test_start_to_a_shown_window(
    benchmark: BenchmarkFixture, tmp_path: Path, word: str, limit_s: float
) -> None:
    folder = larkfield(tmp_path / "larkfield")
    benchmark.extra_info["limit_s"] = limit_s
    benchmark.extra_info["bare_pyside_s"] = median(seconds_to("shown") for _ in range(5))
    benchmark.pedantic(seconds_to, args=(word, str(folder)), rounds=5, warmup_rounds=1)


@pytest.fixture
def window(
    qapp: QApplication, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[MainWindow]:
    """The window over a thousand cards, with all checks."""
    Dialogs(monkeypatch)
    settings = Settings(tmp_path / "settings.ini")
    settings.language = "en"
    appearance, ring = Appearance(qapp, settings), FocusRing(qapp)
    folder = larkfield(tmp_path / "larkfield", 1_000)
    with whole_window(folder, settings, appearance, tmp_path / "data", None) as made:
        made.resize(1366, 768)
        yield made
    ring.deleteLater()
    appearance.deleteLater()
    i18n.use("en")


def pressing(
    window: MainWindow, keys: tuple[Qt.Key, ...], held: Qt.KeyboardModifier
) -> Callable[[], None]:
    """Presses the keys one after the other, over and over, one at each call."""
    turns = cycle(keys)

    def press() -> None:
        QTest.keyClick(focus_of(window), next(turns), held)
        QApplication.processEvents()

    return press


@pytest.mark.parametrize(
    ("keys", "held"),
    [
        ((Qt.Key.Key_Down, Qt.Key.Key_Up), Qt.KeyboardModifier.NoModifier),
        ((Qt.Key.Key_D,), Qt.KeyboardModifier.ControlModifier),
    ],
    ids=["walk", "duplicate"],
)
def test_key_to_painted_map(
    benchmark: BenchmarkFixture,
    window: MainWindow,
    qtbot: QtBot,
    keys: tuple[Qt.Key, ...],
    held: Qt.KeyboardModifier,
) -> None:
    room = window.room
    assert isinstance(room, StageMapRoom)
    assert room.model is not None
    room.selecting.entry(room.model.cells[0].entry.id)
    qtbot.wait(8_000)  # the first checks of all cards
    keep_active(window)
    benchmark.extra_info["limit_s"] = 0.05
    benchmark.pedantic(pressing(window, keys, held), rounds=20, warmup_rounds=2)


def test_edit_to_repainted_page(
    benchmark: BenchmarkFixture, window: MainWindow, qtbot: QtBot
) -> None:
    window.show_room("handouts")
    room = window.room
    assert isinstance(room, PageRoom)
    qtbot.waitUntil(lambda: room.preview.made is not None, timeout=30_000)
    qtbot.wait(8_000)
    session = window.session
    count = 0

    def edit() -> None:
        nonlocal count
        count += 1
        title = Text.plain(f"Ankle sprain {count}")
        with qtbot.waitSignal(room.preview.shown, timeout=30_000):
            session.document.edit_protocol(
                "Rename", session.protocol_id, lambda protocol: evolve(protocol, title=title)
            )
        QApplication.processEvents()

    benchmark.extra_info["limit_s"] = 2.0
    benchmark.pedantic(edit, rounds=8, warmup_rounds=1)
