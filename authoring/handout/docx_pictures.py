"""Pictures in the text line: PNG, JPEG, and SVG with a PNG for programs that need one.

A picture that tells something carries its alternative text; a mark that only
decorates says so (``adec:decorative``), so that a screen reader passes over it.
"""

from __future__ import annotations

from functools import lru_cache
from hashlib import sha256
from io import BytesIO
from xml.sax.saxutils import quoteattr

import resvg_py
from docx.opc.constants import RELATIONSHIP_TYPE
from docx.opc.packuri import PackURI
from docx.opc.part import Part
from docx.oxml.parser import parse_xml
from docx.oxml.xmlchemy import BaseOxmlElement
from docx.parts.document import DocumentPart
from PIL import Image

from authoring.handout.document import Picture
from authoring.handout.docx_format import EMU_PER_MM, element
from authoring.handout.errors import HandoutError

_DOTS_PER_MM = 12
_DROP = 4  # half points by which a mark hangs below the line, to stand level with capitals
_EXTENSIONS = {"image/png": "png", "image/jpeg": "jpg", "image/svg+xml": "svg"}
_DRAWING = "http://schemas.openxmlformats.org/drawingml/2006"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_DECORATIVE = (
    '<a:extLst><a:ext uri="{C183D7F6-B498-43B3-948B-1728B52AA6E4}"><adec:decorative '
    'xmlns:adec="http://schemas.microsoft.com/office/drawing/2017/decorative" val="1"/>'
    "</a:ext></a:extLst>"
)


def fit(picture: Picture, width_mm: float, height_mm: float) -> tuple[float, float]:
    """Largest size (width, height in mm) within a box that keeps the picture's shape."""
    scale = min(width_mm / picture.width_px, height_mm / picture.height_px)
    return picture.width_px * scale, picture.height_px * scale


class Pictures:
    """Adds pictures to a document part; the same bytes are stored once."""

    def __init__(self, part: DocumentPart) -> None:
        self._part = part
        self._relations: dict[str, str] = {}
        self._count = 0

    def run(self, picture: Picture, size_mm: tuple[float, float]) -> BaseOxmlElement:
        """A run that shows ``picture``, read out by its alternative text.

        Raises:
            HandoutError: the picture can't be read.
        """
        return self._run(picture, size_mm, decorative=False)

    def mark(self, svg: str, size_mm: tuple[float, float]) -> BaseOxmlElement:
        """A run with a decorative mark of our own."""
        picture = Picture(svg.encode(), "image/svg+xml", "", "", 1, 1)
        return self._run(picture, size_mm, decorative=True)

    def _run(
        self, picture: Picture, size_mm: tuple[float, float], *, decorative: bool
    ) -> BaseOxmlElement:
        vector = picture.media_type == "image/svg+xml"
        if vector:
            raster = self._relate(_png(picture, round(size_mm[0] * _DOTS_PER_MM)), "image/png")
            extension = _svg_extension(self._relate(picture.data, picture.media_type))
        else:
            raster = self._relate(_checked(picture), picture.media_type)
            extension = ""
        self._count += 1
        xml = _inline(self._count, picture.alt, size_mm, raster, extension, decorative=decorative)
        inline: BaseOxmlElement = parse_xml(xml)
        lowered = element("rPr", element("position", val=-_DROP)) if decorative else None
        return element("r", lowered, element("drawing", inline))

    def _relate(self, data: bytes, media_type: str) -> str:
        key = sha256(data).hexdigest()
        if key not in self._relations:
            name = f"/word/media/picture{len(self._relations) + 1}.{_EXTENSIONS[media_type]}"
            part = Part(PackURI(name), media_type, data, self._part.package)
            self._relations[key] = self._part.relate_to(part, RELATIONSHIP_TYPE.IMAGE)
        return self._relations[key]


def _checked(picture: Picture) -> bytes:
    form = {"image/png": "PNG", "image/jpeg": "JPEG"}.get(picture.media_type)
    if form is None:
        raise HandoutError(
            f"The picture “{picture.alt}” is {picture.media_type}; use PNG, JPEG or SVG."
        )
    try:
        with Image.open(BytesIO(picture.data), formats=(form,)) as image:
            image.verify()
    except (OSError, SyntaxError, ValueError) as fault:
        raise HandoutError(
            f"The picture “{picture.alt}” is no readable {form} file; put in another one."
        ) from fault
    return picture.data


def _png(picture: Picture, width_px: int) -> bytes:
    try:
        return _rasterised(picture.data, width_px)
    except (ValueError, UnicodeDecodeError) as fault:
        raise HandoutError(
            f"The picture “{picture.alt}” is no readable SVG file; put in another one."
        ) from fault


@lru_cache(maxsize=256)
def _rasterised(svg: bytes, width_px: int) -> bytes:
    return bytes(resvg_py.svg_to_bytes(svg_string=svg.decode(), width=width_px))


def _svg_extension(relation: str) -> str:
    return (
        '<a:extLst><a:ext uri="{96DAC541-7B7A-43D3-8B79-37D633B846F1}"><asvg:svgBlip '
        'xmlns:asvg="http://schemas.microsoft.com/office/drawing/2016/SVG/main" '
        f'r:embed="{relation}"/></a:ext></a:extLst>'
    )


def _inline(
    number: int,
    alt: str,
    size_mm: tuple[float, float],
    raster: str,
    extension: str,
    *,
    decorative: bool,
) -> str:
    width, height = (round(length * EMU_PER_MM) for length in size_mm)
    description = "" if decorative else f" descr={quoteattr(alt)}"
    decoration = _DECORATIVE if decorative else ""
    return (
        '<wp:inline distT="0" distB="0" distL="0" distR="0" '
        f'xmlns:wp="{_DRAWING}/wordprocessingDrawing" xmlns:a="{_DRAWING}/main" '
        f'xmlns:pic="{_DRAWING}/picture" xmlns:r="{_OFFICE}">'
        f'<wp:extent cx="{width}" cy="{height}"/>'
        f'<wp:docPr id="{number}" name="Picture {number}"{description}>{decoration}</wp:docPr>'
        '<wp:cNvGraphicFramePr><a:graphicFrameLocks noChangeAspect="1"/></wp:cNvGraphicFramePr>'
        f'<a:graphic><a:graphicData uri="{_DRAWING}/picture"><pic:pic><pic:nvPicPr>'
        f'<pic:cNvPr id="{number}" name="Picture {number}"/><pic:cNvPicPr/></pic:nvPicPr>'
        f'<pic:blipFill><a:blip r:embed="{raster}">{extension}</a:blip>'
        "<a:stretch><a:fillRect/></a:stretch></pic:blipFill><pic:spPr>"
        f'<a:xfrm><a:off x="0" y="0"/><a:ext cx="{width}" cy="{height}"/></a:xfrm>'
        '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></pic:spPr></pic:pic>'
        "</a:graphicData></a:graphic></wp:inline>"
    )
