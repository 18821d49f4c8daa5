"""Spelling: the bundled dictionary, the clinic's words, marks in fields."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QTextCharFormat
from PySide6.QtWidgets import QPlainTextEdit
from pytestqt.qtbot import QtBot

from authoring.checks.result import Subject
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.spelling.dictionaries import Dictionary, load, path_for
from authoring.editor.spelling.edits import with_clinic_word, without_clinic_word
from authoring.editor.spelling.marking import SpellingMarks, attach
from authoring.editor.spelling.shelf import shelf_of
from authoring.editor.spelling.unknown import SpellingReport
from authoring.editor.spelling.words import Speller, words_in
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.library import Library, LibraryFile
from authoring.model.text import Text


class FewWords:
    """A dictionary of a few words."""

    def __init__(self, *words: str) -> None:
        self._words = set(words)

    def knows(self, word: str) -> bool:
        return word.lower() in self._words

    def suggest(self, _word: str) -> tuple[str, ...]:
        return tuple(sorted(self._words))


@pytest.fixture(scope="module")
def british() -> Dictionary:
    found = load("en-GB")
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("british_word", "american_word"),
    # Spellings of the Oxford and Cambridge dictionaries, British beside American.
    [
        ("colour", "color"),
        ("centre", "center"),
        ("programme", "maneuver"),
        ("travelled", "traveled"),
    ],
)
def test_the_bundled_dictionary_is_british(
    british: Dictionary, british_word: str, american_word: str
) -> None:
    assert british.knows(british_word)
    assert not british.knows(american_word)


def test_a_slip_is_mended_by_its_likeliest_word(british: Dictionary) -> None:
    assert british.suggest("kneee")[0] == "knee"


@pytest.mark.parametrize("tag", ["en", "en-GB", "EN-gb", "en_GB", "en-AU"])
def test_any_english_has_a_dictionary(tag: str) -> None:
    assert path_for(tag) is not None


@pytest.mark.parametrize("tag", ["tlh", "xx"])
def test_a_language_without_a_dictionary_has_none(tag: str) -> None:
    assert load(tag) is None


# ---- words ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Don't lock the knee.", ["Don't", "lock", "the", "knee"]),
        ("Write to a.b@clinic.example or www.clinic.example now", ["Write", "to", "or", "now"]),
        ("3x8, 10cm and L5", ["and"]),
        ("NHS and ROM by the GP", ["and", "by", "the"]),
        ("a McKay x side-lying", ["side", "lying"]),
        ("Élan für Größe", ["Élan", "für", "Größe"]),
    ],
)
def test_only_words_are_spelled(text: str, words: list[str]) -> None:
    assert [word for _, _, word in words_in(text)] == words


@given(st.text(max_size=120))
def test_words_stand_where_they_are_said_to(text: str) -> None:
    assert all(text[start:end] == word for start, end, word in words_in(text))


@pytest.mark.parametrize("word", ["Eversion", "eversion", "eversion's", "eversion’s", "eversions"])
def test_a_clinic_word_is_accepted_in_any_case_and_number(word: str) -> None:
    assert Speller(FewWords(), ["Eversion"]).knows(word)


# ---- a whole library --------------------------------------------------------------------------


def library_of(*cards: Card, accepted: tuple[str, ...] = ()) -> Library:
    manifest = LibraryFile(
        id="00000000-0000-4000-8000-000000000000", name="x", language="en", clinic_words=accepted
    )
    return Library(manifest=manifest, cards={card.id: card for card in cards})


def make_card(number: int, title: Text, **facts: object) -> Card:
    return Card(
        id=f"00000000-0000-4000-8000-{number:012d}",
        slug=f"card-{number}",
        language="en",
        title=title,
        **facts,  # type: ignore[arg-type]
    )


def shelf(**dictionaries: Dictionary) -> Callable[[str], Dictionary | None]:
    return dictionaries.get


def test_unknown_words_are_counted_by_language_with_their_places() -> None:
    one = make_card(1, Text.plain("Hel raise"), purpose=Text.plain("Hel, hel."))
    two = make_card(2, Text({"en": "Raise", "fr": "Lever hel"}), owner="Zyx Qwv")
    report = SpellingReport(shelf(en=FewWords("raise"))).of(library_of(one, two))
    said = [(word.word, word.language, word.count) for word in report.words]
    assert said == [("Hel", "en", 2), ("hel", "en", 1)]
    place = Place(Subject.CARD, one.id, "title")
    assert report.words[0].places == (place, evolve(place, path="purpose"))
    assert dict(report.unchecked) == {"fr": 1}


def test_a_clinic_word_is_unknown_no_more_and_nothing_is_read_anew() -> None:
    card = make_card(1, Text.plain("Hel raise"))
    looked: list[int] = []
    reporter = SpellingReport(shelf(en=FewWords("raise")))
    assert len(reporter.of(library_of(card)).words) == 1
    after = reporter.of(library_of(card, accepted=("hel",)), lambda done, _of: looked.append(done))
    assert after.words == ()
    assert len(looked) == 1


def test_clinic_words_stay_sorted_and_single() -> None:
    library = library_of(accepted=("eversion", "Larkfield"))
    more = with_clinic_word(with_clinic_word(library, "fibularis"), "EVERSION")
    assert more.manifest.clinic_words == ("eversion", "fibularis", "Larkfield")
    assert without_clinic_word(more, "eversion").manifest.clinic_words == ("fibularis", "Larkfield")


# ---- marks in a field -----------------------------------------------------------------------


def marked(edit: QPlainTextEdit) -> list[str]:
    """The words that are drawn with a spelling mark."""
    wave = QTextCharFormat.UnderlineStyle.SpellCheckUnderline
    block, found = edit.document().firstBlock(), []
    while block.isValid():
        parts: list[Any] = list(block.layout().formats())
        waved = [part for part in parts if part.format.underlineStyle() == wave]
        found += [block.text()[part.start : part.start + part.length] for part in waved]
        block = block.next()
    return found


@pytest.fixture
def edit(qtbot: QtBot) -> QPlainTextEdit:
    made = QPlainTextEdit()
    qtbot.addWidget(made)
    made.resize(400, 100)
    made.show()
    qtbot.waitExposed(made)
    return made


@pytest.fixture
def marks(qtbot: QtBot, edit: QPlainTextEdit, session: Session) -> SpellingMarks:
    made = attach(edit, session)
    qtbot.waitUntil(lambda: shelf_of(session).has_looked("en"))
    return made


def test_unknown_words_are_marked_as_one_types(
    qtbot: QtBot, edit: QPlainTextEdit, marks: SpellingMarks
) -> None:
    qtbot.keyClicks(edit, "Lift the heell slowly.")
    assert marked(edit) == ["heell"]
    assert marks.unknown() == ("heell",)


def test_adding_to_clinic_words_takes_the_mark_away_and_can_be_undone(
    edit: QPlainTextEdit, marks: SpellingMarks, session: Session
) -> None:
    edit.setPlainText("Resisted eversion")
    assert marked(edit) == ["eversion"]
    marks.accept("eversion")
    assert marked(edit) == []
    assert session.document.undo_name == "Add “eversion” to clinic words"
    session.document.undo()
    assert marked(edit) == ["eversion"]


def test_the_menu_offers_what_was_meant_and_puts_it_in(
    qtbot: QtBot, edit: QPlainTextEdit, marks: SpellingMarks
) -> None:
    edit.setPlainText("Bend the kneee.")
    cursor = edit.textCursor()
    cursor.setPosition(11)
    edit.setTextCursor(cursor)
    menu = marks.menu_at(QPoint(0, 0), by_key=True)
    assert menu is not None
    assert menu.actions()[0].text() == "Looking for words that are near …"
    qtbot.waitUntil(lambda: any(action.text() == "knee" for action in menu.actions()))
    assert "Add “kneee” to clinic words" in [action.text() for action in menu.actions()]
    next(action for action in menu.actions() if action.text() == "knee").trigger()
    assert edit.toPlainText() == "Bend the knee."
    menu.deleteLater()


def test_a_known_word_keeps_the_plain_menu(edit: QPlainTextEdit, marks: SpellingMarks) -> None:
    edit.setPlainText("Bend the knee.")
    assert marks.menu_at(QPoint(2, 2), by_key=True) is None


def test_a_language_without_a_dictionary_has_no_marks(
    qtbot: QtBot, edit: QPlainTextEdit, marks: SpellingMarks, session: Session
) -> None:
    edit.setPlainText("Heell qwx")
    marks.speak("tlh")
    qtbot.waitUntil(lambda: shelf_of(session).has_looked("tlh"))
    assert marked(edit) == []
    marks.speak("en")
    assert marked(edit) == ["Heell", "qwx"]


def test_marking_leaves_the_text_and_its_undo_alone(
    qtbot: QtBot, edit: QPlainTextEdit, marks: SpellingMarks
) -> None:
    changes: list[int] = []
    edit.textChanged.connect(lambda: changes.append(1))
    marks.mark_anew()
    assert changes == []
    qtbot.keyClicks(edit, "ab")
    qtbot.keyClick(edit, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert edit.toPlainText() == ""
