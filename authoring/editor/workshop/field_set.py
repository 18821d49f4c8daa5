"""Fields of one noun, for a panel that lays them out itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QLineEdit, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.edit_words import refusal
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.list_field import ListField
from authoring.editor.parts.fields.making import make_field
from authoring.editor.parts.fields.node_field import NodeField, NodesField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.marks import Mark, mark_of_strength
from authoring.editor.place import is_within, steps
from authoring.editor.sentences import said
from authoring.editor.shapes import shapes_of
from authoring.editor.vocabulary_words import field_words
from authoring.model.base import ModelError, Node, evolve


class FieldSet(QObject):
    """Makes the fields of a noun and keeps them on its present value.

    Signals:
        edited(noun, name, merge_key): the user made another value.
        ended(): the user left a field.
    """

    edited = Signal(object, str, str)
    ended = Signal()

    def __init__(
        self, cls: type[Node], context: FormContext, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._cls, self._context = cls, context
        self._shapes = {shape.name: shape for shape in shapes_of(cls)}
        self._value: Node | None = None
        self.rows: dict[str, FieldRow] = {}
        self.fields: dict[str, ValueField] = {}
        self._checks: dict[str, CheckResult] = {}
        self._crossed = ""

    def row(self, name: str, field: ValueField | None = None, words: str = "") -> FieldRow:
        """A row for a field, to be laid out by the caller.

        Args:
            field: its control; None for the one that fits the field's kind of value.
            words: its label; "" for the usual one.
        """
        shape = self._shapes[name]
        said = words or field_words(self._cls, name)
        made = field or make_field(shape, said, self._context, self._draft)
        row = FieldRow(said, made, tr(shape.known.doc))
        made.edited.connect(lambda value: self._take(name, value))
        made.ended.connect(self.ended)
        made.faulted.connect(lambda _said: self._say(name))
        self.rows[name], self.fields[name] = row, made
        if self._value is not None:
            self._show(made, getattr(self._value, name), anew=True)
            self._say(name)
        return row

    def _draft(self) -> dict[str, Any]:
        value = self._value
        return {} if value is None else {n: getattr(value, n) for n in self._shapes}

    # ---- values ---------------------------------------------------------------

    def show_value(self, value: Node, *, anew: bool = False) -> None:
        """Show a noun.

        Args:
            anew: it is another one, not the same one edited: nothing typed stays.
        """
        before, self._value = self._value, value
        for name, field in self.fields.items():
            new = getattr(value, name)
            if (
                not anew
                and before is not None
                and new is getattr(before, name)
                and new is field.value
            ):
                continue
            if anew or new != field.value:
                self._show(field, new, anew=anew)
        self._cross("", "")

    @staticmethod
    def _show(field: ValueField, new: Any, *, anew: bool) -> None:
        if anew:
            for inner in _closable(field):
                inner.close_form()
                inner.refuse("")
            field.refuse("")
            field.value = None
        field.show_value(new)
        if anew:
            # A long line is read from its beginning.
            for line in field.findChildren(QLineEdit):
                line.setCursorPosition(0)

    def _take(self, name: str, value: Any) -> None:
        if self._value is None:
            return
        try:
            new = evolve(self._value, **{name: value})
        except ModelError as error:
            self._cross(error.field if error.field in self.rows else name, refusal(error))
            return
        self._cross("", "")
        self._value = new
        key = self.fields[name].edit_key
        words = tr("Edit “{field}”", field=self.rows[name].name)
        self.edited.emit(new, words, "" if key is None else f"{name}{key}")

    # ---- faults and checks --------------------------------------------------------

    def _cross(self, name: str, sentence: str) -> None:
        last, self._crossed = self._crossed, name
        if last and last != name and last in self.rows:
            self._say(last)
        if name:
            self.rows[name].say(sentence)

    def _say(self, name: str) -> None:
        row, field, check = self.rows[name], self.fields[name], self._checks.get(name)
        if field.fault:
            row.say(field.fault)
        elif check is not None:
            row.say(said(check.sentence), mark_of_strength(check.strength))
        else:
            row.say("", Mark.MUST)

    def show_checks(self, results: Iterable[CheckResult], path: str) -> None:
        """Put each result under the field that it is about.

        Args:
            path: place of the noun in its file.
        """
        inside = [result for result in results if is_within(result.path, path)]
        depth = len(steps(path))
        self._checks = {}
        for result in inside:
            rest = steps(result.path)[depth:]
            if rest and isinstance(rest[0], str):
                self._checks.setdefault(rest[0], result)
        for name, field in self.fields.items():
            if name != self._crossed:
                self._say(name)
            for inner, form_path in _open_forms(field, f"{path}.{name}"):
                inner.show_checks(inside, form_path)

    # ---- texts and focus ------------------------------------------------------------

    def texts(self) -> Iterator[tuple[str, TextField]]:
        """Every field of text in sight, with its place in the noun."""
        for name, field in self.fields.items():
            if isinstance(field, TextField):
                yield name, field
            elif isinstance(field, ListField):
                for index, one in enumerate(field.fields):
                    if isinstance(one, TextField):
                        yield f"{name}[{index}]", one

    def focus_path(self, path: str) -> bool:
        """Put the focus where a path inside the noun leads; False where no field is there."""
        way = steps(path)
        field = self.fields.get(str(way[0])) if way else None
        if field is None:
            return False
        target: QWidget = field
        index = way[1] if len(way) > 1 and isinstance(way[1], int) else None
        if isinstance(field, ListField) and index is not None and index < len(field.fields):
            target = field.fields[index]
        elif isinstance(field, NodesField) and index is not None and index < len(field.rows):
            field.rows[index].open_form()
            form = field.rows[index].form
            if form is not None and len(way) > 2:
                form.focus_path(str(way[2]))
                return True
        elif isinstance(field, NodeField) and field.value is not None and len(way) > 1:
            field.row.open_form()
            if field.row.form is not None:
                field.row.form.focus_path(path.partition(".")[2])
                return True
        elif hasattr(field, "focus_item"):
            field.focus_item(index, path)
            return True
        target.setFocus(Qt.FocusReason.OtherFocusReason)
        return True


def _closable(field: ValueField) -> list[Any]:
    if isinstance(field, NodesField):
        return list(field.rows)
    return [field.row] if isinstance(field, NodeField) else []


def _open_forms(field: ValueField, path: str) -> Iterator[tuple[Any, str]]:
    if isinstance(field, NodesField):
        for index, row in enumerate(field.rows):
            if row.form is not None:
                yield row.form, f"{path}[{index}]"
    elif isinstance(field, NodeField) and field.row.form is not None:
        yield field.row.form, path
