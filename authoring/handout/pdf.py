"""Writes a handout as a tagged, archival PDF (PDF/UA-1, PDF/A-2a) through a fixed template."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TypeVar

import typst

from authoring import resources
from authoring.handout.document import HandoutDocument, Picture
from authoring.handout.errors import HandoutError
from authoring.handout.pdf_data import SUFFIXES, picture_file, plain
from authoring.handout.pdf_faults import picture_sentence, sentence
from authoring.handout.words import part_pictures

# The same handout gives the same bytes, whenever it is printed.
TIMESTAMP = datetime(2000, 1, 1, tzinfo=UTC)
MAIN = "handout.typ"
_T = TypeVar("_T")


def write_pdf(document: HandoutDocument) -> bytes:
    """The bytes of a tagged PDF with every word of ``document`` in reading order.

    Safe to call from several threads.

    Raises:
        HandoutError: a letter that the font lacks, an unknown font, a picture that
            can't be read, or anything else the page can't show.
    """
    return _in_a_folder(document, _compile)


def count_pages(document: HandoutDocument) -> int:
    """Pages that the PDF of ``document`` takes.

    Raises:
        HandoutError: as for :func:`write_pdf`.
    """
    return _in_a_folder(document, _counted)


def _in_a_folder(document: HandoutDocument, make: Callable[[typst.Compiler], _T]) -> _T:
    pictures = _pictures(document)
    try:
        with TemporaryDirectory(prefix="handout-") as folder:
            return _written(document, pictures, Path(folder), make)
    except OSError as error:
        raise HandoutError(
            f"The PDF needs room in the temporary folder, which can't be used: {error.strerror}; "
            "free some space there and try again."
        ) from error


def _written(
    document: HandoutDocument,
    pictures: tuple[Picture, ...],
    root: Path,
    make: Callable[[typst.Compiler], _T],
) -> _T:
    for source in (resources.templates() / "handout").glob("*.typ"):
        shutil.copyfile(source, root / source.name)
    for picture in pictures:
        (root / picture_file(picture)).write_bytes(picture.data)
    try:
        return make(_for_document(document, root))
    except _WarnedError as warned:
        raise HandoutError(sentence(str(warned), document)) from warned
    except typst.TypstError as error:
        broken = next((each for each in pictures if not _readable(each, root)), None)
        text = picture_sentence(broken) if broken else sentence(error.message, document)
        raise HandoutError(text) from error


class _WarnedError(Exception):
    """The page maker warned of something that a page must not have."""


def _for_document(document: HandoutDocument, root: Path) -> typst.Compiler:
    data = json.dumps(plain(document), ensure_ascii=False)
    try:
        return _compiler(root / MAIN, {"handout": data})
    except UnicodeEncodeError as error:
        raise HandoutError(
            f"A text of the handout holds half a character ({error.object[error.start]!r}); "
            "type it again."
        ) from error


def _compile(compiler: typst.Compiler) -> bytes:
    pdf, warnings = compiler.compile_with_warnings(
        format="pdf", pdf_standards=["ua-1", "a-2a"], timestamp=TIMESTAMP
    )
    if warnings:
        raise _WarnedError(warnings[0].message)
    if not isinstance(pdf, bytes):
        raise HandoutError("The page maker returned no file.")
    return pdf


def _counted(compiler: typst.Compiler) -> int:
    return int(json.loads(compiler.query("<pages>", field="value", one=True)))


def _compiler(main: Path, inputs: dict[str, str]) -> typst.Compiler:
    # Packages are looked for in the folder of this run alone, so nothing is fetched.
    root = str(main.parent)
    return typst.Compiler(
        str(main),
        root=root,
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs=inputs,
        package_path=root,
        package_cache_path=root,
    )


def _readable(picture: Picture, root: Path) -> bool:
    main = root / "picture.typ"
    main.write_text("#image(sys.inputs.file)", encoding="utf-8")
    try:
        _compiler(main, {"file": picture_file(picture)}).compile(format="pdf")
    except typst.TypstError:
        return False
    return True


def _pictures(document: HandoutDocument) -> tuple[Picture, ...]:
    logo = document.brand.logo
    found = [logo] if logo else []
    found += [picture for part in document.parts for picture in part_pictures(part)]
    for picture in found:
        if picture.media_type not in SUFFIXES or picture.width_px < 1 or picture.height_px < 1:
            raise HandoutError(picture_sentence(picture))
    return tuple(found)


@cache
def _fonts() -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False,
        include_embedded_fonts=False,
        font_paths=[str(resources.fonts())],
    )
