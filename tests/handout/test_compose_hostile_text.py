"""Text typed into any field prints literally in every format, or is refused in one sentence."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import pytest

from authoring.handout.compose import Options, compose
from authoring.handout.document import HandoutDocument
from authoring.handout.docx import write_docx
from authoring.handout.errors import HandoutError
from authoring.handout.html import script, write_html
from authoring.handout.pdf import write_pdf
from authoring.handout.sheet import sheet_of_protocol
from authoring.handout.words import words
from authoring.model.base import LONGEST_TEXT, Node, evolve, fields
from authoring.model.text import Text
from tests.checks.build import CARD_ID, CLINIC, TERMS
from tests.handout.clinic_sheets import SMALL, SMALL_CARD, small_context
from tests.handout.docx_reader import WordFile, read_words
from tests.handout.html_reader import read, tokens
from tests.handout.pdf_reader import tagged_tokens

STEERING = frozenset("\u200b\u200e\u200f\u202b\u202c\u2028\u2066\u2069")
"""Marks that steer writing direction or line breaks and have no shape of their own."""

SAID = frozenset({"authors", "citation"})
"""Fields of plain text that a handout prints."""

HOSTILE = {
    "script": "<script>alert(1)</script><img src=x onerror=alert(1)>",
    "HTML entities": "&lt;b&gt; &amp; &#x41; &nbsp;",
    "an end of the style": "</style></title><h1>big</h1>",
    "typst code": '#panic("x") #import "kit.typ": * $x^2$ @label <label> #sys.inputs',
    "typst marks": "= head - item + item / term: `raw` ~ --- *b* _i_ \\ //c /*c*/",
    "a template": "{{ 7*7 }} {% raw %} {n} {page} %s %(x)s ${x}",
    "Word fields": '{ HYPERLINK "http://x" } <w:t>x</w:t> ]]> <!-- -->',
    "direction marks": "dose \u200f21\u200e \u202b12\u202c and \u2066iso\u2069 done",
    "accents that combine": "e\u0301a\u0308 n\u0303",
    "quotes": "\"double\" 'single' “curly” it’s",
    "spaces": "a\u00a0b\u2003c\u200bd\tz",
    "lines": "one\ntwo\r\nthree\u2028four",
    "a path": "../../etc/passwd C:\\x \\\\server\\share",
    "a formula": '=HYPERLINK("http://x","y")',
    "a long word": "Donau" * 30,
}


def with_texts(value: Any, change: Callable[[str], str], *, said: bool = True) -> Any:
    """``value`` with ``change`` done to every text that a handout may print."""
    if isinstance(value, Text):
        return Text({tag: change(text) for tag, text in value.values.items()})
    if isinstance(value, tuple):
        return tuple(with_texts(item, change, said=said) for item in value)
    if isinstance(value, str) and type(value) is str and said:
        return change(value)
    if isinstance(value, Node):
        names = [each.name for each in fields(type(value)) if each.name != "extra"]
        return evolve(
            value,
            **{name: with_texts(getattr(value, name), change, said=name in SAID) for name in names},
        )
    return value


def handout(change: Callable[[str], str]) -> HandoutDocument:
    """The small handout, every text of its protocol, card, clinic and terms changed."""
    protocol, card, clinic, terms = (
        with_texts(each, change, said=False) for each in (SMALL, SMALL_CARD, CLINIC, TERMS)
    )
    named = {(term.kind, term.id): term for term in terms}
    clinic = evolve(clinic, phone=change("0")[:60])
    context = evolve(small_context(clinic), terms=named)
    return compose(sheet_of_protocol(protocol, {CARD_ID: card}), context, Options())


@pytest.fixture(scope="module", params=HOSTILE)
def hostile(request: pytest.FixtureRequest) -> tuple[str, HandoutDocument]:
    """A hostile text, and a handout that holds it everywhere."""
    text = HOSTILE[request.param]
    return text, handout(lambda before: f"{text} {before}" if before else before)


def test_the_tree_holds_the_text_as_it_was_typed(hostile: tuple[str, HandoutDocument]) -> None:
    text, document = hostile
    said = words(document)
    assert sum(text in each for each in said) >= 25
    assert text in document.title
    assert text in document.footer
    assert text in document.masthead.clinic_name


def test_word_prints_it_literally(hostile: tuple[str, HandoutDocument]) -> None:
    _, document = hostile
    data = write_docx(document)
    assert read_words(data) == tokens(words(document))
    names = WordFile(data).raw
    assert not [name for name in names if "vba" in name or "embed" in name]


def test_html_prints_it_literally_and_holds_no_script_but_our_own(
    hostile: tuple[str, HandoutDocument],
) -> None:
    _, document = hostile
    page = read(write_html(document))
    assert page.words == tokens(words(document))
    assert [dict(each.attributes) for each in page.of("script")] == [{}]
    assert page.script.strip() == script()
    assert len(page.of("h1")) == 1
    assert not [e for e in page.elements if any(name.startswith("on") for name in e.attributes)]


def test_pdf_prints_it_literally(hostile: tuple[str, HandoutDocument]) -> None:
    _, document = hostile
    bare = [
        [token for token in map(_without_marks, found) if token]
        for found in (tagged_tokens(write_pdf(document)), tokens(words(document)))
    ]
    assert "".join(bare[0]) == "".join(bare[1])


def _without_marks(token: str) -> str:
    return "".join(c for c in token if c not in STEERING)


# ---- what would be shown back to front ------------------------------------------------------


@pytest.mark.parametrize("sign", ["\u202d", "\u202e"])
def test_a_sign_that_turns_the_writing_round_is_refused(sign: str) -> None:
    """A reader would see 21 where 12 was typed (Unicode Technical Report 36, section 2.5)."""
    with pytest.raises(HandoutError, match="would be shown back to front") as told:
        handout(lambda before: f"Do {sign}12 times" if before else before)
    assert f"U+{ord(sign):04X}" in str(told.value)
    assert sign not in str(told.value)


# ---- what the PDF's fonts lack ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("well done \U0001f9b6", "U+1F9B6"),
        ("膝 knee", "U+819D"),
        ("ก", "U+0E01"),
        ("الركبة", "U+0629"),
    ],
)
def test_a_letter_that_the_font_lacks_is_refused_in_one_sentence(text: str, code: str) -> None:
    document = handout(lambda before: f"{text} {before}" if before else before)
    with pytest.raises(HandoutError) as told:
        write_pdf(document)
    said = str(told.value)
    assert code in said
    assert text in said
    assert said.endswith("write it in another way.")
    assert read(write_html(document)).words == tokens(words(document))
    assert read_words(write_docx(document)) == tokens(words(document))


# ---- long texts -----------------------------------------------------------------------------


@pytest.mark.parametrize("unit", ["word ", "x", "[", "*", "`", "> ", "![", "<a ", "1. ", "\\", "é"])
def test_the_longest_text_of_any_make_up_is_set_in_every_format(unit: str) -> None:
    """20,000 characters is the most a text may have; none of them may hang the page."""
    long = (unit * LONGEST_TEXT)[: LONGEST_TEXT - 1]
    lesson = evolve(SMALL.education[0], text=Text.plain(long))
    step = Text.plain(long)
    card = evolve(
        SMALL_CARD, variants=tuple(evolve(v, steps=(*v.steps, step)) for v in SMALL_CARD.variants)
    )
    protocol = evolve(SMALL, education=(lesson,))
    sheet = sheet_of_protocol(protocol, {CARD_ID: card}, (1,))
    document = compose(sheet, small_context(), Options())
    for write in (write_docx, write_html, write_pdf):
        begun = time.perf_counter()
        assert write(document)
        assert time.perf_counter() - begun < 20, write
