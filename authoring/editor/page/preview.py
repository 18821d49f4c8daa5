"""Keeps pages in step with the document: made away from the window, the latest wish first."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress

from PySide6.QtCore import QObject, Signal

from authoring.editor.i18n import tr
from authoring.editor.page.making import MadePage, make_page
from authoring.editor.page.sheets import PageView
from authoring.editor.page.wish import PageFault, PageJob, PageWish, first_of, title_of
from authoring.editor.session import Session
from authoring.editor.workers import LatestTask, Token, sentence_of

Make = Callable[[PageJob, Token], MadePage]


class Preview(QObject):
    """Makes a page and shows it in a view; the page before stays, greyed, where it fails.

    Where other pages are wished for than those in sight, these are greyed at once, and
    the first of several stages is shown before all of them are made.

    Signals:
        shown_early(): the first stage stands in the view, the others are being made.
        shown(MadePage): a page was made and stands in the view.
        failed(PageFault): the page can't be made.
    """

    shown_early = Signal()
    shown = Signal(object)
    failed = Signal(object)
    _made_early = Signal(object, object, object)

    def __init__(
        self, view: PageView, make: Make = make_page, parent: QObject | None = None
    ) -> None:
        """Args: make: makes a page on a thread of its own."""
        super().__init__(parent)
        self.view = view
        self.made: MadePage | None = None
        self._asked: PageJob | None = None
        self.fault: PageFault | None = None
        self.is_early = False
        self._make = make
        self._in_sight: PageWish | None = None
        self._made_early.connect(self._show_early)
        self.task = LatestTask(self._work, parent=self)
        self.task.done.connect(self._show)
        self.task.failed.connect(self._fail)

    def ask(self, job: PageJob) -> None:
        """Show this page soon; at once where there is none yet."""
        self._asked = job
        other = job.wish != self._in_sight
        if other:
            self.view.grey(stale=True)
        asked = (job, first_of(job) if other else None)
        if self.made is None and self.fault is None:
            self.task.ask_now(asked)
        else:
            self.task.ask(asked)

    def _work(self, asked: tuple[PageJob, PageJob | None], token: Token) -> MadePage:
        job, first = asked
        if first is not None:
            with suppress(PageFault):  # it is the whole page's fault, too, and told with that
                self._made_early.emit(job, self._make(first, token), token)
        return self._make(job, token)

    def _show_early(self, job: PageJob, made: MadePage, token: Token) -> None:
        if token.is_stopped:
            return
        self.made, self.fault = None, None
        self.is_early, self._in_sight = True, job.wish
        self.view.show_pdf(made.data, title_of(job))
        self.shown_early.emit()

    def _show(self, made: MadePage) -> None:
        self.made, self.fault = made, None
        self.is_early, self._in_sight = False, made.job.wish
        self.view.show_pdf(made.data, title_of(made.job))
        self.shown.emit(made)

    def _fail(self, error: BaseException) -> None:
        fault = error if isinstance(error, PageFault) else PageFault(sentence_of(error))
        self.fault = fault
        made, asked = self.made, self._asked
        if made is not None and asked is not None and made.job.place == asked.place:
            self.view.grey(stale=True)
        else:
            self.made = self._in_sight = None
            self.is_early = False
            self.view.clear(tr("No page"))
        self.failed.emit(fault)


def kept_images(session: Session) -> dict[str, bytes]:
    """Pictures of a session that are not in the library's folder yet."""
    return dict(session.document.snapshot().images)
