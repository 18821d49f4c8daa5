"""No action keeps the window from answering for long, watched on its event loop.

50 ms is the project's own promise. What is counted is the computing of the window's own
thread between two of its beats, so that other programs on the computer do not count.
"""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from authoring.editor import i18n
from authoring.editor.app import Editor
from authoring.editor.appearance import Appearance
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from tests.editor.conftest import no_checks
from tests.editor.whole import ROOM_KEYS, Dialogs, Strays, larkfield, whole_window
from tests.editor.whole_tour import Tour
from tests.editor.whole_watch import Watch

PROMISED_S = 0.05
NOISE = 1.5
"""A computer that others use at the same time takes longer for the same work."""
GENEROUS_S = 0.25
"""For a day in a hurry, in which rooms are opened before they could be prepared."""


@pytest.fixture
def day(
    tmp_path: Path,
    settings: Settings,
    appearance: Appearance,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[Callable[[int, int], Tour]]:
    """Begins a day over a library of so many cards, watched for so long after each action."""
    Dialogs(monkeypatch)
    with ExitStack() as opened:

        def begin(cards: int, settle_ms: int) -> Tour:
            folder = larkfield(tmp_path / "larkfield", cards)
            judge = None if cards else no_checks
            window = whole_window(folder, settings, appearance, tmp_path / "data", judge)
            return Tour(opened.enter_context(window), Watch(), settle_ms)

        yield begin


def whole_day(tour: Tour, window: MainWindow, pause: Callable[[], None]) -> None:
    tour.rooms(ROOM_KEYS)
    window.show_room("protocols")
    pause()
    tour.on_the_map()
    window.show_room("cards")
    pause()
    tour.in_the_workshop()
    tour.anywhere()
    for key, visit in (
        ("library", tour.in_the_library),
        ("handouts", tour.on_the_page),
        ("clinic", tour.in_the_clinic),
    ):
        window.show_room(key)
        pause()
        visit()
    window.show_room("cards")
    pause()
    tour.looks()


def test_a_day_s_work_never_holds_the_window_up_for_long(
    day: Callable[[int, int], Tour], qtbot: QtBot, qapp: object
) -> None:
    tour = day(0, 12)
    strays = Strays(qapp)  # type: ignore[arg-type]
    whole_day(tour, tour.window, lambda: qtbot.wait(200))
    held = [one for one in tour.watch.found if one.work_s > GENEROUS_S]
    assert not held, "\n".join(map(str, held))
    assert len({one.name for one in tour.watch.found}) > 80
    assert not strays.found


@pytest.mark.long
def test_a_day_s_work_over_a_thousand_cards_keeps_the_promise(
    day: Callable[[int, int], Tour], qtbot: QtBot, record_property: Callable[[str, object], None]
) -> None:
    tour = day(1_000, 400)
    qtbot.wait(12_000)  # the first checks of all cards
    whole_day(tour, tour.window, lambda: qtbot.wait(1_500))
    record_property("cases", len(tour.watch.found))
    worst = sorted(tour.watch.found, key=lambda one: -one.work_s)
    record_property("slowest", "; ".join(map(str, worst[:40])))
    held = [one for one in worst if one.work_s > NOISE * PROMISED_S]
    assert not held, "\n".join(map(str, held))


@pytest.fixture
def editor(qapp: QApplication, settings: Settings, tmp_path: Path) -> Iterator[Editor]:
    settings.language = "en"
    made = Editor(qapp, settings, ask=lambda *_: None, data=tmp_path / "data")
    yield made
    made.jobs.finish()
    for window in tuple(made.windows):
        window.session.storage.close()
        window.session.checks.close()
        window.deleteLater()
    made.focus_ring.deleteLater()
    made.appearance.deleteLater()
    made.deleteLater()
    i18n.use("en")


def hold_of_opening(editor: Editor, folder: Path, settle_ms: int) -> float:
    """Seconds that opening a library, its rooms being prepared, holds the windows up."""
    watch = Watch()

    def is_there() -> bool:
        found = [one for one in editor.windows if one.session.document.folder == folder]
        return bool(found) and found[0].room.isVisible() and found[0].shelf.keys == ROOM_KEYS

    held = watch.act("open a library", lambda: editor.request(folder), settle_ms, is_there)
    assert is_there()
    return held.work_s


def test_opening_a_library_holds_no_window_up(editor: Editor, tmp_path: Path) -> None:
    assert hold_of_opening(editor, larkfield(tmp_path / "one"), 2_500) < GENEROUS_S


@pytest.mark.long
def test_opening_a_thousand_cards_beside_other_work_keeps_the_promise(
    editor: Editor, tmp_path: Path, record_property: Callable[[str, object], None]
) -> None:
    editor.request(larkfield(tmp_path / "one"))
    held = hold_of_opening(editor, larkfield(tmp_path / "two", 1_000), 12_000)
    record_property("own_s", held)
    assert held < NOISE * PROMISED_S
