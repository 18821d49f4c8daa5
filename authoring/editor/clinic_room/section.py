"""What every section of the clinic room has in common."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.marks import mark_of_strength
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.sentences import said
from authoring.editor.theme import theme
from authoring.model.clinic import Clinic


class Section(QWidget):
    """Edits some fields of the clinic.

    Signals:
        edited(changes, name, merge_key): new values by field of the clinic, what the Edit
            menu calls the edit, and "" or a key for typing.
        ended(): the user left a field.
    """

    edited = Signal(object, str, str)
    ended = Signal()

    fields: tuple[str, ...] = ()
    """Fields of the clinic that are edited here."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: dict[str, FieldRow] = {}
        self.column = QVBoxLayout(self)
        gap = theme().px(16)
        self.column.setContentsMargins(gap, gap, gap, gap)
        self.column.setSpacing(theme().px(12))

    def show_clinic(self, clinic: Clinic) -> None:
        """Show the clinic as it is."""
        raise NotImplementedError

    def show_checks(self, results: Iterable[CheckResult]) -> None:
        """Put each result under the field that it is about."""
        first: dict[str, CheckResult] = {}
        for result in results:
            first.setdefault(result.path, result)
        for path, row in self.rows.items():
            control = row.control
            fault = control.fault if isinstance(control, ValueField) else ""
            found = first.get(path)
            if fault:
                row.say(fault)
            elif found is not None:
                row.say(said(found.sentence), mark_of_strength(found.strength))
            else:
                row.say("")

    def focus_path(self, path: str) -> None:
        """Put the focus on the field of a path, else on the first."""
        row = self.rows.get(path) or next(iter(self.rows.values()), None)
        if row is not None:
            row.control.setFocus()

    def add_row(self, path: str, name: str, field: ValueField, help_text: str = "") -> FieldRow:
        """Put a field under its name."""
        row = FieldRow(name, field, help_text, show_help=True)
        field.faulted.connect(row.say)
        field.ended.connect(self.ended)
        self.rows[path] = row
        self.column.addWidget(row)
        return row

    def give(self, field: ValueField, words: str, key: str, **changes: Any) -> None:
        """Send an edit that a field made.

        Args:
            words: the field's label, for the Edit menu.
            key: the field's own key for typing.
            changes: new values by field of the clinic.
        """
        name = getattr(field, "edit_name", "") or tr("Edit “{field}”", field=words)
        merge = "" if field.edit_key is None else f"clinic/{key}/{field.edit_key}"
        self.edited.emit(changes, name, merge)


class FormSection(Section):
    """A section that is a plain form over some fields of the clinic."""

    def __init__(self, form: NodeForm, fields: tuple[str, ...]) -> None:
        super().__init__()
        self.fields = fields
        self.form = form
        form.edited.connect(self._take)
        form.ended.connect(self.ended)
        self.column.addWidget(form, 1)

    def show_clinic(self, clinic: Clinic) -> None:
        self.form.show_value(clinic)

    def show_checks(self, results: Iterable[CheckResult]) -> None:
        self.form.show_checks(results)

    def focus_path(self, path: str) -> None:
        self.form.focus_path(path)

    def _take(self, clinic: Clinic, name: str, key: str) -> None:
        changes = {field: getattr(clinic, field) for field in self.fields}
        self.edited.emit(changes, name, f"clinic/{key}" if key else "")
