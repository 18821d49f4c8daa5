"""The brand editor: colours with live verdicts, font, logo."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QWidget

from authoring.editor.clinic_room.colour_field import ColourField
from authoring.editor.clinic_room.logo_field import LogoField
from authoring.editor.clinic_room.section import Section
from authoring.editor.clinic_room.verdict_view import VerdictView
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.page.fonts import handout_fonts
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.choices import PlainChoice
from authoring.editor.parts.flow import FlowLayout
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.model.base import evolve
from authoring.model.clinic import Brand, Clinic
from authoring.model.text import Text


class BrandSection(Section):
    """How the clinic's pages look."""

    fields = ("brand",)

    def __init__(self, context: FormContext) -> None:
        super().__init__()
        self._brand = Brand()
        self._clinic_name = Text.plain("")
        self.colour = ColourField(tr("Clinic's colour"))
        self.ink = ColourField(tr("Colour of text"))
        self.family = PlainChoice([(name, name) for name in handout_fonts()])
        self.logo = LogoField(context, lambda: self._clinic_name)
        self._add("colour", tr("Clinic's colour"), self.colour)
        self._add("ink", tr("Colour of text"), self.ink)
        self._add("font", tr("Font"), self.family)
        self._side_by_side("brand.colour", "brand.ink", "brand.font")
        self.column.addWidget(label(tr("Can it be read?"), Type.STRONG))
        self.verdicts = VerdictView()
        self.column.addWidget(self.verdicts)
        self.column.addSpacing(theme().px(8))
        self._add("logo", tr("Logo"), self.logo)
        self.column.addStretch(1)

    def _add(self, name: str, words: str, field: ValueField) -> None:
        self.add_row(f"brand.{name}", words, field)
        field.edited.connect(lambda value: self._take(name, words, field, value))

    def _side_by_side(self, *paths: str) -> None:
        line = QWidget()
        flow = FlowLayout(line, gap=16)
        for path in paths:
            flow.addWidget(self.rows[path])
        self.column.addWidget(line)

    def show_clinic(self, clinic: Clinic) -> None:
        brand = clinic.brand
        self._brand, self._clinic_name = brand, clinic.name
        values: tuple[tuple[ValueField, Any], ...] = (
            (self.colour, brand.colour),
            (self.ink, brand.ink),
            (self.family, brand.font),
            (self.logo, brand.logo),
        )
        for field, value in values:
            if field.value != value or field.value is None or field.fault:
                field.show_value(value)
        self.verdicts.show_brand(brand)

    def _take(self, name: str, words: str, field: ValueField, value: Any) -> None:
        self._brand = evolve(self._brand, **{name: value})
        self.verdicts.show_brand(self._brand)
        self.give(field, words, f"brand.{name}", brand=self._brand)

    def focus_path(self, path: str) -> None:
        super().focus_path("brand.logo" if path.startswith("brand.logo") else path)
