"""What every test of the editor shares: a small library on the disk, and a window over it."""

import datetime as dt
import gc
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult
from authoring.editor import i18n
from authoring.editor.appearance import Appearance
from authoring.editor.document import Document
from authoring.editor.focus_ring import FocusRing
from authoring.editor.garbage import collect_due
from authoring.editor.messages import Message
from authoring.editor.rooms import RoomEntry
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.files.library import create_library, open_library
from authoring.model.card import Card, Variant
from authoring.model.clinic import Clinic
from authoring.model.dose import Dose, Repetitions
from authoring.model.library import LibraryFile, Term
from authoring.model.load import IntRange
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, TermKind

LIBRARY_ID = "00000000-0000-4000-8000-000000000001"
HEEL = "00000000-0000-4000-8000-00000000000a"
SQUAT = "00000000-0000-4000-8000-00000000000b"
ANKLE = "00000000-0000-4000-8000-0000000000f0"


def words(text: str) -> Text:
    return Text.plain(text)


def make_variant(rung: int, name: str) -> Variant:
    return Variant(
        id=name.lower().replace(" ", "-"),
        rung=rung,
        name=words(name),
        mode=Mode.DYNAMIC,
        steps=(words("Push up onto your toes."), words("Lower slowly.")),
        dose=Dose(work=Repetitions(sets=IntRange(low=3), reps=(IntRange(low=8, high=12),))),
    )


def make_card(card_id: str, slug: str, title: str) -> Card:
    return Card(
        id=card_id,
        slug=slug,
        language="en",
        title=words(title),
        variants=(make_variant(0, "Two legs"), make_variant(1, "One leg")),
    )


def make_protocol() -> Protocol:
    first = Entry(id="heel-1", card=HEEL, start="two-legs")
    second = Entry(id="heel-2", card=HEEL, start="one-leg", builds_on="heel-1")
    return Protocol(
        id=ANKLE,
        slug="ankle",
        language="en",
        title=words("Ankle sprain, invented"),
        stages=(
            Stage(
                id="settle",
                name=words("Settle"),
                blocks=(Block(id="main", entries=(first,)),),
            ),
            Stage(id="load", name=words("Load"), blocks=(Block(id="more", entries=(second,)),)),
        ),
    )


def pytest_itemcollected(item: pytest.Item) -> None:
    """The screenless platform says of itself that it has no window manager."""
    item.add_marker(
        pytest.mark.qt_log_ignore(
            "This plugin does not support (propagateSizeHints|raise|grabbing)", extend=True
        )
    )


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A library of two cards and a protocol on the disk."""
    place = tmp_path / "clinic"
    manifest = LibraryFile(
        id=LIBRARY_ID,
        name="Invented library",
        language="en",
        terms=(
            Term(id="standing", kind=TermKind.POSITION, name=words("Standing")),
            Term(id="chair", kind=TermKind.KIT, name=words("Chair"), also=("seat",)),
            Term(id="step", kind=TermKind.KIT, name=words("Step")),
        ),
    )
    clinic = Clinic(language="en", name=words("Larkfield Movement Clinic"))
    cards = [make_card(HEEL, "heel-raise", "Heel raise"), make_card(SQUAT, "squat", "Squat")]
    create_library(place, [manifest, clinic, *cards, make_protocol()], {})
    return place


@pytest.fixture
def document(folder: Path, qapp: QApplication) -> Document:
    return Document(open_library(folder))


@pytest.fixture
def settings(tmp_path: Path, qapp: QApplication) -> Settings:
    return Settings(tmp_path / "settings.ini")


@pytest.fixture
def appearance(qapp: QApplication, settings: Settings) -> Iterator[Appearance]:
    settings.language = "en"
    made = Appearance(qapp, settings)
    ring = FocusRing(qapp)
    yield made
    ring.deleteLater()
    made.deleteLater()
    i18n.use("en")


def no_checks(_library: object, _today: dt.date) -> Sequence[CheckResult]:
    return ()


@pytest.fixture
def session(document: Document, settings: Settings, tmp_path: Path) -> Session:
    """A session whose checks find nothing."""
    return Session(document, settings, judge=no_checks, data=tmp_path / "data")


@pytest.fixture
def told(session: Session) -> list[Message]:
    """Everything the window said, in order."""
    messages: list[Message] = []
    session.messages.told.connect(messages.append)
    return messages


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch) -> None:
    """A window without rooms, for tests of the window itself."""
    monkeypatch.setattr(RoomEntry, "is_there", property(lambda _self: False))


@pytest.fixture(autouse=True)
def swept(qapp: QApplication) -> Iterator[None]:
    """Let closed windows really go: each would make the next style sheet slower.

    As in the program itself, no worker's thread may take down what is Qt's: unreachable
    cycles are collected here, between tests.
    """
    gc.disable()
    yield
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    gc.unfreeze()
    collect_due()
    gc.enable()


@pytest.fixture
def window(qtbot: QtBot, session: Session, appearance: Appearance) -> MainWindow:
    """The window over the library, shown."""
    made = MainWindow(session, appearance)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    return made


Grab = Callable[[str], Path]
