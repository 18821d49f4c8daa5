"""The sections of the clinic room, and which fields each of them edits."""

from __future__ import annotations

from enum import StrEnum

from authoring.editor.clinic_room.brand_section import BrandSection
from authoring.editor.clinic_room.emergency_section import EmergencySection
from authoring.editor.clinic_room.page_section import PageSection
from authoring.editor.clinic_room.pain_section import PainSection
from authoring.editor.clinic_room.section import FormSection, Section
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.node_form import NodeForm
from authoring.editor.place import steps
from authoring.model.clinic import Clinic


class Part(StrEnum):
    """The sections, in order."""

    CONTACT = "contact"
    BRAND = "brand"
    PAGE = "page"
    FIGURE = "figure"
    EMERGENCY = "emergency"
    PAIN = "pain"
    RULES = "rules"


FORMS: dict[Part, tuple[str, ...]] = {
    Part.CONTACT: ("name", "phone", "hours", "closed", "address", "email", "website"),
    Part.FIGURE: ("figure",),
    Part.RULES: ("second_approver", "second_sign", "protocol_numbers", "invented"),
}
"""Fields of the sections that are plain forms."""


def part_words(part: Part) -> str:
    """A section's name."""
    return {
        Part.CONTACT: tr("Contact"),
        Part.BRAND: tr("Brand"),
        Part.PAGE: tr("Page"),
        Part.FIGURE: tr("Drawn person"),
        Part.EMERGENCY: tr("Emergencies"),
        Part.PAIN: tr("Pain"),
        Part.RULES: tr("Rules"),
    }[part]


def part_of(path: str) -> Part:
    """The section in which a place of the clinic is edited."""
    way = steps(path)
    name = str(way[0]) if way else ""
    own = {
        "brand": Part.BRAND,
        **dict.fromkeys(PageSection.fields, Part.PAGE),
        "emergency": Part.EMERGENCY,
        "pain": Part.PAIN,
    }
    if name in own:
        return own[name]
    return next((part for part, fields in FORMS.items() if name in fields), Part.CONTACT)


def make_section(part: Part, clinic: Clinic, context: FormContext) -> Section:
    """A section, showing the clinic."""
    if part in FORMS:
        fields = FORMS[part]
        return FormSection(NodeForm(Clinic, clinic, context, only=fields), fields)
    made: Section
    match part:
        case Part.BRAND:
            made = BrandSection(context)
        case Part.PAGE:
            made = PageSection(context, clinic)
        case Part.EMERGENCY:
            made = EmergencySection(context)
        case _:
            made = PainSection(context)
    made.show_clinic(clinic)
    return made
