"""The right pane: the pages as they print, made of the plan as it stands."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.checks.result import Subject
from authoring.editor.i18n import tr
from authoring.editor.page.preview import Preview, kept_images
from authoring.editor.page.sheets import PageView
from authoring.editor.page.wish import PageJob, PageWish
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.protocol_checks import today
from authoring.editor.session import Session
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.going_out import Going
from authoring.editor.theme import Type, theme
from authoring.handout.document import PrintSize
from authoring.model.plan import Plan


class PagePane(QWidget):
    """The pages beside the plan; the page before stays, greyed, while the next is made."""

    def __init__(self, session: Session, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._desk = session, desk
        self._asked: tuple[object, ...] | None = None
        self.view = PageView()
        self.view.setProperty("pane", True)
        self.view.setMinimumWidth(theme().px(240))
        self.preview = Preview(self.view, parent=self)
        self.where = label(style=Type.SMALL, soft=True)
        self.foot = FaultLine()
        self.why = label(style=Type.SMALL, soft=True, wrap=True)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(theme().px(8))
        head = QHBoxLayout()
        head.addWidget(label(tr("The page"), Type.HEADING))
        head.addStretch(1)
        head.addWidget(self.where)
        for words, name, step in (("‹", tr("Previous page"), -1), ("›", tr("Next page"), 1)):
            button = QPushButton(words)
            button.setProperty("quiet", True)
            button.setProperty("small", True)
            button.setAccessibleName(name)
            button.clicked.connect(lambda _=False, step=step: self.turn(step))
            head.addWidget(button)
        rows.addLayout(head)
        rows.addWidget(self.view, 1)
        rows.addWidget(self.foot)
        rows.addWidget(self.why)
        self.preview.shown.connect(self._say)
        self.preview.failed.connect(self._say)
        self.view.page_changed.connect(self._say)

    @property
    def because(self) -> str:
        """Why the pages in sight are drafts, as their maker found; "" where they are not."""
        return self.preview.made.because if self.preview.made is not None else ""

    @property
    def is_failed(self) -> bool:
        """Whether the pages could not be made."""
        return self.preview.fault is not None

    def turn(self, step: int) -> None:
        """Go a page on or back."""
        self.view.go_to(self.view.page + step)

    def job(self) -> PageJob | None:
        """The page to make of the plan as it stands."""
        plan = self._desk.plan
        if plan is None:
            return None
        document = self._session.document
        wish = wish_of(plan)
        return PageJob(
            document.library,
            document.opened,
            kept_images(self._session),
            wish,
            draft=False,
            today=today(),
            plan=plan,
        )

    def show_plan(self, going: Going) -> None:
        """Make the pages anew where the plan or the clinic changed."""
        job = self.job()
        self.foot.say(going.sentence, Mark.STOP if going.is_raised else Mark.MUST)
        if job is None:
            self._asked = None
            self.preview.task.cancel()
            self.view.clear(tr("No page"))
            return
        asked = (job.plan, job.library.clinic, job.wish)
        if asked != self._asked:
            self._asked = asked
            self.view.grey(stale=True)
            self.preview.ask(job)
        self._say()

    def _say(self, *_what: object) -> None:
        count = self.view.count
        words = tr("Page {n} of {count}", n=self.view.page + 1, count=count) if count else ""
        self.where.setText(words)
        fault = self.preview.fault
        if fault is not None:
            self.why.setText(fault.sentence)
        elif self.because:
            self.why.setText(tr("Draft, not for patients: {why}.", why=self.because))
        else:
            self.why.setText("")
        self.why.setVisible(bool(self.why.text()) and not self.foot.sentence)


def wish_of(plan: Plan) -> PageWish:
    """Language and print size as the patient needs them."""
    patient = plan.presentation
    first = plan.protocols[0].id if plan.protocols else ""
    return PageWish(
        Subject.PROTOCOL,
        first,
        print_size=PrintSize(patient.print_size.value) if patient is not None else None,
        language=patient.language if patient is not None else None,
    )
