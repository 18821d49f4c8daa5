"""Pages are made of the open library as it stands, and faults say where they are mended."""

import datetime as dt
from collections.abc import Callable

import pypdfium2
import pytest

from authoring.checks.library import check_library
from authoring.checks.result import Subject
from authoring.commands.handout import WRITERS, Wish, compose_source, draft_reason
from authoring.commands.source import Source
from authoring.editor.page.blame import place_of_card
from authoring.editor.page.composing import page_bytes
from authoring.editor.page.draft import draft_of
from authoring.editor.page.making import make_page
from authoring.editor.page.wish import PageFault, PageJob, PageWish, stages_kept, title_of
from authoring.editor.place import Place, value_at
from authoring.editor.workers import Stopped, Token
from authoring.handout.document import PageSize
from authoring.model.base import evolve
from authoring.model.card import Card, Picture
from authoring.model.library import Library
from authoring.model.text import Text
from authoring.model.vocabulary import Phase, Status
from tests.editor import page_jobs as pages

TODAY = dt.date(2026, 3, 2)


def no_check() -> None:
    """Nobody stops this work."""


def words_of(data: bytes) -> str:
    """Every word of a PDF, as PDFium reads it."""
    pdf = pypdfium2.PdfDocument(data)
    return " ".join(" ".join(page.get_textpage().get_text_range().split()) for page in pdf)


@pytest.mark.parametrize("ending", [".pdf", ".html", ".docx"])
def test_a_page_is_the_very_file_that_the_command_makes(ending: str) -> None:
    source = Source(pages.protocol(), pages.example())
    document, why = compose_source(source, Wish(stages=(2,)), TODAY)
    job = evolve(pages.job(stages=(2,)), draft=bool(why))
    assert page_bytes(job, ending, no_check) == WRITERS[ending](document)


def test_unsaved_edits_are_on_the_page() -> None:
    job = pages.job(pages.titled("Words that no file holds"), stages=(1,))
    assert "Words that no file holds" in words_of(make_page(job, pages.idle()).data)


def test_a_draft_says_so_on_every_page() -> None:
    made = make_page(pages.job(stages=(1,)), pages.idle())
    pdf = pypdfium2.PdfDocument(made.data)
    for page in pdf:
        assert "Draft, not for patients" in page.get_textpage().get_text_range()


@pytest.mark.parametrize(
    ("paper", "millimetres"),
    # ISO 216 A4; ANSI/ASME Y14.1 A ("Letter"), 8.5 by 11 inches.
    [(PageSize.A4, (210, 297)), (PageSize.LETTER, (215.9, 279.4))],
)
def test_the_paper_has_the_size_that_was_wished_for(
    paper: PageSize, millimetres: tuple[float, float]
) -> None:
    made = make_page(pages.job(stages=(1,), paper=paper), pages.idle())
    size = pypdfium2.PdfDocument(made.data)[0].get_size()
    assert [one / 72 * 25.4 for one in size] == pytest.approx(millimetres, abs=0.1)


def test_a_picture_that_is_not_saved_yet_is_printed() -> None:
    old = pages.used_card()
    clinic = pages.example().library.clinic
    assert clinic is not None
    assert clinic.brand.logo is not None
    image = clinic.brand.logo.image
    data = (pages.EXAMPLE / "images" / image).read_bytes()
    name = f"{'a' * 64}.{image.rpartition('.')[2]}"
    library = pages.with_card(lambda card: _pictured(card, name))
    bare = pages.job(library, stages=(1,))
    with pytest.raises(PageFault) as caught:
        make_page(bare, pages.idle())
    place = caught.value.place
    assert place is not None
    assert place.subject is Subject.CARD
    assert place.subject_id == old.id
    assert value_at(library.cards[old.id], f"{place.path}.image") == name
    made = make_page(evolve(bare, images={name: data}), pages.idle())
    assert made.data.startswith(b"%PDF")


def _pictured(card: Card, image: str | None = None, pose: str | None = None) -> Card:
    picture = Picture(image=image, pose=pose, alt=Text.plain("A heel."), phase=Phase.END)
    return evolve(card, variants=tuple(evolve(v, pictures=(picture,)) for v in card.variants))


def test_work_that_is_not_wanted_any_more_stops() -> None:
    token = Token(lambda _done, _of: None)
    token.stop()
    with pytest.raises(Stopped):
        make_page(pages.job(stages=(1,)), token)


# ---- faults -------------------------------------------------------------------------------


def no_stage() -> Library:
    return pages.with_protocol(lambda old: evolve(old, stages=()))


def without_cards() -> Library:
    return evolve(pages.example().library, cards={})


def strange_sign() -> Library:
    return pages.with_card(
        lambda card: evolve(
            card,
            variants=tuple(
                evolve(v, steps=(*v.steps, Text.plain("Go to the \U00012000 sign.")))
                for v in card.variants
            ),
        )
    )


def unknown_font() -> Library:
    return pages.with_clinic(lambda old: evolve(old, brand=evolve(old.brand, font="Nowhere")))


def no_clinic() -> Library:
    return evolve(pages.example().library, clinic=None)


def retired() -> Library:
    return pages.with_protocol(lambda old: evolve(old, status=Status.RETIRED))


def no_variant() -> Library:
    return pages.with_card(lambda card: evolve(card, variants=()))


@pytest.mark.parametrize(
    ("make", "begins", "subject", "path"),
    [
        (
            no_stage,
            "This protocol has no stage yet; add a stage with an exercise.",
            Subject.PROTOCOL,
            "",
        ),
        (
            without_cards,
            "Exercise 1 uses a card that is not in the library",
            Subject.PROTOCOL,
            "stages[0].blocks[0].entries[0]",
        ),
        (
            no_variant,
            "Exercise 1 starts with the variant",
            Subject.PROTOCOL,
            "stages[0].blocks[0].entries[0]",
        ),
        (
            unknown_font,
            "The font “Nowhere” does not come with the program",
            Subject.CLINIC,
            "brand.font",
        ),
        (
            no_clinic,
            "This library has no clinic yet, so a page could not say whom to call.",
            Subject.CLINIC,
            "",
        ),
        (
            retired,
            "This protocol is retired, so no page is made of it; choose the one after it.",
            Subject.PROTOCOL,
            "",
        ),
    ],
)
def test_a_fault_says_what_and_leads_to_where_it_is_mended(
    make: Callable[[], Library], begins: str, subject: Subject, path: str
) -> None:
    with pytest.raises(PageFault) as caught:
        make_page(pages.job(make()), pages.idle())
    assert caught.value.sentence.startswith(begins)
    owner = pages.protocol().id if subject is Subject.PROTOCOL else ""
    assert caught.value.place == Place(subject, owner, path)


def test_a_pose_that_is_nowhere_leads_to_the_picture_that_names_it() -> None:
    library = pages.with_card(lambda card: _pictured(card, pose="no-such-pose"))
    with pytest.raises(PageFault, match="The pose no-such-pose is neither") as caught:
        make_page(pages.job(library), pages.idle())
    place = caught.value.place
    assert place is not None
    card = library.cards[place.subject_id]
    assert value_at(card, f"{place.path}.pose") == "no-such-pose"


def test_a_sign_that_no_font_has_leads_to_the_text_that_holds_it() -> None:
    library = strange_sign()
    with pytest.raises(PageFault) as caught:
        make_page(pages.job(library), pages.idle())
    place = caught.value.place
    assert "U+12000" in caught.value.sentence
    assert place is not None
    assert place.subject_id == pages.used_card().id
    text = value_at(library.cards[place.subject_id], place.path)
    assert text == Text.plain("Go to the \U00012000 sign.")


# ---- drafts -------------------------------------------------------------------------------


@pytest.mark.parametrize("status", [one for one in Status if one is not Status.RETIRED])
@pytest.mark.parametrize("slug", [p.slug for p in pages.example().library.protocols.values()])
def test_a_page_is_a_draft_wherever_the_command_makes_one(slug: str, status: Status) -> None:
    library = pages.example().library
    old = next(p for p in library.protocols.values() if p.slug == slug)
    changed = evolve(old, status=status)
    library = evolve(library, protocols={**library.protocols, old.id: changed})
    source = Source(changed, evolve(pages.example(), library=library))
    early = draft_of(changed, check_library(library, TODAY))
    wish = PageWish(Subject.PROTOCOL, old.id, (1,))
    job = evolve(pages.job(library), wish=wish, draft=bool(early))
    data = make_page(job, pages.idle()).data
    expected = bool(draft_reason(source, TODAY))
    assert ("Draft, not for patients" in words_of(data)) == expected
    assert not early or expected


def test_a_card_changed_after_approval_makes_a_draft_of_the_page() -> None:
    library = pages.with_card(
        lambda card: evolve(
            card,
            variants=tuple(
                evolve(v, steps=(*v.steps, Text.plain("Do it once more."))) for v in card.variants
            ),
        )
    )
    job = evolve(pages.job(library, stages=(1,)), draft=False)
    made = make_page(job, pages.idle())
    slug = pages.used_card().slug
    assert made.because == (f"the card {slug!r} was changed after the protocol was approved")
    assert "Draft, not for patients" in words_of(made.data)
    assert place_of_card(library, made.because) == Place(Subject.CARD, pages.used_card().id)


def test_a_card_alone_is_always_a_draft() -> None:
    found = draft_of(pages.used_card(), ())
    assert found.sentence == "Draft, not for patients: a card alone is approved by nobody."


def test_a_must_keeps_a_page_from_patients_and_leads_to_its_place() -> None:
    library = pages.with_clinic(lambda old: evolve(old, phone=""))
    results = check_library(library, TODAY)
    found = draft_of(evolve(pages.protocol(), status=Status.DRAFT), results)
    assert found.sentence == (
        "Draft, not for patients: this version is not approved, and 1 Protocol check must be "
        "mended."
    )
    assert found.place == Place(Subject.CLINIC, "", "phone")


# ---- wishes -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("wanted", "count", "kept"),
    [
        ((), 4, ()),
        ((2,), 4, (2,)),
        ((3, 1, 3), 4, (1, 3)),
        ((9,), 4, ()),
        ((1, 2, 3, 4), 4, ()),
        ((0, 5), 4, ()),
        ((), 0, ()),
    ],
)
def test_only_stages_that_exist_are_kept_and_all_of_them_are_the_whole(
    wanted: tuple[int, ...], count: int, kept: tuple[int, ...]
) -> None:
    assert stages_kept(wanted, count) == kept


def test_a_page_is_named_after_its_protocol_and_stages() -> None:
    title = pages.protocol().title.best("en", "en")
    assert title_of(pages.job()) == title
    assert title_of(pages.job(stages=(2,))) == f"{title}, stage 2"
    assert title_of(pages.job(stages=(1, 3))) == f"{title}, stages 1, 3"
    nothing = PageJob(
        pages.example().library, pages.example(), {}, PageWish(Subject.PROTOCOL, "none")
    )
    assert title_of(nothing) == "Handout"
    with pytest.raises(PageFault, match="nothing to print yet"):
        make_page(nothing, pages.idle())
