"""Keeps pages in step with the document: made away from the window, the latest wish first."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from authoring.editor.i18n import tr
from authoring.editor.page.making import MadePage, make_page
from authoring.editor.page.sheets import PageView
from authoring.editor.page.wish import PageFault, PageJob, title_of
from authoring.editor.session import Session
from authoring.editor.workers import LatestTask, Token, sentence_of

Make = Callable[[PageJob, Token], MadePage]


class Preview(QObject):
    """Makes a page and shows it in a view; the page before stays, greyed, where it fails.

    Signals:
        shown(MadePage): a page was made and stands in the view.
        failed(PageFault): the page can't be made.
    """

    shown = Signal(object)
    failed = Signal(object)

    def __init__(
        self, view: PageView, make: Make = make_page, parent: QObject | None = None
    ) -> None:
        """Args: make: makes a page on a thread of its own."""
        super().__init__(parent)
        self.view = view
        self.made: MadePage | None = None
        self._asked: PageJob | None = None
        self.fault: PageFault | None = None
        self.task = LatestTask(make, parent=self)
        self.task.done.connect(self._show)
        self.task.failed.connect(self._fail)

    def ask(self, job: PageJob) -> None:
        """Show this page soon; at once where there is none yet."""
        self._asked = job
        if self.made is None and self.fault is None:
            self.task.ask_now(job)
        else:
            self.task.ask(job)

    def _show(self, made: MadePage) -> None:
        self.made, self.fault = made, None
        self.view.show_pdf(made.data, title_of(made.job))
        self.shown.emit(made)

    def _fail(self, error: BaseException) -> None:
        fault = error if isinstance(error, PageFault) else PageFault(sentence_of(error))
        self.fault = fault
        made, asked = self.made, self._asked
        if made is not None and asked is not None and made.job.place == asked.place:
            self.view.grey(stale=True)
        else:
            self.made = None
            self.view.clear(tr("No page"))
        self.failed.emit(fault)


def kept_images(session: Session) -> dict[str, bytes]:
    """Pictures of a session that are not in the library's folder yet."""
    return dict(session.document.snapshot().images)
