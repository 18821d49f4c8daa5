"""Work away from the window: the latest wish wins, failures are sentences."""

import datetime as dt
import threading
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from authoring.checks.library import check_library
from authoring.editor.check_process import FEW, LibraryJudge
from authoring.editor.jobs import Jobs
from authoring.editor.workers import LatestTask, Stopped, Token, sentence_of
from authoring.files.errors import Unreadable
from authoring.files.library import open_library
from authoring.model.base import evolve
from tests.editor.conftest import make_card


def test_only_the_latest_wish_comes_back(qtbot: QtBot) -> None:
    began, go_on = threading.Event(), threading.Event()

    def work(snapshot: int, token: Token) -> int:
        if snapshot == 1:
            began.set()
            go_on.wait(5)
        return snapshot * 10

    task = LatestTask(work, delay_ms=0)
    results: list[int] = []
    task.done.connect(results.append)
    task.ask_now(1)
    assert began.wait(5)
    task.ask(2)
    with qtbot.waitSignal(task.done, timeout=5000):
        task.ask(3)
        go_on.set()
    assert results == [30]
    assert not task.is_busy


def test_unwanted_work_notices_at_its_next_step(qtbot: QtBot) -> None:
    stopped = threading.Event()
    began = threading.Event()

    def work(_snapshot: object, token: Token) -> None:
        try:
            for number in range(10_000):
                token.step(number, 10_000)
                began.set()
                threading.Event().wait(0.001)
        except Stopped:
            stopped.set()
            raise

    task = LatestTask(work, delay_ms=0)
    task.failed.connect(lambda error: pytest.fail(f"told of {error}"))
    task.ask_now(None)
    assert began.wait(5)
    task.cancel()
    assert stopped.wait(5)
    qtbot.wait(20)


def test_a_failure_is_told_as_one_sentence(qtbot: QtBot) -> None:
    def work(_snapshot: object, _token: Token) -> None:
        raise Unreadable("card.json", "there is no such file", "check the name")

    task = LatestTask(work, delay_ms=0)
    with qtbot.waitSignal(task.failed, timeout=5000) as failed:
        task.ask(None)
    assert sentence_of(failed.args[0]) == ("card.json: there is no such file; check the name.")


def test_a_fault_of_the_program_says_that_the_work_is_still_here(qtbot: QtBot) -> None:
    assert sentence_of(KeyError("x")) == (
        "The program failed at this (KeyError: 'x'). Your work is still here."
    )


def test_slow_work_says_so(qtbot: QtBot) -> None:
    go_on = threading.Event()
    task = LatestTask(lambda _snapshot, _token: go_on.wait(10), delay_ms=0)
    with qtbot.waitSignal(task.slow, timeout=5000):
        task.ask(None)
    with qtbot.waitSignal(task.done, timeout=5000):
        go_on.set()


def test_jobs_are_done_in_order_and_each_end_is_told(qtbot: QtBot) -> None:
    jobs = Jobs()
    ends: list[object] = []
    for number in range(5):
        jobs.run(lambda n=number: n, lambda done, _error: ends.append(done))
    jobs.run(lambda: 1 / 0, lambda _done, error: ends.append(type(error)))
    jobs.finish()
    assert ends == [0, 1, 2, 3, 4, ZeroDivisionError]


def test_a_large_library_is_checked_in_another_process_with_equal_results(folder: Path) -> None:
    library = open_library(folder).library
    first = next(iter(library.cards.values()))
    cards = dict(library.cards)
    for number in range(FEW):
        key = f"00000000-0000-4000-8000-{number:012d}"
        cards[key] = evolve(make_card(key, f"card-{number}", f"Card {number}"))
    large = evolve(library, cards=cards)
    day = dt.date(2027, 1, 1)
    judge = LibraryJudge()
    try:
        assert judge(large, day, lambda: None) == check_library(large, day)
        edited = evolve(large, cards={**cards, first.id: evolve(first, purpose=None, owner="x")})
        fewer = evolve(edited, cards={k: c for k, c in edited.cards.items() if k != key})
        assert judge(fewer, day, lambda: None) == check_library(fewer, day)
    finally:
        judge.close()
