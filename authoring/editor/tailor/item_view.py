"""One exercise of the plan: how hard it is, its dose, its minutes, and why it is so."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.flow import FlowLayout
from authoring.editor.parts.gauge import RungGauge, rung_words
from authoring.editor.parts.icons import IconView, icon_of_mode, mode_words
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.parts.ticks import Tick
from authoring.editor.tailor.change_form import ChangeForm
from authoring.editor.tailor.faces import ItemFace
from authoring.editor.tailor.reason_lines import ReasonLines
from authoring.editor.theme import Type, theme


class ItemView(QFrame):
    """Signals:
    step_wanted(int): a rung harder (+1) or easier (-1).
    remove_wanted()
    seen_changed(bool): whether it was seen done in the room.
    """

    step_wanted = Signal(int)
    remove_wanted = Signal()
    seen_changed = Signal(bool)

    def __init__(self, face: ItemFace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.face = face
        self.gauge = RungGauge(face.rungs, face.rung, face.was)
        self.name = label(style=Type.HEADING, wrap=True)
        self.minutes = label(soft=True)
        self.dose = label(style=Type.STRONG, wrap=True)
        self.rung = label(soft=True)
        self.reasons = ReasonLines()
        self.form = ChangeForm()
        self.form.hide()
        self._icon = QWidget()
        self._build()
        self.show_face(face)

    def _build(self) -> None:
        used = theme()
        whole = QHBoxLayout(self)
        whole.setContentsMargins(used.px(16), used.px(12), used.px(16), used.px(8))
        whole.setSpacing(used.px(12))
        whole.addWidget(self.gauge)
        rows = QVBoxLayout()
        rows.setSpacing(used.px(4))
        first = QHBoxLayout()
        first.addWidget(self.name, 1)
        first.addWidget(self.minutes, 0, Qt.AlignmentFlag.AlignTop)
        rows.addLayout(first)
        self._second = QHBoxLayout()
        self._second.setSpacing(used.px(8))
        self._second.addWidget(self._icon, 0, Qt.AlignmentFlag.AlignTop)
        self._second.addWidget(self.dose, 1)
        self._second.addWidget(self.rung, 0, Qt.AlignmentFlag.AlignTop)
        rows.addLayout(self._second)
        rows.addWidget(self.reasons)
        rows.addWidget(self.form)
        rows.addLayout(self._buttons())
        whole.addLayout(rows, 1)

    def _buttons(self) -> FlowLayout:
        row = FlowLayout(gap=4)
        self.easier = self._button(tr("Easier"), lambda: self.step_wanted.emit(-1))
        self.harder = self._button(tr("Harder"), lambda: self.step_wanted.emit(1))
        self.change = self._button(tr("Change…"), self.open_form)
        self.remove = self._button(tr("Take out"), self.remove_wanted.emit)
        for button in (self.easier, self.harder, self.change, self.remove):
            row.addWidget(button)
        self.seen = Tick(tr("Seen done"))
        self.seen.clicked.connect(self.seen_changed)
        row.addWidget(self.seen)
        return row

    def _button(self, words: str, run: object) -> QPushButton:
        button = QPushButton(words)
        button.setProperty("quiet", True)
        button.setProperty("small", True)
        button.clicked.connect(lambda _=False: run())  # type: ignore[operator]
        return button

    def show_face(self, face: ItemFace) -> None:
        """Show another state of the exercise."""
        self.face = face
        side = f", {face.side}" if face.side else ""
        title = f"{face.number}  {face.name}{side}"
        self.name.setText(title)
        self.minutes.setText(tr("{n} min", n=face.minutes))
        self.gauge.show_rung(face.rungs, face.rung, face.was)
        self.dose.setText(face.dose)
        words = rung_words(face.rung)
        if face.was is not None:
            words = tr("{before} to {after}", before=rung_words(face.was), after=words)
        self.rung.setText(words)
        icon = IconView(icon_of_mode(face.mode), mode_words(face.mode))
        self._second.replaceWidget(self._icon, icon)
        self._second.setAlignment(icon, Qt.AlignmentFlag.AlignTop)
        self._icon.deleteLater()
        self._icon = icon
        self.reasons.show_lines(
            [
                (each.words, Mark.CARE if each.is_hard else None, each.is_own)
                for each in face.reasons
            ]
        )
        at = sorted(face.rungs).index(face.rung)
        self.easier.setEnabled(at > 0)
        self.harder.setEnabled(at + 1 < len(face.rungs))
        self.seen.setChecked(face.seen)
        for button, what in (
            (self.easier, tr("Easier")),
            (self.harder, tr("Harder")),
            (self.change, tr("Change")),
            (self.remove, tr("Take out")),
            (self.seen, tr("Seen done")),
        ):
            button.setAccessibleName(f"{what}: {title}")
        self.setAccessibleName(
            tr(
                "{title}, {rung}, {dose}, {minutes} minutes",
                title=title,
                rung=words,
                dose=face.dose,
                minutes=face.minutes,
            )
        )
        self.form.show_sign(waits=face.waits)
        if face.waits:
            self.form.show()

    def open_form(self) -> None:
        """Open the fields for another way, dose or exercise, ready for a dose."""
        self.form.setVisible(not self.form.isVisible() or self.face.waits)
        if self.form.isVisible():
            self.form.dose.setFocus()
            self.form.dose.selectAll()
            QTimer.singleShot(0, self._bring_into_view)

    def _bring_into_view(self) -> None:
        """Scroll to the fields, which got their place only now."""
        above = self.parentWidget()
        while above is not None and not isinstance(above, QScrollArea):
            above = above.parentWidget()
        if above is not None:
            margin = theme().px(24)
            above.ensureWidgetVisible(self.form, margin, margin)
