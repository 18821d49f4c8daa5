"""Nouns inside nouns: closed to one line of words, opened to a form of their own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from authoring.dosage.shorthand import ShorthandError
from authoring.editor.blanks import blank
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.choices import QuietCombo
from authoring.editor.parts.fields.dose_line import DoseLine
from authoring.editor.parts.labels import label
from authoring.editor.sentences import said
from authoring.editor.shapes import FieldShape
from authoring.editor.summaries import summary
from authoring.editor.theme import theme
from authoring.editor.vocabulary_words import class_words
from authoring.model.base import Node, evolve
from authoring.model.dose import Dose

if TYPE_CHECKING:
    from authoring.editor.parts.node_form import NodeForm


def _small(words: str) -> QPushButton:
    button = QPushButton(words)
    button.setProperty("quiet", True)
    button.setProperty("small", True)
    return button


def _select_words() -> None:
    """Select what stands in the first field of a new noun, to be written over."""
    line = QApplication.focusWidget()
    if isinstance(line, QLineEdit | QPlainTextEdit):
        line.selectAll()


class _Nested(QWidget):
    """Where the form of an inner noun stands, with a line on the side where reading begins."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        wide = used.px(2)
        turned = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        painter = QPainter(self)
        x = self.width() - wide if turned else 0
        painter.fillRect(x, 0, wide, self.height(), used.colour("rule"))
        painter.end()


class NodeRow(ValueField):
    """One noun: a line of words with Open and Remove, and its form while it is open.

    A dose is also typed straight into its line. The value is a noun, or None.
    """

    def __init__(self, classes: tuple[type[Node], ...], words: str, context: FormContext) -> None:
        super().__init__()
        self._classes, self._words, self._context = classes, words, context
        self.form: NodeForm | None = None
        self._kind: QComboBox | None = None
        self.open_button = _small(tr("Open"))
        self.open_button.clicked.connect(self.toggle)
        self.remove_button = _small("×")
        self._line = DoseLine() if classes == (Dose,) else None
        self._summary = label(wrap=True)
        head = QHBoxLayout()
        head.setContentsMargins(0, 0, 0, 0)
        head.setSpacing(theme().px(8))
        head.addWidget(self._line if self._line is not None else self._summary, 1)
        head.addWidget(self.open_button)
        head.addWidget(self.remove_button)
        self.head = head
        self.layout_.addLayout(head)
        self._place = _Nested()
        self._inner = QVBoxLayout(self._place)
        gap = theme().px(12)
        self._inner.setContentsMargins(gap, theme().px(8), gap, theme().px(8))
        self._place.hide()
        self.layout_.addWidget(self._place)
        self.setFocusProxy(self._line or self.open_button)
        if self._line is not None:
            self._line.dose_typed.connect(self._typed)
            self._line.failed.connect(self._mistyped)
            self._line.editingFinished.connect(self.ended)

    @property
    def is_open(self) -> bool:
        """Whether the form is in sight."""
        return self.form is not None

    def show_value(self, value: Any) -> None:
        """Show a noun; None only stands in a line that may be empty."""
        self.value = value
        self._draw_line()
        if value is None:
            self.close_form()
        elif self.form is not None:
            if type(value) is self.form.cls:
                self.form.show_value(value)
            else:
                self._build_form()

    def name_controls(self, name: str, description: str = "") -> None:
        """Name the buttons and the line."""
        words = self._summary.text()
        self.open_button.setAccessibleName(tr("{field}: open {what}", field=name, what=words))
        self.open_button.setAccessibleDescription(description)
        self.remove_button.setAccessibleName(tr("{field}: remove", field=name))
        if self._line is not None:
            self._line.setAccessibleName(name)
            self._line.setAccessibleDescription(description)

    def _draw_line(self) -> None:
        known = self._context
        manifest = known.library.manifest
        words = (
            "" if self.value is None else summary(self.value, known.own, known.language, manifest)
        )
        self._summary.setText(words)
        self.open_button.setVisible(self.value is not None)
        self.remove_button.setVisible(self.value is not None)
        line = self._line
        if line is not None and not (line.hasFocus() and line.before == self.value):
            said = line.show_dose(self.value)
            line.setReadOnly(not said and self.value is not None)
            if not said and self.value is not None:
                line.setText(words)

    # ---- the form -------------------------------------------------------------

    def toggle(self) -> None:
        """Open the form, or close it."""
        if self.form is None:
            self.open_form()
        else:
            self.close_form()
            self.open_button.setFocus()

    def open_form(self) -> None:
        """Open the form."""
        if self.value is None or self.form is not None:
            return
        form = self._build_form()
        self.open_button.setText(tr("Close"))
        form.focus_first()

    def close_form(self) -> None:
        """Close the form."""
        if self.form is not None:
            self._clear()
            self._place.hide()
            self.open_button.setText(tr("Open"))

    def _clear(self) -> None:
        while (item := self._inner.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.form = None
        self._kind = None

    def _build_form(self) -> NodeForm:
        from authoring.editor.parts.node_form import NodeForm  # noqa: PLC0415 - forms nest

        self._clear()
        if len(self._classes) > 1:
            self._kind = self._kinds()
            self._inner.addWidget(self._kind)
        form = NodeForm(type(self.value), self.value, self._context)
        form.edited.connect(self._from_form)
        form.ended.connect(self.ended)
        self._inner.addWidget(form)
        self._place.show()
        self.form = form
        return form

    def _kinds(self) -> QComboBox:
        combo = QuietCombo()
        combo.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        combo.setAccessibleName(tr("{field}: kind", field=self._words))
        for cls in self._classes:
            combo.addItem(class_words(cls))
        combo.setCurrentIndex(self._classes.index(type(self.value)))
        combo.activated.connect(self._other_kind)
        return combo

    def _other_kind(self, index: int) -> None:
        cls = self._classes[index]
        if cls is not type(self.value):
            made = _alike(self.value, blank(cls, self._context.taken(), self._context.own))
            self.edit_key = None
            self.offer(made)
            self.show_value(made)

    def _from_form(self, node: Node, _name: str, key: str) -> None:
        self.edit_key = key or None
        self.offer(node)
        self._draw_line()

    # ---- the line of a dose -----------------------------------------------------

    def _typed(self, dose: Dose | None) -> None:
        if dose is None:
            self.refuse(tr("Write a dose, or remove it."))
            return
        self.edit_key = ""
        if self._line is not None:
            self._line.before = dose
        self.offer(dose)
        if self.form is not None:
            self.form.show_value(dose)
        self._summary.setText(summary(dose, self._context.own))
        self.open_button.show()
        self.remove_button.show()

    def _mistyped(self, error: ShorthandError) -> None:
        self.refuse(said(error.whole))


def _alike(old: object, new: Node) -> Node:
    """A new noun with the id of the one whose place it takes."""
    own = getattr(old, "id", None)
    return evolve(new, id=own) if own is not None and hasattr(new, "id") else new


class NodeField(ValueField):
    """A noun, or none where that is allowed: Add makes one."""

    def __init__(self, shape: FieldShape, words: str, context: FormContext) -> None:
        super().__init__()
        self._shape, self._context = shape, context
        self.row = NodeRow(shape.types, words, context)
        self.row.edited.connect(self._changed)
        self.row.ended.connect(self.ended)
        self.row.faulted.connect(self._say)
        self.row.remove_button.clicked.connect(self._remove)
        self.add_button = _small(tr("Add"))
        self.add_button.clicked.connect(self._add)
        self.layout_.addWidget(self.row)
        self.layout_.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeading)

    def show_value(self, value: Any) -> None:
        """Show a noun or None."""
        self.value = value
        self.row.show_value(value)
        types_here = self._shape.types == (Dose,)
        self.row.setVisible(value is not None or types_here)
        self.row.remove_button.setVisible(self._shape.optional and value is not None)
        self.add_button.setVisible(value is None and not types_here)
        self.setFocusProxy(self.row if self.row.isVisibleTo(self) else self.add_button)

    def name_controls(self, name: str, description: str = "") -> None:
        """Name the row and the Add button."""
        self.row.name_controls(name, description)
        self.add_button.setAccessibleName(tr("{field}: add", field=name))
        self.add_button.setAccessibleDescription(description)

    def _changed(self, value: Any) -> None:
        self.edit_key = self.row.edit_key
        self.offer(value)

    def _add(self) -> None:
        made = blank(self._shape.types[0], self._context.taken(), self._context.own)
        self.edit_key = None
        self.offer(made)
        self.show_value(made)
        self.row.open_form()
        _select_words()

    def _remove(self) -> None:
        self.edit_key = None
        self.offer(None)
        self.show_value(None)
        self.setFocus()


class NodesField(ValueField):
    """Nouns in order: add, open, move, remove."""

    def __init__(self, shape: FieldShape, words: str, context: FormContext) -> None:
        super().__init__()
        self._shape, self._words, self._context = shape, words, context
        self._rows: list[NodeRow] = []
        self._moves: list[tuple[QPushButton, QPushButton]] = []
        self._name, self._description = words, ""
        self._box = QVBoxLayout()
        self._box.setSpacing(theme().px(4))
        self.layout_.addLayout(self._box)
        self.add_button = _small(tr("Add"))
        self.add_button.clicked.connect(self._add)
        self.layout_.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeading)
        self.setFocusProxy(self.add_button)
        self.value = ()

    @property
    def rows(self) -> list[NodeRow]:
        """The rows of the nouns, in order."""
        return self._rows

    def show_value(self, value: Any) -> None:
        """Show a tuple of nouns; None is shown as none."""
        self.value = tuple(value or ())
        while len(self._rows) > len(self.value):
            self._moves.pop()
            gone = self._rows.pop()
            gone.hide()
            gone.deleteLater()
        while len(self._rows) < len(self.value):
            self._new_row()
        for row, item in zip(self._rows, self.value, strict=True):
            if row.value is not item:
                row.show_value(item)
        self._after_change()

    def name_controls(self, name: str, description: str = "") -> None:
        """Name each row by its number."""
        self._name, self._description = name, description
        self.add_button.setAccessibleName(tr("{field}: add", field=name))
        self.add_button.setAccessibleDescription(description)
        self._after_change()

    def _new_row(self) -> None:
        row = NodeRow(self._shape.types, self._words, self._context)
        up, down = _small("↑"), _small("↓")
        row.head.insertWidget(1, up)
        row.head.insertWidget(2, down)
        up.clicked.connect(lambda: self._move(row, -1))
        down.clicked.connect(lambda: self._move(row, 1))
        row.remove_button.clicked.connect(lambda: self._remove(row))
        row.edited.connect(lambda item: self._changed(row, item))
        row.ended.connect(self.ended)
        row.faulted.connect(self._say)
        self._rows.append(row)
        self._moves.append((up, down))
        self._box.addWidget(row)

    def _after_change(self) -> None:
        last = len(self._rows) - 1
        for index, (row, (up, down)) in enumerate(zip(self._rows, self._moves, strict=True)):
            name = f"{self._name} {index + 1}"
            row.name_controls(name, self._description)
            up.setEnabled(index > 0)
            down.setEnabled(index < last)
            up.setAccessibleName(tr("{field}: move up", field=name))
            down.setAccessibleName(tr("{field}: move down", field=name))
        most = self._shape.known.longest
        self.add_button.setEnabled(most is None or len(self._rows) < most)

    def _changed(self, row: NodeRow, item: Any) -> None:
        index = self._rows.index(row)
        self.edit_key = None if row.edit_key is None else f"[{index}]{row.edit_key}"
        self.offer((*self.value[:index], item, *self.value[index + 1 :]))

    def _take(self, items: tuple[Any, ...]) -> None:
        self.edit_key = None
        self.offer(items)
        self.show_value(items)

    def _add(self) -> None:
        made = blank(self._shape.types[0], self._context.taken(), self._context.own)
        self._take((*self.value, made))
        self._rows[-1].open_form()
        _select_words()

    def _remove(self, row: NodeRow) -> None:
        index = self._rows.index(row)
        self._take((*self.value[:index], *self.value[index + 1 :]))
        target: QWidget = self.add_button
        if self._rows:
            target = self._rows[min(index, len(self._rows) - 1)].open_button
        target.setFocus()

    def _move(self, row: NodeRow, by: int) -> None:
        index = self._rows.index(row)
        goal = index + by
        if 0 <= goal < len(self._rows):
            items = list(self.value)
            items[index], items[goal] = items[goal], items[index]
            self._take(tuple(items))
            self._moves[goal][0 if by < 0 else 1].setFocus()
