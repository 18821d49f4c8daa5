"""Reads a tagged PDF back as a screen reader would: by its structure tree.

The tree comes from pikepdf and the letters of each marked run from PDFium, so that
nothing of the program that wrote the file takes part in reading it.
"""

from __future__ import annotations

import ctypes
import re
from collections import defaultdict
from collections.abc import Iterator
from io import BytesIO

import pikepdf
import pypdfium2  # type: ignore[import-untyped]  # ships no types
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]
from attrs import frozen

# Labels that a list adds of itself are no words of the handout; a step's bare number is one.
LIST_LABEL = re.compile(r"•|\d+\.")


@frozen
class Tag:
    """One node of the structure tree: its role, alternative text, own text and page (from 0)."""

    role: str
    alt: str | None
    text: str
    attributes: tuple[str, ...]
    page: int | None


@frozen
class Run:
    """One run of text on the page and its box, in points."""

    text: str
    left: float
    bottom: float
    right: float
    top: float


def tagged_tokens(pdf: bytes) -> list[str]:
    """The words in tagged order, split at white space, artifacts left out."""
    spoken = (
        tag.text
        for tag in tags(pdf)
        if not (tag.role == "Lbl" and LIST_LABEL.fullmatch(tag.text.strip()))
    )
    return [token for text in spoken for token in text.split()]


def tags(pdf: bytes) -> list[Tag]:
    """Every structure element, parents before children, each with its own runs of text.

    An element's text is what stands directly in it; where a child comes in between,
    the rest follows as a nameless element, so that the list keeps the reading order.
    """
    runs = marked_text(pdf)
    with pikepdf.open(BytesIO(pdf)) as file:
        pages = {page.obj.objgen: index for index, page in enumerate(file.pages)}
        root = file.Root.StructTreeRoot
        return [tag for kid in _kids(root) for tag in _walk(kid, runs, pages, None)]


def artifact_tokens(pdf: bytes) -> list[list[str]]:
    """The words of each page outside the structure tree: footer, banner, marks."""
    runs = marked_text(pdf)
    pages = max((page for page, _ in runs), default=-1) + 1
    return [runs.get((page, -1), "").split() for page in range(pages)]


def marked_text(pdf: bytes) -> dict[tuple[int, int], str]:
    """Text by page (from 0) and marked content id; id -1 holds the artifacts."""
    found: dict[tuple[int, int], list[Run]] = defaultdict(list)
    file = pypdfium2.PdfDocument(pdf)
    for index in range(len(file)):
        page = file[index]
        text_page = pdfium.FPDFText_LoadPage(page.raw)
        for item in _objects(page.raw):
            mark = pdfium.FPDFPageObj_GetMarkedContentID(item)
            found[index, mark].append(Run(_object_text(item, text_page), *_bounds(item)))
        pdfium.FPDFText_ClosePage(text_page)
        page.close()
    file.close()
    return {key: _joined(runs) for key, runs in found.items()}


def _joined(runs: list[Run]) -> str:
    """Runs with a space between them, except where one goes on right after the other."""
    text, before = "", None
    for run in runs:
        height = run.top - run.bottom
        follows = (
            before is not None
            and abs(run.left - before.right) < 0.12 * height
            and min(run.top, before.top) > max(run.bottom, before.bottom)
        )
        text += run.text if follows else " " + run.text
        before = run
    return text


def _bounds(item: object) -> tuple[float, float, float, float]:
    edges = [ctypes.c_float() for _ in range(4)]
    pdfium.FPDFPageObj_GetBounds(item, *map(ctypes.byref, edges))
    left, bottom, right, top = (edge.value for edge in edges)
    return left, bottom, right, top


@frozen
class Printed:
    """One thing on a page, in points: its edges, and the size of type (0: no text)."""

    page_width: float
    page_height: float
    left: float
    right: float
    type_size: float


def printed(pdf: bytes) -> list[Printed]:
    """Everything that is drawn, page by page."""
    found = []
    file = pypdfium2.PdfDocument(pdf)
    for page in file:
        for item in page.get_objects():
            size = ctypes.c_float()
            text = item.type == pdfium.FPDF_PAGEOBJ_TEXT
            if text:
                pdfium.FPDFTextObj_GetFontSize(item.raw, size)
            left, _, right, _ = item.get_bounds()
            scale = abs(item.get_matrix().d) if text else 0.0
            width, height = page.get_size()
            found.append(Printed(width, height, left, right, size.value * scale))
        page.close()
    file.close()
    return found


def _objects(page: object) -> Iterator[object]:
    for number in range(pdfium.FPDFPage_CountObjects(page)):
        item = pdfium.FPDFPage_GetObject(page, number)
        if pdfium.FPDFPageObj_GetType(item) == pdfium.FPDF_PAGEOBJ_TEXT:
            yield item


def _object_text(item: object, text_page: object) -> str:
    size = pdfium.FPDFTextObj_GetText(item, text_page, None, 0)
    buffer = ctypes.create_string_buffer(size * 2)
    pdfium.FPDFTextObj_GetText(
        item, text_page, ctypes.cast(buffer, ctypes.POINTER(ctypes.c_ushort)), size
    )
    return buffer.raw.decode("utf-16-le").split("\0")[0].replace("\u200b", "")


def _kids(node: pikepdf.Object) -> list[pikepdf.Object]:
    kids = node.get("/K")
    if kids is None:
        return []
    return list(kids) if isinstance(kids, pikepdf.Array) else [kids]


def _walk(
    node: pikepdf.Object,
    runs: dict[tuple[int, int], str],
    pages: dict[tuple[int, int], int],
    page: int | None,
) -> Iterator[Tag]:
    if "/Pg" in node:
        page = pages[node.Pg.objgen]
    role = str(node.S).lstrip("/")
    alt = str(node.Alt) if "/Alt" in node else None
    attributes = tuple(str(value) for value in _attributes(node))
    text, at, first = "", None, True
    for kid in _kids(node):
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            if first or text.strip():
                yield Tag(role if first else "", alt if first else None, text, attributes, at)
            text, at, first = "", None, False
            yield from _walk(kid, runs, pages, page)
        else:
            place = _place(kid, pages, page)
            text += runs.get(place, "")
            at = place[0] if at is None else at
    if first or text.strip():
        yield Tag(role if first else "", alt if first else None, text, attributes, at)


def _place(
    kid: pikepdf.Object, pages: dict[tuple[int, int], int], page: int | None
) -> tuple[int, int]:
    """Page and marked content id of a run; the id is -2 for a link's rectangle."""
    number = -2
    if isinstance(kid, pikepdf.Dictionary):
        page = pages[kid.Pg.objgen] if "/Pg" in kid else page
        if kid.get("/Type") != "/OBJR":
            number = int(kid.MCID)
    else:
        number = int(kid)
    assert page is not None, "a marked run that names no page"
    return page, number


def _attributes(node: pikepdf.Object) -> Iterator[object]:
    owners = node.get("/A")
    if owners is None:
        return
    for owner in owners if isinstance(owners, pikepdf.Array) else [owners]:
        yield from (owner[key] for key in ("/Scope", "/ListNumbering") if key in owner)
