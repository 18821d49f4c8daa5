"""The HTML writer says what the tree says, in the same order, and nothing else."""

from __future__ import annotations

import base64
import hashlib
import html
import re
from itertools import pairwise
from typing import Any, get_args

import pytest
from attrs import evolve

from authoring import resources
from authoring.handout.document import (
    BrandStyle,
    HandoutDocument,
    Notes,
    PainGuide,
    PainZone,
    Paragraph,
    Part,
    Picture,
    Span,
)
from authoring.handout.errors import HandoutError
from authoring.handout.html import tel_address, write_html
from authoring.handout.html_outline import KINDS
from authoring.handout.words import alt_texts, page_furniture, words
from tests.handout import sample
from tests.handout.html_reader import Page, read, tokens
from tests.handout.html_variants import DRAFT, HOSTILE, VARIANTS, picture_of

every_variant = pytest.mark.parametrize("name", VARIANTS)


def read_variant(name: str) -> Page:
    return read(write_html(VARIANTS[name]()))


# ---- the words ---------------------------------------------------------------


@every_variant
def test_the_page_says_every_word_in_reading_order(name: str) -> None:
    assert read_variant(name).words == tokens(words(VARIANTS[name]()))


@every_variant
def test_the_page_carries_banner_footer_alternatives_and_title(name: str) -> None:
    document, page = VARIANTS[name](), read_variant(name)
    assert page.furniture == [" ".join(text.split()) for text in page_furniture(document)]
    assert page.alts == list(alt_texts(document))
    assert page.title == document.title


def test_a_word_dropped_from_the_page_is_noticed() -> None:
    document = sample.sample_document()
    page = write_html(document).decode()
    whole = tokens(words(document))
    droppable = {text for text in words(document) if f">{html.escape(text)}<" in page}
    assert len(droppable) > 70
    for text in droppable:
        head, _, tail = page.rpartition(f">{html.escape(text)}<")
        assert read(f"{head}><{tail}".encode()).words != whole, text


def test_steps_are_numbered_afresh_in_each_exercise() -> None:
    spoken = " ".join(read_variant("plain").words)
    assert "4 Take 3 seconds to come down." in spoken
    assert "1 Stand tall, hands on a chair. 2 Lift your left foot behind you." in spoken


def test_empty_texts_leave_no_empty_elements() -> None:
    bare = VARIANTS["single"]()
    page = write_html(bare).decode()
    assert not re.search(r"<(p|h\d|ul|ol|dl|dt|strong|caption)[^>]*>\s*</", page)
    assert "<footer" not in page


def test_every_kind_of_part_has_its_place_in_the_page() -> None:
    assert set(KINDS) == set(get_args(Part))


# ---- structure -----------------------------------------------------------------


@every_variant
def test_headings_start_at_one_and_never_skip_a_level(name: str) -> None:
    # WCAG 2.2, technique G141: headings organise a page.
    levels = [level for level, _ in read_variant(name).headings]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(later - former <= 1 for former, later in pairwise(levels))


def test_exercises_stand_below_their_block_and_stage() -> None:
    levels = {text: level for level, text in read_variant("staged").headings}
    assert levels["Settle"] == 2
    assert levels["Warm-up"] == 3
    assert levels["1 Heel raise"] == 4
    assert levels["Or choose"] == 5
    assert levels["2 One-leg balance"] == 3
    assert levels["About this sheet"] == 2


def test_the_page_names_language_direction_and_print_size() -> None:
    (root,) = read_variant("right to left").of("html")
    assert (root.attributes["lang"], root.attributes["dir"]) == ("ar", "rtl")
    (root,) = read_variant("large").of("html")
    assert (root.attributes["lang"], root.attributes["class"]) == ("en-GB", "large")


@every_variant
def test_every_anchor_is_unique_and_every_inner_link_arrives(name: str) -> None:
    page = read_variant(name)
    ids = [e.attributes["id"] for e in page.elements if "id" in e.attributes]
    assert len(ids) == len(set(ids))
    wanted = {e.attributes["href"][1:] for e in page.of("a") if e.attributes["href"][0] == "#"}
    for element in page.elements:
        wanted |= set(element.attributes.get("aria-labelledby", "").split())
    assert wanted <= set(ids)


def test_each_exercise_at_a_glance_links_to_its_place() -> None:
    links = [e.attributes["href"] for e in read_variant("plain").of("a")]
    assert len([link for link in links if link.startswith("#")]) == len(sample.EXERCISES)


def test_table_headers_name_their_column_or_row() -> None:
    page = read_variant("plain")
    assert {e.attributes["scope"] for e in page.of("th")} == {"col", "row"}
    assert len(page.of("caption")) == 4


@pytest.mark.parametrize(
    ("phone", "address"),
    [
        # RFC 3966, section 6, examples: visual separators carry no meaning.
        ("+1-201-555-0123", "tel:+12015550123"),
        ("863-1234", "tel:8631234"),
        ("01632 960 417", "tel:01632960417"),
        ("(01632) 960.417", "tel:01632960417"),
        ("112", "tel:112"),
        ("01632 960 417 or 01632 960 428", ""),
        ("ask at the desk", ""),
        ("١٢٣٤", ""),
    ],
)
def test_a_telephone_number_can_be_tapped(phone: str, address: str) -> None:
    assert tel_address(phone) == address


# ---- self-contained and harmless ------------------------------------------------


def digest_of(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


@every_variant
def test_the_policy_admits_the_inline_style_and_script_alone(name: str) -> None:
    # CSP Level 3, section 6.7.3.3: SHA-256 of the element's text, base64.
    page = read_variant(name)
    (policy,) = [
        e.attributes["content"]
        for e in page.of("meta")
        if e.attributes.get("http-equiv") == "Content-Security-Policy"
    ]
    assert policy.split("; ") == [
        "default-src 'none'",
        f"style-src 'sha256-{digest_of(page.style)}'",
        f"script-src 'sha256-{digest_of(page.script)}'",
        "img-src data:",
        "font-src data:",
        "base-uri 'none'",
        "form-action 'none'",
    ]


@every_variant
def test_the_page_holds_one_fixed_script_and_asks_for_nothing(name: str) -> None:
    page = read_variant(name)
    assert len(page.of("script")) == 1
    written = (resources.templates() / "handout" / "handout.js").read_text("utf-8")
    code = re.sub(r"^ *//.*$", "", written, flags=re.MULTILINE)
    assert page.script.split() == code.split()
    assert not {"iframe", "object", "link", "form"} & {e.tag for e in page.elements}
    for element in page.elements:
        assert not [key for key in element.attributes if key == "style" or key.startswith("on")]
        assert element.attributes.get("src", "data:").startswith("data:")
    for address in re.findall(r"url\((.*?)\)", page.style):
        assert address.startswith('"data:font/woff2;base64,')
    assert "@import" not in page.style


def test_hostile_text_adds_no_element() -> None:
    calm = VARIANTS["hostile"]()
    tags = {element.tag for element in read(write_html(calm)).elements}
    assert tags <= {e.tag for name in ("pictures", "staged") for e in read_variant(name).elements}
    assert HOSTILE.split()[-1] in read_variant("hostile").words


def test_a_hostile_font_name_stays_a_string() -> None:
    brand = evolve(sample.BRAND, font='x"; } body { display: none } </style><b>')
    style = read(write_html(sample.sample_document(brand=brand))).style
    assert "display: none }" not in style.split("@media")[0]
    assert "<" not in style


def test_pictures_stand_in_img_elements_so_that_svg_cannot_script() -> None:
    page = read_variant("pictures")
    kinds = {e.attributes["src"].split(";")[0] for e in page.of("img")}
    assert kinds == {"data:image/png", "data:image/svg+xml"}
    assert all(e.attributes["aria-hidden"] == "true" for e in page.of("svg"))


def test_the_same_handout_gives_the_same_bytes() -> None:
    assert write_html(VARIANTS["pictures"]()) == write_html(VARIANTS["pictures"]())


# ---- what a page can't hold -----------------------------------------------------


def with_span(span: Span) -> HandoutDocument:
    return sample.sample_document(parts=(Notes("Advice", (Paragraph((span,)),)),))


def with_picture(**changes: Any) -> HandoutDocument:
    picture: Picture = evolve(picture_of(sample.sample_with_pictures()), **changes)
    return sample.sample_document(
        parts=(sample.exercise(1, "Bridge", "3 sets", pictures=(picture,)),)
    )


def with_brand(**changes: Any) -> HandoutDocument:
    brand: BrandStyle = evolve(sample.BRAND, **changes)
    return sample.sample_document(brand=brand)


def with_zone(zone: PainZone) -> HandoutDocument:
    return sample.sample_document(parts=(PainGuide("Pain", "Scale", (zone,), ()),))


@pytest.mark.parametrize(
    ("document", "where", "what"),
    [
        (sample.sample_document(title=" "), "title", "has no title"),
        (sample.sample_document(lead="a\x00b"), "handout.lead", "U+0000"),
        (sample.sample_document(footer="a\ud800"), "handout.footer", "U+D800"),
        (sample.sample_document(banner="\ufffe"), "handout.banner", "U+FFFE"),
        (with_span(Span("x", href="javascript:alert(1)")), "parts[0].body[0]", "javascript:"),
        (with_span(Span("x", href="//other.test/")), "parts[0].body[0]", "no web"),
        (with_span(Span("x", href="http://[bad")), "parts[0].body[0]", "no web"),
        (with_picture(media_type="image/gif"), "pictures[0]", "image/gif"),
        (with_picture(data=b"not a picture"), "pictures[0]", "image/png"),
        (with_picture(alt=" "), "pictures[0]", "no alternative text"),
        (with_picture(width_px=0), "pictures[0]", "no size"),
        (with_brand(brand="red"), "brand.brand", "not a colour"),
        (with_brand(tint="#FFF;}"), "brand.tint", "not a colour"),
        (with_zone(PainZone(0, 11, "all", "Stop.", 0)), "zones[0]", "0 to 10"),
        (with_zone(PainZone(0, 3, "all", "Stop.", 3)), "zones[0]", "tone"),
    ],
)
def test_what_a_page_cannot_hold_is_refused_in_one_sentence(
    document: HandoutDocument, where: str, what: str
) -> None:
    with pytest.raises(HandoutError) as caught:
        write_html(document)
    assert where in str(caught.value)
    assert what in str(caught.value)
    assert "\n" not in str(caught.value)


def test_the_draft_banner_opens_the_page() -> None:
    page = write_html(VARIANTS["draft"]()).decode()
    assert page.index(DRAFT) < page.index("<h1>")
    assert 'class="draft"' not in write_html(VARIANTS["plain"]()).decode()
