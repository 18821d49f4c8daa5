"""Named styles of the Word handout, built from the clinic's brand and the print size.

Real styles carry the whole look, so that a clinic can restyle a handout in Word
by changing a style, and so that headings and lists mean something to a screen
reader.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve, frozen
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import BrandStyle, Direction, HandoutDocument
from authoring.handout.docx_format import (
    Border,
    ParagraphFormat,
    RunFormat,
    element,
    frame,
    paragraph_properties,
    run_properties,
)
from authoring.handout.docx_measures import Measures
from authoring.handout.docx_table_styles import default_styles, table_styles

WHITE = "#FFFFFF"
PANEL_INSET_MM = 3.2
PLAIN_RUN, PLAIN = RunFormat(), ParagraphFormat()


@frozen
class Style:
    """One named style. ``kind`` is "paragraph" or "character"; ``based`` and ``then`` are ids."""

    id: str
    name: str
    run: RunFormat = PLAIN_RUN
    paragraph: ParagraphFormat = PLAIN
    kind: str = "paragraph"
    based: str = "Normal"
    then: str = ""
    link: str = ""


def styles_root(document: HandoutDocument, measures: Measures) -> BaseOxmlElement:
    """``w:styles``: defaults with the document's language, then every style of the handout."""
    brand = document.brand
    rtl = document.direction is Direction.RTL
    defaults = RunFormat(font=brand.font, size_pt=measures.sizes.body, lang=document.language)
    spacing = ParagraphFormat(before_pt=0, after_pt=0, line=1.0)
    normal = Style(
        "Normal",
        "Normal",
        RunFormat(colour=brand.ink),
        ParagraphFormat(bidi=rtl or None),
        based="",
    )
    all_styles = (
        normal,
        *_heading_styles(brand, measures),
        *_part_heading_styles(brand, measures),
        *_overview_styles(brand, measures),
        *_exercise_styles(brand, measures),
        *_list_and_box_styles(brand, measures),
        *_page_styles(brand, measures),
        *_character_styles(brand, measures),
    )
    return element(
        "styles",
        element(
            "docDefaults",
            element("rPrDefault", run_properties(defaults)),
            element("pPrDefault", paragraph_properties(spacing)),
        ),
        *(_style_element(style) for style in all_styles),
        *default_styles(),
        *table_styles(brand),
    )


def _style_element(style: Style) -> BaseOxmlElement:
    attributes: dict[str, object] = {"type": style.kind}
    if style.id == "Normal":
        attributes["default"] = 1
    elif style.name[0].isupper() and style.name not in _BUILT_IN:
        attributes["customStyle"] = 1
    is_paragraph = style.kind == "paragraph"
    based = style.based if is_paragraph else "DefaultParagraphFont"
    return element(
        "style",
        element("name", val=style.name),
        element("basedOn", val=based) if based else None,
        element("next", val=style.then) if style.then else None,
        element("link", val=style.link) if style.link else None,
        element("qFormat"),
        paragraph_properties(style.paragraph) if is_paragraph else None,
        run_properties(style.run),
        **attributes,
        styleId=style.id,
    )


_BUILT_IN = frozenset({"Normal", "Title", "List Bullet", "List Number", "Strong", "Hyperlink"})


def _heading_styles(brand: BrandStyle, measures: Measures) -> Iterator[Style]:
    sizes = measures.sizes
    section = ParagraphFormat(
        keep_next=True, keep_lines=True, before_pt=12, after_pt=4, line=0.95, outline=0
    )
    exercise = ParagraphFormat(
        keep_next=True,
        keep_lines=True,
        borders=(Border("top", brand.brand, 2.5, 6),),
        before_pt=9 if measures.close else 17,
        after_pt=2 if measures.close else 3,
        line=0.92,
        left_mm=measures.hang_mm * 1.75,
        hanging_mm=measures.hang_mm * 1.75,
        outline=1,
    )
    week = ParagraphFormat(
        borders=(Border("top", "", 0),), before_pt=9, after_pt=3, left_mm=0, hanging_mm=0
    )
    bold = RunFormat(bold=True)
    yield Style(
        "Title",
        "Title",
        RunFormat(bold=True, size_pt=sizes.title),
        ParagraphFormat(keep_next=True, keep_lines=True, before_pt=9, after_pt=3, line=0.88),
        then="Lead",
    )
    yield Style("Heading1", "heading 1", RunFormat(bold=True, size_pt=sizes.section), section)
    yield Style("Heading2", "heading 2", RunFormat(bold=True, size_pt=sizes.name), exercise)
    yield Style("LoneExercise", "Lone Exercise", based="Heading2", paragraph=_level(0))
    yield Style(
        "WeekHeading",
        "Week Heading",
        RunFormat(bold=True, size_pt=sizes.lead),
        week,
        based="Heading2",
    )
    yield Style("Lead", "Lead", RunFormat(size_pt=sizes.lead), ParagraphFormat(after_pt=4))
    yield Style("BlockNote", "Block Note", bold, ParagraphFormat(keep_next=True, after_pt=2))


def _part_heading_styles(brand: BrandStyle, measures: Measures) -> Iterator[Style]:
    sizes = measures.sizes
    stage = ParagraphFormat(
        keep_next=True,
        keep_lines=True,
        borders=frame(brand.brand, 0.5, 5, 8),
        shade=brand.brand,
        before_pt=16,
        after_pt=10,
        line=0.95,
        left_mm=PANEL_INSET_MM,
        right_mm=PANEL_INSET_MM,
        outline=0,
    )
    yield Style(
        "StageHeading",
        "Stage Heading",
        RunFormat(bold=True, size_pt=sizes.name, colour=brand.on_brand),
        stage,
        based="Heading1",
    )
    yield Style(
        "ReadyHeading",
        "Ready Heading",
        RunFormat(bold=True, size_pt=sizes.name),
        ParagraphFormat(borders=(Border("top", brand.brand, 2.5, 6),), before_pt=14, after_pt=2),
        based="Heading1",
    )
    yield Style(
        "DiaryHeading", "Diary Heading", RunFormat(bold=True, size_pt=sizes.name), based="Heading1"
    )
    yield Style(
        "SmallHeading",
        "Small Heading",
        RunFormat(bold=True, size_pt=sizes.footer, colour=brand.soft),
        ParagraphFormat(
            borders=(Border("top", brand.rule, 0.5, 6),), before_pt=10, after_pt=1, line=1.0
        ),
        based="Heading1",
    )


def _level(outline: int) -> ParagraphFormat:
    return ParagraphFormat(outline=outline)


def _overview_styles(brand: BrandStyle, measures: Measures) -> Iterator[Style]:
    sizes = measures.sizes
    bold = RunFormat(bold=True)
    brand_bold = RunFormat(bold=True, colour=brand.brand_text)
    yield Style("HeadingNote", "Heading Note", RunFormat(colour=brand.soft), _after(3))
    yield Style("StairLabel", "Stair Label", brand_bold, _after(2))
    step = ParagraphFormat(line=0.95, left_mm=2, right_mm=2)
    yield Style("StairStep", "Stair Step", paragraph=step)
    yield Style(
        "StairHere",
        "Stair Here",
        RunFormat(bold=True, colour=brand.on_brand),
        based="StairStep",
    )
    yield Style("GlanceName", "Glance Name", bold, ParagraphFormat(before_pt=3, line=0.95))
    dose = RunFormat(bold=True, colour=brand.brand_text, size_pt=sizes.lead)
    yield Style("GlanceDose", "Glance Dose", dose, ParagraphFormat(after_pt=3, line=0.95))
    head = RunFormat(bold=True, size_pt=sizes.lead)
    yield Style("FactHead", "Fact Headline", head, ParagraphFormat(before_pt=4, line=0.95))
    yield Style("FactDetail", "Fact Detail", paragraph=ParagraphFormat(after_pt=4, line=0.95))
    yield Style(
        "PainNumber", "Pain Number", bold, ParagraphFormat(before_pt=4, after_pt=4, align="center")
    )
    yield Style("PainZone", "Pain Zone", paragraph=ParagraphFormat(before_pt=2, after_pt=2))
    yield Style("PainNote", "Pain Note", paragraph=ParagraphFormat(before_pt=1))


def _after(points: float) -> ParagraphFormat:
    return ParagraphFormat(after_pt=points, keep_next=True)


def _exercise_styles(brand: BrandStyle, measures: Measures) -> Iterator[Style]:
    sizes = measures.sizes
    dose = RunFormat(bold=True, size_pt=sizes.name, colour=brand.brand_text)
    yield Style("Dose", "Dose", dose, ParagraphFormat(after_pt=3, line=0.92), link="DoseInline")
    yield Style("Why", "Why", RunFormat(colour=brand.soft), _after(3))
    yield Style("Detail", "Detail", paragraph=ParagraphFormat(after_pt=3))
    yield Style("WeekDose", "Week Dose", paragraph=ParagraphFormat(before_pt=2))
    label = RunFormat(colour=brand.soft)
    yield Style("PictureLabel", "Picture Label", label, ParagraphFormat(after_pt=2))
    yield Style("Picture", "Picture", paragraph=ParagraphFormat(after_pt=3))
    yield Style("TipsHeading", "Tips Heading", RunFormat(bold=True), _after(1))
    head = RunFormat(bold=True, size_pt=sizes.lead)
    yield Style("ChangeHeading", "Change Heading", head, _after(3))
    yield Style("ChangeNote", "Change Note", based="Normal", paragraph=_after(3))
    option = ParagraphFormat(keep_next=True, before_pt=3)
    yield Style("OptionLabel", "Option Label", RunFormat(bold=True), option)
    yield Style("OptionText", "Option Text")
    yield Style("OptionDose", "Option Dose", RunFormat(bold=True, colour=brand.brand_text))


def _list_and_box_styles(brand: BrandStyle, measures: Measures) -> Iterator[Style]:
    hang = measures.hang_mm
    item = ParagraphFormat(left_mm=hang, hanging_mm=hang, after_pt=3)
    yield Style("Steps", "Steps", paragraph=item)
    yield Style("ListNumber", "List Number", paragraph=item)
    yield Style("ListBullet", "List Bullet", paragraph=item)
    tick = ParagraphFormat(left_mm=hang * 1.2, hanging_mm=hang * 1.2, before_pt=2, after_pt=3)
    yield Style("Checklist", "Checklist", paragraph=tick)
    yield Style("Outcome", "Outcome", paragraph=ParagraphFormat(before_pt=2, after_pt=2))
    mark = ParagraphFormat(keep_lines=True, left_mm=hang, hanging_mm=hang, before_pt=3, after_pt=3)
    yield Style("Caution", "Caution", paragraph=mark)
    yield Style("StopNote", "Stop Note", based="Caution")
    inset = 4.0
    stop = ParagraphFormat(
        keep_lines=True,
        borders=frame(brand.ink, 2, 6, round(inset * 2.83) - 1),
        left_mm=inset + hang,
        hanging_mm=hang,
        right_mm=inset,
    )
    yield Style("Stop", "Stop", paragraph=stop)
    lead = RunFormat(bold=True, size_pt=measures.sizes.lead)
    yield Style("StopLead", "Stop Lead", lead, ParagraphFormat(keep_next=True), based="Stop")
    yield Style("StopSign", "Stop Sign", based="Stop")
    phone = RunFormat(bold=True, size_pt=measures.sizes.phone)
    yield Style("StopPhone", "Stop Phone", phone, ParagraphFormat(line=0.95), based="Stop")
    cell = ParagraphFormat(left_mm=hang, hanging_mm=hang, line=0.97)
    yield Style("StopCellLead", "Stop Cell Lead", lead, cell)
    yield Style("StopCellSign", "Stop Cell Sign", paragraph=cell)
    yield Style("StopCellPhone", "Stop Cell Phone", phone, ParagraphFormat(line=0.95))
    panel = ParagraphFormat(
        borders=frame(brand.tint, 0.5, 6, 8),
        shade=brand.tint,
        left_mm=PANEL_INSET_MM + hang,
        hanging_mm=hang,
        right_mm=PANEL_INSET_MM,
    )
    yield Style("Panel", "Panel", paragraph=panel)
    yield Style(
        "PanelHeading",
        "Panel Heading",
        RunFormat(bold=True, size_pt=measures.sizes.section),
        evolve(panel, before_pt=16, after_pt=0),
        based="Heading1",
    )
    yield Style("NoteText", "Note Text", paragraph=ParagraphFormat(after_pt=4))


def _page_styles(brand: BrandStyle, measures: Measures) -> Iterator[Style]:
    sizes = measures.sizes
    yield Style("Masthead", "Masthead", paragraph=ParagraphFormat(after_pt=2))
    small = RunFormat(size_pt=sizes.footer, colour=brand.soft)
    yield Style("SmallPrint", "Small Print", small, ParagraphFormat(keep_lines=True))
    yield Style("DiaryHead", "Diary Head", RunFormat(bold=True), ParagraphFormat(align="center"))
    cell = ParagraphFormat(before_pt=2.5, after_pt=2, line=0.95)
    yield Style("DiaryCell", "Diary Cell", paragraph=cell)
    yield Style("Gap", "Gap", paragraph=ParagraphFormat(exact_pt=8, keep_next=True))
    rule = (Border("top", brand.rule, 0.5, 4),)
    yield Style("Footer", "footer", small, ParagraphFormat(borders=rule))
    yield Style("Header", "header", small)
    banner = ParagraphFormat(
        borders=frame(brand.ink, 0.75, 3, 6),
        shade=brand.ink,
        after_pt=12,
        left_mm=2.5,
        right_mm=2.5,
        align="center",
    )
    look = RunFormat(bold=True, size_pt=sizes.lead, colour=WHITE)
    yield Style("Banner", "Banner", look, banner, based="Header")


def _character_styles(brand: BrandStyle, measures: Measures) -> Iterator[Style]:
    sizes = measures.sizes
    looks = (
        ("Strong", "Strong", RunFormat(bold=True)),
        ("Hyperlink", "Hyperlink", RunFormat(colour=brand.brand_text, underline=True)),
        ("Number", "Number", RunFormat(colour=brand.on_brand, shade=brand.brand, bold=True)),
        ("OnDark", "On Dark", RunFormat(colour=WHITE)),
        ("OnDarkStrong", "On Dark Strong", RunFormat(bold=True, colour=WHITE)),
        ("Soft", "Soft", RunFormat(colour=brand.soft)),
        ("Clinic", "Clinic", RunFormat(bold=True, size_pt=sizes.body)),
        ("BodySize", "Body Size", RunFormat(bold=False, size_pt=sizes.body)),
    )
    for style_id, name, look in looks:
        yield Style(style_id, name, look, kind="character")
    dose = RunFormat(bold=True, size_pt=sizes.name, colour=brand.brand_text)
    yield Style("DoseInline", "Dose Inline", dose, kind="character", link="Dose")
