"""Reading a file within bounds, whatever stands under its name."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest

from authoring.files.errors import Unreadable
from authoring.files.strict_json import read_file


@pytest.mark.parametrize("size", [0, 1, 1000, 700_000])
def test_a_file_up_to_the_limit_is_read_whole(size: int, tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    path.write_bytes(b"x" * size)
    assert read_file(path, size) == b"x" * size


def test_a_file_over_the_limit_is_refused_with_the_limit(tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    path.write_bytes(b"x" * 11)
    with pytest.raises(Unreadable, match="the file is larger than the 10 bytes this program reads"):
        read_file(path, 10)


def test_a_huge_hollow_file_is_refused_and_not_read_through(tmp_path: Path) -> None:
    path = tmp_path / "card.json"
    with path.open("wb") as file:
        file.truncate(1 << 40)
    with pytest.raises(Unreadable, match="larger than the 16 MiB"):
        read_file(path)


def _pipe(folder: Path) -> Path:
    os.mkfifo(folder / "pipe")
    return folder / "pipe"


def _socket(folder: Path) -> Path:
    with socket.socket(socket.AF_UNIX) as server:
        server.bind(str(folder / "s"))
    return folder / "s"


def _circle(folder: Path) -> Path:
    (folder / "card").symlink_to(folder / "card")
    return folder / "card"


def _dangling(folder: Path) -> Path:
    (folder / "card").symlink_to(folder / "gone")
    return folder / "card"


@pytest.mark.parametrize(
    ("make", "told"),
    [
        (lambda folder: folder, "this is a folder, not a file"),
        (_pipe, "this is a pipe, socket or device"),
        (_socket, "this is a pipe, socket or device"),
        (lambda folder: Path("/dev/zero"), "this is a pipe, socket or device"),
        (lambda folder: folder / "gone", "there is no such file or folder"),
        (_dangling, "there is no such file or folder"),
        (_circle, "the links on this path lead in a circle"),
        (lambda folder: folder / ("n" * 300), "the name is too long for this disk"),
        (lambda folder: folder / "a\0b", "this name can't be used for a file here"),
    ],
)
def test_what_cannot_be_read_is_told_at_once_in_one_sentence(
    make: object, told: str, tmp_path: Path
) -> None:
    with pytest.raises(Unreadable) as caught:
        read_file(make(tmp_path))  # type: ignore[operator]
    assert told in str(caught.value)
    assert caught.value.mend
    assert "\n" not in str(caught.value)
