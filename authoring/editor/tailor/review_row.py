"""One exercise at a review: figures in a line, the proposed outcome below with its rules."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.fields.choices import PlainChoice
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark
from authoring.editor.parts.ticks import Tick
from authoring.editor.tailor.reason_lines import ReasonLines
from authoring.editor.tailor.report import COLUMNS, OutcomeFace
from authoring.editor.theme import Type, theme
from authoring.model.base import said
from authoring.model.review import ItemReview
from authoring.model.vocabulary import WeightUnit


def column_words() -> Mapping[str, str]:
    """The heads of the table."""
    return {
        "sessions_done": tr("Sessions"),
        "sessions_running": tr("As asked, in a row"),
        "pain_during": tr("Pain during"),
        "pain_after": tr("Pain after"),
        "pain_next_morning": tr("Next morning"),
        "reps_reached": tr("Reps"),
        "seconds_reached": tr("Seconds"),
        "load_reached": tr("Load"),
    }


_A_LINE = 5
"""Answers side by side; ten make two lines."""


class ReviewRow(QWidget):
    """Signals:
    figure_given(column, what was given or None)
    """

    figure_given = Signal(str, object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = name
        self.cells: dict[str, QLineEdit] = {}
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, theme().px(8))
        rows.setSpacing(theme().px(4))
        rows.addWidget(label(name, Type.STRONG, wrap=True))
        grid = QGridLayout()
        grid.setSpacing(theme().px(4))
        for at, (column, words) in enumerate(column_words().items()):
            cell = QLineEdit()
            cell.setAccessibleName(f"{words}: {name}")
            cell.textEdited.connect(lambda typed, column=column: self._read(column, typed))
            self._place(grid, at, words, cell)
            self.cells[column] = cell
        yes_no = ((True, tr("Yes")), (False, tr("No")))
        self.settled = PlainChoice(yes_no, optional=True)
        self.unit = PlainChoice(tuple((one, one.value) for one in WeightUnit))
        for column, words, choice in (
            ("load_unit", tr("Unit"), self.unit),
            ("settled", tr("Settled in time"), self.settled),
        ):
            choice.combo.setAccessibleName(f"{words}: {name}")
            choice.edited.connect(
                lambda value, column=column: self.figure_given.emit(column, value)
            )
            self._place(grid, len(self.cells) + (column == "settled"), words, choice)
        rows.addLayout(grid)
        self.confirm = Tick("")
        self.outcome = label(style=Type.STRONG, wrap=True)
        self.reasons = ReasonLines()
        for part in (self.outcome, self.confirm, self.reasons):
            rows.addWidget(part)
        self.confirm.hide()

    @staticmethod
    def _place(grid: QGridLayout, at: int, words: str, field: QWidget) -> None:
        line, column = divmod(at, _A_LINE)
        head = label(words, Type.SMALL, soft=True, wrap=True)
        grid.addWidget(head, 2 * line, column, Qt.AlignmentFlag.AlignBottom)
        grid.addWidget(field, 2 * line + 1, column)
        grid.setColumnStretch(column, 1)

    def _read(self, column: str, typed: str) -> None:
        cell = self.cells[column]
        words = typed.strip().replace(",", ".")
        most = 10 if column.startswith("pain") else 1000
        try:
            number = float(words) if words else None
        except ValueError:
            number, wrong = None, True
        else:
            wrong = number is not None and not 0 <= number <= most
        if bool(cell.property("fault")) != wrong:
            cell.setProperty("fault", wrong)
            cell.style().unpolish(cell)
            cell.style().polish(cell)
        cell.setAccessibleDescription(tr("A number from 0 to {most}.", most=most) if wrong else "")
        whole = not column.startswith(("pain", "load"))
        if not wrong:
            self.figure_given.emit(column, int(number) if whole and number is not None else number)

    def show_figures(self, found: ItemReview) -> None:
        """Show what is reported; a cell being typed in stays as it is."""
        for column in COLUMNS:
            value = getattr(found, column)
            if not self.cells[column].hasFocus():
                self.cells[column].setText("" if value is None else said(value))
        self.settled.show_value(found.settled)
        self.unit.show_value(found.load_unit)

    def show_outcome(self, face: OutcomeFace, *, confirmed: bool) -> None:
        """Show what is proposed; a step up has a tick to confirm it."""
        words = tr("Proposed: {outcome}", outcome=face.what)
        self.outcome.setText(f"{words}, {face.dose}" if face.dose else words)
        self.confirm.setVisible(face.waits)
        self.confirm.setText(tr("Confirm the step up"))
        self.confirm.setAccessibleName(tr("Confirm the step up: {name}", name=self.name))
        self.confirm.setChecked(face.waits and confirmed)
        self.reasons.show_lines([(line, Mark.NOTE, False) for line in face.reasons])
