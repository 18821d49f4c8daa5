"""The window for people who do not see it or do not use a mouse."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, Qt, QUrl
from PySide6.QtGui import QAccessible, QDropEvent
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QListView, QWidget
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.crash import keep_work
from authoring.editor.messages import Message
from authoring.editor.parts.check_strip import CheckStrip
from authoring.editor.place import Place
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.editor.shortcut_sheet import ShortcutSheet
from authoring.model.base import evolve
from authoring.model.text import Text
from tests.editor.conftest import ANKLE, HEEL

pytestmark = pytest.mark.usefixtures("bare")

LEAST_PX = 24
"""Least size of a target: WCAG 2.2, criterion 2.5.8."""


def spoken(widget: QWidget) -> str:
    interface = QAccessible.queryAccessibleInterface(widget)
    assert interface is not None
    return interface.text(QAccessible.Text.Name)


def controls(widget: QWidget) -> list[QWidget]:
    kinds = QAbstractButton | QLineEdit | QComboBox | QListView
    return [w for w in widget.findChildren(QWidget) if isinstance(w, kinds) and w.isVisible()]


def test_every_control_of_the_window_has_a_name_and_room_for_a_finger(
    window: MainWindow, session: Session
) -> None:
    session.tell("Something was done.", "Undo", lambda: None)
    found = controls(window)
    assert len(found) >= 8
    for control in found:
        if control.objectName() == "qt_menubar_ext_button":
            continue
        assert spoken(control), control
        assert control.width() >= LEAST_PX, spoken(control)
        assert control.height() >= LEAST_PX, spoken(control)


def test_tab_reaches_every_room_and_the_search(window: MainWindow, qtbot: QtBot) -> None:
    window.activateWindow()
    window.header.button("protocols").setFocus()
    names = []
    for _ in range(8):
        focus = window.focusWidget()
        assert focus is not None
        names.append(spoken(focus))
        qtbot.keyClick(focus, Qt.Key.Key_Tab)
    assert names == [
        "Room: Protocols",
        "Room: Cards",
        "Room: Tailor",
        "Room: Handouts",
        "Room: Library",
        "Room: Clinic",
        "Room: Poses",
        "Find a card, stage or command",
    ]


def test_the_sheet_of_keys_names_every_key(window: MainWindow) -> None:
    window.open_keys()
    sheet = window.findChild(ShortcutSheet)
    assert sheet is not None
    words = {child.text() for child in sheet.findChildren(QWidget) if hasattr(child, "text")}
    for needed in ("Ctrl+S", "Save", "F8", "Next Protocol check", "Ctrl+1", "Everywhere"):
        assert needed in words
    sheet.close()


RESULTS = (
    CheckResult(
        "a",
        Strength.MAY,
        "stages[1]",
        "Stage 2 is short.",
        "Add an entry.",
        Subject.PROTOCOL,
        ANKLE,
    ),
    CheckResult(
        "b", Strength.MUST, "purpose", "There is no purpose.", "Write one.", Subject.CARD, HEEL
    ),
)


@pytest.fixture
def judged(session: Session, qtbot: QtBot) -> Session:
    session.checks._judge = lambda _library, _today: RESULTS
    with qtbot.waitSignal(session.checks.changed):
        session.checks.start()
    return session


def test_checks_are_listed_with_the_strongest_first_and_read_out_whole(
    judged: Session, window: MainWindow, qtbot: QtBot
) -> None:
    strip = CheckStrip(judged, place_words=lambda result: f"{result.subject}")
    qtbot.addWidget(strip)
    role = Qt.ItemDataRole.AccessibleTextRole
    rows = [strip.model.data(strip.model.index(row, 0), role) for row in range(2)]
    assert rows == [
        "Must. There is no purpose. card. Write one.",
        "May. Stage 2 is short. protocol. Add an entry.",
    ]
    assert strip._counts[Strength.MUST].text() == "1 must"


def test_the_next_check_is_gone_to_by_its_key(
    judged: Session, window: MainWindow, qtbot: QtBot, told: list[Message]
) -> None:
    places: list[Place] = []
    judged.place_asked.connect(places.append)
    qtbot.keyClick(window, Qt.Key.Key_F8)
    qtbot.keyClick(window, Qt.Key.Key_F8)
    assert [place.path for place in places] == ["purpose", "stages[1]"]
    assert [message.sentence for message in told] == ["There is no purpose.", "Stage 2 is short."]
    assert judged.protocol_id == ANKLE
    assert window.header.button("protocols").isChecked()


def test_a_room_draws_only_while_it_is_seen_and_then_what_it_missed(
    session: Session, qtbot: QtBot
) -> None:
    class Counting(Room):
        def __init__(self, session: Session) -> None:
            self.drawn: list[bool] = []
            super().__init__(session)

        def refresh(self, before: object, after: object) -> None:
            self.drawn.append(before is after)

        def key_hints(self) -> tuple[KeyHint, ...]:
            return (KeyHint("D", "dose"),)

    room = Counting(session)
    qtbot.addWidget(room)
    edit = lambda: session.document.edit_card(  # noqa: E731
        "Rename", HEEL, lambda card: evolve(card, title=Text.plain(f"T{len(room.drawn)}"))
    )
    edit()
    assert room.drawn == []
    room.show()
    assert room.drawn == [True]
    edit()
    assert room.drawn == [True, False]
    room.hide()
    edit()
    assert room.drawn == [True, False]
    room.show()
    assert room.drawn == [True, False, False]


def test_single_letters_can_be_turned_off(window: MainWindow) -> None:
    ran: list[int] = []
    action = window.room.add_command("Edit the dose", lambda: ran.append(1), keys="D")
    window.settings.single_keys = False
    assert not action.shortcuts()
    window.settings.single_keys = True
    assert [key.toString() for key in action.shortcuts()] == ["D"]


def dropped(window: MainWindow, *paths: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    event = QDropEvent(
        QPoint(50, 50),
        Qt.DropAction.CopyAction,
        data,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    window.dropEvent(event)


def test_a_library_dropped_on_the_window_opens_and_other_files_are_refused(
    window: MainWindow, folder: Path, tmp_path: Path, told: list[Message], qtbot: QtBot
) -> None:
    with qtbot.waitSignal(window.library_wanted) as wanted:
        dropped(window, folder)
    assert wanted.args == [folder]
    other = tmp_path / "letter.txt"
    other.write_text("x", encoding="utf-8")
    dropped(window, other)
    assert told[-1].sentence == "“letter.txt” can't be used here."


def test_a_fault_of_the_program_keeps_the_work_and_says_so(
    window: MainWindow, session: Session, told: list[Message], capsys: pytest.CaptureFixture[str]
) -> None:
    class Holder:
        windows = (window,)

    assert session.storage.claim()
    session.document.edit_card("Rename", HEEL, lambda card: evolve(card, title=Text.plain("Kept")))
    error = ZeroDivisionError("division by zero")
    keep_work(Holder())(ZeroDivisionError, error, None)  # type: ignore[arg-type]
    session.storage.jobs.finish()
    assert session.storage.path.is_file()
    assert told[-1].sentence.startswith("The program failed at this (ZeroDivisionError).")
    assert "division by zero" in capsys.readouterr().err
