"""The example clinic's handouts say the same words in Word, HTML and PDF.

Each file is read back by a reader that shares nothing with its writer: plain XML for Word,
the standard library's parser for HTML, the structure tree for the tagged PDF.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from itertools import product

import pytest
from attrs import evolve

from authoring.handout.document import HandoutDocument, PageSize, PrintSize, StopBox
from authoring.handout.docx import write_docx
from authoring.handout.html import write_html
from authoring.handout.pdf import write_pdf
from authoring.handout.words import alt_texts, page_furniture, words
from tests.handout.clinic_sheets import CARDS, PROTOCOLS, parts_of, printed
from tests.handout.docx_reader import WP, WordFile, read_words
from tests.handout.html_reader import read, tokens
from tests.handout.pdf_reader import artifact_tokens, tagged_tokens, tags

Case = tuple[str, tuple[int, ...], PageSize, PrintSize]
ANKLE = "lateral-ankle-sprain-back-to-running"
CASES: list[Case] = [
    *((ANKLE, (1,), page, size) for page, size in product(PageSize, PrintSize)),
    *((slug, (1,), PageSize.A4, PrintSize.STANDARD) for slug in PROTOCOLS if slug != ANKLE),
    ("patellofemoral-pain", (1,), PageSize.LETTER, PrintSize.LARGE),
    ("lateral-elbow-tendinopathy", (), PageSize.A4, PrintSize.STANDARD),
    (ANKLE, (2, 3), PageSize.LETTER, PrintSize.LARGE),
    *((slug, (), PageSize.A4, PrintSize.STANDARD) for slug in ("heel-raise", "wall-sit")),
]
NAMES = [" ".join((slug, *map(str, stages), page, size)) for slug, stages, page, size in CASES]
each_case = pytest.mark.parametrize("case", CASES, ids=NAMES)


@cache
def pdf(case: Case) -> bytes:
    return write_pdf(printed(*case))


def letters(found: Iterable[str]) -> str:
    """Words without the spaces between them.

    A word that runs over the end of a line, as a web address may, is two runs of text in a
    PDF, and PDFium gives its hyphen there as U+0002.
    """
    return "".join(found).replace("\x02", "-")


@each_case
def test_word_says_the_words_of_the_tree_and_nothing_else(case: Case) -> None:
    document = printed(*case)
    data = write_docx(document)
    assert read_words(data) == tokens(words(document))
    told = [each.get("descr") for each in WordFile(data).body.iter(f"{WP}docPr")]
    named = [text for text in told if text]
    assert [text for text in alt_texts(document) if text not in named] == []


@each_case
def test_html_says_the_words_of_the_tree_and_nothing_else(case: Case) -> None:
    document = printed(*case)
    page = read(write_html(document))
    assert page.words == tokens(words(document))
    assert [text for text in page.alts if text] == list(alt_texts(document))
    assert page.furniture == [" ".join(text.split()) for text in page_furniture(document)]


@each_case
def test_pdf_says_the_words_of_the_tree_and_nothing_else(case: Case) -> None:
    document = printed(*case)
    assert letters(tagged_tokens(pdf(case))) == letters(tokens(words(document)))
    told = [tag.alt for tag in tags(pdf(case)) if tag.role == "Figure" and tag.alt]
    assert [text for text in alt_texts(document) if text not in told] == []


@each_case
def test_each_stop_sign_and_where_it_leads_are_in_every_file(case: Case) -> None:
    document = printed(*case)
    (box,) = parts_of(document, StopBox)
    files = {
        "Word": " ".join(read_words(write_docx(document))),
        "HTML": " ".join(read(write_html(document)).words),
        "PDF": letters(tagged_tokens(pdf(case))),
    }
    for name, text in files.items():
        at = 0
        for group in box.groups:
            for said in (group.lead, *group.signs):
                spaced = " " if name != "PDF" else ""
                found = text.find(spaced.join(said.split()), at)
                assert found >= at, (name, said)
                at = found
        assert spaced.join(box.contact.phone.split()) in text, name


def draft(case: Case) -> HandoutDocument:
    return evolve(printed(*case), banner="Draft, not for patients")


@pytest.mark.parametrize("case", [CASES[0], CASES[-3]], ids=[NAMES[0], NAMES[-3]])
def test_a_draft_says_so_on_every_page_of_every_format(case: Case) -> None:
    document = draft(case)
    pages = artifact_tokens(write_pdf(document))
    assert len(pages) > 1
    for page in pages:
        assert "Draft, not for patients" in " ".join(page)
    word = WordFile(write_docx(document))
    assert "Draft, not for patients" in " ".join(word.furniture("header"))
    html = write_html(document)
    assert read(html).furniture[0] == "Draft, not for patients"


@pytest.mark.parametrize("case", [CASES[0]], ids=[NAMES[0]])
def test_a_clean_approved_version_says_draft_nowhere(case: Case) -> None:
    assert "Draft" not in " ".join(" ".join(page) for page in artifact_tokens(pdf(case)))
    assert b"Draft" not in write_html(printed(*case))
    assert WordFile(write_docx(printed(*case))).furniture("header") == []


@pytest.mark.parametrize("slug", CARDS)
def test_every_card_prints_in_word_and_html(slug: str) -> None:
    document = printed(slug)
    assert read_words(write_docx(document)) == tokens(words(document))
    assert read(write_html(document)).words == tokens(words(document))
