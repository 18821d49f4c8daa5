"""The form of the whole card: what all its variants share."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import mark, tr
from authoring.editor.parts.labels import label, line
from authoring.editor.theme import Type, theme
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
        self.fields = FieldSet(Card, context, self)
        self.fields.edited.connect(self.edited)
        self.fields.ended.connect(self.ended)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(12))
        for index, (title, names) in enumerate(_GROUPS):
            if index:
                layout.addWidget(line())
            layout.addWidget(label(tr(title), Type.HEADING))
            for name in names:
                own = CautionsField(context) if name == "cautions" else None
                layout.addWidget(self.fields.row(name, own))
        layout.addStretch(1)
        self.fields.show_value(card, anew=True)

    def show_value(self, card: Card) -> None:
        """Show another value of the card."""
        self.fields.show_value(card)

    def show_checks(self, results: Iterable[CheckResult]) -> None:
        """Put the results under their fields."""
        self.fields.show_checks(results, "")

    def focus_path(self, path: str) -> None:
        """Put the focus where a path inside the card leads; on the title for ""."""
        if not self.fields.focus_path(path or "title"):
            self.fields.focus_path("title")
