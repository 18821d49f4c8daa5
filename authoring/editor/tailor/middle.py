"""The middle of the tailor room: the plan, or in its place the review that the desk keeps."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QStackedWidget

from authoring.editor.session import Session
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.plan_pane import PlanPane
from authoring.editor.tailor.review_pane import ReviewPane
from authoring.model.plan import Plan


class Middle(QStackedWidget):
    """Signals:
    turned(): a review came or went.
    """

    turned = Signal()

    def __init__(self, session: Session, desk: Desk, plan_pane: PlanPane) -> None:
        super().__init__()
        self._session, self._desk, self._plan_pane = session, desk, plan_pane
        self.review: ReviewPane | None = None
        self.addWidget(plan_pane)

    def begin_review(self) -> None:
        """Ask what happened since the plan was made."""
        plan = self._desk.plan
        if plan is None or self.review is not None:
            return
        pane = self._open(plan)
        self.turned.emit()
        first = next(iter(pane.items.values()), None)
        if first is not None:
            next(iter(first.cells.values())).setFocus()

    def follow(self) -> None:
        """Show the review that the desk keeps: this room, or the plan, may be another by now."""
        plan, kept = self._desk.plan, self._desk.review
        wanted = plan if plan is not None and kept and kept.report.plan == plan.id else None
        shown = self.review.plan if self.review is not None else None
        if wanted == shown:
            return
        self._close()
        if wanted is not None:
            self._open(wanted)
        else:
            self._desk.review = None

    def _open(self, plan: Plan) -> ReviewPane:
        pane = ReviewPane(self._session, self._desk, plan)
        pane.ended.connect(self._end)
        self.addWidget(pane)
        self.setCurrentWidget(pane)
        self.review = pane
        return pane

    def _close(self) -> None:
        pane, self.review = self.review, None
        self.setCurrentWidget(self._plan_pane)
        if pane is not None:
            self.removeWidget(pane)
            pane.deleteLater()

    def _end(self) -> None:
        self._desk.review = None
        self._close()
        self.turned.emit()
