"""Fields of one typed line: text, numbers, ranges, days."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QSizePolicy, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.fields import reading
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.labels import label
from authoring.editor.sentences import said
from authoring.editor.theme import Type, theme
from authoring.model.base import Fact, fault
from authoring.model.load import IntRange, NumberRange


class Line(QLineEdit):
    """A line whose Up and Down keys may step a number."""

    def __init__(self, step: Callable[[int], None] | None = None) -> None:
        super().__init__()
        self._step = step

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Up: 1, Qt.Key.Key_Down: -1}
        step = steps.get(Qt.Key(event.key()))
        plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.KeypadModifier,
        )
        if self._step is not None and step is not None and plain:
            self._step(step)
        else:
            super().keyPressEvent(event)


class ReadField(ValueField):
    """A line that is read anew at every keystroke."""

    def __init__(
        self,
        *,
        optional: bool = False,
        unit: str = "",
        example: str = "",
        parent: QWidget | None = None,
    ) -> None:
        """Args:
        optional: whether an empty line means "not given".
        unit: shown behind the line.
        example: shown in an empty line.
        """
        super().__init__(parent)
        self._optional = optional
        self.line = Line(self.step)
        self.line.setPlaceholderText(example)
        row = QWidget()
        self.row_ = layout = QHBoxLayout(row)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(8))
        self.layout_.addWidget(row)
        layout.addWidget(self.line)
        if unit:
            layout.addWidget(label(unit, Type.SMALL, soft=True))
        self.setFocusProxy(self.line)
        self.line.installEventFilter(self)
        self.line.textEdited.connect(self._read)

    def read(self, words: str) -> Any:
        """The value that was typed; raises :class:`reading.Unreadable`."""
        raise NotImplementedError

    def write(self, value: Any) -> str:
        """A value as it is typed."""
        raise NotImplementedError

    def step(self, by: int) -> None:
        """What the Up and Down keys do; nothing unless the field is a number."""

    def show_value(self, value: Any) -> None:
        """Show a value; what is being typed for the same value stays as it is."""
        if value == self.value and self.line.hasFocus() and not self.fault:
            return
        self.value = value
        self.line.setText("" if value is None else self.write(value))
        self._say("")

    def _read(self, words: str) -> None:
        if not words.strip() and self._optional:
            self.offer(None)
            return
        try:
            value = self.read(words)
        except reading.Unreadable as unreadable:
            self.refuse(str(unreadable))
            return
        self.offer(value)


class LineField(ReadField):
    """A plain string within the limits of its field."""

    def __init__(
        self, known: Fact, *, optional: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(optional=optional, parent=parent)
        self._known = known

    def read(self, words: str) -> str:
        wrong = fault(self._known, words)
        if wrong:
            raise reading.Unreadable(tr("This {wrong}.", wrong=said(wrong)))
        return words

    def write(self, value: Any) -> str:
        return str(value)

    def _read(self, words: str) -> None:
        if not words and not self._optional and not self._known.fewest:
            wrong = fault(self._known, "")
            if not wrong:
                self.offer("")
                return
        super()._read(words)


class NumberField(ReadField):
    """A number within the limits of its field; Up and Down step it by one."""

    def __init__(
        self,
        known: Fact,
        *,
        whole: bool = False,
        optional: bool = False,
        unit: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(optional=optional, unit=unit, parent=parent)
        self._known, self._whole = known, whole
        self.line.setMaximumWidth(theme().px(140))
        self.line.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.row_.addStretch(1)

    def read(self, words: str) -> float:
        return reading.read_number(words, self._known, whole=self._whole)

    def write(self, value: Any) -> str:
        return reading.signed(value)

    def step(self, by: int) -> None:
        low = 0 if self._known.low is None else self._known.low
        value = low if self.value is None else self.value + by
        if self._known.low is not None:
            value = max(value, self._known.low)
        if self._known.high is not None:
            value = min(value, self._known.high)
        value = int(value) if self._whole else value
        self.line.setText(self.write(value))
        self.offer(value)


class WholeField(NumberField):
    """A whole number."""

    def __init__(
        self, known: Fact, *, optional: bool = False, unit: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(known, whole=True, optional=optional, unit=unit, parent=parent)


class IntRangeField(ReadField):
    """A whole number or a range of them, in one line: "8–12"."""

    def __init__(
        self, *, optional: bool = False, unit: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(optional=optional, unit=unit, example="8–12", parent=parent)

    def read(self, words: str) -> IntRange:
        return reading.read_int_range(words)

    def write(self, value: Any) -> str:
        return reading.write_range(value)


class NumberRangeField(ReadField):
    """A number or a range of numbers, in one line: "2.5–5"."""

    def __init__(
        self, *, optional: bool = False, unit: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(optional=optional, unit=unit, example="2.5–5", parent=parent)

    def read(self, words: str) -> NumberRange:
        return reading.read_number_range(words)

    def write(self, value: Any) -> str:
        return reading.write_range(value)


class DateField(ReadField):
    """A day; Up and Down go to the next day and the day before."""

    def __init__(self, *, optional: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(optional=optional, example=tr("year-month-day"), parent=parent)
        self.line.setMaximumWidth(theme().px(180))

    def read(self, words: str) -> dt.date:
        return reading.read_day(words)

    def write(self, value: Any) -> str:
        return str(value)

    def step(self, by: int) -> None:
        if isinstance(self.value, dt.date):
            day = self.value + dt.timedelta(days=by)
            self.line.setText(str(day))
            self.offer(day)
