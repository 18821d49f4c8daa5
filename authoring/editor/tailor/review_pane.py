"""The review: what happened with each exercise, what is proposed for it, and the next plan."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout

from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.parts.ticks import Tick
from authoring.editor.protocol_checks import today
from authoring.editor.session import Session
from authoring.editor.tailor import work
from authoring.editor.tailor.answers import flags_of
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.faces import side_words
from authoring.editor.tailor.flags_section import FlagRow
from authoring.editor.tailor.reason_lines import ReasonLines
from authoring.editor.tailor.report import (
    Draft,
    blank_report,
    fitted,
    flag_answer,
    item_faces,
    row_of,
    stage_faces,
    with_flag,
    with_row,
)
from authoring.editor.tailor.review_row import ReviewRow
from authoring.editor.theme import Type, theme
from authoring.model.base import ModelError, Node, evolve
from authoring.model.plan import Plan, PlanItem
from authoring.model.review import Review
from authoring.tailoring.overrides import Decision
from authoring.tailoring.review import Reviewed, ReviewError, review
from authoring.tailoring.review_confirm import confirm

_WHOLE = ("date", "sessions_done")
_TESTS = ("tests", "seen", "irritability", "rest_pain", "morning_pain")


class ReviewPane(QScrollArea):
    """Signals:
    ended(): the next plan is made, or the review was put away.
    """

    ended = Signal()

    def __init__(self, session: Session, desk: Desk, plan: Plan) -> None:
        super().__init__()
        self._session, self._desk, self.plan = session, desk, plan
        self.reviewed: Reviewed | None = None
        if desk.review is None:
            desk.review = Draft(blank_report(plan, desk.clinician, today()))
        self._draft = fitted(desk.review, plan)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setAccessibleName(tr("The review"))
        self.setProperty("pane", True)
        sheet = QFrame()
        sheet.setProperty("panel", True)
        self._rows = QVBoxLayout(sheet)
        gap = theme().px(16)
        self._rows.setContentsMargins(gap, gap, gap, gap)
        self._rows.setSpacing(theme().px(8))
        self.items: dict[str, ReviewRow] = {}
        self.flags: list[FlagRow] = []
        self.stages: list[tuple[Tick, ReasonLines]] = []
        self.fault = FaultLine()
        self._build()
        self.setWidget(sheet)
        self._judge()

    @property
    def report(self) -> Review:
        """What was said so far."""
        return self._draft.report

    def _keep(self, **changes: object) -> None:
        """Keep another state on the desk, which outlives this pane."""
        self._draft = evolve(self._draft, **changes)
        self._desk.review = self._draft

    # ---- building ----------------------------------------------------------------------

    def _build(self) -> None:
        title = tr("Review of {label}", label=self.plan.label or tr("this plan"))
        self._rows.addWidget(label(title, Type.HEADING))
        self.whole = self._form(_WHOLE)
        for number, item in enumerate(self.plan.items, 1):
            row = ReviewRow(f"{number}  {_name(self.plan, item)}")
            row.figure_given.connect(
                lambda column, value, item=item.id: self._change(
                    lambda report: with_row(report, item, column, value)
                )
            )
            row.confirm.clicked.connect(lambda on, item=item.id: self._confirm_up(item, on))
            self._rows.addWidget(row)
            self.items[item.id] = row
        self._build_flags()
        self._build_tests()
        self._build_stages()
        self._rows.addWidget(self.fault)
        foot = QHBoxLayout()
        self.next = QPushButton(tr("Make the next plan"))
        self.next.setProperty("main", True)
        self.next.clicked.connect(self.make_next)
        self.away = QPushButton(tr("Put the review away"))
        self.away.clicked.connect(self.ended)
        foot.addWidget(self.next)
        foot.addWidget(self.away)
        foot.addStretch(1)
        self._rows.addLayout(foot)
        self._rows.addStretch(1)

    def _build_flags(self) -> None:
        asked = flags_of(self.plan.protocols)
        if asked:
            self._rows.addWidget(label(tr("Red flags, asked again"), Type.STRONG))
        for one in asked:
            row = FlagRow(one)
            row.answers.chosen.connect(
                lambda answer, one=one: self._change(
                    lambda report: with_flag(report, one.protocol.id, one.flag.id, answer)
                )
            )
            self._rows.addWidget(row)
            self.flags.append(row)

    def _build_tests(self) -> None:
        self.tests = self._form(_TESTS)

    def _form(self, only: tuple[str, ...]) -> NodeForm:
        first = self.plan.protocols[0].id if self.plan.protocols else ""
        context = FormContext.of_protocol(self._session, first)
        form = NodeForm(Review, self.report, context, only=only)
        form.edited.connect(
            lambda value, _name, _key: self._change(lambda report: _with(report, value, only))
        )
        self._rows.addWidget(form)
        return form

    def _build_stages(self) -> None:
        for at, _chosen in enumerate(self.plan.stages):
            tick, lines = Tick(""), ReasonLines()
            tick.clicked.connect(lambda on, at=at: self._confirm_on(at, on))
            self._rows.addWidget(tick)
            self._rows.addWidget(lines)
            self.stages.append((tick, lines))

    # ---- what a person does ---------------------------------------------------------------

    def _change(self, change: Callable[[Review], Review]) -> None:
        try:
            self._keep(report=change(self.report))
        except ModelError as error:
            self.fault.say(str(error), Mark.MUST)
            return
        self._judge()

    def _confirm_up(self, item: str, on: bool) -> None:
        self._keep(up=self._draft.up | {item} if on else self._draft.up - {item})

    def _confirm_on(self, at: int, on: bool) -> None:
        self._keep(on=self._draft.on | {at} if on else self._draft.on - {at})

    # ---- showing ---------------------------------------------------------------------------

    def _judge(self) -> None:
        """Propose anew what follows; pure, and a few milliseconds."""
        library = self._session.library
        try:
            self.reviewed = review(self.plan, self.report, library)
        except ReviewError as error:
            self.reviewed = None
            self.fault.say(str(error), Mark.MUST)
            self.next.setEnabled(False)
            return
        faces = item_faces(self.reviewed)
        self._keep(up=self._draft.up.intersection(self.reviewed.steps_up()))
        for item, row in self.items.items():
            row.show_figures(row_of(self.report, item))
            row.show_outcome(faces[item], confirmed=item in self._draft.up)
        for flag in self.flags:
            asked = flag.asked
            flag.show_answer(flag_answer(self.report, asked.protocol.id, asked.flag.id))
        self._show_stages(self.reviewed)
        raised = " ".join(reason.text for reason in self.reviewed.raised)
        self.fault.say(raised, Mark.STOP)
        self.next.setEnabled(True)

    def _show_stages(self, reviewed: Reviewed) -> None:
        for at, ((tick, lines), face) in enumerate(
            zip(self.stages, stage_faces(reviewed), strict=False)
        ):
            tick.setText(tr("Stage: {outcome}", outcome=face.what))
            tick.setEnabled(face.waits)
            if not face.waits:
                self._keep(on=self._draft.on - {at})
            tick.setChecked(at in self._draft.on)
            lines.show_lines([(words, Mark.NOTE, False) for words in face.reasons])

    def make_next(self) -> None:
        """The next plan, with what was confirmed; it stands in the room, not saved yet."""
        if self.reviewed is None:
            return
        if not self._desk.clinician:
            self._desk.name_wanted.emit()
            return
        by = Decision(who=self._desk.clinician, date=self.report.date)
        stages = self.reviewed.stages
        on = [
            (stages[at].protocol, stages[at].side)
            for at in sorted(self._draft.on)
            if at < len(stages)
        ]
        try:
            plan = confirm(
                self.reviewed, by, up=self._draft.up, on=on, library=self._session.library
            )
        except ReviewError as error:
            self.fault.say(str(error), Mark.MUST)
            return
        self._desk.path = None
        self._desk.review = None
        self._desk.put(tr("Review"), work.opened(plan))
        self.ended.emit()


def _with(report: Review, value: Node, names: tuple[str, ...]) -> Review:
    return evolve(report, **{name: getattr(value, name) for name in names})


def _name(plan: Plan, item: PlanItem) -> str:
    card = next((each for each in plan.cards if each.id == item.card), None)
    variant = card.variant(item.variant) if card is not None else None
    name = item.variant
    if card is not None and variant is not None:
        name = variant.name.best(card.language, card.language)
    side = side_words(item.side)
    return f"{name}, {side}" if side else name
