"""The form of the whole card: what all its variants share."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.chunks import Chunks
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import mark, tr
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.labels import label, line
from authoring.editor.theme import Type, theme
from authoring.editor.workshop import hard_word_marks
from authoring.editor.workshop.cautions_field import CautionsField
from authoring.editor.workshop.field_set import FieldSet
from authoring.model.card import Card

_GROUPS = (
    (
        mark("The exercise"),
        ("title", "trade_name", "purpose", "regions", "movements", "purposes", "faults"),
    ),
    (mark("Safety, for every variant"), ("cautions", "forbidden")),
    (mark("References"), ("references",)),
    (mark("Kept fresh"), ("owner", "authors", "last_review", "review_due", "licence", "invented")),
    (mark("The file"), ("language", "slug")),
)


class CardForm(QWidget):
    """Edits a card, its variants left out.

    Signals:
        edited(card, name, merge_key): a new value.
        ended(): the user left a field.
    """

    edited = Signal(object, str, str)
    ended = Signal()

    def __init__(self, card: Card, context: FormContext, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._context = context
        self._begun: list[str] = []
        self.fields = FieldSet(Card, context, self)
        self.fields.edited.connect(self.edited)
        self.fields.ended.connect(self.ended)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(12))
        self._inside = QVBoxLayout()
        self._inside.setSpacing(theme().px(12))
        layout.addLayout(self._inside)
        layout.addStretch(1)
        self.fields.show_value(card, anew=True)
        steps = [partial(self._add_row, title, name) for title, names in _GROUPS for name in names]
        steps.pop(0)()
        self.chunks = Chunks(steps, self)

    def _add_row(self, group: str, name: str) -> None:
        if group not in self._begun:
            self._begun.append(group)
            if len(self._begun) > 1:
                self._inside.addWidget(line())
            self._inside.addWidget(label(tr(group), Type.HEADING))
        own = CautionsField(self._context) if name == "cautions" else None
        row = self.fields.row(name, own)
        self._inside.addWidget(row)
        if name == "purpose":
            hard_word_marks.mark(row.findChildren(TextField), self._context)

    def show_value(self, card: Card) -> None:
        """Show another value of the card."""
        self.fields.show_value(card)

    def show_checks(self, results: Iterable[CheckResult]) -> None:
        """Put the results under their fields."""
        self.fields.show_checks(results, "")

    def focus_path(self, path: str) -> None:
        """Put the focus where a path inside the card leads; on the title for ""."""
        self.chunks.finish()
        if not self.fields.focus_path(path or "title"):
            self.fields.focus_path("title")
