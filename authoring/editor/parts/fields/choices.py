"""Fields that choose from a closed list, or say yes or no."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox, QGridLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.ticks import Tick
from authoring.editor.theme import theme
from authoring.editor.vocabulary_words import words_of


class QuietCombo(QComboBox):
    """A list box that the wheel scrolls past instead of changing."""

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        used = theme()
        inset, half = used.px(16), used.px(4)
        turned = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        x = inset if turned else self.width() - inset
        y = self.height() / 2
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(used.colour("ink" if self.isEnabled() else "soft"), used.px(2)))
        ends = ((x - half, y - half / 2), (x, y + half / 2), (x + half, y - half / 2))
        painter.drawPolyline([QPointF(*end) for end in ends])
        painter.end()

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class PlainChoice(ValueField):
    """One of a few values, each with its words."""

    def __init__(
        self,
        choices: Sequence[tuple[Any, str]],
        *,
        optional: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.edit_key = None
        self.combo = QuietCombo()
        self.combo.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._values: list[Any] = []
        if optional:
            self._add(None, tr("Not given"))
        for value, words in choices:
            self._add(value, words)
        self.holds(self.combo)
        self.combo.activated.connect(lambda index: self.offer(self._values[index]))

    def _add(self, value: Any, words: str) -> None:
        self._values.append(value)
        self.combo.addItem(words)

    def show_value(self, value: Any) -> None:
        """Show a value; one that is not among the choices is added as it stands."""
        self.value = value
        if value not in self._values:
            self._add(value, str(value))
        self.combo.setCurrentIndex(self._values.index(value))
        self._say("")


class ChoiceField(PlainChoice):
    """A member of a closed list."""

    def __init__(
        self, kind: type[enum.Enum], *, optional: bool = False, parent: QWidget | None = None
    ) -> None:
        choices = [(member, words_of(member)) for member in kind]
        super().__init__(choices, optional=optional, parent=parent)


class YesNoField(ValueField):
    """A tick; where it may be left open, a list of yes, no and not given."""

    def __init__(self, words: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit_key = None
        self.box = Tick(words)
        self.holds(self.box)
        self.box.clicked.connect(self.offer)

    def show_value(self, value: Any) -> None:
        """Show a bool."""
        self.value = bool(value)
        self.box.setChecked(self.value)


def maybe_field(parent: QWidget | None = None) -> PlainChoice:
    """Yes, no, or not given."""
    return PlainChoice([(True, tr("Yes")), (False, tr("No"))], optional=True, parent=parent)


class SeveralField(ValueField):
    """Any number of members of a closed list, as ticks; the value is a tuple in list order."""

    COLUMNS = 3

    def __init__(self, kind: type[enum.Enum], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit_key = None
        self._boxes: dict[enum.Enum, Tick] = {}
        grid = QGridLayout()
        grid.setHorizontalSpacing(theme().px(16))
        grid.setVerticalSpacing(theme().px(4))
        for index, member in enumerate(kind):
            box = Tick(words_of(member))
            box.clicked.connect(self._read)
            grid.addWidget(box, index // self.COLUMNS, index % self.COLUMNS)
            self._boxes[member] = box
        self.layout_.addLayout(grid)
        self.setFocusProxy(next(iter(self._boxes.values())))

    def show_value(self, value: Any) -> None:
        """Show a tuple of members."""
        self.value = tuple(value)
        for member, box in self._boxes.items():
            box.setChecked(member in self.value)

    def name_controls(self, name: str, description: str = "") -> None:
        """Name every tick with the field's name before its own."""
        for box in self._boxes.values():
            box.setAccessibleName(f"{name}: {box.text()}")
            box.setAccessibleDescription(description)

    def _read(self) -> None:
        ticked = {member for member, box in self._boxes.items() if box.isChecked()}
        kept = [member for member in self.value if member in ticked]
        new = [member for member in self._boxes if member in ticked and member not in kept]
        self.offer((*kept, *new))
