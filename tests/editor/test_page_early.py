"""Long pages are answered at once: the old ones greyed, the first stage before the others."""

import threading

import pypdfium2
import pytest
from pytestqt.qtbot import QtBot

from authoring.editor.page.making import MadePage, make_page
from authoring.editor.page.preview import Preview
from authoring.editor.page.sheets import PageView
from authoring.editor.page.wish import PageJob, first_of
from authoring.editor.workers import Token
from tests.editor import page_jobs as pages


class Maker:
    """Makes pages, but whole protocols only when told to go on."""

    def __init__(self) -> None:
        self.go_on = threading.Event()
        self.asked: list[tuple[int, ...]] = []

    def __call__(self, job: PageJob, token: Token) -> MadePage:
        self.asked.append(job.wish.stages)
        if len(job.wish.stages) != 1:
            assert self.go_on.wait(20)
        return make_page(job, token)


@pytest.fixture
def maker() -> Maker:
    return Maker()


@pytest.fixture
def preview(maker: Maker, qtbot: QtBot) -> Preview:
    view = PageView()
    qtbot.addWidget(view)
    view.resize(600, 400)
    view.show()
    return Preview(view, maker, view)


def pages_in(job: PageJob) -> int:
    """Pages of a job, as PDFium counts them."""
    return len(pypdfium2.PdfDocument(make_page(job, pages.idle()).data))


def test_the_first_stage_is_shown_while_the_others_are_made(
    preview: Preview, maker: Maker, qtbot: QtBot
) -> None:
    whole = pages.job()
    with qtbot.waitSignal(preview.shown_early, timeout=20_000):
        preview.ask(whole)
    assert preview.view.count == pages_in(pages.job(stages=(1,)))
    assert preview.is_early
    assert preview.made is None
    assert preview.task.is_busy
    with qtbot.waitSignal(preview.shown, timeout=20_000):
        maker.go_on.set()
    assert preview.view.count == pages_in(whole) > pages_in(pages.job(stages=(1,)))
    assert not preview.is_early
    assert maker.asked == [(1,), ()]


def test_an_edit_of_the_pages_in_sight_makes_no_first_stage(
    preview: Preview, maker: Maker, qtbot: QtBot
) -> None:
    maker.go_on.set()
    with qtbot.waitSignal(preview.shown, timeout=20_000):
        preview.ask(pages.job())
    maker.asked.clear()
    with qtbot.waitSignal(preview.shown, timeout=20_000):
        preview.ask(pages.job(pages.titled("Another title")))
        assert not any(sheet.is_stale for sheet in preview.view.sheets)
    assert maker.asked == [()]


def test_pages_of_another_wish_are_greyed_at_once(
    preview: Preview, maker: Maker, qtbot: QtBot
) -> None:
    with qtbot.waitSignal(preview.shown, timeout=20_000):
        preview.ask(pages.job(stages=(2,)))
    preview.ask(pages.job())
    assert all(sheet.is_stale for sheet in preview.view.sheets)
    with qtbot.waitSignal(preview.shown_early, timeout=20_000):
        pass
    assert not any(sheet.is_stale for sheet in preview.view.sheets)
    with qtbot.waitSignal(preview.shown, timeout=20_000):
        maker.go_on.set()


@pytest.mark.parametrize(
    ("stages", "first"), [((), (1,)), ((2, 3), (2,)), ((2,), None)], ids=["all", "two", "one"]
)
def test_the_first_of_several_stages_is_the_first_wanted(
    stages: tuple[int, ...], first: tuple[int, ...] | None
) -> None:
    found = first_of(pages.job(stages=stages))
    assert (None if found is None else found.wish.stages) == first
