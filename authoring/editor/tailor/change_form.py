"""Fields inside an exercise for another way, another dose or another exercise, and a reason."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QPushButton, QWidget

from authoring.dosage.shorthand import ShorthandError
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.fields.choices import QuietCombo
from authoring.editor.parts.fields.dose_line import DoseLine
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.theme import Type, theme
from authoring.model.dose import Dose


class ChangeForm(QWidget):
    """Signals:
    way_chosen(variant id), exercise_chosen((card id, variant id)), dose_chosen(Dose)
    reason_given(words): the reason for what was asked just before.
    signed(name): a second clinician signs.
    """

    way_chosen = Signal(str)
    exercise_chosen = Signal(object)
    dose_chosen = Signal(object)
    reason_given = Signal(str)
    signed = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._typed: Dose | None = None
        self.way, self.other, self.dose = QuietCombo(), QuietCombo(), DoseLine()
        for combo in (self.way, self.other):
            combo.setSizeAdjustPolicy(
                QuietCombo.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )
            combo.setMinimumContentsLength(12)
        self.fault = FaultLine()
        self.why, self.sign = QLineEdit(), QLineEdit()
        self.decide, self.put_sign = QPushButton(tr("Decide")), QPushButton(tr("Sign"))
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, theme().px(4), 0, theme().px(4))
        self._grid.setColumnStretch(1, 1)
        self._row(0, tr("Dose"), self.dose)
        self._row(1, tr("Way"), self.way)
        self._row(2, tr("Exercise"), self.other)
        self._grid.addWidget(self.fault, 3, 0, 1, 3)
        self._why_label = self._row(4, tr("Reason"), self.why, self.decide)
        self._sign_label = self._row(5, tr("Second sign"), self.sign, self.put_sign)
        self._connect()
        self.ask_why("")
        self.show_sign(waits=False)

    def _row(self, at: int, name: str, field: QWidget, button: QWidget | None = None) -> QWidget:
        words = label(name, Type.SMALL, soft=True, buddy=field)
        self._grid.addWidget(words, at, 0)
        self._grid.addWidget(field, at, 1)
        if button is not None:
            self._grid.addWidget(button, at, 2)
        return words

    def _connect(self) -> None:
        self.way.activated.connect(lambda index: self.way_chosen.emit(self.way.itemData(index)))
        self.other.activated.connect(self._other)
        self.dose.dose_typed.connect(self._type)
        self.dose.failed.connect(self._fail)
        self.dose.returnPressed.connect(self._send_dose)
        self.why.returnPressed.connect(self._send_why)
        self.decide.clicked.connect(self._send_why)
        self.sign.returnPressed.connect(self._send_sign)
        self.put_sign.clicked.connect(self._send_sign)

    # ---- showing ------------------------------------------------------------------

    def show_choices(
        self,
        ways: Sequence[tuple[str, str]],
        way: str,
        others: Sequence[tuple[str, str, str]],
        dose: Dose | None,
    ) -> None:
        """Show what there is to choose from, and what is chosen."""
        self.way.clear()
        for variant, words in ways:
            self.way.addItem(words, variant)
        self.way.setCurrentIndex(self.way.findData(way))
        self.other.clear()
        self.other.addItem(tr("Another exercise…"), None)
        for card, variant, words in others:
            self.other.addItem(words, (card, variant))
        if not self.dose.hasFocus():
            self.dose.show_dose(dose)
        self._typed = None

    def ask_why(self, sentence: str) -> None:
        """Say what stands against a decision and ask for a reason; "" for nothing."""
        self.fault.say(sentence, Mark.STOP)
        for part in (self._why_label, self.why, self.decide):
            part.setVisible(bool(sentence))
        if sentence:
            self.show()
            self.why.setAccessibleDescription(sentence)
            self.why.setFocus()

    def show_sign(self, *, waits: bool) -> None:
        """Ask for a second clinician's sign, or not."""
        for part in (self._sign_label, self.sign, self.put_sign):
            part.setVisible(waits)

    # ---- what a person does ---------------------------------------------------------

    def _type(self, dose: Dose | None) -> None:
        self._typed = dose
        self.fault.say("")

    def _fail(self, error: ShorthandError) -> None:
        self._typed = None
        self.fault.say(str(error), Mark.MUST)

    def _send_dose(self) -> None:
        if self._typed is not None:
            self.dose_chosen.emit(self._typed)

    def _other(self, index: int) -> None:
        chosen = self.other.itemData(index)
        if chosen is not None:
            self.exercise_chosen.emit(tuple(chosen))

    def _send_why(self) -> None:
        if self.why.text().strip():
            self.reason_given.emit(self.why.text().strip())

    def _send_sign(self) -> None:
        if self.sign.text().strip():
            self.signed.emit(self.sign.text().strip())
