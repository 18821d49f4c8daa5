"""Arrows in a field choose among the rows of a list."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit

from authoring.editor.library_room.rows import RowList

_STEPS = {
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_PageDown: 8,
    Qt.Key.Key_PageUp: -8,
}


class Steering(QObject):
    """Hands Up, Down and the page keys of a field on to a list; Escape clears the field."""

    def __init__(self, field: QLineEdit, rows: RowList) -> None:
        super().__init__(field)
        self._field, self._rows = field, rows
        field.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            step = _STEPS.get(Qt.Key(event.key()))
            if step is not None and self._rows.rows.rowCount():
                self._rows.choose(self._rows.current + step)
                return True
            if event.key() == Qt.Key.Key_Escape and self._field.text():
                self._field.clear()
                return True
        return super().eventFilter(watched, event)
