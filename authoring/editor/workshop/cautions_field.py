"""The cautions of a variant or card: a mark and its word, the text, when it applies."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QMenu, QPushButton, QVBoxLayout, QWidget

from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.ids import fresh_id
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.labels import label, line
from authoring.editor.parts.marks import MarkView, mark_icon, mark_of_caution, mark_words
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import words_of
from authoring.editor.workshop import hard_word_marks
from authoring.editor.workshop.words import text_words
from authoring.model.caution import Caution
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, TermKind, Urgency

_KINDS = (
    CautionKind.STOP_SIGN,
    CautionKind.CONTRAINDICATION,
    CautionKind.PRECAUTION,
    CautionKind.EXPECTED_RESPONSE,
)


def applies_words(caution: Caution, names: Mapping[str, str]) -> str:
    """When a caution applies: "always", or the conditions it is for.

    Args:
        names: names of conditions by id.
    """
    if not caution.conditions:
        return tr("always")
    first = names.get(caution.conditions[0], caution.conditions[0])
    more = len(caution.conditions) - 1
    return tr("{what} and {n} more", what=first, n=more) if more else first


class CautionRow(QWidget):
    """One caution in a line, and its form while it is open."""

    def __init__(self, context: FormContext, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._context = context
        self.value: Caution | None = None
        self.form: NodeForm | None = None
        self.mark = MarkView(mark_of_caution(CautionKind.STOP_SIGN), size=16)
        self.word = label(style=Type.STRONG)
        self.text = label(wrap=True)
        self.when = label(style=Type.SMALL, soft=True, wrap=True)
        self.when.setAlignment(Qt.AlignmentFlag.AlignTrailing)
        self.edit = _small(tr("Edit"))
        self.remove = _small("×")
        self.word.setMinimumWidth(theme().px(44))
        head = QHBoxLayout()
        head.setSpacing(theme().px(8))
        for part, stretch in ((self.mark, 0), (self.word, 0), (self.text, 5), (self.when, 2)):
            head.addWidget(part, stretch)
        head.addWidget(self.edit)
        head.addWidget(self.remove)
        self.place = QFrame()
        self.place.setProperty("nested", True)
        self._inner = QVBoxLayout(self.place)
        self._inner.setContentsMargins(theme().px(12), theme().px(8), 0, theme().px(8))
        self.place.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(4))
        layout.addLayout(head)
        layout.addWidget(self.place)
        layout.addWidget(line())

    def show_value(self, caution: Caution, number: int, names: Mapping[str, str]) -> None:
        """Show a caution."""
        other = self.value is None or self.value.id != caution.id
        self.value = caution
        mark = mark_of_caution(caution.kind)
        self.mark.show_mark(mark)
        self.word.setText(mark_words(mark))
        own = self._context.own
        words = text_words(caution.text, self._context.language, own)
        self.text.setText(words or tr("No words yet"))
        self.when.setText(applies_words(caution, names))
        spoken = ", ".join((words_of(caution.kind), self.text.text(), self.when.text()))
        self.edit.setAccessibleName(tr("Edit caution {n}: {what}", n=number, what=spoken))
        self.remove.setAccessibleName(tr("Remove caution {n}: {what}", n=number, what=spoken))
        if other:
            self.close_form()
        elif self.form is not None:
            self.form.show_value(caution)

    def open_form(self) -> NodeForm | None:
        """Open the form; it, or None while no caution is shown."""
        if self.form is None and self.value is not None:
            self.form = NodeForm(Caution, self.value, self._context, skip=("id",))
            self._inner.addWidget(self.form)
            # What it says and how to do it instead are the texts of a caution: both print.
            hard_word_marks.mark(self.form.findChildren(TextField), self._context)
            self.place.show()
            self.edit.setText(tr("Close"))
        return self.form

    def close_form(self) -> None:
        """Close the form."""
        if self.form is not None:
            self.form.hide()
            self.form.deleteLater()
            self.form = None
        self.place.hide()
        self.edit.setText(tr("Edit"))


def _small(words: str) -> QPushButton:
    button = QPushButton(words)
    button.setProperty("quiet", True)
    button.setProperty("small", True)
    return button


class CautionsField(ValueField):
    """Cautions in order: add one of the four kinds, edit in place, remove."""

    def __init__(self, context: FormContext, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.edit_key = None
        self._context = context
        self.rows: list[CautionRow] = []
        self._box = QVBoxLayout()
        self._box.setSpacing(theme().px(4))
        self.layout_.addLayout(self._box)
        self.none = label(
            tr("None. Say what must stop it, what needs care, and what is normal."),
            Type.SMALL,
            soft=True,
            wrap=True,
        )
        self.layout_.addWidget(self.none)
        self.add_button = _small(tr("Add a caution"))
        self.menu = QMenu(self.add_button)
        for kind in _KINDS:
            action = self.menu.addAction(mark_icon(mark_of_caution(kind)), words_of(kind))
            action.triggered.connect(lambda _=False, kind=kind: self.add(kind))
        self.add_button.clicked.connect(self._offer_kinds)
        self.layout_.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeading)
        self.setFocusProxy(self.add_button)
        self.value = ()

    def show_value(self, value: Any) -> None:
        """Show a tuple of cautions."""
        self.value = tuple(value or ())
        while len(self.rows) > len(self.value):
            gone = self.rows.pop()
            gone.hide()
            gone.deleteLater()
        while len(self.rows) < len(self.value):
            self._new_row()
        self._describe()
        self.none.setVisible(not self.value)

    def name_controls(self, name: str, description: str = "") -> None:
        """The buttons carry their own names."""
        self.add_button.setAccessibleDescription(description)

    def focus_item(self, index: int | None, path: str) -> None:
        """Open a caution's form at a path, or go to the button that adds one."""
        if index is None or index >= len(self.rows):
            self.add_button.setFocus()
            return
        form = self._open(self.rows[index])
        if form is not None:
            form.focus_path(path.partition("].")[2])

    def _new_row(self) -> None:
        row = CautionRow(self._context)
        row.edit.clicked.connect(lambda: self._toggle(row))
        row.remove.clicked.connect(lambda: self._remove(row))
        self.rows.append(row)
        self._box.addWidget(row)

    def _toggle(self, row: CautionRow) -> None:
        if row.form is not None:
            row.close_form()
            return
        form = self._open(row)
        if form is not None:
            form.focus_path("text")

    def _open(self, row: CautionRow) -> NodeForm | None:
        was_open = row.form is not None
        form = row.open_form()
        if form is not None and not was_open:
            form.edited.connect(lambda new, _name, key: self._changed(row, new, key))
            form.ended.connect(self.ended)
        return form

    def _changed(self, row: CautionRow, new: Caution, key: str) -> None:
        index = self.rows.index(row)
        self.edit_key = f"[{index}]{key}" if key else None
        self.offer((*self.value[:index], new, *self.value[index + 1 :]))
        self._describe()

    def _describe(self) -> None:
        names = {o.id: o.words for o in self._context.terms(TermKind.CONDITION)}
        for index, (row, caution) in enumerate(zip(self.rows, self.value, strict=True)):
            row.show_value(caution, index + 1, names)

    def _remove(self, row: CautionRow) -> None:
        index = self.rows.index(row)
        self.edit_key = None
        rest = (*self.value[:index], *self.value[index + 1 :])
        self.offer(rest)
        self.show_value(rest)
        (self.rows[min(index, len(rest) - 1)].edit if rest else self.add_button).setFocus()

    def _offer_kinds(self) -> None:
        self.menu.popup(self.add_button.mapToGlobal(self.add_button.rect().bottomLeft()))

    def add(self, kind: CautionKind) -> None:
        """Add a caution of a kind, and open its form at the text."""
        new = Caution(
            id=fresh_id(kind.value, self._context.taken()),
            kind=kind,
            text=Text.plain(""),
            urgency=Urgency.STOP_EXERCISE if kind is CautionKind.STOP_SIGN else None,
        )
        self.edit_key = None
        items = (*self.value, new)
        self.offer(items)
        self.show_value(items)
        form = self._open(self.rows[-1])
        if form is not None:
            form.focus_path("text")
