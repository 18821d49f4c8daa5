"""Top of the plan: the stage that is proposed, what is met and tested, and the minutes."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.parts.segmented import Segmented
from authoring.editor.tailor.desk import Desk
from authoring.editor.tailor.faces import CriterionFace, PlanFace, StageFace, side_words
from authoring.editor.tailor.minutes_bar import MinutesBar, minutes_words
from authoring.editor.tailor.reason_lines import ReasonLines
from authoring.editor.tailor.work import Work
from authoring.editor.theme import Type, theme
from authoring.model.base import evolve
from authoring.model.vocabulary import Side
from authoring.tailoring.criteria import Verdict
from authoring.tailoring.request import StageWish


class OneStage(QWidget):
    """One followed stage: its name, the others as buttons, its reasons, the way to the next."""

    def __init__(self, desk: Desk, face: StageFace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.face, self._desk = face, desk
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(theme().px(4))
        head = QHBoxLayout()
        side = f", {side_words(face.side)}" if side_words(face.side) else ""
        name = face.names[face.number - 1]
        words = tr("Proposed: stage {n}, {name}", n=face.number, name=name) + side
        self.title = label(words, Type.HEADING, wrap=True)
        head.addWidget(self.title, 1)
        numbers = tuple((at, str(at)) for at in range(1, len(face.ids) + 1))
        self.numbers: Segmented[int] = Segmented(
            tr("Stage of {protocol}", protocol=face.title), numbers, face.number
        )
        for at, stage in enumerate(face.names, 1):
            self.numbers.button(at).setToolTip(stage)
            self.numbers.button(at).setAccessibleName(tr("Stage {n}, {name}", n=at, name=stage))
        self.numbers.chosen.connect(self._choose)
        head.addWidget(self.numbers)
        rows.addLayout(head)
        self.reasons, self.gate = ReasonLines(self), ReasonLines(self)
        self.reasons.show_lines([(words, None, False) for words in face.reasons])
        rows.addWidget(self.reasons)
        lines: list[tuple[str, Mark | None, bool]] = [
            (criterion_words(each), _MARKS[each.verdict], False) for each in face.gate
        ]
        self.gate.show_lines(lines)
        if lines:
            rows.addWidget(
                label(tr("To enter stage {n}", n=face.number + 1), Type.SMALL, soft=True)
            )
            rows.addWidget(self.gate)

    def _choose(self, number: int) -> None:
        face = self.face
        side = Side.NONE if face.side is Side.BOTH else face.side
        wish = StageWish(face.protocol, face.ids[number - 1], side)

        def change(now: Work) -> Work:
            others = tuple(
                each
                for each in now.stages
                if (each.protocol, each.side) != (wish.protocol, wish.side)
            )
            return evolve(now, stages=(*others, wish))

        self._desk.edit(tr("Choose a stage"), change)


_MARKS = {Verdict.MET: Mark.GOOD, Verdict.NOT_MET: Mark.STOP, Verdict.NOT_TESTED: Mark.NOTE}


def criterion_words(face: CriterionFace) -> str:
    """A criterion with what is known of it: "Met: ≥ 20 heel raises"."""
    return {
        Verdict.MET: tr("Met: {criterion}", criterion=face.words),
        Verdict.NOT_MET: tr("Not met: {criterion}", criterion=face.words),
        Verdict.NOT_TESTED: tr("Not tested: {criterion}", criterion=face.words),
    }[face.verdict]


class StageView(QWidget):
    """All followed stages, then the minutes and the days."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.shown: list[OneStage] = []
        used = theme()
        rows = QVBoxLayout(self)
        rows.setContentsMargins(used.px(16), used.px(12), used.px(16), used.px(12))
        rows.setSpacing(used.px(8))
        self._stages = QVBoxLayout()
        self._stages.setSpacing(used.px(8))
        rows.addLayout(self._stages)
        self.bar = MinutesBar()
        rows.addWidget(self.bar)
        foot = QHBoxLayout()
        self.minutes = label(style=Type.STRONG)
        self.days = label(style=Type.SMALL, soft=True, wrap=True)
        foot.addWidget(self.minutes)
        foot.addStretch(1)
        foot.addWidget(self.days)
        rows.addLayout(foot)

    def show_face(self, face: PlanFace | None) -> None:
        """Show a plan's stages and times; None for no plan."""
        stages = face.stages if face is not None else ()
        if tuple(one.face for one in self.shown) != stages:
            for gone in self.shown:
                self._stages.removeWidget(gone)
                gone.deleteLater()
            self.shown = [OneStage(self._desk, each) for each in stages]
            for one in self.shown:
                self._stages.addWidget(one)
        self.minutes.setText(minutes_words(face) if face is not None else "")
        self.days.setText(face.days if face is not None else "")
        if face is not None:
            self.bar.show_face(face)
