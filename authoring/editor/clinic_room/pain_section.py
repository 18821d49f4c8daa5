"""The clinic's pain rule."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from authoring.checks.result import CheckResult
from authoring.dosage.pain import DEFAULT_RULE
from authoring.editor.clinic_room.bands_field import BandsField
from authoring.editor.clinic_room.section import Section
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.place import is_within
from authoring.editor.theme import theme
from authoring.model.base import evolve
from authoring.model.clinic import Clinic
from authoring.model.pain import PainRule

_REST = ("next_morning", "sources")


class PainSection(Section):
    """Bands during and after exercise, the next morning, and what it rests on."""

    fields = ("pain",)

    def __init__(self, context: FormContext) -> None:
        super().__init__()
        self._rule: PainRule | None = None
        about = tr(
            "How much pain is fine, where no protocol, stage or exercise says otherwise. It "
            "never stands in for the rule of a programme after surgery or for bone stress."
        )
        self.column.addWidget(label(about, soft=True, wrap=True))
        self.none = label(tr("No rule of your own: the usual bands print."), wrap=True)
        self.column.addWidget(self.none)
        self.own_button = self._button(tr("Write your own rule"), self._begin)
        self.inside = QWidget()
        inner = QVBoxLayout(self.inside)
        inner.setContentsMargins(0, 0, 0, 0)
        inner.setSpacing(theme().px(12))
        self.during = BandsField(context)
        self.after = BandsField(context, fewest=0)
        self._add(inner, "during", tr("Pain during exercise"), self.during)
        self._add(inner, "after", tr("Pain after exercise, where it differs"), self.after)
        self.form = NodeForm(PainRule, DEFAULT_RULE, context, only=_REST)
        self.form.edited.connect(self._take_form)
        self.form.ended.connect(self.ended)
        inner.addWidget(self.form)
        self.column.addWidget(self.inside)
        self.drop_button = self._button(tr("Use the usual bands"), self._drop)
        self.column.addStretch(1)

    def _button(self, words: str, run: Any) -> QPushButton:
        button = QPushButton(words)
        button.clicked.connect(lambda _checked=False: run())
        self.column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeading)
        return button

    def _add(self, inner: QVBoxLayout, name: str, words: str, field: BandsField) -> None:
        inner.addWidget(self.add_row(f"pain.{name}", words, field))
        field.edited.connect(lambda bands: self._take(name, words, field, bands))

    def show_clinic(self, clinic: Clinic) -> None:
        self._rule = rule = clinic.pain
        self.none.setVisible(rule is None)
        self.own_button.setVisible(rule is None)
        self.inside.setVisible(rule is not None)
        self.drop_button.setVisible(rule is not None)
        if rule is None:
            return
        for field, bands in ((self.during, rule.during), (self.after, rule.after)):
            if field.value != bands or not field.value:
                field.show_value(bands)
        self.form.show_value(rule)

    def show_checks(self, results: Iterable[CheckResult]) -> None:
        inside = [result for result in results if is_within(result.path, "pain")]
        super().show_checks(inside)
        if self._rule is not None:
            self.form.show_checks(inside, "pain")

    def _begin(self) -> None:
        self._give(DEFAULT_RULE, tr("Write an own pain rule"), "")
        self.focus_path("")

    def _drop(self) -> None:
        self._give(None, tr("Use the usual bands"), "")
        self.own_button.setFocus()

    def _take(self, name: str, words: str, field: BandsField, bands: Any) -> None:
        if self._rule is not None:
            self._rule = evolve(self._rule, **{name: bands})
            self.give(field, words, f"pain.{name}", pain=self._rule)

    def _take_form(self, rule: PainRule, name: str, key: str) -> None:
        if self._rule is not None:
            changes = {field: getattr(rule, field) for field in _REST}
            self._give(evolve(self._rule, **changes), name, f"clinic/pain/{key}" if key else "")

    def _give(self, rule: PainRule | None, name: str, key: str) -> None:
        self.edited.emit({"pain": rule}, name, key)

    def focus_path(self, path: str) -> None:
        if self._rule is None:
            self.own_button.setFocus()
        elif path.startswith(("pain.next_morning", "pain.sources")):
            self.form.focus_path(path.removeprefix("pain."))
        else:
            self.during.rows[0].action.setFocus()
