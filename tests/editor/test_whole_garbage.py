"""Unreachable cycles are collected in the window's thread alone, and never the library."""

import gc
import threading
import time
import weakref
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from authoring.editor.garbage import Garbage, spare_what_is_there
from authoring.files.library import open_library
from tests.editor.whole import larkfield


class Knot:
    """Holds itself."""

    def __init__(self) -> None:
        self.me = self


@pytest.fixture
def garbage(qapp: QApplication) -> Iterator[Garbage]:
    made = Garbage()
    yield made
    made.stop()
    assert gc.isenabled()
    assert gc.get_freeze_count() == 0


def test_no_thread_but_the_window_s_collects(garbage: Garbage) -> None:
    threads: list[str] = []

    def note(_phase: str, _info: object) -> None:
        threads.append(threading.current_thread().name)

    def work() -> None:
        for _ in range(20_000):
            Knot()

    gc.callbacks.append(note)
    worker = threading.Thread(target=work)
    worker.start()
    worker.join()
    assert threads == []
    garbage.collect()
    gc.callbacks.remove(note)
    assert set(threads) == {threading.main_thread().name}


def test_knots_are_let_go_in_time(garbage: Garbage) -> None:
    knots = [weakref.ref(Knot()) for _ in range(2_000)]
    garbage.collect()
    assert not any(knot() for knot in knots)


def test_a_library_that_was_read_is_not_searched(garbage: Garbage, tmp_path: Path) -> None:
    opened = open_library(larkfield(tmp_path / "larkfield"))
    spare_what_is_there()
    begun = time.perf_counter()
    gc.collect()
    assert time.perf_counter() - begun < 0.05
    assert opened.library.cards


def test_without_our_timer_nothing_is_spared() -> None:
    gc.enable()
    spare_what_is_there()
    assert gc.get_freeze_count() == 0
