"""Where the stop box sends patients, in the clinic's own words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget

from authoring.editor.clinic_room.section import Section
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.labels import label
from authoring.editor.vocabulary_words import words_of
from authoring.handout.catalogue import load_phrases
from authoring.handout.errors import HandoutError
from authoring.model.base import evolve
from authoring.model.clinic import Clinic, EmergencyWording
from authoring.model.text import Text
from authoring.model.vocabulary import Urgency


class EmergencySection(Section):
    """The four leads of the stop box; without own words, those of the program print."""

    fields = ("emergency",)

    def __init__(self, context: FormContext) -> None:
        super().__init__()
        self._wording: EmergencyWording | None = None
        self._standard: Mapping[str, str] = {}
        about = tr(
            "Every handout says when to stop and whom to call. Emergency numbers differ by "
            "country: write them as your patients dial them."
        )
        self.column.addWidget(label(about, soft=True, wrap=True))
        self.none = label(wrap=True)
        self.column.addWidget(self.none)
        self.own_button = self._button(tr("Write your own wording"), self._begin)
        self.texts: dict[str, TextField] = {}
        for urgency in Urgency:
            self._add(urgency, context)
        self.standard_button = self._button(tr("Use the standard wording"), self._drop)
        self.column.addStretch(1)

    def _button(self, words: str, run: Any) -> QPushButton:
        button = QPushButton(words)
        button.clicked.connect(lambda _checked=False: run())
        self.column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeading)
        return button

    def _add(self, urgency: Urgency, context: FormContext) -> None:
        field = TextField(context.own, context.language)
        field.mark_spelling(context.session)
        words = words_of(urgency)
        self.texts[urgency.value] = field
        self.add_row(f"emergency.{urgency.value}", words, field)
        field.edited.connect(lambda text: self._take(urgency, text))

    def show_clinic(self, clinic: Clinic) -> None:
        self._wording = clinic.emergency
        self._standard = standard_leads(clinic.language)
        has = clinic.emergency is not None
        for name, field in self.texts.items():
            self.rows[f"emergency.{name}"].setVisible(has)
            if clinic.emergency is not None:
                value = getattr(clinic.emergency, name)
                if field.value != value:
                    field.show_value(value)
        leads = " · ".join(self._standard.values())
        self.none.setText(tr("The standard wording prints: {leads}", leads=leads))
        self.none.setVisible(not has and bool(leads))
        self.own_button.setVisible(not has)
        self.standard_button.setVisible(has)

    def _begin(self) -> None:
        emergency, same_day, call_clinic, stop_exercise = (
            Text.plain(self._standard.get(urgency.value, "")) for urgency in Urgency
        )
        wording = EmergencyWording(
            emergency=emergency,
            same_day=same_day,
            call_clinic=call_clinic,
            stop_exercise=stop_exercise,
        )
        self._give(wording, tr("Write own emergency wording"), "")
        self.focus_path("")

    def _drop(self) -> None:
        self._give(None, tr("Use the standard emergency wording"), "")
        self.own_button.setFocus()

    def _take(self, urgency: Urgency, text: Text) -> None:
        if self._wording is None:
            return
        self._wording = evolve(self._wording, **{urgency.value: text})
        name = tr("Edit “{field}”", field=words_of(urgency))
        self._give(self._wording, name, f"clinic/emergency/{urgency.value}")

    def _give(self, wording: EmergencyWording | None, name: str, key: str) -> None:
        self.edited.emit({"emergency": wording}, name, key)

    def focus_path(self, path: str) -> None:
        if self._wording is None:
            self.own_button.setFocus()
            return
        target: QWidget = self.texts[Urgency.EMERGENCY.value]
        if path in self.rows:
            target = self.rows[path].control
        target.setFocus()


def standard_leads(language: str) -> Mapping[str, str]:
    """What prints for each urgency without own words; empty for a language without phrases."""
    try:
        phrases = load_phrases(language)
    except HandoutError:
        return {}
    return {urgency.value: phrases.say(f"stop.{urgency}") for urgency in Urgency}
