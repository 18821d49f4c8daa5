"""Fields read what people type, say what is wrong in one sentence, and work by keyboard."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from authoring.checks.result import Strength
from authoring.editor.appearance import Appearance
from authoring.editor.form_context import FormContext
from authoring.editor.parts.fields import reading
from authoring.editor.parts.fields.picks import Option, PickField, PicksField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.fields.texts import languages_of, with_words, words_in
from authoring.editor.parts.gauge import RungGauge, rung_height, rung_sign, rung_words
from authoring.editor.parts.icons import icon_of_mode, mode_words
from authoring.editor.parts.marks import (
    Mark,
    mark_of_caution,
    mark_of_strength,
    mark_words,
    paint_mark,
    pixmap,
)
from authoring.editor.parts.segmented import Segmented
from authoring.editor.session import Session
from authoring.model.base import Fact
from authoring.model.load import IntRange, NumberRange
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, Mode, TermKind
from tests.editor.conftest import HEEL

# ---- reading ---------------------------------------------------------------------------


@given(st.integers(0, 1_000_000), st.integers(0, 1_000_000), st.booleans())
def test_a_range_that_is_written_reads_back(one: int, other: int, single: bool) -> None:
    low, high = sorted((one, other))
    value = IntRange(low=low, high=None if single else high)
    assert reading.read_int_range(reading.write_range(value)) == value


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("8", IntRange(low=8)),
        (" 8 - 12 ", IntRange(low=8, high=12)),
        ("8–12", IntRange(low=8, high=12)),
        ("8 to 12", IntRange(low=8, high=12)),
    ],
)
def test_ranges_are_read_as_the_trade_writes_them(typed: str, value: IntRange) -> None:
    """Common practice, no source."""
    assert reading.read_int_range(typed) == value


def test_a_decimal_comma_is_as_good_as_a_point() -> None:
    assert reading.read_number_range("2,5-5") == NumberRange(low=2.5, high=5)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("", "Write a number or a range, such as 8-12."),
        ("eight", "Write a number or a range, such as 8-12."),
        ("12-8", "The range ends at 8, below its start 12."),
        ("2.5", "Write whole numbers, such as 8-12."),
        ("-3", "Write numbers from 0 to 1000000."),
    ],
)
def test_what_is_no_range_is_said_in_a_sentence(typed: str, sentence: str) -> None:
    with pytest.raises(reading.Unreadable, match=f"^{sentence}$"):
        reading.read_int_range(typed)


@pytest.mark.parametrize(
    ("typed", "known", "whole", "sentence"),
    [
        ("0", Fact("", low=1, high=50), True, "Write a whole number from 1 to 50."),
        ("2.5", Fact("", low=1), True, "Write a whole number from 1."),
        ("x", Fact("", high=9), False, "Write a number up to 9."),
        ("x", Fact(""), False, "Write a number."),
        ("-30", Fact("", low=-20, high=20), True, "Write a whole number from −20 to 20."),
    ],
)
def test_a_number_outside_its_limits_names_them(
    typed: str, known: Fact, whole: bool, sentence: str
) -> None:
    with pytest.raises(reading.Unreadable, match=f"^{sentence}$"):
        reading.read_number(typed, known, whole=whole)


def test_a_day_is_read_as_files_write_it() -> None:
    assert reading.read_day("2027-03-31") == dt.date(2027, 3, 31)
    with pytest.raises(reading.Unreadable, match=r"^Write the day as year, month, day"):
        reading.read_day("2027-02-30")


# ---- texts in languages ----------------------------------------------------------------


def test_a_text_in_the_file_s_own_language_stays_plain() -> None:
    assert with_words(None, "", "en", "Lift") == Text.plain("Lift")
    assert with_words(Text.plain("Lift"), "en", "en", "Lower") == Text.plain("Lower")


def test_a_second_language_makes_a_map_and_leaving_it_out_makes_it_plain_again() -> None:
    both = with_words(Text.plain("Lift"), "fr", "en", "Levez")
    assert both == Text({"en": "Lift", "fr": "Levez"})
    assert with_words(both, "fr", "en", "") == Text.plain("Lift")
    assert with_words(Text.plain("Lift"), "", "en", "") is None


def test_words_are_those_of_exactly_the_language_asked_for() -> None:
    both = Text({"en": "Lift", "fr": "Levez"})
    assert words_in(both, "fr", "en") == "Levez"
    assert words_in(both, "de", "en") == ""
    assert words_in(both, "", "en") == "Lift"
    assert languages_of(both, "fr") == ("fr", "en")


def test_a_text_field_edits_one_language_and_names_the_others(
    appearance: Appearance, qtbot: QtBot
) -> None:
    field = TextField("en", "fr")
    qtbot.addWidget(field)
    field.show_value(Text.plain("Lift"))
    assert field.edit.placeholderText() == "Lift"
    assert field._others.text() == "Not in fr yet"
    qtbot.keyClicks(field.edit, "Levez")
    assert field.value == Text({"en": "Lift", "fr": "Levez"})
    assert field._others.text() == "Also in en"


def test_tab_leaves_a_text_field(appearance: Appearance, qtbot: QtBot) -> None:
    field = TextField("en")
    qtbot.addWidget(field)
    assert field.edit.tabChangesFocus()


# ---- picking ---------------------------------------------------------------------------

KIT = (Option("chair", "Chair", ("seat",)), Option("step", "Step"))


def test_a_term_is_picked_by_its_name_or_a_look_alike(appearance: Appearance, qtbot: QtBot) -> None:
    field = PickField(lambda: KIT, what="kit", optional=True)
    qtbot.addWidget(field)
    qtbot.keyClicks(field.line, "sea")
    assert field.fault == "Nothing here is called “sea”; choose from the list."
    qtbot.keyClicks(field.line, "t")
    assert (field.value, field.fault) == ("chair", "")
    field.line.clear()
    field._read("")
    assert field.value is None


def test_a_term_that_is_not_there_can_be_added_to_the_library(
    session: Session, appearance: Appearance, qtbot: QtBot
) -> None:
    context = FormContext.of_card(session, HEEL)
    known = Fact("", term="kit")
    field = PicksField(lambda: context.options(known, {}), create=context.creator(known))
    qtbot.addWidget(field)
    field.show_value(("chair",))
    qtbot.keyClicks(field._pick.line, "Foam pad")
    button = next(b for b in field.findChildren(QPushButton) if b.text() == "Add “Foam pad”")
    button.click()
    assert field.value == ("chair", "foam-pad")
    term = session.library.manifest.term(TermKind.KIT, "foam-pad")
    assert term is not None
    assert term.name == Text.plain("Foam pad")
    assert session.document.undo_name == "Add the term “Foam pad”"


def test_what_was_picked_is_taken_off_by_its_named_button(
    appearance: Appearance, qtbot: QtBot
) -> None:
    field = PicksField(lambda: KIT)
    qtbot.addWidget(field)
    field.show_value(("chair", "step"))
    field.name_controls("Kit")
    names = [b.accessibleName() for b in field._chips.findChildren(QPushButton)]
    assert "Kit: take off Chair" in names
    next(b for b in field._chips.findChildren(QPushButton) if "Chair" in b.accessibleName()).click()
    assert field.value == ("step",)


# ---- rows of buttons --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("direction", "key", "chosen"),
    [
        (Qt.LayoutDirection.LeftToRight, Qt.Key.Key_Right, "b"),
        (Qt.LayoutDirection.RightToLeft, Qt.Key.Key_Left, "b"),
        (Qt.LayoutDirection.LeftToRight, Qt.Key.Key_Left, "a"),
        (Qt.LayoutDirection.RightToLeft, Qt.Key.Key_Right, "a"),
    ],
)
def test_arrows_choose_along_the_reading_direction(
    direction: Qt.LayoutDirection,
    key: Qt.Key,
    chosen: str,
    appearance: Appearance,
    qtbot: QtBot,
) -> None:
    row: Segmented[str] = Segmented("Side", [("a", "Left"), ("b", "Right")], "a")
    qtbot.addWidget(row)
    row.setLayoutDirection(direction)
    row.show()
    row.button("a").setFocus()
    qtbot.keyClick(row.button("a"), key)
    assert row.value == chosen
    assert row.button(chosen).accessibleName() == {"a": "Side: Left", "b": "Side: Right"}[chosen]


# ---- painted parts ----------------------------------------------------------------------


def test_no_mark_of_a_check_looks_like_one_of_a_caution(appearance: Appearance) -> None:
    cautions = {mark_of_caution(kind) for kind in CautionKind}
    checks = {mark_of_strength(strength) for strength in Strength}
    assert not cautions & checks
    pictures = {}
    for mark in Mark:
        image = pixmap(16, 1.0, lambda p, at, m=mark: paint_mark(p, at, m)).toImage()
        pictures[mark] = bytes(image.constBits())
        assert mark_words(mark)
    assert len(set(pictures.values())) == len(Mark)


def test_every_kind_of_work_has_an_icon_and_a_word() -> None:
    assert len({icon_of_mode(mode) for mode in Mode}) == len(Mode)
    assert len({mode_words(mode) for mode in Mode}) == len(Mode)


def test_rungs_are_said_as_the_trade_says_them() -> None:
    assert [rung_words(rung) for rung in (0, 1, -2)] == [
        "as named",
        "progression 1",
        "regression 2",
    ]
    assert [rung_sign(rung) for rung in (0, 1, -2)] == ["0", "+1", "−2"]


@given(st.lists(st.integers(-20, 20), min_size=2, unique=True))
def test_a_gauge_keeps_the_true_distances_between_rungs(rungs: list[int]) -> None:
    from PySide6.QtCore import QRectF

    at = QRectF(0, 0, 20, 400)
    low, high = min(rungs), max(rungs)
    heights = {rung: rung_height(rungs, rung, at, 1.0) for rung in rungs}
    step = (heights[low] - heights[high]) / (high - low)
    for rung in rungs:
        assert heights[rung] == pytest.approx(heights[low] - step * (rung - low))


def test_a_gauge_says_what_its_height_says(appearance: Appearance, qtbot: QtBot) -> None:
    gauge = RungGauge(range(-2, 4), -1, was=1)
    qtbot.addWidget(gauge)
    assert gauge.accessibleName() == "regression 1, of −2 to +3; it was progression 1"
