"""Asks before a variant goes that protocols use: where, and what takes its place."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.choices import PlainChoice
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.editor.workshop.words import variant_name
from authoring.model.card import Card, Variant
from authoring.model.edits.ladder import is_hold
from authoring.model.edits.uses import Use

_MOST = 8


def use_sentence(use: Use) -> str:
    """One exercise that names the variant."""
    title = use.protocol.title.best(use.protocol.language, use.protocol.language)
    if "start" in use.fields:
        return tr("{protocol}, exercise {n}: starts with it.", protocol=title, n=use.number)
    return tr("{protocol}, exercise {n}: may use it.", protocol=title, n=use.number)


def nearest(card: Card, variant: Variant) -> list[Variant]:
    """The other variants, the likeliest to take its place first."""
    others = [one for one in card.variants if one.id != variant.id]
    return sorted(
        others,
        key=lambda one: (is_hold(one) != is_hold(variant), abs(one.rung - variant.rung), one.rung),
    )


class RemoveDialog(QDialog):
    """Says where a variant is used, and lets another take its place.

    Signals:
        confirmed(id): the variant to put in its place, "" for none.
    """

    confirmed = Signal(str)

    def __init__(
        self, card: Card, variant: Variant, found: Sequence[Use], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        name = variant_name(card, variant)
        self.setWindowTitle(tr("Remove “{name}”", name=name))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        used = theme()
        layout = QVBoxLayout(self)
        gap = used.px(24)
        layout.setContentsMargins(gap, gap, gap, gap)
        layout.setSpacing(used.px(12))
        layout.addWidget(label(tr("“{name}” is used", name=name), Type.HEADING, wrap=True))
        self.uses = label("\n".join(use_sentence(use) for use in found[:_MOST]), wrap=True)
        layout.addWidget(self.uses)
        if len(found) > _MOST:
            layout.addWidget(label(tr("And {n} more.", n=len(found) - _MOST), soft=True))
        starts = any("start" in use.fields for use in found)
        self.choice = PlainChoice(
            [(one.id, variant_name(card, one)) for one in nearest(card, variant)]
        )
        row = FieldRow(tr("Put in its place"), self.choice)
        layout.addWidget(row)
        # Only now that it is a part of the dialog: before, it would show as a window.
        row.setVisible(starts and self.choice.combo.count() > 0)
        self._starts = starts
        self._others = [one.id for one in nearest(card, variant)]
        self.remove_button = QPushButton(tr("Remove"))
        self.remove_button.setProperty("main", True)
        self.remove_button.clicked.connect(self._confirm)
        keep = QPushButton(tr("Keep it"))
        keep.clicked.connect(self.reject)
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(keep)
        buttons.addWidget(self.remove_button)
        layout.addLayout(buttons)
        self.setMinimumWidth(used.px(460))
        if starts and self.choice.combo.count() == 0:
            self.remove_button.setEnabled(False)
            layout.insertWidget(
                layout.count() - 1,
                label(tr("Add another variant first: it is the only one."), wrap=True),
            )

    def _confirm(self) -> None:
        index = self.choice.combo.currentIndex()
        instead = self._others[index] if self._starts and index >= 0 else ""
        self.accept()
        self.confirmed.emit(instead)
