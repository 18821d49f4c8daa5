"""A form for any noun, made from what its class knows about its fields.

Limits, help and closed lists come from the model's own facts, so that every field of
every noun can be edited. Fields that are not given are gathered behind one button. A long
form is built piece by piece, its first fields at once: the window answers meanwhile.
"""

from __future__ import annotations

import time
from collections.abc import Collection, Iterable
from typing import Any

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.edit_words import refusal
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr, tr_n
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.choices import YesNoField
from authoring.editor.parts.fields.list_field import ListField
from authoring.editor.parts.fields.making import make_field
from authoring.editor.parts.fields.node_field import NodeField, NodeRow, NodesField
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark, mark_of_strength
from authoring.editor.place import is_within, steps
from authoring.editor.sentences import said
from authoring.editor.shapes import FieldShape, shapes_of
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import field_words
from authoring.model.base import ModelError, Node, evolve

_FEW_ENOUGH = 4
"""So many fields that are not given are shown; more are gathered behind a button."""

_FOR_MACHINES = ("id", "slug")
"""They come last: a form has one ready, and people seldom change it."""

_AT_ONCE = 8
"""So many lines are built at once: one for each field and for each noun in it."""

_PIECE_S = 0.01
"""The rest is built for so long at a time."""


class NodeForm(QWidget):
    """Edits one noun. The form keeps nothing: its owner puts each new value into the document.

    Signals:
        edited(node, name, merge_key): a new value; ``name`` for the Edit menu ("Edit
            start"), ``merge_key`` for typing, "" for a step of its own.
        ended(): the user left a field.
    """

    edited = Signal(object, str, str)
    ended = Signal()

    def __init__(
        self,
        cls: type[Node],
        value: Node,
        context: FormContext,
        *,
        only: Collection[str] = (),
        skip: Collection[str] = (),
        parent: QWidget | None = None,
    ) -> None:
        """Args:
        only: names of the fields to show, in this order; none means all.
        skip: names of fields that are edited elsewhere.
        """
        super().__init__(parent)
        self.cls = cls
        self._context = context
        self._value = value
        self._draft = {shape.name: getattr(value, shape.name) for shape in shapes_of(cls)}
        self._rows: dict[str, FieldRow] = {}
        self._fields: dict[str, ValueField] = {}
        self._crossed = ""
        self._checks: dict[str, CheckResult] = {}
        self._waiting: list[FieldShape] = []
        self._soon = QTimer(self, singleShot=True, interval=0)
        self._soon.timeout.connect(self._build_some)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(theme().px(12))
        self._fill(_chosen(cls, only, skip), everything=bool(only))

    @property
    def value(self) -> Node:
        """The noun as the form shows it, without what makes no value yet."""
        return self._value

    # ---- building -------------------------------------------------------------

    def _fill(self, shapes: list[FieldShape], *, everything: bool) -> None:
        later = [] if everything else [s for s in shapes if self._is_bare(s)]
        if len(later) <= _FEW_ENOUGH:
            later = []
        self._waiting = [shape for shape in shapes if shape not in later]
        lines = 0
        while self._waiting and lines < _AT_ONCE:
            lines += self._lines(self._waiting[0])
            self._add_row(self._waiting.pop(0))
        self._later = later
        if self._waiting:
            self._soon.start()
        else:
            self._end_form()

    def _end_form(self) -> None:
        """What stands below all fields; made last, since Tab goes by what was made first."""
        if self._value.extra:
            names = ", ".join(sorted(self._value.extra))
            words = tr("Kept, though this version does not know them: {names}", names=names)
            self._layout.addWidget(label(words, Type.SMALL, soft=True, wrap=True))
        words = tr_n("{n} more field", "{n} more fields", len(self._later))
        self._more = QPushButton(words, self)
        self._more.setProperty("quiet", True)
        self._more.setProperty("small", True)
        self._more.clicked.connect(self._show_later)
        self._more.setVisible(bool(self._later))
        self._layout.addWidget(self._more, 0, Qt.AlignmentFlag.AlignLeading)
        self._layout.addStretch(1)

    def _lines(self, shape: FieldShape) -> int:
        value = self._draft[shape.name]
        return 1 + (len(value) if isinstance(value, tuple) else 0)

    def _build_some(self, budget_s: float = _PIECE_S) -> None:
        end = time.perf_counter() + budget_s
        while self._waiting:
            shape = self._waiting.pop(0)
            self._add_row(shape)
            self._say(shape.name)
            if time.perf_counter() > end:
                break
        if self._waiting:
            self._soon.start()
        else:
            self._end_form()

    def build_all(self) -> None:
        """Build at once what is still waiting to be built."""
        if self._waiting:
            self._build_some(float("inf"))

    def _is_bare(self, shape: FieldShape) -> bool:
        return not shape.required and self._draft[shape.name] in (None, (), "")

    def _show_later(self) -> None:
        first = self._later[0].name if self._later else ""
        self._add_later()
        if first:
            self._fields[first].setFocus()

    def _add_later(self) -> None:
        self.build_all()
        self._more.hide()
        later, self._later = self._later, []
        for shape in later:
            self._add_row(shape)

    def _add_row(self, shape: FieldShape) -> None:
        words = field_words(self.cls, shape.name)
        field = make_field(shape, words, self._context, lambda: self._draft)
        row = FieldRow(words, field, tr(shape.known.doc), show_help=True)
        row.label.setVisible(not isinstance(field, YesNoField))  # its tick carries its name
        field.show_value(self._draft[shape.name])
        field.edited.connect(lambda value, name=shape.name: self._take(name, value))
        field.faulted.connect(lambda _said, name=shape.name: self._say(name))
        field.ended.connect(self.ended)
        self._rows[shape.name], self._fields[shape.name] = row, field
        self._layout.insertWidget(len(self._rows) - 1, row)

    def _reach(self, name: str) -> None:
        """Build what stands between here and a field."""
        if any(shape.name == name for shape in self._waiting):
            self.build_all()
        if any(shape.name == name for shape in self._later):
            self._add_later()

    # ---- values ---------------------------------------------------------------

    def show_value(self, value: Node) -> None:
        """Show another value of the same class; what is typed in unchanged fields stays."""
        if value is self._value:
            return
        before, self._value = self._value, value
        for shape in shapes_of(self.cls):
            new = getattr(value, shape.name)
            if new is getattr(before, shape.name) and new is self._draft[shape.name]:
                continue
            same = new == self._draft[shape.name]
            self._draft[shape.name] = new
            if shape.name in self._fields and not same:
                self._fields[shape.name].show_value(new)
        self._cross("", "")

    def _take(self, name: str, value: Any) -> None:
        self._draft[name] = value
        changes = {k: v for k, v in self._draft.items() if v is not getattr(self._value, k)}
        try:
            node = evolve(self._value, **changes)
        except ModelError as error:
            self._reach(error.field)
            self._cross(error.field if error.field in self._rows else name, refusal(error))
            return
        self._cross("", "")
        self._value = node
        key = self._fields[name].edit_key
        words = tr("Edit “{field}”", field=field_words(self.cls, name))
        self.edited.emit(node, words, "" if key is None else f"{name}{key}")

    # ---- faults and checks ------------------------------------------------------

    def _cross(self, name: str, sentence: str) -> None:
        """Say under a field what does not go with another; "" takes it back."""
        last, self._crossed = self._crossed, name
        if last and last != name and last in self._rows:
            self._say(last)
        if name:
            self._rows[name].say(sentence)

    def _say(self, name: str) -> None:
        row, field = self._rows[name], self._fields[name]
        check = self._checks.get(name)
        if field.fault:
            row.say(field.fault)
        elif check is not None:
            row.say(said(check.sentence), mark_of_strength(check.strength))
        else:
            row.say("", Mark.MUST)

    def show_checks(self, results: Iterable[CheckResult], path: str = "") -> None:
        """Put each result under the field that it is about.

        Args:
            results: results about the file.
            path: place of this form's noun in the file.
        """
        inside = [result for result in results if is_within(result.path, path)]
        depth = len(steps(path))
        self._checks = {}
        for result in inside:
            rest = steps(result.path)[depth:]
            if rest and isinstance(rest[0], str):
                self._checks.setdefault(rest[0], result)
        for name, field in self._fields.items():
            if name != self._crossed:
                self._say(name)
            inner = f"{path}.{name}" if path else name
            for index, row in enumerate(_open_rows(field)):
                if row.form is not None:
                    one = f"{inner}[{index}]" if isinstance(field, NodesField) else inner
                    row.form.show_checks(inside, one)

    # ---- focus ----------------------------------------------------------------

    def focus_first(self) -> None:
        """Put the focus on the first field."""
        first = next(iter(self._fields.values()), None)
        if first is not None:
            first.setFocus()

    def focus_path(self, path: str) -> None:
        """Put the focus where a path inside the noun leads, opening what is closed."""
        way = steps(path)
        if not way or not isinstance(way[0], str):
            self.focus_first()
            return
        self._reach(way[0])
        field = self._fields.get(way[0])
        if field is None:
            return
        self._enter(field, way[1:])

    def _enter(self, field: ValueField, way: tuple[str | int, ...]) -> None:
        index = way[0] if way and isinstance(way[0], int) else None
        if isinstance(field, ListField) and index is not None and index < len(field.fields):
            field.fields[index].setFocus()
        elif isinstance(field, NodesField) and index is not None and index < len(field.rows):
            _open(field.rows[index], way[1:])
        elif isinstance(field, NodeField) and field.value is not None and way:
            _open(field.row, way)
        else:
            field.setFocus()


def _chosen(cls: type[Node], only: Collection[str], skip: Collection[str]) -> list[FieldShape]:
    shapes = {shape.name: shape for shape in shapes_of(cls)}
    names = list(only) if only else [name for name in shapes if name not in skip]
    if not only:
        names.sort(key=lambda name: name in _FOR_MACHINES)
    return [shapes[name] for name in names]


def _open_rows(field: ValueField) -> list[NodeRow]:
    if isinstance(field, NodesField):
        return field.rows
    return [field.row] if isinstance(field, NodeField) else []


def _open(row: NodeRow, way: tuple[str | int, ...]) -> None:
    row.open_form()
    if row.form is not None and way:
        row.form.focus_path(_written(way))
    elif row.form is None:
        row.open_button.setFocus()


def _written(way: tuple[str | int, ...]) -> str:
    path = ""
    for step in way:
        path += f"[{step}]" if isinstance(step, int) else f".{step}" if path else step
    return path
