"""Never over what somebody else wrote."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

import pytest

from authoring.files.baseline import (
    Fingerprint,
    Outcome,
    compare,
    fingerprint,
    judge,
    save_checked,
)
from authoring.files.errors import OutsideChange, Unreadable, Unwritable

OLD, NEW, THEIRS = b"old content", b"new content", b"their content"


def test_a_fingerprint_is_the_sha_256_of_the_standard() -> None:
    # FIPS 180-4 example: SHA-256 of "abc".
    assert fingerprint(b"abc") == Fingerprint(
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", 3
    )


@pytest.mark.parametrize(
    ("current", "baseline", "outcome"),
    [
        (OLD, OLD, Outcome.UNCHANGED),
        (None, None, Outcome.UNCHANGED),
        (THEIRS, OLD, Outcome.CHANGED),
        (THEIRS, None, Outcome.CHANGED),
        (None, OLD, Outcome.MISSING),
    ],
)
def test_there_are_three_outcomes(
    current: bytes | None, baseline: bytes | None, outcome: Outcome, tmp_path: Path
) -> None:
    path = tmp_path / "card.json"
    if current is not None:
        path.write_bytes(current)
    was = None if baseline is None else fingerprint(baseline)
    assert compare(path, was) is outcome
    assert judge(None if current is None else fingerprint(current), was) is outcome


def test_same_size_and_time_do_not_hide_a_change(tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    path.write_bytes(OLD)
    when = path.stat().st_mtime_ns
    path.write_bytes(NEW)
    os.utime(path, ns=(when, when))
    assert len(OLD) == len(NEW)
    assert compare(path, fingerprint(OLD)) is Outcome.CHANGED


@pytest.mark.parametrize("theirs", [THEIRS, None], ids=["changed", "deleted"])
def test_a_refused_save_refuses_again_at_the_next_autosave(
    theirs: bytes | None, tmp_path: Path
) -> None:
    path = tmp_path / "card.json"
    baseline = save_checked(path, OLD, None)
    if theirs is None:
        path.unlink()
    else:
        path.write_bytes(theirs)
    for attempt in (NEW, NEW, OLD):
        with pytest.raises(OutsideChange) as caught:
            baseline = save_checked(path, attempt, baseline)
        assert caught.value.outcome is (Outcome.MISSING if theirs is None else Outcome.CHANGED)
        assert baseline == fingerprint(OLD)
        assert (path.read_bytes() if path.exists() else None) == theirs
    assert [item.name for item in tmp_path.iterdir()] == (["card.json"] if theirs else [])


def test_a_save_hands_back_the_baseline_of_the_next(tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    baseline = None
    for number in range(5):
        data = str(number).encode()
        baseline = save_checked(path, data, baseline)
        assert baseline.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert list(tmp_path.iterdir()) == [path]


def test_a_new_file_is_never_put_over_one_that_came_meanwhile(tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    path.write_bytes(THEIRS)
    with pytest.raises(OutsideChange, match="was changed outside this window"):
        save_checked(path, NEW, None)
    assert path.read_bytes() == THEIRS


def test_a_file_swapped_for_a_folder_or_pipe_is_told(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for name in (".", "pipe"):
        with pytest.raises(Unreadable, match=r"folder, not a file|pipe, socket or device"):
            compare(tmp_path / name, fingerprint(OLD))


def test_a_link_out_of_the_library_is_refused(tmp_path: Path) -> None:
    library = tmp_path / "library"
    library.mkdir()
    (tmp_path / "outside.json").write_bytes(OLD)
    (library / "card.json").symlink_to(tmp_path / "outside.json")
    with pytest.raises(Unwritable, match="put a copy of the file there instead of a link"):
        save_checked(library / "card.json", NEW, fingerprint(OLD), root=library)
    assert (tmp_path / "outside.json").read_bytes() == OLD
