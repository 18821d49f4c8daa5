"""The search index: what it finds, forgives and counts, beside plain reference searches."""

import datetime as dt
import re
import string
from collections.abc import Mapping

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.editor.search.facets import Facet, Review, review_of
from authoring.editor.search.gathering import COLUMNS, gather
from authoring.editor.search.index import Found, Query, SearchIndex, folded, words_of
from authoring.editor.search.near import Vocabulary, distance
from authoring.editor.search.pieces import Part, pieces, terms_of
from authoring.editor.search.showing import best_piece, excerpt, spans
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.card import Card, KitNeed, Variant
from authoring.model.library import Library, LibraryFile, Term
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.sources import Reference
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, Region, TermKind
from authoring.resources import examples

TODAY = dt.date(2030, 3, 1)


def uuid_of(number: int) -> str:
    return f"00000000-0000-4000-8000-{number:012d}"


def make_card(number: int, title: str, **facts: object) -> Card:
    return Card(
        id=uuid_of(number),
        slug=f"card-{number}",
        language="en",
        title=Text.plain(title),
        **facts,  # type: ignore[arg-type]
    )


def make_variant(name: str, **facts: object) -> Variant:
    return Variant(
        id="as-named",
        rung=0,
        name=Text.plain(name),
        mode=Mode.DYNAMIC,
        **facts,  # type: ignore[arg-type]
    )


def library_of(*nouns: Card | Protocol, terms: tuple[Term, ...] = ()) -> Library:
    return Library(
        manifest=LibraryFile(id=uuid_of(0), name="Invented", language="en", terms=terms),
        cards={noun.id: noun for noun in nouns if isinstance(noun, Card)},
        protocols={noun.id: noun for noun in nouns if isinstance(noun, Protocol)},
    )


def find(
    library: Library, words: str, chosen: Mapping[Facet, frozenset[str]] | None = None
) -> Found:
    index = SearchIndex()
    index.update(library)
    found = index.find(Query(TODAY, words, chosen or {}))
    index.close()
    return found


BAND = Term(id="band", kind=TermKind.KIT, name=Text.plain("Elastic band"), also=("theraband",))
SPRAIN = Term(id="sprain", kind=TermKind.CONDITION, name=Text.plain("Lateral ankle sprain"))
HEEL = make_card(
    1,
    "Heel raise",
    trade_name=Text.plain("Plantarflexion in standing"),
    purpose=Text.plain("Stronger calves."),
    regions=(Region.LOWER_LEG,),
    variants=(
        make_variant(
            "On a step",
            steps=(Text.plain("Push up onto your toes."),),
            cues=(Text.plain("Grow tall."),),
        ),
    ),
    references=(Reference(id="one", citation="Invented A. Calf work. 2020."),),
    review_due=dt.date(2030, 1, 1),
)
TURN = make_card(
    2,
    "Foot turn out",
    trade_name=Text({"en": "Resisted eversion", "fr": "Éversion résistée"}),
    regions=(Region.FOOT_ANKLE,),
    variants=(make_variant("With a band", equipment=(KitNeed(kit="band"),)),),
)
ANKLE = Protocol(
    id=uuid_of(9),
    slug="ankle",
    language="en",
    title=Text.plain("Ankle sprain, invented"),
    conditions=("sprain",),
    regions=(Region.FOOT_ANKLE,),
    stages=(
        Stage(
            id="settle",
            name=Text.plain("Settle"),
            blocks=(Block(id="main", entries=(Entry(id="e", card=TURN.id, start="as-named"),)),),
        ),
    ),
)
LIBRARY = library_of(HEEL, TURN, ANKLE, terms=(BAND, SPRAIN))


@pytest.mark.parametrize(
    ("words", "title"),
    [
        ("heel", "Heel raise"),
        ("plantarflexion", "Heel raise"),
        ("calves", "Heel raise"),
        ("toes", "Heel raise"),
        ("grow tall", "Heel raise"),
        ("invented calf", "Heel raise"),
        ("on a step", "Heel raise"),
        ("flexion", "Heel raise"),
        ("theraband", "Foot turn out"),
        ("elastic", "Foot turn out"),
        ("eversion resistee", "Foot turn out"),
        ("RESISTED", "Foot turn out"),
        ("lateral", "Ankle sprain, invented"),
        ("settle", "Ankle sprain, invented"),
    ],
)
def test_every_kind_of_words_is_found(words: str, title: str) -> None:
    ids = find(LIBRARY, words).ids
    nouns: dict[str, Card | Protocol] = {**LIBRARY.cards, **LIBRARY.protocols}
    assert [nouns[key].title.best("en", "en") for key in ids][:1] == [title]


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("heal", "heel"),
        ("rasie", "raise"),
        ("eversoin", "eversion"),
        ("plantaflection", "plantarflexion"),
    ],
)
def test_a_mistyped_word_finds_what_was_meant(typed: str, meant: str) -> None:
    found = find(LIBRARY, typed)
    assert found.ids
    assert meant in found.wanted[0].others
    assert found.wanted[0].is_guess


def test_a_word_as_it_is_spelled_wins_over_near_words() -> None:
    library = library_of(make_card(1, "Heel raise"), make_card(2, "Feel the floor"))
    assert find(library, "heel").ids == (uuid_of(1),)


def test_a_title_comes_before_a_step() -> None:
    step = make_card(
        1, "Calf stretch", variants=(make_variant("x", steps=(Text.plain("Squat."),)),)
    )
    library = library_of(step, make_card(2, "Squat"))
    assert find(library, "squat").ids == (uuid_of(2), uuid_of(1))


def test_without_words_everything_comes_by_title() -> None:
    assert find(LIBRARY, "  ").ids == (ANKLE.id, TURN.id, HEEL.id)


@pytest.mark.parametrize("words", ['"', "heel OR", "NEAR(", "*", "a:b", "-heel", "^", "{x}"])
def test_signs_of_the_query_language_do_no_harm(words: str) -> None:
    find(LIBRARY, words)


# ---- slips ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("one", "other", "slips"),
    [
        # Published worked examples: Wagner and Fischer's distance (kitten, saturday), and the
        # optimal string alignment of "ca" and "abc", which is 3 (Boytsov 2011).
        ("kitten", "sitting", 3),
        ("saturday", "sunday", 3),
        ("ca", "abc", 3),
        ("ab", "ba", 1),
        ("same", "same", 0),
    ],
)
def test_slips_are_counted_as_published(one: str, other: str, slips: int) -> None:
    assert distance(one, other, 5) == slips
    assert distance(other, one, 5) == slips


def plain_distance(one: str, other: str) -> int:
    """Optimal string alignment by its recursive definition."""
    if not one or not other:
        return len(one) + len(other)
    best = min(
        plain_distance(one[1:], other) + 1,
        plain_distance(one, other[1:]) + 1,
        plain_distance(one[1:], other[1:]) + (one[0] != other[0]),
    )
    if len(one) > 1 and len(other) > 1 and one[0] == other[1] and one[1] == other[0]:
        best = min(best, plain_distance(one[2:], other[2:]) + 1)
    return best


short = st.text("abc", max_size=5)


@given(short, short, st.integers(0, 5))
def test_slips_agree_with_the_definition(one: str, other: str, most: int) -> None:
    assert distance(one, other, most) == min(plain_distance(one, other), most + 1)


@given(
    st.sets(st.text("abcde", min_size=4, max_size=7), max_size=30),
    st.text("abcde", min_size=4, max_size=7),
)
def test_near_words_are_all_words_one_slip_away(words: set[str], typed: str) -> None:
    expected = {word for word in words if distance(typed, word, 1) == 1}
    near = Vocabulary(words).near(typed)
    if expected:
        assert set(near) <= expected
        assert len(near) == min(len(expected), 12)


def test_short_words_are_taken_as_they_are() -> None:
    assert Vocabulary(["leg", "log"]).near("lag") == []


# ---- following edits --------------------------------------------------------------------------


def test_only_what_changed_is_read_anew() -> None:
    index = SearchIndex()
    assert index.update(LIBRARY) == 3
    assert index.update(LIBRARY) == 0
    renamed = evolve(HEEL, title=Text.plain("Calf raise"))
    after = evolve(LIBRARY, cards={**LIBRARY.cards, HEEL.id: renamed})
    assert index.update(after) == 1
    assert index.find(Query(TODAY, "calf raise")).ids == (HEEL.id,)
    assert index.find(Query(TODAY, "heel")).ids == ()


def test_a_renamed_term_is_found_by_its_new_name() -> None:
    index = SearchIndex()
    index.update(LIBRARY)
    tube = evolve(BAND, name=Text.plain("Rubber tube"), also=())
    after = evolve(LIBRARY, manifest=evolve(LIBRARY.manifest, terms=(tube, SPRAIN)))
    assert index.update(after) == 1
    assert index.find(Query(TODAY, "rubber")).ids == (TURN.id,)
    assert index.find(Query(TODAY, "theraband")).ids == ()


def test_what_is_removed_is_gone_and_its_place_is_used_again() -> None:
    index = SearchIndex()
    index.update(LIBRARY)
    without = evolve(LIBRARY, cards={TURN.id: TURN})
    index.update(without)
    assert index.find(Query(TODAY, "heel")).ids == ()
    index.update(evolve(without, cards={TURN.id: TURN, uuid_of(7): make_card(7, "Bridge")}))
    found = index.find(Query(TODAY, "", {Facet.KIND: frozenset({"card"})}))
    assert found.ids == (uuid_of(7), TURN.id)


def test_an_update_that_was_stopped_goes_on_the_next_time() -> None:
    index = SearchIndex()

    def stop(done: int, _of: int) -> None:
        if done == 2:
            raise InterruptedError

    with pytest.raises(InterruptedError):
        index.update(LIBRARY, stop)
    assert index.update(LIBRARY) == 1
    assert len(index.find(Query(TODAY)).ids) == 3


titles = st.lists(
    st.text(string.ascii_lowercase[:4] + " ", min_size=1, max_size=12), min_size=1, max_size=8
)


@settings(max_examples=40)
@given(st.lists(titles, min_size=1, max_size=5), st.text("abcd", min_size=1, max_size=3))
def test_following_edits_finds_the_same_as_reading_everything(
    states: list[list[str]], word: str
) -> None:
    index = SearchIndex()
    for state in states:
        library = library_of(*(make_card(n, title) for n, title in enumerate(state, 1)))
        index.update(library)
        expected = {
            uuid_of(n)
            for n, title in enumerate(state, 1)
            if any(part.startswith(word) for part in title.split())
        }
        assert set(index.find(Query(TODAY, word)).ids) == expected
        assert index.find(Query(TODAY)).ids == find(library, "").ids
    index.close()


# ---- filters ---------------------------------------------------------------------------------


def test_values_of_one_filter_add_and_filters_cut() -> None:
    regions = frozenset({Region.LOWER_LEG.value, Region.FOOT_ANKLE.value})
    both = {Facet.REGION: regions}
    assert set(find(LIBRARY, "", both).ids) == {HEEL.id, TURN.id, ANKLE.id}
    cards = {**both, Facet.KIND: frozenset({"card"})}
    assert set(find(LIBRARY, "", cards).ids) == {HEEL.id, TURN.id}


def test_a_card_counts_for_the_conditions_of_protocols_that_use_it() -> None:
    chosen = {Facet.CONDITION: frozenset({"sprain"})}
    assert set(find(LIBRARY, "", chosen).ids) == {TURN.id, ANKLE.id}
    index = SearchIndex()
    index.update(LIBRARY)
    index.update(evolve(LIBRARY, protocols={}))
    assert index.find(Query(TODAY, "", chosen)).ids == ()


def test_counts_say_what_each_value_would_leave() -> None:
    counts = find(LIBRARY, "", {Facet.KIND: frozenset({"card"})}).counts
    assert dict(counts[Facet.KIND]) == {"card": 2, "protocol": 1}
    assert dict(counts[Facet.REGION]) == {"lower_leg": 1, "foot_ankle": 1}
    assert dict(counts[Facet.KIT]) == {"band": 1}
    assert dict(counts[Facet.STATUS]) == {}


@pytest.mark.parametrize(
    ("due", "review"),
    [
        (None, Review.NONE),
        (dt.date(2030, 2, 28), Review.OVERDUE),
        (dt.date(2030, 3, 1), Review.SOON),
        (dt.date(2030, 4, 30), Review.SOON),
        (dt.date(2030, 5, 1), Review.LATER),
    ],
)
def test_a_review_is_due_by_the_day(due: dt.date | None, review: Review) -> None:
    assert review_of(due, TODAY) is review
    library = library_of(make_card(1, "Squat", review_due=due))
    assert find(library, "", {Facet.REVIEW: frozenset({review.value})}).ids == (uuid_of(1),)


# ---- showing ---------------------------------------------------------------------------------


def test_the_matching_letters_are_marked() -> None:
    wanted = find(LIBRARY, "pla").wanted
    assert spans("Plantarflexion, and a plank", wanted) == ((0, 3), (22, 25))


def test_a_near_word_is_marked_whole() -> None:
    wanted = find(LIBRARY, "eversoin").wanted
    assert spans("Resisted eversion", wanted) == ((9, 17),)


@pytest.mark.parametrize(
    ("words", "part", "path"),
    [
        ("toes", Part.STEP, "variants[0].steps[0]"),
        ("plantarflexion", Part.ALSO, "trade_name"),
        ("calf work", Part.REFERENCE, "references[0].citation"),
    ],
)
def test_what_matched_is_shown_with_its_place(words: str, part: Part, path: str) -> None:
    shown = best_piece(HEEL, terms_of(LIBRARY), find(LIBRARY, words).wanted)
    assert shown is not None
    assert (shown.part, shown.path) == (part, path)


def test_a_title_that_says_it_all_needs_nothing_more() -> None:
    assert best_piece(HEEL, terms_of(LIBRARY), find(LIBRARY, "heel raise").wanted) is None


@given(st.text(string.ascii_letters + " \n", max_size=200), st.integers(0, 200), st.integers(1, 9))
def test_an_excerpt_keeps_what_is_marked(words: str, start: int, size: int) -> None:
    end = min(start + size, len(words))
    marks = ((start, end),) if start < end else ()
    shown, moved = excerpt(words, marks)
    assert [shown[a:b] for a, b in moved] == [re.sub(r"\s", " ", words[a:b]) for a, b in marks]


def test_words_are_compared_without_case_and_accents() -> None:
    assert folded("Éversion") == "eversion"
    assert words_of("Heel, heel-raise!") == ("heel", "raise")


# ---- reading whole libraries -------------------------------------------------------------------


def test_what_is_read_at_once_is_what_stands_in_the_places() -> None:
    # The words with their places, found by another way, are the reference.
    library = open_library(examples() / "larkfield").library
    terms = terms_of(library)
    nouns: list[Card | Protocol] = [*library.cards.values(), *library.protocols.values()]
    for noun in nouns:
        expected: list[set[str]] = [set() for _ in range(5)]
        for piece in pieces(noun, terms):
            expected[COLUMNS[piece.part]].add(piece.words)
        found = gather(noun, terms)
        assert [set(column) for column in found.columns] == expected
        assert found.terms == {piece.term for piece in pieces(noun, terms) if piece.term}
