"""The page room, driven as a person would: choose, look, save, print, mend."""

from collections.abc import Callable
from pathlib import Path

import pypdfium2
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.document import Document
from authoring.editor.messages import Message
from authoring.editor.page.files import Format
from authoring.editor.page.room import PageRoom
from authoring.editor.page.spread import Fit
from authoring.editor.page.wish import PageFault
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.workers import Token
from authoring.handout.document import PageSize, PrintSize
from authoring.model.base import evolve
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Status
from tests.editor.conftest import ANKLE, HEEL, SQUAT

CTRL = Qt.KeyboardModifier.ControlModifier


def settled(room: PageRoom, qtbot: QtBot) -> None:
    """Wait until the pages in sight are those of the document."""
    task, work = room.preview.task, room.outlet
    qtbot.waitUntil(lambda: not task.is_busy and not work.is_busy, timeout=20_000)


@pytest.fixture
def room(window: MainWindow, session: Session, qtbot: QtBot) -> PageRoom:
    """The room with its first pages, the checks done."""
    session.checks.start()
    window.show_room("handouts")
    made = window.room
    assert isinstance(made, PageRoom)
    qtbot.waitUntil(lambda: session.checks.are_current, timeout=10_000)
    settled(made, qtbot)
    return made


def words(room: PageRoom) -> str:
    """Every word on the pages, as Qt's own reader of PDF finds it."""
    pages = range(room.view.images.count)
    return " ".join(" ".join(room.view.images.words(page).split()) for page in pages)


def approved(document: Document) -> None:
    """Approve the protocol on the disk, as a reviewer did."""

    def change(old: Protocol) -> Protocol:
        return evolve(old, status=Status.APPROVED)

    library = document.library
    changed = evolve(library, protocols={ANKLE: change(library.protocols[ANKLE])})
    document.take_over("Approve", document.opened, changed, changed)


# ---- what is seen ---------------------------------------------------------------------------


def test_the_pages_show_the_protocol_as_it_prints(room: PageRoom, window: MainWindow) -> None:
    assert "Ankle sprain, invented" in words(room)
    count = room.view.count
    assert count > 1
    assert room.tools.where.text() == f"Page 1 of {count}"
    assert room.view.sheets[1].accessibleName() == f"Page 2 of {count}"
    assert room.view.accessibleName() == f"Page 1 of {count}, Ankle sprain, invented"
    assert "Ankle sprain, invented" in room.view.accessibleDescription()
    assert "Ankle sprain, invented" in window.windowTitle()


def test_an_edit_that_is_not_saved_shows_at_once(
    room: PageRoom, document: Document, qtbot: QtBot
) -> None:
    document.edit_protocol("Rename", ANKLE, lambda p: evolve(p, title=Text.plain("Sore ankle")))
    settled(room, qtbot)
    assert "Sore ankle" in words(room)
    document.undo()
    settled(room, qtbot)
    assert "Sore ankle" not in words(room)


def test_an_edit_keeps_the_place_on_the_page(
    room: PageRoom, document: Document, qtbot: QtBot
) -> None:
    bar = room.view.verticalScrollBar()
    bar.setValue(300)
    document.edit_card("Rename", HEEL, lambda c: evolve(c, title=Text.plain("Calf raise")))
    settled(room, qtbot)
    assert bar.value() == 300


def test_the_pages_are_drawn_dark_on_white(room: PageRoom, qtbot: QtBot) -> None:
    sheet = room.view.sheets[0]
    drawn: list[int] = []
    room.view.images.drawn.connect(drawn.append)
    sheet.update()
    room.view.step_zoom(-1)
    qtbot.waitUntil(lambda: 0 in drawn, timeout=10_000)
    picture = sheet.grab().toImage()
    middle = QPoint(picture.width() - 12, 12)
    assert picture.pixelColor(middle).name() == "#ffffff"
    dark = sum(
        picture.pixelColor(x, y).lightness() < 90
        for x in range(0, picture.width(), 3)
        for y in range(0, picture.height(), 3)
    )
    assert dark > 50


@pytest.mark.parametrize(("key", "zoom"), [(Qt.Key.Key_P, Fit.PAGE), (Qt.Key.Key_W, Fit.WIDTH)])
def test_single_keys_fit_the_pages(room: PageRoom, qtbot: QtBot, key, zoom) -> None:
    room.view.setFocus()
    qtbot.keyClick(room.view, key)
    assert room.view.zoom is zoom
    assert room.tools.fit.value is zoom


def test_keys_make_pages_larger_and_smaller(room: PageRoom, qtbot: QtBot) -> None:
    room.view.set_zoom(1.0)
    room.view.setFocus()
    qtbot.keyClick(room.view, Qt.Key.Key_Plus)
    assert room.tools.percent.text() == "125 %"
    qtbot.keyClick(room.view, Qt.Key.Key_Minus)
    qtbot.keyClick(room.view, Qt.Key.Key_Minus)
    assert room.tools.percent.text() == "80 %"
    assert room.tools.fit.value is None


def test_keys_go_from_page_to_page(room: PageRoom, qtbot: QtBot) -> None:
    count = room.view.count
    qtbot.keyClick(room.view, Qt.Key.Key_PageDown, CTRL)
    assert room.tools.where.text() == f"Page 2 of {count}"
    assert room.view.accessibleName().startswith(f"Page 2 of {count}")
    qtbot.keyClick(room.view, Qt.Key.Key_PageUp, CTRL)
    assert room.tools.where.text() == f"Page 1 of {count}"
    qtbot.keyClick(room.view, Qt.Key.Key_End)
    assert room.tools.where.text() == f"Page {count} of {count}"
    qtbot.keyClick(room.view, Qt.Key.Key_Home)
    assert room.tools.where.text() == f"Page 1 of {count}"


# ---- what is chosen -------------------------------------------------------------------------


def test_one_stage_can_be_chosen_and_the_choice_stays(
    room: PageRoom, window: MainWindow, settings: Settings, qtbot: QtBot
) -> None:
    second = room.choices.stages.ticks[1]
    assert second.accessibleName() == "Stage 2, Load"
    second.setFocus()
    qtbot.keyClick(second, Qt.Key.Key_Space)
    settled(room, qtbot)
    assert room.choices.wish().stages == (2,)
    assert not room.choices.stages.whole.isChecked()
    assert room.title_words.text() == "Ankle sprain, invented, stage 2"
    assert "One leg" in words(room)
    assert "Two legs" not in words(room).partition("If it")[0]
    settings.scale = 1.15
    window.show_room("handouts")
    anew = window.room
    assert isinstance(anew, PageRoom)
    assert anew is not room
    assert anew.choices.wish().stages == (2,)


def test_taking_the_last_stage_away_gives_the_whole(room: PageRoom, qtbot: QtBot) -> None:
    first = room.choices.stages.ticks[0]
    qtbot.mouseClick(first, Qt.MouseButton.LeftButton, pos=QPoint(8, first.height() // 2))
    assert room.choices.wish().stages == (1,)
    qtbot.mouseClick(first, Qt.MouseButton.LeftButton, pos=QPoint(8, first.height() // 2))
    assert room.choices.wish().stages == ()
    assert room.choices.stages.whole.isChecked()


def test_paper_and_print_size_change_the_pages(room: PageRoom, qtbot: QtBot) -> None:
    before = room.view.images.count
    paper = room.choices.paper.button(PageSize.A4)
    paper.setFocus()
    qtbot.keyClick(paper, Qt.Key.Key_Right)
    qtbot.mouseClick(room.choices.print_size.button(PrintSize.LARGE), Qt.MouseButton.LeftButton)
    settled(room, qtbot)
    width, height = room.view.images.sizes()[0]
    assert (width, height) == pytest.approx((612, 792), abs=0.5)  # 8.5 by 11 inches in points
    assert room.view.images.count >= before


def test_a_card_can_be_printed_alone(room: PageRoom, session: Session, qtbot: QtBot) -> None:
    session.choose_card(SQUAT)
    qtbot.mouseClick(room.choices.subject.button(Subject.CARD), Qt.MouseButton.LeftButton)
    settled(room, qtbot)
    assert room.title_words.text() == "Squat"
    assert room.notice.sentence == ("Draft, not for patients: a card alone is approved by nobody.")
    assert not room.choices.stages.isVisible()
    room.choices.card.line.clear()
    qtbot.keyClicks(room.choices.card.line, "Heel raise")
    settled(room, qtbot)
    assert session.card_id == HEEL
    assert room.title_words.text() == "Heel raise"


# ---- drafts ---------------------------------------------------------------------------------


def test_a_draft_is_not_offered_as_a_patients_print(room: PageRoom) -> None:
    assert room.notice.sentence == "Draft, not for patients: this version is not approved."
    assert room.save_button.property("main")
    assert room.save_button.text() == "Save the draft…"
    assert not room.print_button.property("main")
    assert room.print_button.text() == "Print a draft…"
    assert "Draft, not for patients" in words(room)


def test_an_approved_page_says_when_its_maker_finds_that_it_is_a_draft(
    room: PageRoom, document: Document, qtbot: QtBot
) -> None:
    """The clinic of the tests has no telephone: a must, though the window's checks are dumb."""
    approved(document)
    settled(room, qtbot)
    assert "Protocol checks must be mended first" in room.notice.sentence
    assert room.print_button.text() == "Print a draft…"
    assert "Draft, not for patients" in words(room)


def test_the_line_leads_to_the_check_that_must_be_mended(
    room: PageRoom, session: Session, qtbot: QtBot
) -> None:
    places: list[Place] = []
    session.place_asked.connect(places.append)
    path = "stages[1].blocks[0].entries[0].dose"
    session.checks.results = (
        CheckResult("dose", Strength.MUST, path, "No.", "Yes.", Subject.PROTOCOL, ANKLE),
        CheckResult("name", Strength.SHOULD, "", "No.", "Yes.", Subject.PROTOCOL, ANKLE),
    )
    session.checks.changed.emit()
    assert room.notice.sentence == (
        "Draft, not for patients: this version is not approved, and 1 Protocol check must be "
        "mended."
    )
    assert room.notice.button.text() == "Show the first check"
    qtbot.mouseClick(room.notice.button, Qt.MouseButton.LeftButton)
    assert places == [Place(Subject.PROTOCOL, ANKLE, path)]


# ---- faults ---------------------------------------------------------------------------------


def test_a_page_that_cannot_be_made_says_so_over_the_old_one(
    room: PageRoom, document: Document, session: Session, qtbot: QtBot
) -> None:
    places: list[Place] = []
    session.place_asked.connect(places.append)
    document.edit_protocol("Empty", ANKLE, lambda p: evolve(p, stages=()))
    settled(room, qtbot)
    assert room.notice.sentence == "This protocol has no stage yet; add a stage with an exercise."
    assert all(sheet.is_stale for sheet in room.view.sheets)
    assert room.tools.soft.text() == "as it was before"
    assert not room.print_button.isEnabled()
    qtbot.mouseClick(room.notice.button, Qt.MouseButton.LeftButton)
    assert places == [Place(Subject.PROTOCOL, ANKLE)]
    document.undo()
    room.window().show_room("handouts")  # type: ignore[attr-defined]
    settled(room, qtbot)
    assert not any(sheet.is_stale for sheet in room.view.sheets)
    assert room.print_button.isEnabled()


def test_no_page_of_another_protocol_stays_in_sight(
    room: PageRoom, document: Document, session: Session, qtbot: QtBot
) -> None:
    other = "00000000-0000-4000-8000-0000000000f1"

    def change(library):
        old = library.protocols[ANKLE]
        bare = evolve(old, id=other, slug="bare", title=Text.plain("Bare"), stages=())
        return evolve(library, protocols={**library.protocols, other: bare})

    document.edit("Add", change)
    session.choose_protocol(other)
    settled(room, qtbot)
    assert room.view.count == 0
    assert room.view.accessibleName() == "No page"
    assert room.tools.where.text() == ""


# ---- saving ---------------------------------------------------------------------------------


def answer(path: Path | None, asked: list[tuple[str, Format]]) -> Callable[..., Path | None]:
    def ask(_parent: object, start: Path, kind: Format) -> Path | None:
        asked.append((start.name, kind))
        return path

    return ask


@pytest.mark.parametrize("kind", Format)
def test_the_page_is_saved_and_its_folder_shown(
    room: PageRoom, told: list[Message], tmp_path: Path, qtbot: QtBot, kind: Format
) -> None:
    asked: list[tuple[str, Format]] = []
    shown: list[Path] = []
    room.outlet.ask_file = answer(tmp_path / "out", asked)
    room.outlet.show_folder = shown.append
    qtbot.mouseClick(room.choices.format.button(kind), Qt.MouseButton.LeftButton)
    qtbot.keyClick(room.view, Qt.Key.Key_E, CTRL)
    settled(room, qtbot)
    qtbot.waitUntil(lambda: bool(told), timeout=10_000)
    path = tmp_path / f"out{kind.value}"
    assert asked == [(f"Ankle sprain, invented{kind.value}", kind)]
    assert path.stat().st_size > 1000
    assert told[-1].sentence == f"Saved “{path.name}”."
    assert told[-1].action_name == "Show in folder"
    assert told[-1].action is not None
    told[-1].action()
    assert shown == [path]


def test_turning_back_from_the_dialog_saves_nothing(
    room: PageRoom, told: list[Message], tmp_path: Path
) -> None:
    room.outlet.ask_file = answer(None, [])
    room.save_page()
    assert not room.outlet.is_busy
    assert told == []
    assert not list(tmp_path.glob("*.pdf"))


def test_a_failed_save_is_said_in_a_sentence_and_leaves_the_old_file(
    room: PageRoom, told: list[Message], tmp_path: Path, qtbot: QtBot
) -> None:
    path = tmp_path / "busy.pdf"
    path.mkdir()
    room.outlet.ask_file = answer(path, [])
    room.save_page(Format.PDF)
    qtbot.waitUntil(lambda: bool(told), timeout=10_000)
    assert told[-1].sentence == (f"{path}: this is a folder, not a file; name a file inside it.")
    assert told[-1].is_problem


def test_a_slow_save_shows_how_far_it_is_and_can_be_stopped(
    room: PageRoom, told: list[Message], qtbot: QtBot
) -> None:
    room.outlet.busy_changed.emit("Saving the page")
    room.outlet.slow.emit()
    room.outlet.progressed.emit(1, 2)
    assert room.work.isVisible()
    stop = room.work.findChildren(type(room.save_button))[0]
    assert stop.text() == "Stop"
    qtbot.mouseClick(stop, Qt.MouseButton.LeftButton)
    assert told[-1].sentence == "Stopped."
    room.outlet.busy_changed.emit("")
    assert not room.work.isVisible()


# ---- printing -------------------------------------------------------------------------------


def test_printing_sends_every_page_to_the_printer(
    room: PageRoom, told: list[Message], tmp_path: Path, qtbot: QtBot
) -> None:
    path = tmp_path / "printed.pdf"
    seen: list[tuple[int, int]] = []

    def choose(_parent: object, printer: QPrinter) -> bool:
        seen.append((printer.fromPage(), printer.toPage()))
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(path))
        printer.setResolution(100)
        return True

    room.outlet.ask_printer = choose
    qtbot.keyClick(room.view, Qt.Key.Key_P, CTRL)
    settled(room, qtbot)
    qtbot.waitUntil(lambda: bool(told), timeout=20_000)
    count = room.view.images.count
    assert seen == [(1, count)]
    assert len(pypdfium2.PdfDocument(path)) == count
    assert told[-1].sentence == f"{count} pages sent to the printer."


def test_turning_back_from_the_printer_prints_nothing(room: PageRoom, told: list[Message]) -> None:
    room.outlet.ask_printer = lambda _parent, _printer: False
    room.print_page()
    assert not room.outlet.is_busy
    assert told == []


# ---- the rest -------------------------------------------------------------------------------


def test_an_empty_library_is_told_what_will_stand_here(
    room: PageRoom, document: Document, told: list[Message], qtbot: QtBot
) -> None:
    document.edit("Clear", lambda library: evolve(library, cards={}, protocols={}))
    assert room.empty.isVisible()
    assert not room.body.isVisible()
    assert not room.print_button.isVisible()
    room.print_page()
    assert told[-1].sentence == "There is nothing to print yet."
    room.save_page()
    assert told[-1].sentence == "There is nothing to save yet."


def test_commands_have_words_keys_and_places_in_the_menu(
    room: PageRoom, window: MainWindow
) -> None:
    commands: dict[str, QAction] = {action.text(): action for action in room.actions()}
    assert commands["Print"].shortcut().toString() == "Ctrl+P"
    assert commands["Save the page"].shortcut().toString() == "Ctrl+E"
    assert {"Save the page as PDF", "Save the page for Word", "Save the page for the web"} <= set(
        commands
    )
    assert set(commands.values()) <= set(window.menus.room_menu.actions())


def test_everything_that_takes_the_focus_has_a_name(room: PageRoom) -> None:
    for widget in room.findChildren(QWidget):
        if widget.isVisible() and widget.focusPolicy() & Qt.FocusPolicy.TabFocus:
            name = widget.accessibleName() or getattr(widget, "text", lambda: "")()
            assert name, widget


def test_a_fault_of_the_program_itself_is_a_sentence(room: PageRoom, qtbot: QtBot) -> None:
    def broken(_job: object, _token: Token) -> object:
        raise ZeroDivisionError("by nought")

    room.preview.task._work = broken
    room.preview.ask(room.job())
    settled(room, qtbot)
    assert room.notice.sentence == (
        "The program failed at this (ZeroDivisionError: by nought). Your work is still here."
    )
    assert isinstance(room.preview.fault, PageFault)
