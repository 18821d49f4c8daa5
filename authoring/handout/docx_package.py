"""The Word package around the body: fixed parts, page furniture, properties, stable bytes."""

from __future__ import annotations

import re
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from docx import Document
from docx.document import Document as WordDocument
from docx.opc.oxml import serialize_part_xml
from docx.oxml.parser import OxmlElement
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Direction, HandoutDocument
from authoring.handout.docx_format import (
    ParagraphFormat,
    RunFormat,
    Tab,
    element,
    paragraph_properties,
    run_properties,
    twips_of_mm,
)
from authoring.handout.docx_measures import Measures
from authoring.handout.docx_numbering import numbering_root
from authoring.handout.docx_styles import styles_root
from authoring.handout.docx_text import text_run
from authoring.handout.docx_theme import font_table_root, theme_root

HEADER_ID, FOOTER_ID = "rId101", "rId102"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_WORD = "application/vnd.openxmlformats-officedocument.wordprocessingml"
_PROPERTY_LIMIT = 255
_EARLIEST = (1980, 1, 1, 0, 0, 0)
_COMPATIBILITY = "http://schemas.microsoft.com/office/word"


def open_package(document: HandoutDocument, measures: Measures) -> WordDocument:
    """A Word document with styles, lists, page furniture and properties, and an empty body."""
    stream = BytesIO()
    parts = _parts(document, measures)
    with ZipFile(stream, "w", ZIP_DEFLATED) as package:
        package.writestr("[Content_Types].xml", _content_types(tuple(parts)))
        package.writestr("_rels/.rels", _package_relations())
        package.writestr("word/_rels/document.xml.rels", _document_relations(tuple(parts)))
        package.writestr("docProps/core.xml", _core_properties(document))
        for name, root in parts.items():
            package.writestr(f"word/{name}.xml", serialize_part_xml(root))
    return Document(BytesIO(stream.getvalue()))


def close_package(word: WordDocument) -> bytes:
    """The finished file; the same document always gives the same bytes."""
    loose = BytesIO()
    word.save(loose)
    fixed = BytesIO()
    with ZipFile(loose) as source, ZipFile(fixed, "w", ZIP_DEFLATED) as target:
        for name in source.namelist():
            entry = ZipInfo(name, _EARLIEST)
            entry.compress_type = ZIP_DEFLATED
            entry.create_system = 0
            target.writestr(entry, source.read(name))
    return fixed.getvalue()


def section_properties(
    document: HandoutDocument, measures: Measures, *, columns: int = 1, first: bool = False
) -> BaseOxmlElement:
    """``w:sectPr`` of one section; ``first`` starts the document and names its page furniture."""
    references = []
    if first:
        references = [_reference("footerReference", FOOTER_ID)]
        if document.banner:
            references.insert(0, _reference("headerReference", HEADER_ID))
    side = twips_of_mm(measures.side_mm)
    gap = {"num": columns, "space": twips_of_mm(6)} if columns > 1 else {"space": 0}
    return element(
        "sectPr",
        *references,
        None if first else element("type", val="continuous"),
        element("pgSz", w=twips_of_mm(measures.width_mm), h=twips_of_mm(measures.height_mm)),
        element(
            "pgMar",
            top=twips_of_mm(measures.top_mm),
            right=side,
            bottom=twips_of_mm(measures.bottom_mm),
            left=side,
            header=twips_of_mm(7),
            footer=twips_of_mm(8),
            gutter=0,
        ),
        element("cols", **gap),
        element("bidi") if document.direction is Direction.RTL else None,
    )


def _reference(tag: str, relation: str) -> BaseOxmlElement:
    made = element(tag, type="default")
    made.set(f"{{{_OFFICE}}}id", relation)
    return made


def _parts(document: HandoutDocument, measures: Measures) -> dict[str, BaseOxmlElement]:
    parts = {
        "document": element("document", element("body")),
        "styles": styles_root(document, measures),
        "numbering": numbering_root(document.brand, measures),
        "settings": _settings(document),
        "theme/theme1": theme_root(document.brand),
        "fontTable": font_table_root(document.brand),
        "footer1": _footer(document, measures),
    }
    if document.banner:
        parts["header1"] = _header(document)
    return parts


def _settings(document: HandoutDocument) -> BaseOxmlElement:
    modern = element("compatSetting", name="compatibilityMode", uri=_COMPATIBILITY, val=15)
    return element(
        "settings",
        element("zoom", percent=100),
        element("defaultTabStop", val=567),
        element("characterSpacingControl", val="doNotCompress"),
        element("compat", modern),
        element("themeFontLang", val=document.language),
        element("decimalSymbol", val="."),
        element("listSeparator", val=","),
    )


def _header(document: HandoutDocument) -> BaseOxmlElement:
    rtl = document.direction is Direction.RTL
    look = ParagraphFormat(style="Banner", bidi=rtl or None)
    return element(
        "hdr", element("p", paragraph_properties(look), text_run(document.banner, rtl=rtl))
    )


def _footer(document: HandoutDocument, measures: Measures) -> BaseOxmlElement:
    rtl = document.direction is Direction.RTL
    end = Tab(measures.text_mm, "right")
    look = ParagraphFormat(style="Footer", tabs=(end,), bidi=rtl or None)
    runs = [text_run(document.footer, rtl=rtl), element("r", element("tab"))]
    for piece in re.split(r"(\{pages?\})", document.page_label):
        field = {"{page}": "PAGE", "{pages}": "NUMPAGES"}.get(piece)
        runs += _field(field) if field else [text_run(piece, rtl=rtl)] if piece else []
    return element("ftr", element("p", paragraph_properties(look), *runs))


def _field(instruction: str) -> list[BaseOxmlElement]:
    """A field with a first value, which Word replaces when it lays out the page."""
    code = element("instrText")
    code.text = f" {instruction} "
    code.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
    value = element("t")
    value.text = "1"
    marks = {kind: element("fldChar", fldCharType=kind) for kind in ("begin", "separate", "end")}
    order = (marks["begin"], code, marks["separate"], value, marks["end"])
    return [element("r", run_properties(RunFormat(rtl=None)), child) for child in order]


def _core_properties(document: HandoutDocument) -> bytes:
    root: BaseOxmlElement = OxmlElement("cp:coreProperties")
    fields = (
        ("dc:title", document.title),
        ("dc:subject", document.subject),
        ("dc:creator", document.author),
        ("dc:language", document.language),
    )
    for tag, text in fields:
        child = OxmlElement(tag)
        child.text = text if len(text) <= _PROPERTY_LIMIT else f"{text[: _PROPERTY_LIMIT - 1]}…"
        root.append(child)
    return serialize_part_xml(root)


def _content_types(parts: tuple[str, ...]) -> str:
    overrides = "".join(
        f'<Override PartName="/word/{name}.xml" ContentType="{_content_type(name)}"/>'
        for name in parts
    )
    return (
        f'<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        '<Default Extension="xml" ContentType="application/xml"/>'
        '<Override PartName="/docProps/core.xml" '
        'ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>'
        f"{overrides}</Types>"
    )


def _content_type(part: str) -> str:
    kind = _kind(part)
    if kind == "theme":
        return "application/vnd.openxmlformats-officedocument.theme+xml"
    return f"{_WORD}.{kind}.main+xml" if kind == "document" else f"{_WORD}.{kind}+xml"


def _kind(part: str) -> str:
    """The last word of a part's content type and relationship type."""
    return part.rpartition("/")[2].rstrip("1")


def _package_relations() -> str:
    core = f"{_PACKAGE}/relationships/metadata/core-properties"
    return _relations(
        (
            ("rId1", f"{_OFFICE}/officeDocument", "word/document.xml"),
            ("rId2", core, "docProps/core.xml"),
        )
    )


def _document_relations(parts: tuple[str, ...]) -> str:
    names = {"header1": HEADER_ID, "footer1": FOOTER_ID}
    rest = (part for part in parts if part != "document")
    return _relations(
        tuple(
            (names.get(part, f"rId{90 + index}"), f"{_OFFICE}/{_kind(part)}", f"{part}.xml")
            for index, part in enumerate(rest)
        )
    )


def _relations(relations: tuple[tuple[str, str, str], ...]) -> str:
    rows = "".join(
        f'<Relationship Id="{name}" Type="{kind}" Target="{target}"/>'
        for name, kind, target in relations
    )
    return f'<Relationships xmlns="{_PACKAGE}/relationships">{rows}</Relationships>'
