"""The page room: what is printed, the pages as they print, and where they go."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.page.blame import place_of_card
from authoring.editor.page.choices import Choices
from authoring.editor.page.draft import Draft, draft_of
from authoring.editor.page.files import Format
from authoring.editor.page.notices import Notice, WorkLine
from authoring.editor.page.outlet import Outlet
from authoring.editor.page.preview import Preview, kept_images
from authoring.editor.page.sheets import PageView
from authoring.editor.page.spread import Fit
from authoring.editor.page.tools import PageTools
from authoring.editor.page.wish import PageFault, PageJob, title_of
from authoring.editor.parts.labels import ElidedLabel, StatusTag, label
from authoring.editor.parts.marks import Mark
from authoring.editor.protocol_checks import today
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.handout.document import PageSize
from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status


class PageRoom(Room):
    """See the pages beside the choices that make them; save and print them."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self._asked: tuple[Library, object, bool] | None = None
        self._draft = Draft()
        self.view = PageView()
        self.view.setProperty("pane", True)
        self.tools = PageTools(self.view)
        self.choices = Choices(session)
        self.notice = Notice()
        self.work = WorkLine()
        self.preview = Preview(self.view, parent=self)
        self.outlet = Outlet(session, self)
        self._build()
        self._connect()
        self._add_commands()

    # ---- building -------------------------------------------------------------

    def _build(self) -> None:
        used = theme()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(used.px(24), used.px(12), used.px(24), used.px(12))
        layout.setSpacing(used.px(12))
        layout.addLayout(self._title_row())
        self.body = QWidget()
        columns = QHBoxLayout(self.body)
        columns.setContentsMargins(0, 0, 0, 0)
        columns.setSpacing(used.px(16))
        columns.addWidget(self.choices)
        pages = QVBoxLayout()
        pages.setSpacing(used.px(8))
        for part in (self.notice, self.work, self.tools):
            pages.addWidget(part)
        pages.addWidget(self.view, 1)
        columns.addLayout(pages, 1)
        layout.addWidget(self.body, 1)
        self.empty = self._empty_page()
        layout.addWidget(self.empty, 1)

    def _title_row(self) -> QHBoxLayout:
        self.title_words = ElidedLabel(style=Type.TITLE)
        self.status = StatusTag(Status.DRAFT)
        self.soft = label(soft=True)
        self.save_button = QPushButton(tr("Save the page…"))
        self.save_button.setToolTip(tr("Ctrl+E"))
        self.save_button.clicked.connect(self.save_page)
        self.print_button = QPushButton(tr("Print…"))
        self.print_button.setToolTip(tr("Ctrl+P"))
        self.print_button.clicked.connect(self.print_page)
        row = QHBoxLayout()
        row.setSpacing(theme().px(12))
        for part in (self.title_words, self.status, self.soft):
            row.addWidget(part)
        row.addStretch(1)
        row.addWidget(self.save_button)
        row.addWidget(self.print_button)
        return row

    def _empty_page(self) -> QWidget:
        page = QWidget()
        inside = QVBoxLayout(page)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.addWidget(label(tr("Nothing to print yet"), Type.TITLE))
        words = tr(
            "Here stand the pages that patients get, as they print. They are made of a "
            "protocol, some of its stages, or one card."
        )
        inside.addWidget(label(words, soft=True, wrap=True))
        begin = QPushButton(tr("Begin with a card"))
        begin.setProperty("main", True)
        begin.clicked.connect(lambda: self.session.open_room("cards"))
        inside.addWidget(begin, 0, Qt.AlignmentFlag.AlignLeading)
        inside.addStretch(1)
        return page

    def _connect(self) -> None:
        session = self.session
        self.choices.changed.connect(self.update_page)
        # Methods, no lambdas: Qt lets go of a method when the room goes.
        session.protocol_chosen.connect(self._chosen)
        session.card_chosen.connect(self._chosen)
        session.checks.changed.connect(self.update_page)
        self.preview.shown_early.connect(self._say)
        self.preview.shown.connect(lambda _made: self._say())
        self.preview.failed.connect(lambda _fault: self._say())
        self.preview.task.busy_changed.connect(lambda _busy: self._say_state())
        self.outlet.busy_changed.connect(self._show_busy)
        self.outlet.slow.connect(self.work.show)
        self.outlet.progressed.connect(self.work.show_progress)
        self.work.stop_wanted.connect(self.outlet.cancel)

    def _add_commands(self) -> None:
        view = self.view
        self.add_command(tr("Print"), self.print_page, keys="Ctrl+P")
        self.add_command(tr("Save the page"), self.save_page, keys="Ctrl+E")
        self.add_command(tr("Save the page as PDF"), lambda: self.save_page(Format.PDF))
        self.add_command(tr("Save the page for Word"), lambda: self.save_page(Format.WORD))
        self.add_command(tr("Save the page for the web"), lambda: self.save_page(Format.WEB))
        self.add_command(tr("Larger pages"), lambda: view.step_zoom(1), keys=["+", "=", "Alt++"])
        self.add_command(tr("Smaller pages"), lambda: view.step_zoom(-1), keys=["-", "Alt+-"])
        self.add_command(tr("Page width"), lambda: view.set_zoom(Fit.WIDTH), keys=["W", "Alt+9"])
        self.add_command(tr("Whole page"), lambda: view.set_zoom(Fit.PAGE), keys=["P", "Alt+0"])
        self.add_command(tr("Next page"), lambda: view.go_to(view.page + 1), keys="Ctrl+PgDown")
        self.add_command(tr("Previous page"), lambda: view.go_to(view.page - 1), keys="Ctrl+PgUp")

    # ---- what the window asks -----------------------------------------------------

    def title(self) -> str:
        """What stands on the pages."""
        return title_of(self.job()) if self._has_something() else ""

    def key_hints(self) -> Sequence[KeyHint]:
        """Keys for the pages, or for the choices."""
        return (
            KeyHint("Ctrl P", tr("print")),
            KeyHint("Ctrl E", tr("save the page")),
            KeyHint("+ −", tr("larger, smaller")),
            KeyHint("W  P", tr("page width, whole page")),
            KeyHint("Ctrl PgDn", tr("next page")),
            KeyHint("F6", tr("next pane")),
        )

    def focus_first(self) -> None:
        """Put the focus on the pages."""
        self.view.setFocus()

    def refresh(self, before: Library, after: Library) -> None:
        """Show the choices there are now, and make the page anew."""
        self.choices.refresh()
        self.update_page()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._chosen()

    def _chosen(self, _id: str = "") -> None:
        if self.isVisible():
            self.choices.refresh()
            self.update_page()

    # ---- the page -----------------------------------------------------------------

    def _has_something(self) -> bool:
        library = self.session.library
        return bool(library.protocols or library.cards)

    def job(self) -> PageJob:
        """The page that is wished for, of the document as it stands."""
        session = self.session
        document = session.document
        wish = self.choices.wish()
        job = PageJob(session.library, document.opened, kept_images(session), wish, today=today())
        return evolve(job, draft=bool(draft_of(job.document, session.checks.results)))

    def update_page(self, _results: object = None) -> None:
        """Make the page anew where anything that is on it changed."""
        if not self.isVisible():
            return
        has = self._has_something()
        self.body.setVisible(has)
        self.empty.setVisible(not has)
        job = self.job()
        self._draft = draft_of(job.document, self.session.checks.results)
        self._show_title(job)
        self._say()
        asked = (job.library, job.wish, job.draft)
        same = (
            self._asked is not None and self._asked[0] is asked[0] and self._asked[1:] == asked[1:]
        )
        if has and not same:
            self._asked = asked
            self.preview.ask(job)

    def _show_title(self, job: PageJob) -> None:
        document = job.document
        self.title_words.setText(title_of(job) if document is not None else tr("Handouts"))
        is_protocol = isinstance(document, Protocol)
        self.status.setVisible(is_protocol)
        self.soft.setVisible(is_protocol)
        if isinstance(document, Protocol):
            self.status.show_status(document.status)
            self.soft.setText(tr("Version {version}", version=document.version))
        for button in (self.save_button, self.print_button):
            button.setVisible(document is not None)

    # ---- what is said ---------------------------------------------------------------

    @property
    def draft(self) -> Draft:
        """What keeps the page from patients: what is plain to see, else what its maker found."""
        made = self.preview.made
        if self._draft or made is None:
            return self._draft
        return Draft(made.because, at=place_of_card(made.job.library, made.because))

    def _say(self) -> None:
        fault = self.preview.fault
        if fault is not None:
            self._say_fault(fault)
        else:
            self._say_draft()
        self._show_buttons()
        self.tools.refresh()
        self._say_state()

    def _say_state(self) -> None:
        """Whether the pages in sight are those of the document."""
        if not self.view.count:
            self.tools.soft.setText("")
        elif self.preview.task.is_busy:
            self.tools.soft.setText(tr("Updating…"))
        else:
            failed = self.preview.fault is not None
            self.tools.soft.setText(tr("as it was before") if failed else "")

    def _say_fault(self, fault: PageFault) -> None:
        place = fault.place
        if place is None:
            self.notice.say(fault.sentence, Mark.MUST)
        else:
            self.notice.say(
                fault.sentence, Mark.MUST, tr("Mend it"), lambda: self.session.go_to(place)
            )

    def _say_draft(self) -> None:
        draft = self.draft
        place = draft.place
        if place is None:
            self.notice.say(draft.sentence, Mark.SHOULD)
        else:
            self.notice.say(
                draft.sentence,
                Mark.MUST,
                tr("Show the first check") if draft.musts else tr("Show it"),
                lambda: self.session.go_to(place),
            )

    def _show_buttons(self) -> None:
        # Until a page was made, nobody knows that it is for patients.
        is_draft = bool(self.draft) or self.preview.made is None
        failed = self.preview.fault is not None
        self.print_button.setText(tr("Print a draft…") if is_draft else tr("Print…"))
        self.save_button.setText(tr("Save the draft…") if is_draft else tr("Save the page…"))
        _make_main(self.save_button, is_draft)
        _make_main(self.print_button, not is_draft)
        busy = self.outlet.is_busy
        self.print_button.setEnabled(not failed and not busy)
        self.print_button.setAccessibleDescription(self.notice.sentence)
        self.save_button.setEnabled(not busy)

    def _show_busy(self, words: str) -> None:
        self.work.begin(words)
        self._show_buttons()

    # ---- where it goes ----------------------------------------------------------------

    def save_page(self, kind: Format | None = None) -> None:
        """Ask for a file and save the page as it stands."""
        job = self.job()
        if job.document is None:
            self.session.tell(tr("There is nothing to save yet."))
            return
        self.outlet.save(job, kind or self.choices.chosen_format)

    def print_page(self) -> None:
        """Ask for a printer and print the page as it stands."""
        job = self.job()
        if job.document is None:
            self.session.tell(tr("There is nothing to print yet."))
            return
        paper = job.wish.paper or PageSize.A4
        # How many pages there are is known only when all are made.
        count = 0 if self.preview.is_early else self.view.images.count
        self.outlet.print(job, paper, count)


def _make_main(button: QPushButton, on: bool) -> None:
    if bool(button.property("main")) != on:
        button.setProperty("main", on)
        button.style().unpolish(button)
        button.style().polish(button)
