"""Changing words everywhere, spelling, and the words and kit of the library room."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from authoring.editor.library_room.replace_page import ReplacePage
from authoring.editor.library_room.replacing import Wish, approved_in, change_of, find_all
from authoring.editor.library_room.room import REPLACE, SPELLING, WORDS, LibraryRoom
from authoring.editor.library_room.spelling_page import SpellingPage
from authoring.editor.library_room.terms import uses_of_terms
from authoring.editor.library_room.terms_page import TermsPage
from authoring.editor.messages import Message
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.model.base import evolve
from authoring.model.card import Card, KitNeed
from authoring.model.edits.replace import Holder, Options
from authoring.model.library import Term
from authoring.model.text import Text
from authoring.model.vocabulary import Status, TermKind
from tests.editor.conftest import ANKLE, HEEL, SQUAT

Key = Qt.Key


@pytest.fixture
def room(window: MainWindow) -> LibraryRoom:
    window.activateWindow()
    window.show_room("library")
    assert isinstance(window.room, LibraryRoom)
    return window.room


# ---- find and replace ---------------------------------------------------------------------


@pytest.fixture
def replacing(room: LibraryRoom) -> ReplacePage:
    page = room.open_page(REPLACE)
    assert isinstance(page, ReplacePage)
    return page


def find(qtbot: QtBot, page: ReplacePage, words: str, new: str) -> None:
    qtbot.keyClicks(page.find_field, words)
    qtbot.keyClicks(page.with_field, new)
    qtbot.waitUntil(lambda: not page.finding.is_busy and page._wish == page.form.wish)


def test_an_untouched_page_teaches(replacing: ReplacePage) -> None:
    assert replacing.find_field.hasFocus()
    assert replacing.empty.title == "Change a word everywhere at once"
    assert not replacing.form.button.isEnabled()


def test_every_match_is_shown_before_and_after(qtbot: QtBot, replacing: ReplacePage) -> None:
    find(qtbot, replacing, "toes", "tiptoes")
    assert replacing.count.text() == "4 matches in 2 files"
    row = replacing.list.rows.row(0)
    assert row.title.words == "Push up onto your toes."
    assert row.below.words == "Push up onto your tiptoes."
    assert row.below.words[slice(*row.below.marks[0])] == "tiptoes"
    assert row.says == (
        "Heel raise, Steps, will change. Before: Push up onto your toes. "
        "After: Push up onto your tiptoes."
    )
    assert replacing.form.button.text() == "Replace 4 matches"


def test_an_unticked_match_stays_and_one_undo_takes_all_back(
    qtbot: QtBot, replacing: ReplacePage, session: Session, told: list[Message]
) -> None:
    before = session.library
    find(qtbot, replacing, "toes", "tiptoes")
    replacing.list.setFocus()
    qtbot.keyClick(replacing.list, Key.Key_Space)
    assert replacing.count.text() == "4 matches in 2 files, 1 left out"
    qtbot.mouseClick(replacing.form.button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: session.library is not before)
    steps = [v.steps[0].best("en", "en") for v in session.library.cards[HEEL].variants]
    assert steps == ["Push up onto your toes.", "Push up onto your tiptoes."]
    assert session.document.undo_name == "Replace in library"
    assert told[-1].sentence == "Replaced 3 matches in 2 files."
    assert told[-1].action is not None
    told[-1].action()
    assert session.library == before


def test_enter_in_the_field_replaces(
    qtbot: QtBot, replacing: ReplacePage, session: Session, told: list[Message]
) -> None:
    find(qtbot, replacing, "squat", "knee bend")
    qtbot.keyClick(replacing.with_field, Key.Key_Return)
    qtbot.waitUntil(lambda: len(told) == 1)
    assert session.library.cards[SQUAT].title == Text.plain("Knee bend")
    assert told[-1].sentence == "Replaced 1 match in 1 file."


def test_whole_words_and_case_are_kept_apart(qtbot: QtBot, replacing: ReplacePage) -> None:
    find(qtbot, replacing, "toe", "finger")
    assert replacing.empty.title == "“toe” stands nowhere here"
    replacing.form.whole_box.click()
    qtbot.waitUntil(lambda: len(replacing._matches) == 4)
    replacing.form.case_box.click()
    replacing.find_field.setText("Toe")
    qtbot.waitUntil(lambda: replacing._wish == replacing.form.wish)
    assert replacing._matches == ()


def test_places_to_look_in_can_be_chosen(qtbot: QtBot, replacing: ReplacePage) -> None:
    find(qtbot, replacing, "chair", "seat")
    assert replacing._matches == ()
    replacing.form.holders[Holder.LIBRARY].click()
    qtbot.waitUntil(lambda: len(replacing._matches) == 1)
    assert replacing.list.rows.row(0).far == "Words and kit"


def test_an_approved_protocol_is_warned_of(
    qtbot: QtBot, replacing: ReplacePage, session: Session
) -> None:
    session.document.edit_protocol("Approve", ANKLE, lambda p: evolve(p, status=Status.APPROVED))
    find(qtbot, replacing, "ankle", "foot")
    assert replacing.form.warning.text() == (
        "1 approved protocol becomes a draft of its next version."
    )


def test_replacing_shows_the_languages_there_are(
    qtbot: QtBot, replacing: ReplacePage, session: Session
) -> None:
    def in_french(card: Card) -> Card:
        return evolve(card, title=Text({"en": "Squat", "fr": "Flexion"}))

    session.document.edit_card("Translate", SQUAT, in_french)
    box = replacing.form.language
    qtbot.waitUntil(lambda: box.count() == 3)
    assert [box.itemText(n) for n in range(3)] == ["Any language", "English (en)", "Français (fr)"]
    box.setCurrentIndex(2)
    find(qtbot, replacing, "squat", "x")
    assert replacing._matches == ()


def test_enter_on_a_match_goes_there(
    qtbot: QtBot, replacing: ReplacePage, session: Session
) -> None:
    asked: list[Place] = []
    session.place_asked.connect(asked.append)
    find(qtbot, replacing, "toes", "x")
    replacing.list.setFocus()
    qtbot.keyClick(replacing.list, Key.Key_Return)
    assert asked[0].path == "variants[0].steps[0]"


@pytest.mark.parametrize(("keep", "after"), [(True, "Calf raise"), (False, "calf raise")])
def test_capitals_are_kept_where_wanted(session: Session, keep: bool, after: str) -> None:
    wish = Wish("heel", "calf", keep, Options(holders=frozenset({Holder.CARD})))
    match = find_all(session.library, wish)[0]
    assert change_of(match, wish, session.library).after.words == after
    assert approved_in([match], session.library) == 0


# ---- spelling ----------------------------------------------------------------------------


@pytest.fixture
def spelling(qtbot: QtBot, room: LibraryRoom, session: Session) -> SpellingPage:
    def misspelt(card: Card) -> Card:
        return evolve(card, purpose=Text.plain("Stronger kneees and eversion."))

    session.document.edit_card("Edit purpose", HEEL, misspelt)
    page = room.open_page(SPELLING)
    assert isinstance(page, SpellingPage)
    qtbot.waitUntil(lambda: page.list.rows.rowCount() > 0)
    return page


def unknown(page: SpellingPage) -> list[str]:
    return [page.list.rows.row(n).title.words for n in range(page.list.rows.rowCount())]


def choose(page: SpellingPage, word: str) -> None:
    page.list.choose(unknown(page).index(word))


def test_unknown_words_are_listed_with_where_they_stand(
    qtbot: QtBot, spelling: SpellingPage, session: Session
) -> None:
    assert {"eversion", "kneees"} <= set(unknown(spelling))
    asked: list[Place] = []
    session.place_asked.connect(asked.append)
    choose(spelling, "kneees")
    row = spelling.sheet.places.rows.row(0)
    assert row.title.words == "Stronger kneees and eversion."
    assert row.title.words[slice(*row.title.marks[0])] == "kneees"
    assert (row.below.words, row.far) == ("Heel raise", "Purpose")
    qtbot.keyClick(spelling.list, Key.Key_Return)
    qtbot.keyClick(spelling.sheet.places, Key.Key_Return)
    assert [place.path for place in asked] == ["purpose"]


def test_adding_a_word_takes_it_off_the_list(
    qtbot: QtBot, spelling: SpellingPage, session: Session, told: list[Message]
) -> None:
    choose(spelling, "eversion")
    qtbot.mouseClick(spelling.sheet.add_button, Qt.MouseButton.LeftButton)
    assert session.library.manifest.clinic_words == ("eversion",)
    assert told[-1].sentence == "“eversion” is a clinic word now."
    qtbot.waitUntil(lambda: "eversion" not in unknown(spelling))
    qtbot.mouseClick(spelling.which.button("own"), Qt.MouseButton.LeftButton)
    assert unknown(spelling) == ["eversion"]
    qtbot.mouseClick(spelling.sheet.remove_button, Qt.MouseButton.LeftButton)
    assert session.library.manifest.clinic_words == ()
    assert told[-1].sentence == "“eversion” is no clinic word any more."


def test_a_near_word_leads_to_changing_it_everywhere(
    qtbot: QtBot, spelling: SpellingPage, room: LibraryRoom, session: Session
) -> None:
    choose(spelling, "kneees")

    def chips() -> list[QPushButton]:
        return [b for b in spelling.sheet.near.findChildren(QPushButton) if b.text() == "knees"]

    qtbot.waitUntil(lambda: bool(chips()))
    assert chips()[0].accessibleName() == "Change everywhere to “knees”"
    qtbot.mouseClick(chips()[0], Qt.MouseButton.LeftButton)
    page = room.page
    assert isinstance(page, ReplacePage)
    qtbot.waitUntil(page.form.button.isEnabled)
    qtbot.mouseClick(page.form.button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: session.document.undo_name == "Replace in library")
    assert session.library.cards[HEEL].purpose == Text.plain("Stronger knees and eversion.")


def test_a_language_without_a_dictionary_is_named(
    qtbot: QtBot, spelling: SpellingPage, session: Session
) -> None:
    def in_volapuk(card: Card) -> Card:
        return evolve(card, title=Text({"en": "Squat", "vo": "Kienam"}))

    session.document.edit_card("Translate", SQUAT, in_volapuk)
    said = "No dictionary for Volapük: its texts are not checked."
    qtbot.waitUntil(lambda: said in spelling.notes.text())


# ---- words and kit ------------------------------------------------------------------------


@pytest.fixture
def terms(qtbot: QtBot, room: LibraryRoom) -> TermsPage:
    page = room.open_page(WORDS)
    assert isinstance(page, TermsPage)
    page.kinds.choose(1)
    qtbot.waitUntil(lambda: not page.task.is_busy)
    return page


def names(page: TermsPage) -> list[str]:
    return [page.list.rows.row(n).title.words for n in range(page.list.rows.rowCount())]


def term(session: Session, term_id: str) -> Term | None:
    return session.library.manifest.term(TermKind.KIT, term_id)


def test_terms_are_listed_by_kind_with_their_use(
    qtbot: QtBot, terms: TermsPage, session: Session
) -> None:
    assert terms.kinds.rows.row(1).says == "Kit, 2"
    assert names(terms) == ["Chair", "Step"]
    assert terms.list.rows.row(0).says == "Chair. seat. not used"

    def with_chair(card: Card) -> Card:
        first, *rest = card.variants
        return evolve(card, variants=(evolve(first, equipment=(KitNeed(kit="chair"),)), *rest))

    session.document.edit_card("Edit kit", SQUAT, with_chair)
    qtbot.waitUntil(lambda: terms.list.rows.row(0).far == "in 1 file")
    assert uses_of_terms(session.library) == {("kit", "chair"): 1}
    assert terms.used.text() == "Used in 1 card or protocol."


def test_typing_finds_by_look_alike_and_enter_adds_a_new_name(
    qtbot: QtBot, terms: TermsPage, session: Session
) -> None:
    qtbot.keyClicks(terms.field, "seat")
    assert names(terms) == ["Chair"]
    terms.field.clear()
    qtbot.keyClicks(terms.field, "Foam pad")
    assert terms._empty.text() == ("No piece of kit is called “Foam pad”. Press Enter to add it.")
    qtbot.keyClick(terms.field, Key.Key_Return)
    added = term(session, "foam-pad")
    assert added is not None
    assert added.name == Text.plain("Foam pad")
    assert names(terms) == ["Chair", "Foam pad", "Step"]
    assert session.document.undo_name == "Add the term “Foam pad”"


def test_a_term_is_renamed_in_its_form(qtbot: QtBot, terms: TermsPage, session: Session) -> None:
    qtbot.keyClick(terms.field, Key.Key_Return)
    editor = terms.form.focusWidget() if terms.form is not None else None
    assert editor is not None
    qtbot.keyClick(editor, Key.Key_End)
    qtbot.keyClicks(editor, ", firm")
    renamed = term(session, "chair")
    assert renamed is not None
    assert renamed.name == Text.plain("Chair, firm")
    assert names(terms) == ["Chair, firm", "Step"]
    assert editor.hasFocus()
    session.document.undo()
    assert names(terms) == ["Chair", "Step"]


def test_an_unused_term_can_be_deleted_and_brought_back(
    qtbot: QtBot, terms: TermsPage, session: Session, told: list[Message]
) -> None:
    qtbot.mouseClick(terms.remove_button, Qt.MouseButton.LeftButton)
    assert term(session, "chair") is None
    assert told[-1].sentence == "Deleted “Chair”."
    assert told[-1].action is not None
    told[-1].action()
    assert names(terms) == ["Chair", "Step"]


def test_a_term_in_use_stays(
    qtbot: QtBot, terms: TermsPage, session: Session, told: list[Message]
) -> None:
    def with_chair(card: Card) -> Card:
        first, *rest = card.variants
        return evolve(card, variants=(evolve(first, equipment=(KitNeed(kit="chair"),)), *rest))

    session.document.edit_card("Edit kit", SQUAT, with_chair)
    qtbot.mouseClick(terms.remove_button, Qt.MouseButton.LeftButton)
    assert term(session, "chair") is not None
    assert told[-1].sentence == "“Chair” stays: 1 card or protocol uses it."


def test_a_check_about_a_term_leads_to_its_form(window: MainWindow, session: Session) -> None:
    from authoring.checks.result import Subject

    session.go_to(Place(Subject.LIBRARY, "", "terms[2].name"))
    room = window.room
    assert isinstance(room, LibraryRoom)
    page = room.page
    assert isinstance(page, TermsPage)
    assert page.list.rows.row(page.list.current).title.words == "Step"
    assert page.form is not None
    assert page.form.focusWidget() is not None
