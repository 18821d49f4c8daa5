"""A pack goes from one clinic to another and says there what it said here."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from authoring.commands.new import new_library
from authoring.files.library import OpenLibrary, open_library, read_history
from authoring.files.pack_reading import parse_pack
from authoring.files.unpack import (
    Conflicts,
    Intake,
    Standing,
    Take,
    intake_of,
    put_back,
    take_in,
)
from authoring.model.base import evolve
from authoring.model.edits.protocols import same_content
from authoring.model.text import Text
from authoring.model.vocabulary import Status
from tests.files.packs import PROTOCOL, example, files_of, good_pack, photo, small_pack

TODAY = dt.date(2026, 3, 2)


def library(folder: Path, *, filled: bool = False) -> OpenLibrary:
    new_library(folder, example=filled)
    return open_library(folder)


def intake(opened: OpenLibrary, data: bytes) -> Intake:
    return intake_of(parse_pack(data, "p.rungpack"), opened, read_history(opened.folder), TODAY)


def on_disk(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_looking_at_a_pack_writes_nothing(tmp_path: Path) -> None:
    opened = library(tmp_path / "l")
    before = on_disk(opened.folder)
    assert intake(opened, good_pack()).having(Standing.NEW)
    assert on_disk(opened.folder) == before


def test_what_arrives_reads_as_it_did_and_is_a_draft_with_its_origin(tmp_path: Path) -> None:
    opened = library(tmp_path / "l")
    take_in(intake(opened, good_pack()), Take.NEW)
    arrived = open_library(opened.folder)
    assert arrived.problems == ()
    pack = parse_pack(good_pack(), "p")
    assert arrived.library.cards == {card.id: card for card in pack.cards}
    for theirs in pack.protocols:
        mine = arrived.library.protocols[theirs.id]
        assert mine.status is Status.DRAFT
        assert mine.approvals == ()
        assert mine.licence == theirs.licence != ""
        assert mine.authors == theirs.authors
        assert "Larkfield" in mine.changes[0].text
        assert mine.education == theirs.education
        assert len(list(mine.entries())) == len(list(theirs.entries()))
    assert photo() in on_disk(opened.folder / "images").values()
    assert arrived.library.clinic == opened.library.clinic


def test_a_pack_taken_in_twice_changes_nothing_the_second_time(tmp_path: Path) -> None:
    opened = library(tmp_path / "l")
    take_in(intake(opened, small_pack()), Take.NEW)
    again = intake(open_library(opened.folder), small_pack())
    assert {each.standing for each in again.arrivals} == {Standing.SAME}
    before = on_disk(opened.folder)
    take_in(again, Take.THEIRS)
    assert on_disk(opened.folder) == before


def test_what_is_put_back_is_as_it_was(tmp_path: Path) -> None:
    opened = library(tmp_path / "l")
    before = on_disk(opened.folder)
    restore = take_in(intake(opened, small_pack()), Take.NEW)
    assert on_disk(opened.folder) != before
    put_back(restore)
    assert on_disk(opened.folder) == before


def _worked_on(opened: OpenLibrary) -> OpenLibrary:
    card = next(iter(opened.library.cards[e.card] for e in _entries(opened)))
    changed = evolve(card, purpose=Text.plain("Worked on here"))
    cards = {**opened.library.cards, card.id: changed}
    return evolve(opened, library=evolve(opened.library, cards=cards))


def _entries(opened: OpenLibrary) -> list:  # type: ignore[type-arg]
    return list(opened.library.protocols[PROTOCOL].entries())


def test_what_was_worked_on_here_is_a_conflict_that_stops_it_until_somebody_chooses(
    tmp_path: Path,
) -> None:
    opened = _worked_on(library(tmp_path / "l", filled=True))
    found = intake(opened, small_pack())
    assert [each.standing for each in found.arrivals].count(Standing.CONFLICTING) == 1
    before = on_disk(opened.folder)
    with pytest.raises(Conflicts, match="choose"):
        take_in(found, Take.NEW)
    assert on_disk(opened.folder) == before


def test_an_approved_version_nobody_touched_is_changed_and_no_conflict(tmp_path: Path) -> None:
    opened = library(tmp_path / "l", filled=True)
    pack = parse_pack(small_pack(), "p")
    newer = evolve(pack.protocols[0], lead=Text.plain("Said better elsewhere"), version="1.1")
    history = read_history(opened.folder)
    found = intake_of(evolve(pack, protocols=(newer,)), opened, history, TODAY)
    assert found.arrivals[0].standing is Standing.CHANGED
    take_in(found, Take.NEW)
    mine = open_library(opened.folder).library.protocols[PROTOCOL]
    assert (mine.status, mine.lead) == (Status.DRAFT, newer.lead)


def test_nothing_of_a_patient_or_a_clinic_is_in_a_pack() -> None:
    names = files_of(good_pack())
    assert {name.partition("/")[0] for name in names} <= {
        "manifest.json",
        "cards",
        "protocols",
        "poses",
        "images",
    }
    assert len(names) > 30
    theirs = parse_pack(good_pack(), "p").protocols
    assert all(same_content(example().library.protocols[each.id], each) for each in theirs)
