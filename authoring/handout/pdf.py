"""Writes a handout as a tagged PDF (PDF/UA-1) through the fixed page template."""

from __future__ import annotations

import json
import shutil
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

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


def write_pdf(document: HandoutDocument) -> bytes:
    """The bytes of a tagged PDF with every word of ``document`` in reading order.

    Safe to call from several threads.

    Raises:
        HandoutError: a letter that the font lacks, an unknown font, a picture that
            can't be read, or anything else the page can't show.
    """
    pictures = _pictures(document)
    try:
        with TemporaryDirectory(prefix="handout-") as folder:
            return _written(document, pictures, Path(folder))
    except OSError as error:
        raise HandoutError(
            f"The PDF needs room in the temporary folder, which can't be used: {error.strerror}; "
            "free some space there and try again."
        ) from error


def _written(document: HandoutDocument, pictures: tuple[Picture, ...], root: Path) -> bytes:
    for source in (resources.templates() / "handout").glob("*.typ"):
        shutil.copyfile(source, root / source.name)
    for picture in pictures:
        (root / picture_file(picture)).write_bytes(picture.data)
    try:
        return _compile(document, root)
    except typst.TypstError as error:
        broken = next((each for each in pictures if not _readable(each, root)), None)
        text = picture_sentence(broken) if broken else sentence(error.message, document)
        raise HandoutError(text) from error


def _compile(document: HandoutDocument, root: Path) -> bytes:
    data = json.dumps(plain(document), ensure_ascii=False)
    try:
        compiler = _compiler(root / MAIN, {"handout": data})
    except UnicodeEncodeError as error:
        raise HandoutError(
            f"A text of the handout holds half a character ({error.object[error.start]!r}); "
            "type it again."
        ) from error
    pdf, warnings = compiler.compile_with_warnings(
        format="pdf", pdf_standards=["ua-1"], timestamp=TIMESTAMP
    )
    if warnings:
        raise HandoutError(sentence(warnings[0].message, document))
    if not isinstance(pdf, bytes):
        raise HandoutError("The page maker returned no file.")
    return pdf


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
