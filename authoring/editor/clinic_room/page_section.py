"""Paper, print size and language of the clinic's pages."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from authoring.checks.result import CheckResult
from authoring.editor.clinic_room.section import Section
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import language_name, tr
from authoring.editor.parts.fields import reading
from authoring.editor.parts.fields.lines import ReadField
from authoring.editor.parts.labels import label
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.theme import Type, theme
from authoring.handout.catalogue import languages, load_phrases
from authoring.handout.errors import HandoutError
from authoring.model.base import LANGUAGE_TAG
from authoring.model.clinic import Clinic

_FORM = ("paper", "print_size", "letterhead", "most_exercises", "small_print")


class LanguageField(ReadField):
    """A language tag, its name in words beside it."""

    def __init__(self) -> None:
        super().__init__(example="en-GB")
        self.line.setMaximumWidth(theme().px(140))
        self.said = label(style=Type.SMALL, soft=True)
        self.row_.addWidget(self.said)
        self.row_.addStretch(1)

    def read(self, words: str) -> str:
        tag = words.strip()
        if not re.fullmatch(LANGUAGE_TAG, tag) or not language_name(tag):
            raise reading.Unreadable(
                tr("“{tag}” is no language; write it as en or en-GB.", tag=tag)
            )
        try:
            load_phrases(tag)
        except HandoutError as error:
            known = ", ".join(language_name(one) for one in languages())
            raise reading.Unreadable(
                tr(
                    "Handouts can't be written in {language} yet; choose one of: {known}.",
                    language=language_name(tag),
                    known=known,
                )
            ) from error
        return tag

    def write(self, value: Any) -> str:
        return str(value)

    def show_value(self, value: Any) -> None:
        """Show a tag."""
        super().show_value(value)
        self.said.setText(language_name(str(value)))

    def offer(self, value: Any) -> None:
        """Take a tag that the user typed."""
        self.said.setText(language_name(str(value)))
        super().offer(value)


class PageSection(Section):
    """What a page is like where nothing else is asked for."""

    fields = ("language", *_FORM)

    def __init__(self, context: FormContext, clinic: Clinic) -> None:
        super().__init__()
        self.form = NodeForm(Clinic, clinic, context, only=_FORM)
        self.form.edited.connect(self._take_form)
        self.form.ended.connect(self.ended)
        self.language = LanguageField()
        words = tr("Language")
        help_text = tr("Of the handouts, and of the clinic's own words.")
        self.add_row("language", words, self.language, help_text)
        self.language.edited.connect(
            lambda tag: self.give(self.language, words, "language", language=tag)
        )
        self.column.addWidget(self.form, 1)

    def show_clinic(self, clinic: Clinic) -> None:
        self.language.show_value(clinic.language)
        self.form.show_value(clinic)

    def show_checks(self, results: Iterable[CheckResult]) -> None:
        found = tuple(results)
        super().show_checks(found)
        self.form.show_checks(found)

    def focus_path(self, path: str) -> None:
        if path.partition(".")[0] in _FORM:
            self.form.focus_path(path)
        else:
            self.language.setFocus()

    def _take_form(self, clinic: Clinic, name: str, key: str) -> None:
        changes = {field: getattr(clinic, field) for field in _FORM}
        self.edited.emit(changes, name, f"clinic/{key}" if key else "")
