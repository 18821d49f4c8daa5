"""The library room as a person drives it: find, filter, open, make, copy, delete."""

import datetime as dt

import pytest
from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QPushButton
from pytestqt.qtbot import QtBot

from authoring.editor.library_room.find_page import FindPage
from authoring.editor.library_room.room import LibraryRoom
from authoring.editor.messages import Message
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.text import Text
from authoring.model.vocabulary import Region
from tests.editor.conftest import ANKLE, HEEL, SQUAT

Key = Qt.Key


@pytest.fixture
def room(qtbot: QtBot, window: MainWindow) -> LibraryRoom:
    window.activateWindow()
    window.show_room("library")
    assert isinstance(window.room, LibraryRoom)
    made = page_of(window.room)
    qtbot.waitUntil(lambda: made._finder.is_ready and not made._previewing.isActive())
    return window.room


def page_of(room: object) -> FindPage:
    assert isinstance(room, LibraryRoom)
    assert isinstance(room.page, FindPage)
    return room.page


@pytest.fixture
def page(room: LibraryRoom) -> FindPage:
    return page_of(room)


def titles(page: FindPage) -> list[str]:
    model = page.list.rows
    return [str(model.index(row, 0).data()) for row in range(model.rowCount())]


def search(qtbot: QtBot, page: FindPage, words: str) -> None:
    page.field.clear()
    qtbot.keyClicks(page.field, words)
    qtbot.waitUntil(lambda: not page._finder.task.is_busy)


def filter_index(page: FindPage, heading: str, value: str) -> QModelIndex:
    model = page.filters.model
    for row in range(model.rowCount()):
        head = model.index(row, 0)
        if head.data() == heading:
            for inner in range(model.rowCount(head)):
                if model.index(inner, 0, head).data() == value:
                    return model.index(inner, 0, head)
    raise LookupError(f"{heading}: {value}")


def test_it_opens_with_everything_by_title_and_the_focus_in_the_field(page: FindPage) -> None:
    assert titles(page) == ["Ankle sprain, invented", "Heel raise", "Squat"]
    assert page.field.hasFocus()
    assert page.count.text() == "3 cards and protocols"


def test_typing_finds_and_says_what_matched(qtbot: QtBot, page: FindPage) -> None:
    search(qtbot, page, "toes")
    assert sorted(titles(page)) == ["Heel raise", "Squat"]
    row = page.list.rows.index(titles(page).index("Heel raise"), 0)
    spoken = row.data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "Heel raise. Card. Step: Push up onto your toes. No review date"
    assert page.count.text() == "2 of 3"


def test_a_slip_is_forgiven_and_said(qtbot: QtBot, page: FindPage) -> None:
    search(qtbot, page, "sqaut")
    assert titles(page) == ["Squat"]
    assert page.guess.text() == "Read “sqaut” as squat."


def test_enter_opens_the_card_at_what_matched(
    qtbot: QtBot, page: FindPage, session: Session
) -> None:
    asked: list[Place] = []
    session.place_asked.connect(asked.append)
    search(qtbot, page, "lower slowly")
    if page.list.current_id != SQUAT:
        qtbot.keyClick(page.field, Key.Key_Down)
    qtbot.keyClick(page.field, Key.Key_Return)
    assert session.card_id == SQUAT
    assert asked == [Place(asked[0].subject, SQUAT, "variants[0].steps[1]")]


def test_arrows_in_the_field_choose_and_the_preview_follows(
    qtbot: QtBot, page: FindPage, session: Session
) -> None:
    assert page.preview.open_button.isEnabled()
    qtbot.keyClick(page.field, Key.Key_Down)
    assert page.list.current_id == HEEL
    qtbot.waitUntil(lambda: not page._previewing.isActive())
    links = [b.text() for b in page.preview.findChildren(QPushButton) if b.property("link")]
    assert links == ["Ankle sprain, invented"]
    names = [b.accessibleName() for b in page.preview.findChildren(QPushButton)]
    said = "Go to Ankle sprain, invented, Stage 1, exercise 1; stage 2, exercise 2. Draft."
    assert said in names


def test_nothing_found_teaches_and_offers_a_card_of_that_name(
    qtbot: QtBot, page: FindPage, session: Session
) -> None:
    search(qtbot, page, "xylophone walk")
    assert page.stack.currentIndex() == 1
    assert page.empty.title == "Nothing holds “xylophone walk”"
    assert page.make_button.text() == "New card “xylophone walk”"
    qtbot.mouseClick(page.make_button, Qt.MouseButton.LeftButton)
    assert session.card is not None
    assert session.card.title == Text.plain("xylophone walk")
    assert session.document.undo_name == "New card"


def test_an_empty_library_says_how_to_begin(qtbot: QtBot, page: FindPage, session: Session) -> None:
    session.document.edit("Empty", lambda library: evolve(library, cards={}, protocols={}))
    qtbot.waitUntil(lambda: page.stack.currentIndex() == 1)
    assert page.empty.title == "Nothing here yet"
    assert page.make_button.text() == "New card"
    assert not page.clear_button.isVisible()


# ---- filters ----------------------------------------------------------------------------


def test_ticking_a_filter_with_the_keyboard_leaves_only_what_fits(
    qtbot: QtBot, page: FindPage
) -> None:
    tree = page.filters.tree
    tree.setFocus()
    tree.setCurrentIndex(filter_index(page, "Kind", "Protocols"))
    qtbot.keyClick(tree, Key.Key_Space)
    qtbot.waitUntil(lambda: titles(page) == ["Ankle sprain, invented"])
    assert page.filters.clear_button.isEnabled()
    qtbot.keyClick(tree, Key.Key_Space)
    qtbot.waitUntil(lambda: len(titles(page)) == 3)


def test_counts_beside_filters_follow_the_search(qtbot: QtBot, page: FindPage) -> None:
    role = Qt.ItemDataRole.AccessibleTextRole
    assert filter_index(page, "Kind", "Cards").data(role) == "Cards, 2 found"
    search(qtbot, page, "squat")
    assert filter_index(page, "Kind", "Cards").data(role) == "Cards, 1 found"


def test_headings_without_values_are_not_shown(page: FindPage) -> None:
    heads = [page.filters.model.index(row, 0) for row in range(page.filters.model.rowCount())]
    shown = [h.data() for h in heads if not page.filters.tree.isRowHidden(h.row(), QModelIndex())]
    assert shown == ["Kind", "Status", "Review"]


def test_all_filters_and_words_can_be_cleared_at_once(qtbot: QtBot, page: FindPage) -> None:
    page.filters.tree.flip(filter_index(page, "Kind", "Protocols"))
    search(qtbot, page, "squat")
    assert page.empty.title == "Nothing holds “squat”"
    qtbot.mouseClick(page.clear_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(titles(page)) == 3)
    assert page.field.hasFocus()


def test_a_new_region_appears_among_the_filters(
    qtbot: QtBot, page: FindPage, session: Session
) -> None:
    def with_region(card: Card) -> Card:
        return evolve(card, regions=(Region.FOOT_ANKLE,))

    session.document.edit_card("Edit regions", HEEL, with_region)
    qtbot.waitUntil(lambda: not page._finder.task.is_busy)
    page.filters.tree.flip(filter_index(page, "Region", "Foot and ankle"))
    qtbot.waitUntil(lambda: titles(page) == ["Heel raise"])


def test_an_overdue_review_is_said(qtbot: QtBot, page: FindPage, session: Session) -> None:
    def overdue(card: Card) -> Card:
        return evolve(card, review_due=dt.date(2020, 5, 3))

    session.document.edit_card("Edit review", SQUAT, overdue)
    qtbot.waitUntil(lambda: not page._finder.task.is_busy)
    row = page.list.rows.row(2)
    assert row.far_below == "Overdue since 3 May 2020"
    assert row.says.endswith("Review overdue since 3 May 2020")
    assert row.warns


# ---- making, copying, deleting -----------------------------------------------------------------


def test_a_card_in_use_stays_and_the_sentence_says_where(
    qtbot: QtBot, page: FindPage, session: Session, told: list[Message]
) -> None:
    page.list.choose(1)
    page.list.setFocus()
    qtbot.keyClick(page.list, Key.Key_Delete)
    assert HEEL in session.library.cards
    assert told[-1].sentence == (
        "“Heel raise” stays: it is used in “Ankle sprain, invented”. Put another card there first."
    )
    assert told[-1].action_name == "Show"


def test_deleting_can_be_undone_from_the_message(
    qtbot: QtBot, page: FindPage, session: Session, told: list[Message]
) -> None:
    page.list.choose(2)
    page.list.setFocus()
    qtbot.keyClick(page.list, Key.Key_Delete)
    assert SQUAT not in session.library.cards
    assert told[-1].sentence == "Deleted the card “Squat”."
    qtbot.waitUntil(lambda: titles(page) == ["Ankle sprain, invented", "Heel raise"])
    assert told[-1].action is not None
    told[-1].action()
    assert SQUAT in session.library.cards
    qtbot.waitUntil(lambda: len(titles(page)) == 3)


def test_delete_in_the_field_deletes_only_letters(
    qtbot: QtBot, page: FindPage, session: Session
) -> None:
    search(qtbot, page, "squat")
    page.field.setCursorPosition(0)
    qtbot.keyClick(page.field, Key.Key_Delete)
    assert page.field.text() == "quat"
    assert SQUAT in session.library.cards


def test_a_protocol_is_deleted_whole(
    qtbot: QtBot, page: FindPage, session: Session, told: list[Message]
) -> None:
    qtbot.mouseClick(page.preview.delete_button, Qt.MouseButton.LeftButton)
    assert ANKLE not in session.library.protocols
    assert told[-1].sentence == "Deleted the protocol “Ankle sprain, invented”."


def test_a_copy_is_a_card_of_its_own(
    qtbot: QtBot, page: FindPage, session: Session, told: list[Message]
) -> None:
    page.list.choose(2)
    page.list.setFocus()
    qtbot.keyClick(page.list, Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert told[-1].sentence == "Duplicated “Squat”."
    copies = [c for c in session.library.cards.values() if c.title == Text.plain("Squat, copy")]
    assert len(copies) == 1
    assert copies[0].variants == session.library.cards[SQUAT].variants
    assert copies[0].slug not in {c.slug for c in session.library.cards.values() if c != copies[0]}


def test_new_card_and_new_protocol_open_what_they_make(
    qtbot: QtBot, room: LibraryRoom, session: Session, told: list[Message]
) -> None:
    qtbot.mouseClick(room.protocol_button, Qt.MouseButton.LeftButton)
    assert session.protocol is not None
    assert session.protocol.title == Text.plain("New protocol")
    assert len(session.protocol.stages) == 1
    qtbot.mouseClick(room.card_button, Qt.MouseButton.LeftButton)
    assert session.card is not None
    assert session.card.title == Text.plain("New exercise")
    assert told[-1].sentence == "Made the card “New exercise”."


# ---- the room -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "page"),
    [
        (Key.Key_2, "attention"),
        (Key.Key_3, "replace"),
        (Key.Key_4, "spelling"),
        (Key.Key_5, "words"),
    ],
)
def test_each_page_has_its_key(qtbot: QtBot, room: LibraryRoom, key: Key, page: str) -> None:
    qtbot.keyClick(room, key, Qt.KeyboardModifier.AltModifier)
    assert room.key == page
    assert room.pages.value == page
    qtbot.keyClick(
        room,
        Key.Key_F,
        Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier,
    )
    assert room.key == "find"


def test_keys_are_named_for_what_has_the_focus(page: FindPage, room: LibraryRoom) -> None:
    assert [hint.does for hint in room.key_hints()][:3] == ["choose", "open", "duplicate"]
    page.filters.tree.setFocus()
    assert next(hint.does for hint in room.key_hints()) == "tick"


def test_every_control_has_a_name(room: LibraryRoom, page: FindPage) -> None:
    for widget in (page.field, page.list, page.filters.tree, room.pages):
        assert widget.accessibleName()
    for button in room.findChildren(QPushButton):
        if button.isVisible():
            interface = QAccessible.queryAccessibleInterface(button)
            assert interface.text(QAccessible.Text.Name)
            assert button.height() >= 24


def test_the_words_searched_for_last_are_kept(
    qtbot: QtBot, page: FindPage, session: Session
) -> None:
    search(qtbot, page, "squat")
    again = FindPage(session)
    qtbot.addWidget(again)
    assert again.field.text() == "squat"
