"""A list of plain values, each in a field of its own: steps, cues, repetitions."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.text_field import GrowingEdit
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme


class _Row(QWidget):
    """A number, the field, and buttons to move and remove."""

    def __init__(self, field: ValueField) -> None:
        super().__init__()
        self.field = field
        self.target = field.focusProxy() or field
        self.number = label(style=Type.STRONG)
        self.number.setFixedWidth(theme().px(20))
        self.up, self.down, self.remove = QPushButton("↑"), QPushButton("↓"), QPushButton("×")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(4))
        layout.addWidget(self.number, 0, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(field, 1)
        for button in (self.up, self.down, self.remove):
            button.setProperty("quiet", True)
            button.setProperty("small", True)
            button.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
            layout.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)


class ListField(ValueField):
    """Add with Enter, remove with Backspace in an empty line, move with Alt+Up and Alt+Down."""

    def __init__(
        self,
        make_field: Callable[[], ValueField],
        blank: Callable[[], Any],
        *,
        most: int | None = None,
        parent: QWidget | None = None,
    ) -> None:
        """Args:
        make_field: a field for one item.
        blank: a new item.
        most: most items.
        """
        super().__init__(parent)
        self._make, self._blank, self._most = make_field, blank, most
        self._rows: list[_Row] = []
        self._name, self._description = "", ""
        self._box = QVBoxLayout()
        self._box.setSpacing(theme().px(4))
        self.layout_.addLayout(self._box)
        self.add_button = QPushButton(tr("Add"))
        self.add_button.setProperty("quiet", True)
        self.add_button.setProperty("small", True)
        self.add_button.clicked.connect(lambda: self._insert(len(self._rows)))
        self.layout_.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeading)
        self.value = ()
        self.setFocusProxy(self.add_button)

    @property
    def fields(self) -> list[ValueField]:
        """The fields of the items, in order."""
        return [row.field for row in self._rows]

    def show_value(self, value: Any) -> None:
        """Show a tuple of items."""
        self.value = tuple(value or ())
        while len(self._rows) > len(self.value):
            gone = self._rows.pop()
            gone.hide()
            gone.deleteLater()
        while len(self._rows) < len(self.value):
            self._new_row()
        for row, item in zip(self._rows, self.value, strict=True):
            row.field.show_value(item)
        self._after_change()

    def name_controls(self, name: str, description: str = "") -> None:
        """Name each item by its number."""
        self._name, self._description = name, description
        self.add_button.setAccessibleName(tr("{field}: add", field=name))
        self._after_change()

    def _new_row(self) -> _Row:
        row = _Row(self._make())
        field = row.field
        field.edited.connect(lambda item, row=row: self._change(row, item))
        field.ended.connect(self.ended)
        field.faulted.connect(lambda _sentence: self._gather_faults())
        row.target.installEventFilter(self)
        row.up.clicked.connect(lambda: self._move(row, -1))
        row.down.clicked.connect(lambda: self._move(row, 1))
        row.remove.clicked.connect(lambda: self._remove(row))
        self._rows.append(row)
        self._box.addWidget(row)
        return row

    def _after_change(self) -> None:
        for index, row in enumerate(self._rows):
            number = index + 1
            row.number.setText(str(number))
            row.field.name_controls(f"{self._name} {number}", self._description)
            row.up.setEnabled(index > 0)
            row.down.setEnabled(index < len(self._rows) - 1)
            row.up.setAccessibleName(tr("{field} {n}: move up", field=self._name, n=number))
            row.down.setAccessibleName(tr("{field} {n}: move down", field=self._name, n=number))
            row.remove.setAccessibleName(tr("{field} {n}: remove", field=self._name, n=number))
        full = self._most is not None and len(self._rows) >= self._most
        self.add_button.setEnabled(not full)
        self._gather_faults()

    def _gather_faults(self) -> None:
        self._say(next((field.fault for field in self.fields if field.fault), ""))

    def _change(self, row: _Row, item: Any) -> None:
        index = self._rows.index(row)
        inner = row.field.edit_key
        self.edit_key = None if inner is None else f"[{index}]{inner}"
        self.offer((*self.value[:index], item, *self.value[index + 1 :]))

    def _take(self, items: tuple[Any, ...], focus: int) -> None:
        self.edit_key = None
        self.offer(items)
        self.show_value(items)
        if 0 <= focus < len(self._rows):
            self._rows[focus].field.setFocus()
        else:
            self.add_button.setFocus()

    def _insert(self, index: int) -> None:
        if self.add_button.isEnabled():
            self._take((*self.value[:index], self._blank(), *self.value[index:]), index)

    def _remove(self, row: _Row) -> None:
        index = self._rows.index(row)
        rest = (*self.value[:index], *self.value[index + 1 :])
        self._take(rest, min(index, len(rest) - 1))

    def _move(self, row: _Row, by: int) -> None:
        index = self._rows.index(row)
        goal = index + by
        if not 0 <= goal < len(self._rows):
            return
        items = list(self.value)
        items[index], items[goal] = items[goal], items[index]
        self._take(tuple(items), goal)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            row = next((r for r in self._rows if r.target is watched), None)
            if row is not None and self._key(row, event):
                return True
        return super().eventFilter(watched, event)

    def _key(self, row: _Row, event: QKeyEvent) -> bool:
        alt = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._insert(self._rows.index(row) + 1)
            return True
        if alt and event.key() in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self._move(row, -1 if event.key() == Qt.Key.Key_Up else 1)
            return True
        if event.key() == Qt.Key.Key_Backspace and _is_empty(row.field):
            self._remove(row)
            return True
        return False


def _is_empty(field: ValueField) -> bool:
    control = field.focusProxy()
    if isinstance(control, QLineEdit):
        return not control.text()
    return isinstance(control, GrowingEdit) and not control.toPlainText()
