"""Several files change together or not at all."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest

from authoring.files import names
from authoring.files.errors import FileProblem, Outcome, OutsideChange, Unwritable
from authoring.files.fingerprint import fingerprint
from authoring.files.journal import Change, Remove, Write, change_together, recover

A, B, TEMPORARY = b"a before", b"b before", ".rungbook-" + "5" * 32 + ".tmp"


@pytest.fixture
def library(tmp_path: Path) -> Path:
    folder = tmp_path / "library"
    (folder / "cards").mkdir(parents=True)
    (folder / "a.json").write_bytes(A)
    (folder / "cards" / "b.json").write_bytes(B)
    return folder


def _files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_writes_removals_and_new_files_go_together(library: Path) -> None:
    prints = change_together(
        library,
        [
            Write(library / "a.json", b"a after", fingerprint(A)),
            Remove(library / "cards" / "b.json", fingerprint(B)),
            Write(library / "cards" / "c.json", b"c", None),
        ],
    )
    assert prints == (fingerprint(b"a after"), None, fingerprint(b"c"))
    assert _files(library) == {"a.json": b"a after", "cards/c.json": b"c"}


def test_one_changed_file_stops_all_and_every_one_is_named(library: Path) -> None:
    changes: list[Change] = [
        Write(library / "a.json", b"a after", fingerprint(A)),
        Remove(library / "cards" / "b.json", fingerprint(b"b as it was read")),
        Write(library / "cards" / "gone.json", b"c", fingerprint(b"was there")),
    ]
    for _ in range(2):
        with pytest.raises(OutsideChange, match="and 1 more with it") as caught:
            change_together(library, changes)
        assert caught.value.outcomes == (
            (library / "cards" / "b.json", Outcome.CHANGED),
            (library / "cards" / "gone.json", Outcome.MISSING),
        )
        assert _files(library) == {"a.json": A, "cards/b.json": B}


def test_no_change_touches_nothing(tmp_path: Path) -> None:
    assert change_together(tmp_path / "gone", []) == ()


def test_a_file_named_twice_is_a_fault_of_the_caller(library: Path) -> None:
    change: Change = Write(library / "a.json", b"x", fingerprint(A))
    with pytest.raises(ValueError, match="named twice"):
        change_together(library, [change, change])


@pytest.mark.parametrize("name", ["../outside.json", "back\\slash.json", "drive:.json"])
def test_names_a_journal_cannot_hold_are_refused(name: str, library: Path) -> None:
    with pytest.raises(Unwritable, match=r"outside the folder|without backslash or colon"):
        change_together(library, [Write(library / name, b"x", None)])
    assert _files(library) == {"a.json": A, "cards/b.json": B}


def test_recovering_a_folder_with_nothing_to_finish_writes_nothing(library: Path) -> None:
    before = library.stat().st_mtime_ns
    assert recover(library) == 0
    assert library.stat().st_mtime_ns == before


# ---- records found on opening, written here by hand --------------------------


def _print(data: bytes | None) -> dict[str, Any] | None:
    if data is None:
        return None
    return {"sha256": hashlib.sha256(data).hexdigest(), "size": len(data)}


def _step(target: str, temporary: str | None, before: bytes | None, after: bytes | None) -> object:
    return {
        "target": target,
        "temporary": temporary,
        "before": _print(before),
        "after": _print(after),
    }


def _leave_journal(library: Path, *steps: object) -> Path:
    journal = names.new_journal(library)
    record = {"format": "rungbook/journal", "format_version": 1, "steps": steps}
    journal.write_text(json.dumps(record))
    return journal


WRITE_A = _step("a.json", TEMPORARY, A, b"a after")
REMOVE_B = _step("cards/b.json", None, B, None)


def test_a_decided_change_is_finished_on_opening(library: Path) -> None:
    (library / TEMPORARY).write_bytes(b"a after")
    _leave_journal(library, WRITE_A, REMOVE_B)
    assert recover(library) == 1
    assert _files(library) == {"a.json": b"a after"}


def test_a_change_whose_new_content_is_gone_is_dropped_whole(library: Path) -> None:
    _leave_journal(library, WRITE_A, REMOVE_B)
    recover(library)
    assert _files(library) == {"a.json": A, "cards/b.json": B}


def test_a_change_half_done_that_cannot_be_finished_is_told_and_kept(library: Path) -> None:
    (library / "cards" / "b.json").unlink()
    journal = _leave_journal(library, WRITE_A, REMOVE_B)
    with pytest.raises(FileProblem, match=r"new content of a\.json is gone; put a\.json back"):
        recover(library)
    assert journal.exists()
    assert (library / "a.json").read_bytes() == A


def test_what_somebody_wrote_since_is_not_overwritten_by_finishing(library: Path) -> None:
    (library / TEMPORARY).write_bytes(b"a after")
    (library / "a.json").write_bytes(b"theirs")
    (library / "cards" / "b.json").unlink()
    _leave_journal(library, WRITE_A, REMOVE_B)
    with pytest.raises(FileProblem, match=r"give a\.json another name and open the library again"):
        recover(library)
    (library / "a.json").rename(library / "theirs.json")
    recover(library)
    assert _files(library) == {"a.json": b"a after", "theirs.json": b"theirs"}


def test_a_file_made_anew_since_is_not_removed_by_finishing(library: Path) -> None:
    (library / "cards" / "b.json").write_bytes(b"theirs")
    _leave_journal(library, REMOVE_B)
    recover(library)
    assert (library / "cards" / "b.json").read_bytes() == b"theirs"


def test_the_next_change_in_the_folder_finishes_what_was_decided(library: Path) -> None:
    (library / TEMPORARY).write_bytes(b"a after")
    _leave_journal(library, WRITE_A, REMOVE_B)
    with pytest.raises(OutsideChange):
        change_together(library, [Write(library / "a.json", b"later", fingerprint(A))])
    assert _files(library) == {"a.json": b"a after"}


@pytest.mark.parametrize(
    "step",
    [
        _step("../outside.txt", "../" + TEMPORARY, b"outside", b"evil"),
        _step("../outside.txt", None, b"outside", None),
        _step("/etc/hostname", None, b"outside", None),
        _step("link/outside.txt", None, b"outside", None),
        _step("link/outside.txt", "link/" + TEMPORARY, b"outside", b"evil"),
        _step("a.json", "cards/" + TEMPORARY, A, b"evil"),
        _step("a.json", "cards/b.json", A, B),
        _step("cards\\b.json", None, B, None),
        _step("", None, B, None),
        _step("a.json", None, None, None),
        _step("a.json", None, A, b"both"),
        _step("a.json", TEMPORARY, A, None),
        {"target": 7},
        {"target": "a.json", "temporary": ["x"]},
        {"target": "a.json", "temporary": None, "before": {"sha256": 1}},
        "a.json",
        None,
    ],
)
def test_a_hostile_record_is_refused_and_touches_nothing(step: object, library: Path) -> None:
    outside = library.parent / "outside.txt"
    outside.write_bytes(b"outside")
    (library / "link").symlink_to(library.parent)
    for folder in (library, library / "cards", library.parent):
        (folder / TEMPORARY).write_bytes(b"evil")
    _leave_journal(library, step)
    before = _files(library)
    with pytest.raises(FileProblem, match="this record of an unfinished save is damaged"):
        recover(library)
    assert _files(library) == before
    assert outside.read_bytes() == b"outside"


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "the file is empty"),
        (b"[]", "damaged"),
        (b'{"format": "rungbook/journal", "format_version": 2}', "a newer version"),
        (b'{"format": "rungbook/journal", "format_version": 1, "steps": 3}', "damaged"),
        (b"\xff", "not UTF-8"),
        (b"[" * 100_000, "nested more than"),
    ],
)
def test_a_damaged_record_is_told_in_one_sentence(content: bytes, told: str, library: Path) -> None:
    names.new_journal(library).write_bytes(content)
    with pytest.raises(FileProblem, match=told):
        recover(library)
