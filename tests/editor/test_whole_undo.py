"""Whatever is done in the rooms can be undone to what was, and redone to what it became."""

import os
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QListWidget, QPlainTextEdit, QWidget

from authoring.editor.appearance import Appearance
from authoring.editor.document import Document
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.stage_map.room import StageMapRoom
from authoring.editor.workshop.room import WorkshopRoom
from tests.editor.conftest import no_checks
from tests.editor.whole import Dialogs, keep_active, larkfield, settle, whole_window

QUICK, LONG = 25, 500
STEPS = 12
ON_THE_MAP = (
    "Add an exercise",
    "Edit the dose",
    "Choose a variant",
    "Harder variant",
    "Easier variant",
    "Switch moving and holding",
    "Move a stage on",
    "Move a stage back",
    "Move down in its stage",
    "Move up in its stage",
    "Duplicate the exercise",
    "Carry on in the next stage",
    "Build on another exercise",
    "Either/or with the exercise above",
    "Make a circuit",
    "Copy",
    "Paste",
    "Remove",
    "Add a stage",
    "Duplicate the stage",
    "Move the stage on",
    "Move the stage back",
    "New protocol",
)
IN_THE_WORKSHOP = (
    "Harder variant",
    "Easier variant",
    "One rung harder",
    "One rung easier",
    "Prefer it earlier on its rung",
    "Prefer it later on its rung",
    "Use the plain words",
    "New card",
)
DOSES = ("3 x 8-12, rest 90 s", "5 x 45 s hold", "12,10,8", "2 x 15 each side bd", "")
WORDS = ("Slowly", "with a band", "2", "naïve —")


@pytest.fixture
def clinic(
    tmp_path: Path, settings: Settings, appearance: Appearance, monkeypatch: pytest.MonkeyPatch
) -> Iterator[MainWindow]:
    Dialogs(monkeypatch)
    folder = larkfield(tmp_path / "larkfield")
    with whole_window(folder, settings, appearance, tmp_path / "data", no_checks) as window:
        yield window


class Hand:
    """Does random things in the map and in the workshop."""

    def __init__(self, window: MainWindow, seed: int) -> None:
        self._window, self._random = window, Random(seed)
        self.done: list[str] = []

    @property
    def _document(self) -> Document:
        return self._window.session.document

    def act(self, depth: int) -> None:
        """One edit, undo or redo; never further back than ``depth`` steps."""
        keep_active(self._window)
        chance = self._random.random()
        if chance < 0.15 and steps(self._document) > depth:
            self.done.append("undo")
            self._document.undo()
        elif chance < 0.25 and self._document.can_redo:
            self.done.append("redo")
            self._document.redo()
        elif isinstance(self._window.room, StageMapRoom):
            self._on_the_map(self._window.room)
        elif isinstance(self._window.room, WorkshopRoom):
            self._in_the_workshop(self._window.room)

    def _run(self, names: tuple[str, ...]) -> None:
        name = self._random.choice(names)
        self.done.append(name)
        action = next(one for one in self._window.room.actions() if one.text() == name)
        action.trigger()

    def _on_the_map(self, room: StageMapRoom) -> None:
        model = room.model
        if model is not None and model.cells and self._random.random() < 0.8:
            room.selecting.entry(self._random.choice(model.cells).entry.id)
        elif model is not None and model.stages:
            room.selecting.stage(self._random.choice(model.stages).id)
        self._run(ON_THE_MAP)
        popup = room.menus.popup
        if popup is not None and popup.isVisible():
            self._answer(popup)
        room.menus.popup = None
        room.close_details()

    def _answer(self, popup: QWidget) -> None:
        chosen = popup.findChild(QListWidget)
        line = popup.findChild(QLineEdit)
        assert line is not None
        if chosen is None:
            line.setText(self._random.choice(DOSES))
            line.textEdited.emit(line.text())
        elif chosen.count():
            chosen.setCurrentRow(self._random.randrange(chosen.count()))
        QTest.keyClick(line, Qt.Key.Key_Return)

    def _in_the_workshop(self, room: WorkshopRoom) -> None:
        if self._random.random() < 0.5:
            self._run(IN_THE_WORKSHOP)
            return
        fields = [
            one
            for one in room.findChildren(QWidget)
            if isinstance(one, QLineEdit | QPlainTextEdit) and one.isVisible() and one.isEnabled()
        ]
        if fields:
            field = self._random.choice(fields)
            words = self._random.choice(WORDS)
            self.done.append(f"type {words} into {field.accessibleName()}")
            field.setFocus()
            QTest.keyClicks(field, words.encode("ascii", "ignore").decode())
            room.bench.focus_ladder()


def steps(document: Document) -> int:
    """How many steps undo can take back."""
    return len(document._history.steps)


def check_sequences(window: MainWindow, seed: int, count: int) -> None:
    """Do so many sequences, and undo and redo each whole."""
    document = window.session.document
    hand = Hand(window, seed)
    changed = 0
    for number in range(count):
        window.show_room("cards" if number % 3 == 2 else "protocols")
        before, depth = document.library, steps(document)
        hand.done = []
        for _ in range(STEPS):
            hand.act(depth)
            settle()
        after, taken = document.library, steps(document) - depth
        told = f"seed {seed}, sequence {number}: {hand.done}"
        for _ in range(taken):
            document.undo()
        assert document.library == before, told
        for _ in range(taken):
            document.redo()
        assert document.library == after, told
        changed += after != before
        while number % 5 == 4 and document.can_undo:
            document.undo()  # else the protocols grow without an end
    assert changed > count // 2


def test_what_is_done_in_the_rooms_can_be_undone_and_redone(clinic: MainWindow) -> None:
    check_sequences(clinic, 1, QUICK)


@pytest.mark.long
def test_five_hundred_sequences_end_in_equal_values(
    clinic: MainWindow, record_property: Callable[[str, object], None]
) -> None:
    check_sequences(clinic, int(os.environ.get("RUNGBOOK_SEED", "0")), LONG)
    record_property("cases", LONG)
