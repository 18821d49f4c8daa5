"""The middle pane: the proposed plan, every choice with its reasons, and what was left out."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label, line
from authoring.editor.parts.marks import Mark
from authoring.editor.protocol_checks import today
from authoring.editor.session import Session
from authoring.editor.tailor.choices import Choice
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.faces import ItemFace, LeftFace, PlanFace, face_of, others_like
from authoring.editor.tailor.item_view import ItemView
from authoring.editor.tailor.left_view import LeftView
from authoring.editor.tailor.reason_lines import ReasonLines
from authoring.editor.tailor.stage_view import StageView
from authoring.editor.tailor.work import library_of
from authoring.editor.theme import Type, theme
from authoring.model.base import evolve
from authoring.model.plan import PlanItem
from authoring.model.vocabulary import OverrideKind
from authoring.tailoring.overrides import Decision


class PlanPane(QScrollArea):
    """Signals:
    shown(PlanFace or None): another state of the plan stands in the pane.
    """

    shown = Signal(object)

    def __init__(self, session: Session, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self.desk = session, desk
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName(tr("The plan"))
        self.setProperty("pane", True)
        self.face: PlanFace | None = None
        self.stages = StageView(desk)
        self.items: dict[str, ItemView] = {}
        self.lefts: list[LeftView] = []
        self._pending: tuple[str, str, Choice] | None = None
        self.left_title = label(style=Type.HEADING)
        self.known = ReasonLines()
        self.known_title = label(tr("To know before this goes out"), Type.HEADING)
        self._build()
        desk.refused.connect(self._refuse)

    def _build(self) -> None:
        used = theme()
        sheet = QFrame()
        sheet.setProperty("panel", True)
        rows = QVBoxLayout(sheet)
        rows.setContentsMargins(0, 0, 0, used.px(8))
        rows.setSpacing(0)
        rows.addWidget(self.stages)
        self._items, self._lefts = QVBoxLayout(), QVBoxLayout()
        for box in (self._items, self._lefts):
            box.setSpacing(0)
        rows.addLayout(self._items)
        rows.addWidget(line())
        foot = QVBoxLayout()
        foot.setContentsMargins(used.px(16), used.px(12), used.px(16), used.px(8))
        foot.setSpacing(used.px(8))
        foot.addWidget(self.left_title)
        foot.addLayout(self._lefts)
        foot.addWidget(self.known_title)
        foot.addWidget(self.known)
        rows.addLayout(foot)
        rows.addStretch(1)
        self.setWidget(sheet)

    # ---- showing --------------------------------------------------------------------

    def show_work(self) -> None:
        """Show the desk's plan; what did not change stays as it is."""
        plan = self.desk.plan
        self.face = face_of(plan, self._session.library.manifest) if plan is not None else None
        face = self.face
        self.stages.show_face(face)
        self._show_items(face.items if face is not None else ())
        self._show_lefts(face.left if face is not None else ())
        count = len(face.left) if face is not None else 0
        whole = count + (len(face.items) if face is not None else 0)
        self.left_title.setText(
            tr("Left out, {n} of {all}", n=count, all=whole)
            if count
            else tr("Nothing was left out.")
        )
        reasons = list(face.reasons) if face is not None else []
        reasons += self.desk.work.lost
        self.known_title.setVisible(bool(reasons))
        self.known.show_lines([(words, Mark.CARE, False) for words in reasons])
        self.shown.emit(face)

    def _show_items(self, faces: tuple[ItemFace, ...]) -> None:
        wanted = [face.id for face in faces]
        for gone in [one for one in self.items if one not in wanted]:
            view = self.items.pop(gone)
            self._items.removeWidget(view)
            view.deleteLater()
        for at, face in enumerate(faces):
            known = self.items.get(face.id)
            if known is None:
                known = self._new(face)
                self.items[face.id] = known
            elif known.face != face:
                known.show_face(face)
                self._offer(known)
            if self._items.indexOf(known) != at:
                self._items.removeWidget(known)
                self._items.insertWidget(at, known)

    def _new(self, face: ItemFace) -> ItemView:
        view = ItemView(face, self.widget())
        item = face.id
        view.step_wanted.connect(lambda step: self.step(item, step))
        view.remove_wanted.connect(lambda: self.decide(item, OverrideKind.REMOVED))
        view.seen_changed.connect(lambda on: self.desk.see_done(item, on))
        form = view.form
        form.way_chosen.connect(lambda way: self.decide(item, OverrideKind.VARIANT, variant=way))
        form.dose_chosen.connect(lambda dose: self.decide(item, OverrideKind.DOSE, dose=dose))
        form.exercise_chosen.connect(
            lambda both: self.decide(item, OverrideKind.EXERCISE, card=both[0], variant=both[1])
        )
        form.reason_given.connect(self._give_reason)
        form.signed.connect(lambda who: self.desk.sign(item, who))
        self._offer(view)
        return view

    def _offer(self, view: ItemView) -> None:
        library = library_of(self.desk.work, self._session.library)
        item = self._item(view.face.id)
        taken = [each.card for each in self.desk.plan.items] if self.desk.plan is not None else []
        others = others_like(
            library.cards.values(),
            library.cards.get(view.face.card),
            library.manifest.language,
            taken,
        )
        view.form.show_choices(
            view.face.ways, view.face.variant, others, item.dose if item is not None else None
        )

    def _item(self, item: str) -> PlanItem | None:
        items = self.desk.plan.items if self.desk.plan is not None else ()
        return next((each for each in items if each.id == item), None)

    def _show_lefts(self, faces: tuple[LeftFace, ...]) -> None:
        if tuple(view.face for view in self.lefts) == faces:
            return
        for view in self.lefts:
            self._lefts.removeWidget(view)
            view.deleteLater()
        self.lefts = []
        for face in faces:
            view = LeftView(face)
            view.add_wanted.connect(lambda face=face: self.add(face))
            view.reason_given.connect(self._give_reason)
            self._lefts.addWidget(view)
            self.lefts.append(view)

    # ---- deciding ----------------------------------------------------------------------

    def step(self, item: str, step: int) -> None:
        """Take an exercise a rung harder (1) or easier (-1)."""
        view = self.items.get(item)
        if view is None:
            return
        face = view.face
        rungs = sorted(face.rungs)
        at = rungs.index(face.rung) + step
        library = library_of(self.desk.work, self._session.library)
        card = library.cards.get(face.card)
        if card is None or not 0 <= at < len(rungs):
            return
        way = next(each.id for each in card.variants if each.rung == rungs[at])
        self.decide(item, OverrideKind.VARIANT, variant=way)

    def add(self, face: LeftFace) -> None:
        """Put an exercise that was left out into the plan."""
        if face.add is not None:
            item = face.left.entry or ""
            self.decide(item, OverrideKind.ADDED, variant=face.add, left=face.left)

    def decide(self, item: str, kind: OverrideKind, **what: object) -> None:
        """Make a decision; where a rule stands against it, a reason is asked for in place."""
        if not self.desk.clinician:
            if item in self.items:
                self._offer(self.items[item])
            self.desk.name_wanted.emit()
            return
        clinic = self._session.library.clinic
        by = Decision(
            who=self.desk.clinician,
            date=today(),
            second_sign=clinic is not None and clinic.second_sign,
        )
        self._try(_name_of(kind), Choice(kind=kind, by=by, item=item, **what))  # type: ignore[arg-type]

    def _try(self, name: str, choice: Choice) -> None:
        self._pending = (choice.item, name, choice)
        if self.desk.decide(name, choice):
            self._pending = None
            view = self.items.get(choice.item)
            if view is not None:
                view.form.ask_why("")
                view.form.setVisible(view.face.waits)

    def _give_reason(self, why: str) -> None:
        if self._pending is not None:
            _, name, choice = self._pending
            self._try(name, evolve(choice, by=evolve(choice.by, why=why)))

    def _refuse(self, sentence: str) -> None:
        if self._pending is None:
            self._session.tell(sentence)
            return
        item, _, choice = self._pending
        ask: Callable[[str], None] | None = None
        if choice.kind is OverrideKind.ADDED:
            found = [view for view in self.lefts if view.face.left == choice.left]
            ask = found[0].ask_why if found else None
        elif item in self.items:
            ask = self.items[item].form.ask_why
        if ask is None or choice.by.why:
            self._pending = None
            self._session.tell(sentence)
        else:
            ask(sentence)


def _name_of(kind: OverrideKind) -> str:
    return {
        OverrideKind.VARIANT: tr("Choose another way"),
        OverrideKind.EXERCISE: tr("Choose another exercise"),
        OverrideKind.DOSE: tr("Change the dose"),
        OverrideKind.ADDED: tr("Put back into the plan"),
        OverrideKind.REMOVED: tr("Take out of the plan"),
    }[kind]
