"""No action keeps the window from answering for long, watched on its event loop.

50 ms is the project's own promise. What is counted is the computing of the window's own
thread between two of its beats, so that other programs on the computer do not count.
"""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from authoring.editor.appearance import Appearance
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from tests.editor.conftest import no_checks
from tests.editor.whole import ROOM_KEYS, Dialogs, Strays, larkfield, whole_window
from tests.editor.whole_tour import Tour
from tests.editor.whole_watch import Watch

PROMISED_S = 0.05
GENEROUS_S = 0.4
ONCE_S = {
    "larger text": 1.0,
    "smaller text": 1.0,
    **{f"open {key} for the first time": 0.15 for key in ROOM_KEYS},
}
"""What happens once in a while builds all of a room, or of the window."""


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
    tour.looks()


def test_a_day_s_work_never_holds_the_window_up_for_long(
    day: Callable[[int, int], Tour], qtbot: QtBot, qapp: object
) -> None:
    tour = day(0, 12)
    strays = Strays(qapp)  # type: ignore[arg-type]
    whole_day(tour, tour.window, lambda: qtbot.wait(200))
    held = [one for one in tour.watch.found if one.work_s > ONCE_S.get(one.name, GENEROUS_S)]
    assert not held, "\n".join(map(str, held))
    assert len({one.name for one in tour.watch.found}) > 45
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
    held = [one for one in worst if one.work_s > ONCE_S.get(one.name, PROMISED_S)]
    assert not held, "\n".join(map(str, held))
