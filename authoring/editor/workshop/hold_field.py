"""What a hold stands in for, and how it is held, its few fields in sight."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QFrame, QGridLayout, QWidget

from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.theme import theme
from authoring.editor.workshop.field_set import FieldSet
from authoring.model.card import HoldDetail


class HoldField(ValueField):
    """A :class:`HoldDetail`; where there is none yet, writing in a field makes one."""

    def __init__(self, context: FormContext, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.inner = FieldSet(HoldDetail, context, self)
        self.inner.edited.connect(self._take)
        self.inner.ended.connect(self.ended)
        frame = QFrame()
        frame.setProperty("nested", True)
        grid = QGridLayout(frame)
        gap = theme().px(12)
        grid.setContentsMargins(gap, 0, 0, 0)
        grid.setHorizontalSpacing(gap)
        grid.setVerticalSpacing(theme().px(8))
        grid.addWidget(self.inner.row("stands_in_for"), 0, 0, 1, 2)
        grid.addWidget(self.inner.row("where", words=tr("Where in the range")), 1, 0)
        grid.addWidget(self.inner.row("against", words=tr("Held against")), 1, 1)
        grid.addWidget(self.inner.row("at", words=tr("Angle")), 2, 0, 1, 2)
        self.layout_.addWidget(frame)
        self.setFocusProxy(self.inner.fields["stands_in_for"])

    def show_value(self, value: Any) -> None:
        """Show how it is held, or empty fields."""
        anew = self.value is None
        self.value = value
        self.inner.show_value(value if value is not None else HoldDetail(), anew=anew)

    def name_controls(self, name: str, description: str = "") -> None:
        """The fields carry their own names."""

    def focus_item(self, _index: int | None, path: str) -> None:
        """Go to a field inside."""
        self.inner.focus_path(path.partition(".")[2] or "stands_in_for")

    def _take(self, new: HoldDetail, _name: str, key: str) -> None:
        self.edit_key = f".{key}" if key else None
        self.offer(new)
