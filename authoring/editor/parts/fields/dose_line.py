"""A dose in one line, as the trade writes it, with the characters that failed marked."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QLineEdit, QWidget

from authoring.dosage.shorthand import ShorthandError, parse_dose, write_dose
from authoring.editor.theme import theme
from authoring.model.dose import Dose


class DoseLine(QLineEdit):
    """The line itself; the stage map puts it straight into a cell.

    Signals:
        dose_typed(Dose or None): what was typed is a dose; None for an empty line.
        failed(ShorthandError)
    """

    dose_typed = Signal(object)
    failed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.problem: ShorthandError | None = None
        self.before: Dose | None = None
        self.setPlaceholderText("3 x 8-12, rest 90 s, 3/wk")
        self.textEdited.connect(self._read)

    def show_dose(self, dose: Dose | None) -> bool:
        """Show a dose; False where the shorthand can't say all of it, and the line stays empty."""
        self.before, self.problem = dose, None
        words = "" if dose is None else write_dose(dose)
        self.setText(words or "")
        if not self.hasFocus():
            self.setCursorPosition(0)  # a long dose is read from its beginning
        self.update()
        return words is not None

    def _read(self, words: str) -> None:
        self.problem = None
        if not words.strip():
            self.dose_typed.emit(None)
            return
        try:
            dose = parse_dose(words, self.before)
        except ShorthandError as error:
            self.problem = error
            self.failed.emit(error)
        else:
            self.dose_typed.emit(dose)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.problem is None:
            return
        metrics, text = self.fontMetrics(), self.text()
        cursor = self.cursorRect()
        begin = cursor.center().x() - metrics.horizontalAdvance(text[: self.cursorPosition()])
        start = begin + metrics.horizontalAdvance(text[: self.problem.start])
        end = begin + metrics.horizontalAdvance(text[: max(self.problem.end, self.problem.start)])
        used = theme()
        painter = QPainter(self)
        painter.setClipRect(self.contentsRect())
        painter.setPen(QPen(used.colour("stop"), used.px(2)))
        y = cursor.bottom() - 1
        least = used.px(8)
        painter.drawLine(QPointF(start, y), QPointF(max(end, start + least), y))
        painter.end()
