"""LibreOffice reads the Word file as we meant it: same headings, same words, no empty page."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from attrs import evolve

from authoring.handout.document import PrintSize
from authoring.handout.docx import write_docx
from authoring.handout.words import page_furniture, words
from tests.handout.docx_reader import WordFile
from tests.handout.sample import BALANCE, sample_document, sample_parts, sample_with_pictures
from tests.tools import soffice

MANY = tuple(evolve(BALANCE, number=n, name=f"Exercise {n}") for n in range(1, 13))
HANDOUTS = {
    "plain": sample_document(),
    "pictures": sample_with_pictures(banner="Draft, not for patients"),
    "large": sample_with_pictures(print_size=PrintSize.LARGE),
    "many": sample_document(parts=sample_parts(MANY)),
}
FILTER = (
    'pdf:writer_pdf_Export:{"ExportBookmarks":{"type":"boolean","value":"true"},'
    '"UseTaggedPDF":{"type":"boolean","value":"true"}}'
)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Every handout as .docx and as the .pdf that LibreOffice makes of it."""
    folder = tmp_path_factory.mktemp("converted")
    sources = [folder / f"{name}.docx" for name in HANDOUTS]
    for source, document in zip(sources, HANDOUTS.values(), strict=True):
        source.write_bytes(write_docx(document))
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    command = [soffice(), profile, "--headless", "--convert-to", FILTER, "--outdir", folder]
    subprocess.run([*command, *sources], check=True, capture_output=True, timeout=180)
    return folder


def page_texts(path: Path) -> list[str]:
    document = pypdfium2.PdfDocument(path)
    try:
        return [page.get_textpage().get_text_range() for page in document]
    finally:
        document.close()


@pytest.mark.parametrize("name", HANDOUTS)
def test_libreoffice_finds_the_same_headings(name: str, folder: Path) -> None:
    expected = WordFile((folder / f"{name}.docx").read_bytes()).headings()
    with pikepdf.open(folder / f"{name}.pdf") as pdf, pdf.open_outline() as outline:
        found = list(flat(outline.root, 1))
    assert [(level, title.split()) for level, title in found] == [
        (level, text.split()) for level, text in expected
    ]


def flat(items: list[pikepdf.OutlineItem], level: int) -> list[tuple[int, str]]:
    return [
        entry
        for item in items
        for entry in ((level, str(item.title)), *flat(item.children, level + 1))
    ]


@pytest.mark.parametrize("name", HANDOUTS)
def test_no_page_is_empty_and_each_is_numbered(name: str, folder: Path) -> None:
    texts = page_texts(folder / f"{name}.pdf")
    for number, text in enumerate(texts, 1):
        rest = " ".join(text.split())
        for repeated in (*page_furniture(HANDOUTS[name]), f"{number} of {len(texts)}"):
            assert " ".join(repeated.split()) in rest
            rest = rest.replace(" ".join(repeated.split()), "")
        assert len(rest) > 20


@pytest.mark.parametrize("name", HANDOUTS)
def test_libreoffice_prints_every_word(name: str, folder: Path) -> None:
    """Order differs on paper where two columns stand side by side, so words are counted."""
    printed = " ".join(page_texts(folder / f"{name}.pdf")).split()
    missing = [
        word
        for word in set(" ".join(words(HANDOUTS[name])).split())
        if printed.count(word) < " ".join(words(HANDOUTS[name])).split().count(word)
    ]
    assert missing == []


@pytest.mark.parametrize("name", ["plain", "pictures", "many"])
def test_no_exercise_is_split_over_two_pages(name: str, folder: Path) -> None:
    """Its name and its last panel stand on the same page, in standard print."""
    texts = [" ".join(text.split()) for text in page_texts(folder / f"{name}.pdf")]
    for block in WordFile((folder / f"{name}.docx").read_bytes()).exercises():
        pages = [{n for n, text in enumerate(texts) if line in text} for line in block]
        assert set.intersection(*pages), block
