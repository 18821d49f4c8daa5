"""A physiotherapist writes one new protocol with the keyboard alone, and saves its page."""

import datetime as dt
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from authoring.commands.check import check_paths
from authoring.dosage.shorthand import write_dose
from authoring.editor.appearance import Appearance
from authoring.editor.page.room import PageRoom
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.files.library import open_library
from authoring.model.criterion import Measured
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import CautionKind, Comparator, Urgency
from tests.editor.conftest import no_checks
from tests.editor.whole import Dialogs, larkfield, whole_window
from tests.editor.whole_keyboard import Keyboard

Key = Qt.Key
CTRL = Qt.KeyboardModifier.ControlModifier
CTRL_SHIFT = CTRL | Qt.KeyboardModifier.ShiftModifier

MOST_ACTIONS = 75
"""How many actions the whole protocol may take; it takes 71, of 295 key presses."""

TITLE = "Sore wrist, invented"
EXERCISES = (
    (("squeeze", "5 x 45 s hold"), ("forearm st", "3 x 30 s hold each side")),
    (("palm down", "3 x 8-12, rest 90 s, 3/wk"), ("elbow bend", "12,10,8")),
)
"""For each stage: what finds the card, and the dose as it is typed."""


@pytest.fixture
def dialogs(monkeypatch: pytest.MonkeyPatch) -> Dialogs:
    return Dialogs(monkeypatch)


@pytest.fixture
def clinic(
    tmp_path: Path, settings: Settings, appearance: Appearance, dialogs: Dialogs
) -> Iterator[MainWindow]:
    folder = larkfield(tmp_path / "larkfield")
    with whole_window(folder, settings, appearance, tmp_path / "data", no_checks) as window:
        yield window


def write_protocol(keyboard: Keyboard, pause: Callable[[], None]) -> None:
    """Write it all, as one would who knows the keys."""
    do, go, write = keyboard.command, keyboard.go_to, keyboard.type
    do("new protocol", Key.Key_P, CTRL_SHIFT)
    write(TITLE)
    go("more fields")
    do("show them", Key.Key_Space)
    pause()
    go("Conditions: add by name")
    write("wrist or hand")
    keyboard.take()
    go("Cautions: add")
    do("add a caution", Key.Key_Space)
    write("Stop")
    go("Text")
    write("Your fingers go numb.")
    go("Not given")
    write("Call")
    go("Pain: add")
    do("add the pain rule", Key.Key_Space)
    do("close the form", Key.Key_Escape)
    for number, exercises in enumerate(EXERCISES):
        if number:
            do("add a stage", Key.Key_N, CTRL_SHIFT)
        do("open its form", Key.Key_F2)
        write(("Settle", "Load")[number], replacing=True)
        do("close the form", Key.Key_Escape)
        for card, dose in exercises:
            do("add an exercise", Key.Key_Insert)
            write(card)
            keyboard.take()
            do("edit its dose", Key.Key_D)
            write(dose, replacing=True)
            keyboard.take()
        write_criterion(keyboard)


def write_criterion(keyboard: Keyboard) -> None:
    """What must be true to move on: pain on grip at most 2."""
    do, go = keyboard.command, keyboard.go_to
    do("what leads on", Key.Key_G)
    do("add a criterion", Key.Key_Space)
    keyboard.type("pain on grip")
    keyboard.take()
    go("At least (≥)")
    do("above", Key.Key_Down)
    do("at most", Key.Key_Down)
    go("Value")
    keyboard.type("2", replacing=True)
    do("close the form", Key.Key_Escape)


def written(window: MainWindow) -> Protocol:
    found = [
        protocol
        for protocol in open_library(window.session.document.folder).library.protocols.values()
        if protocol.title.best("en", "en") == TITLE
    ]
    assert len(found) == 1
    return found[0]


def test_a_protocol_is_written_saved_and_printed_by_keyboard(
    clinic: MainWindow,
    dialogs: Dialogs,
    tmp_path: Path,
    qtbot: QtBot,
    record_property: Callable[[str, object], None],
) -> None:
    keyboard = Keyboard(clinic)
    dialogs.file = tmp_path / "wrist.pdf"
    write_protocol(keyboard, lambda: qtbot.wait(50))
    with qtbot.waitSignal(clinic.session.storage.saved, timeout=20_000):
        keyboard.command("save", Key.Key_S, CTRL)
    keyboard.command("handouts", Key.Key_3, CTRL)
    room = clinic.room
    assert isinstance(room, PageRoom)
    qtbot.waitUntil(lambda: room.preview.made is not None, timeout=20_000)
    keyboard.command("save the page", Key.Key_E, CTRL)
    qtbot.waitUntil(dialogs.file.exists, timeout=20_000)
    assert dialogs.file.read_bytes().startswith(b"%PDF-")

    protocol = written(clinic)
    assert [stage.name.best("en", "en") for stage in protocol.stages] == ["Settle", "Load"]
    assert protocol.conditions == ("wrist-or-hand-pain",)
    doses = [
        [write_dose(entry.dose) for entry in stage.entries() if entry.dose is not None]
        for stage in protocol.stages
    ]
    assert doses == [
        ["5 x 45 s hold", "3 x 30 s hold each side"],
        ["3 x 8-12, rest 90 s, 3/wk", "12/10/8"],
    ]
    for stage in protocol.stages:
        (criterion,) = stage.move_on
        assert isinstance(criterion, Measured)
        assert (criterion.measure, criterion.comparator, criterion.value) == (
            "pain-on-grip",
            Comparator.AT_MOST,
            2,
        )
    (caution,) = protocol.cautions
    assert (caution.kind, caution.urgency) == (CautionKind.STOP_SIGN, Urgency.CALL_CLINIC)
    assert protocol.pain is not None
    # The bands that the project cites: up to 2, up to 5, above 5.
    assert [band.up_to for band in protocol.pain.during] == [2, 5, 10]
    report = check_paths([clinic.session.document.folder], dt.date(2025, 11, 25))
    assert not report.unreadable
    record_property("actions", len(keyboard.actions))
    record_property("presses", keyboard.presses)
    assert len(keyboard.actions) <= MOST_ACTIONS, keyboard.actions
