"""Angles to type: one row a motion, left and right, with the range that is usual."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QGridLayout, QLineEdit, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.labels import label
from authoring.editor.pose_room.edits import ROWS, keys_of
from authoring.editor.pose_room.words import motion_words, range_words
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import words_of
from authoring.figures.angles import Key
from authoring.figures.limits import beyond
from authoring.model.vocabulary import Side

_SIDES = {"l": Side.LEFT, "r": Side.RIGHT}
_MOST = 180


class AngleLine(QLineEdit):
    """One angle, degrees.

    Signals:
        typed(degrees): another angle was written.
        faulted(sentence): what stands there is no angle; "" once it is.
        ended(): the focus left.
    """

    typed = Signal(float)
    faulted = Signal(str)
    ended = Signal()

    def __init__(self, name: str, usual: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.degrees = 0.0
        self.setAccessibleName(name)
        self.setAccessibleDescription(usual)
        self.setToolTip(usual)
        self.setFixedWidth(theme().px(58))
        self.setAlignment(Qt.AlignmentFlag.AlignTrailing)
        self.textEdited.connect(self._read)

    def show_degrees(self, degrees: float, odd: str) -> None:
        """Show an angle; it is marked where it is beyond the usual."""
        self.degrees = degrees
        if not self.hasFocus():
            self.setText(_written(degrees))
        if bool(self.property("fault")) != bool(odd):
            self.setProperty("fault", bool(odd))
            self.style().unpolish(self)
            self.style().polish(self)

    def _read(self, words: str) -> None:
        try:
            degrees = float(words.replace("−", "-").replace(",", ".").replace("°", "").strip())
        except ValueError:
            self.faulted.emit(tr("Write degrees, such as 45 or −10."))
            return
        if not -_MOST <= degrees <= _MOST:
            self.faulted.emit(tr("An angle lies between −180 and 180 degrees."))
            return
        self.faulted.emit("")
        self.degrees = degrees
        self.typed.emit(degrees)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
            return
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            step *= 5
        self.setText(_written(min(max(round(self.degrees) + step, -_MOST), _MOST)))
        self._read(self.text())

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.setText(_written(self.degrees))
        self.faulted.emit("")
        self.ended.emit()


def _written(degrees: float) -> str:
    return f"{round(degrees, 0):.0f}".replace("-0", "0").replace("-", "−") if degrees else "0"


class AnglesPanel(QWidget):
    """Signals:
    typed(key, degrees), ended()
    """

    typed = Signal(object, float)
    ended = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.lines: dict[Key, AngleLine] = {}
        used = theme()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(used.px(8))
        self.fault = FaultLine()
        layout.addWidget(self.fault)
        grid = QGridLayout()
        grid.setHorizontalSpacing(used.px(8))
        grid.setVerticalSpacing(used.px(4))
        grid.setColumnStretch(0, 1)
        for column, words in ((1, tr("Left")), (2, tr("Right"))):
            grid.addWidget(label(words, Type.SMALL, soft=True), 0, column)
        row = 1
        for joint, motions in ROWS:
            grid.addWidget(label(words_of(joint), Type.STRONG), row, 0, 1, 3)
            row += 1
            for motion in motions:
                self._add_row(grid, row, keys_of(joint, motion))
                row += 1
        layout.addLayout(grid)
        layout.addStretch(1)

    def _add_row(self, grid: QGridLayout, row: int, keys: tuple[Key, ...]) -> None:
        joint, motion, _ = keys[0]
        usual = tr("usual {range}", range=range_words(keys[0]))
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(label(motion_words(motion), Type.SMALL, wrap=True))
        words.addWidget(label(usual, Type.SMALL, soft=True))
        grid.addLayout(words, row, 0)
        for key in keys:
            name = f"{words_of(joint)}, {motion_words(motion)}"
            if key[2]:
                name = f"{name}, {words_of(_SIDES[key[2]]).lower()}"
            line = AngleLine(name, usual)
            line.typed.connect(lambda degrees, key=key: self.typed.emit(key, degrees))
            line.faulted.connect(self.fault.say)
            line.ended.connect(self.ended)
            self.lines[key] = line
            grid.addWidget(line, row, 1 if key[2] != "r" else 2)

    def show_angles(self, angles: Mapping[Key, float]) -> None:
        """Show a moment's angles as contacts and rules have settled them."""
        for key, line in self.lines.items():
            degrees = angles.get(key, 0.0)
            line.show_degrees(degrees, beyond(key, degrees))

    def show_locked(self, locked: bool) -> None:
        """Let angles be typed, or only read."""
        for line in self.lines.values():
            line.setReadOnly(locked)
