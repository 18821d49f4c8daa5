"""Theme and font table: the clinic's colours and font as Word offers them in its menus."""

from __future__ import annotations

from xml.sax.saxutils import quoteattr

from docx.oxml.parser import parse_xml
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import BrandStyle
from authoring.handout.docx_format import element, hexadecimal

_DRAWING = "http://schemas.openxmlformats.org/drawingml/2006/main"
_FILL = '<a:solidFill><a:schemeClr val="phClr"/></a:solidFill>'
_LINE = f'<a:ln w="9525">{_FILL}</a:ln>'
_NO_EFFECT = "<a:effectStyle><a:effectLst/></a:effectStyle>"


def theme_root(brand: BrandStyle) -> BaseOxmlElement:
    """``a:theme`` whose palette is the clinic's, so that edits stay in its colours."""
    colours = {
        "dk1": brand.ink,
        "lt1": "#FFFFFF",
        "dk2": brand.soft,
        "lt2": brand.tint,
        "accent1": brand.brand,
        "accent2": brand.brand_text,
        "accent3": brand.middle,
        "accent4": brand.rule,
        "accent5": brand.soft,
        "accent6": brand.ink,
        "hlink": brand.brand_text,
        "folHlink": brand.brand_text,
    }
    palette = "".join(
        f'<a:{name}><a:srgbClr val="{hexadecimal(colour)}"/></a:{name}>'
        for name, colour in colours.items()
    )
    face = quoteattr(brand.font)
    fonts = f'<a:latin typeface={face}/><a:ea typeface=""/><a:cs typeface={face}/>'
    root: BaseOxmlElement = parse_xml(
        f'<a:theme xmlns:a="{_DRAWING}" name="Handout"><a:themeElements>'
        f'<a:clrScheme name="Clinic">{palette}</a:clrScheme>'
        f'<a:fontScheme name="Clinic"><a:majorFont>{fonts}</a:majorFont>'
        f"<a:minorFont>{fonts}</a:minorFont></a:fontScheme>"
        f'<a:fmtScheme name="Plain"><a:fillStyleLst>{_FILL * 3}</a:fillStyleLst>'
        f"<a:lnStyleLst>{_LINE * 3}</a:lnStyleLst>"
        f"<a:effectStyleLst>{_NO_EFFECT * 3}</a:effectStyleLst>"
        f"<a:bgFillStyleLst>{_FILL * 3}</a:bgFillStyleLst></a:fmtScheme>"
        "</a:themeElements></a:theme>"
    )
    return root


def font_table_root(brand: BrandStyle) -> BaseOxmlElement:
    """``w:fonts`` naming the handout's font, with a common sans serif where it is missing."""
    font = element(
        "font",
        element("altName", val="Verdana"),
        element("charset", val="00"),
        element("family", val="swiss"),
        element("pitch", val="variable"),
        name=brand.font,
    )
    return element("fonts", font)
