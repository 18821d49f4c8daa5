"""Saving one file, on a real folder."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from authoring.files import names
from authoring.files.atomic import clean_leftovers, make_folder, write_atomic
from authoring.files.errors import FileProblem, Unwritable
from authoring.files.filesystem import FileSystem


@pytest.mark.parametrize("data", [b"", b"new", b"x" * 3_000_000], ids=["empty", "small", "large"])
@pytest.mark.parametrize("before", [None, b"a longer old content"], ids=["first", "again"])
def test_a_save_puts_the_whole_content_there_and_nothing_else(
    before: bytes | None, data: bytes, tmp_path: Path
) -> None:
    path = tmp_path / "card.json"
    if before is not None:
        path.write_bytes(before)
    write_atomic(path, data)
    assert path.read_bytes() == data
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_permissions_stay_as_they_were(mode: int, tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    path.write_bytes(b"old")
    path.chmod(mode)
    write_atomic(path, b"new")
    assert stat.S_IMODE(path.stat().st_mode) == mode


def test_a_new_file_gets_the_permissions_any_program_would_give_it(tmp_path: Path) -> None:
    (tmp_path / "theirs").write_bytes(b"")
    write_atomic(tmp_path / "ours", b"")
    assert (tmp_path / "ours").stat().st_mode == (tmp_path / "theirs").stat().st_mode


def test_a_link_stays_a_link_and_its_file_is_replaced(tmp_path: Path) -> None:
    real = tmp_path / "elsewhere" / "card.json"
    real.parent.mkdir()
    real.write_bytes(b"old")
    link = tmp_path / "card.json"
    link.symlink_to(real)
    write_atomic(link, b"new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"


def test_an_open_reader_keeps_the_old_content_to_the_end(tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    path.write_bytes(b"old and whole")
    with path.open("rb") as reader:
        start = reader.read(3)
        write_atomic(path, b"new")
        assert start + reader.read() == b"old and whole"


def _pipe(folder: Path) -> Path:
    os.mkfifo(folder / "pipe")
    return folder / "pipe"


def _circle(folder: Path) -> Path:
    (folder / "one").symlink_to(folder / "two")
    (folder / "two").symlink_to(folder / "one")
    return folder / "one" / "file"


def _below_a_file(folder: Path) -> Path:
    (folder / "file").write_bytes(b"kept")
    return folder / "file" / "inner"


def _folder(folder: Path) -> Path:
    (folder / "sub").mkdir()
    return folder / "sub"


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (_folder, "this is a folder, not a file; name a file inside it"),
        (_pipe, "this is a pipe, socket or device, not a file; name an ordinary file"),
        (lambda folder: Path("/dev/null"), "this is a pipe, socket or device, not a file"),
        (lambda folder: folder / "no" / "file", "there is no such file or folder"),
        (_below_a_file, "part of this path is a file, not a folder"),
        (_circle, "the links on this path lead in a circle"),
        (lambda folder: folder / ("n" * 300), "the name is too long for this disk"),
        (lambda folder: folder / "a\0b", "this name can't be used for a file here"),
        (lambda folder: folder / "half \ud800", "this name can't be used for a file here"),
    ],
)
def test_what_cannot_be_saved_to_is_told_in_one_sentence(
    make: object, told: str, tmp_path: Path
) -> None:
    path = make(tmp_path)  # type: ignore[operator]
    before = sorted(tmp_path.rglob("*"))
    with pytest.raises(Unwritable) as caught:
        write_atomic(path, b"new")
    assert told in str(caught.value)
    assert "\n" not in str(caught.value)
    assert sorted(tmp_path.rglob("*")) == before


def test_a_file_set_read_only_is_not_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "card.json"
    path.write_bytes(b"old")
    # The administrator may write everywhere, so the answer of the system is given here.
    monkeypatch.setattr(FileSystem, "may_write", lambda self, path: False)
    with pytest.raises(Unwritable, match="this file is read only; allow writing to it"):
        write_atomic(path, b"new")
    assert path.read_bytes() == b"old"


def test_control_characters_of_a_hostile_name_never_reach_the_terminal(tmp_path: Path) -> None:
    with pytest.raises(FileProblem) as caught:
        write_atomic(tmp_path / "a\x1b[2J\nb" / "c", b"")
    assert "a\\x1b[2J\\nb" in str(caught.value)


def test_folders_are_made_with_those_above_them_and_twice_does_no_harm(tmp_path: Path) -> None:
    for _ in range(2):
        make_folder(tmp_path / "history" / "one" / "two")
    assert (tmp_path / "history" / "one" / "two").is_dir()


def test_a_folder_below_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(Unwritable, match=r"file( is a file, so no folder|, not a folder)"):
        make_folder(tmp_path / "file" / "sub")


def test_only_old_files_of_our_own_naming_are_cleaned_away(tmp_path: Path) -> None:
    day_old = 1_000_000_000
    kept = [
        tmp_path / "card.json",
        tmp_path / ".rungbook-short.tmp",
        tmp_path / ("x.rungbook-" + "0" * 32 + ".tmp"),
        tmp_path / (".rungbook-" + "0" * 32 + ".tmp.json"),
        names.new_journal(tmp_path),
    ]
    stale = [names.new_temporary(tmp_path), names.guard(tmp_path, "a" * 32)]
    for path in [*kept, *stale]:
        path.write_bytes(b"")
        os.utime(path, (day_old, day_old))
    young = names.new_temporary(tmp_path)
    young.write_bytes(b"")
    folder = names.new_temporary(tmp_path)
    folder.mkdir()
    os.utime(folder, (day_old, day_old))
    removed = clean_leftovers(tmp_path)
    assert sorted(removed) == sorted(path.name for path in stale)
    assert sorted(tmp_path.iterdir()) == sorted([*kept, young, folder])


def test_cleaning_a_folder_that_is_gone_is_no_matter(tmp_path: Path) -> None:
    assert clean_leftovers(tmp_path / "gone") == ()
