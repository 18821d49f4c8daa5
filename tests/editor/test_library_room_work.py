"""The work queue of the library room, beside approved versions on the disk."""

import datetime as dt
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.document import Document
from authoring.editor.library_room.attention import Group, Item, Situation, gather
from authoring.editor.library_room.attention_page import AttentionPage
from authoring.editor.library_room.drift import drifts
from authoring.editor.library_room.room import ATTENTION, LibraryRoom
from authoring.editor.place import Place
from authoring.editor.session import Session
from authoring.editor.shell import MainWindow
from authoring.files.documents import document_bytes
from authoring.files.history import ApprovedVersions
from authoring.files.library import file_of, open_library
from authoring.model.base import evolve
from authoring.model.card import Picture
from authoring.model.library import ApprovedVersion, Library
from authoring.model.pose import Pose, PosePhase
from authoring.model.protocol import Approval
from authoring.model.text import Text
from authoring.model.vocabulary import Phase, Status
from tests.editor.conftest import ANKLE, HEEL, SQUAT

POSE = "00000000-0000-4000-8000-0000000009aa"
TODAY = dt.date(2030, 3, 1)
APPROVAL = Approval(reviewer="Jo Larkfield (invented)", date=dt.date(2029, 1, 1))


def approve(folder: Path, library: Library) -> Library:
    """Approve the protocol, and put its version into the history."""
    protocol = evolve(
        library.protocols[ANKLE], status=Status.APPROVED, version="1.0", approvals=(APPROVAL,)
    )
    version = ApprovedVersion(
        protocol=protocol, cards=(library.cards[HEEL], library.cards[SQUAT]), terms=(),
        approval=APPROVAL, images=(),
    )  # fmt: skip
    path = folder / file_of(version)
    path.parent.mkdir(parents=True)
    path.write_bytes(document_bytes(version))
    return evolve(library, protocols={ANKLE: protocol})


@pytest.fixture
def library(folder: Path) -> Library:
    return approve(folder, open_library(folder).library)


def with_purpose(library: Library, card_id: str) -> Library:
    card = evolve(library.cards[card_id], purpose=Text.plain("Stronger calves."))
    return evolve(library, cards={**library.cards, card_id: card})


def work(folder: Path, library: Library, *results: CheckResult) -> tuple[Item, ...]:
    return gather(Situation(library, (), results, ApprovedVersions(folder), TODAY))


def test_nothing_is_said_where_nothing_changed(folder: Path, library: Library) -> None:
    assert work(folder, library) == ()


def test_a_pose_drawn_anew_is_said_of_the_card_that_shows_it(
    folder: Path, library: Library
) -> None:
    pose = Pose(
        id=POSE,
        slug="stand",
        title=Text.plain("Stand"),
        language="en",
        phases=(PosePhase(phase=Phase.START),),
    )
    shown = Picture(pose="stand", alt=Text.plain("Standing"))
    card = library.cards[HEEL]
    pictured = evolve(card, variants=(evolve(card.variants[0], pictures=(shown,)),))
    kept = evolve(
        library, cards={**library.cards, HEEL: pictured}, poses={POSE: pose}, kept=frozenset()
    )
    versions = ApprovedVersions(folder)
    approved = versions.of(library.protocols[ANKLE])
    assert isinstance(approved, ApprovedVersion)
    path = folder / file_of(approved)
    version = evolve(approved, cards=tuple(kept.cards.values()), poses=(pose,))
    path.write_bytes(document_bytes(version))
    assert drifts(kept, ApprovedVersions(folder)) == ((), ())
    redrawn = evolve(kept, poses={POSE: evolve(pose, title=Text.plain("Stand tall"))})
    (drift,), _ = drifts(redrawn, ApprovedVersions(folder))
    assert drift.changed == (HEEL,)


def test_a_changed_card_is_said_of_the_approved_protocol_that_uses_it(
    folder: Path, library: Library
) -> None:
    (item,) = work(folder, with_purpose(library, HEEL))
    assert item.group is Group.CHANGED
    assert item.title == "Ankle sprain, invented"
    assert item.sentence == "1 card reads differently: Heel raise."
    assert item.place == Place(Subject.PROTOCOL, ANKLE, "stages[0].blocks[0].entries[0]")


def test_a_changed_card_that_the_protocol_does_not_use_is_no_matter(
    folder: Path, library: Library
) -> None:
    assert work(folder, with_purpose(library, SQUAT)) == ()


def test_what_no_patient_reads_is_no_matter(folder: Path, library: Library) -> None:
    owned = evolve(library.cards[HEEL], owner="Somebody else (invented)")
    assert work(folder, evolve(library, cards={**library.cards, HEEL: owned})) == ()


def test_a_card_that_is_gone_is_said(folder: Path, library: Library) -> None:
    items = work(folder, evolve(library, cards={SQUAT: library.cards[SQUAT]}))
    assert [item.sentence for item in items] == ["1 card is gone: Heel raise."]


def test_a_draft_is_compared_with_nothing(folder: Path, library: Library) -> None:
    draft = evolve(library.protocols[ANKLE], status=Status.DRAFT)
    after = with_purpose(evolve(library, protocols={ANKLE: draft}), HEEL)
    assert [item.group for item in work(folder, after)] == [Group.DRAFT]


def test_an_approved_version_that_cannot_be_read_is_said(folder: Path, library: Library) -> None:
    path = next((folder / "history").glob("*/*.json"))
    path.write_text("{", encoding="utf-8")
    (item,) = work(folder, library)
    assert item.group is Group.FILES
    assert item.title == "1.0.json"
    assert item.file == path


def test_an_approved_version_is_read_once(folder: Path, library: Library) -> None:
    versions = ApprovedVersions(folder)
    drifts(library, versions)
    first = versions.of(library.protocols[ANKLE])
    assert versions.of(library.protocols[ANKLE]) is first


@pytest.mark.parametrize(
    ("due", "groups"),
    [
        (dt.date(2030, 2, 28), [Group.OVERDUE]),
        (dt.date(2030, 3, 20), [Group.SOON]),
        (dt.date(2031, 1, 1), []),
        (None, []),
    ],
)
def test_reviews_are_said_by_the_day(
    folder: Path, library: Library, due: dt.date | None, groups: list[Group]
) -> None:
    card = evolve(library.cards[SQUAT], review_due=due)
    items = work(folder, evolve(library, cards={**library.cards, SQUAT: card}))
    assert [item.group for item in items] == groups


@pytest.mark.parametrize(
    ("status", "groups"),
    [
        (Status.DRAFT, [Group.DRAFT]),
        (Status.IN_REVIEW, [Group.IN_REVIEW]),
        (Status.RETIRED, []),
    ],
)
def test_a_protocol_is_said_by_where_it_is_in_its_life(
    folder: Path, library: Library, status: Status, groups: list[Group]
) -> None:
    protocol = evolve(library.protocols[ANKLE], status=status)
    items = work(folder, evolve(library, protocols={ANKLE: protocol}))
    assert [item.group for item in items] == groups


def result(strength: Strength, sentence: str, path: str = "title") -> CheckResult:
    return CheckResult("x", strength, path, sentence, "Mend it.", Subject.CARD, HEEL)


def test_checks_are_gathered_by_file_and_strength(folder: Path, library: Library) -> None:
    items = work(
        folder,
        library,
        result(Strength.MUST, "It has no steps.", "variants[0]"),
        result(Strength.MUST, "It has no name."),
        result(Strength.MAY, "It is long."),
    )
    assert [(item.group, item.sentence) for item in items] == [
        (Group.MUST, "It has no steps. And 1 more."),
        (Group.MAY, "It is long."),
    ]
    assert items[0].place == Place(Subject.CARD, HEEL, "variants[0]")


# ---- the page -------------------------------------------------------------------------


@pytest.fixture
def broken(folder: Path) -> Path:
    path = folder / "cards" / "torn.card.json"
    path.write_text("{", encoding="utf-8")
    return path


@pytest.fixture
def page(qtbot: QtBot, broken: Path, window: MainWindow) -> AttentionPage:
    window.activateWindow()
    window.show_room("library")
    assert isinstance(window.room, LibraryRoom)
    made = window.room.open_page(ATTENTION)
    assert isinstance(made, AttentionPage)
    qtbot.waitUntil(lambda: made.list.rows.rowCount() == 2)
    return made


def test_the_queue_lists_the_most_pressing_first(page: AttentionPage) -> None:
    rows = [page.list.rows.row(n) for n in range(2)]
    assert [row.title.words for row in rows] == ["torn.card.json", "Ankle sprain, invented"]
    assert rows[1].says == (
        "Ankle sprain, invented. Drafts. A draft does not print for patients. "
        "Finish it, then send it for review."
    )
    groups = [page.groups.rows.row(n).says for n in range(page.groups.rows.rowCount())]
    assert groups == ["Everything, 2", "Files that could not be read, 1", "Drafts, 1"]


def test_the_pages_button_counts_what_presses(page: AttentionPage, window: MainWindow) -> None:
    assert isinstance(window.room, LibraryRoom)
    assert window.room.pages.button(ATTENTION).text() == "Needs attention  1"


def test_enter_goes_where_the_work_is(qtbot: QtBot, page: AttentionPage, session: Session) -> None:
    asked: list[Place] = []
    session.place_asked.connect(asked.append)
    page.groups.setFocus()
    qtbot.keyClick(page.groups, Qt.Key.Key_End)
    assert page.count.text().startswith("1 thing to look at.")
    page.list.setFocus()
    qtbot.keyClick(page.list, Qt.Key.Key_Return)
    assert asked == [Place(Subject.PROTOCOL, ANKLE)]


def test_a_file_that_could_not_be_read_is_shown_in_its_folder(
    qtbot: QtBot, broken: Path, document: Document, session: Session
) -> None:
    opened: list[Path] = []
    page = AttentionPage(session, open_folder=opened.append)
    qtbot.addWidget(page)
    page.ask()
    qtbot.waitUntil(lambda: page.list.rows.rowCount() == 2)
    page.go(0)
    assert opened == [broken.parent]


def test_an_edit_brings_the_queue_up_to_date(
    qtbot: QtBot, page: AttentionPage, session: Session
) -> None:
    session.document.edit_protocol("Retire", ANKLE, lambda p: evolve(p, status=Status.RETIRED))
    qtbot.waitUntil(lambda: page.list.rows.rowCount() == 1)


def test_a_library_in_order_says_so(qtbot: QtBot, session: Session) -> None:
    session.document.edit_protocol("Retire", ANKLE, lambda p: evolve(p, status=Status.RETIRED))
    page = AttentionPage(session)
    qtbot.addWidget(page)
    counts: list[str] = []
    page.counted.connect(counts.append)
    page.ask()
    qtbot.waitUntil(lambda: counts == [""])
    assert page.stack.currentIndex() == 1
    assert page.groups.rows.row(0).says == "Everything, 0"
