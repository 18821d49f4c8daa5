"""Whatever lies on the disk, a command answers in one sentence, with status 2, in a second.

Kinds of file: those the storage rules name (truncated, not UTF-8, deep, huge, no plain file,
a later format), and JSON that is no strict JSON (RFC 8259; NaN and lone surrogates, RFC 7493).
"""

from __future__ import annotations

import json
import os
import socket
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.commands.conftest import CARD, EXAMPLE, Run, told

SOUND = (EXAMPLE / CARD).read_bytes()


def later_format(path: Path) -> None:
    path.write_text(json.dumps(json.loads(SOUND) | {"format_version": 2}), encoding="utf-8")


def pipe(path: Path) -> None:
    os.mkfifo(path)


def circle(path: Path) -> None:
    path.symlink_to(path.name)


def listening(path: Path) -> None:
    # A socket's address has room for about 100 bytes, so it is made by its short name.
    here = Path.cwd()
    os.chdir(path.parent)
    try:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(path.name)
    finally:
        os.chdir(here)


def huge(path: Path) -> None:
    """Sparse: a terabyte that takes no room."""
    with path.open("wb") as file:
        file.truncate(2**40)


def holding(data: bytes) -> Callable[[Path], None]:
    def write(path: Path) -> None:
        path.write_bytes(data)

    return write


HOSTILE: dict[str, tuple[Callable[[Path], None], str]] = {
    "empty": (holding(b""), "the file is empty"),
    "truncated": (holding(SOUND[:1000]), "line "),
    "cut inside a letter": (
        holding('{"format": "é'.encode()[:-1]),
        "breaks off inside a character",
    ),
    "not UTF-8": (holding(SOUND.replace(b"Heel", b"H\xe9el")), "UTF-8"),
    "UTF-16": (holding(SOUND.decode().encode("utf-16")), "UTF-8"),
    "zeros": (holding(bytes(5000)), ""),
    "binary": (holding(bytes(range(256)) * 40), ""),
    "a picture": (holding(b"\x89PNG\r\n\x1a\n" + bytes(100)), ""),
    "deeply nested lists": (holding(b"[" * 200_000), "nested"),
    "deeply nested objects": (holding(b'{"a":' * 200_000), "nested"),
    "deep and closed": (holding(b"[" * 5000 + b"]" * 5000), "nested"),
    "a huge number": (holding(b"9" * 1_000_000), ""),
    "1e999": (holding(b'{"format": 1e999}'), ""),
    "NaN": (holding(b'{"format": NaN}'), ""),
    "a key twice": (holding(b'{"format": 1, "format": 2}'), "twice"),
    "half a character": (holding(b'{"format": "\\ud800"}'), ""),
    "a comment": (holding(b'{"format": 1} // no'), ""),
    "a list": (holding(b"[]"), "does not say its format"),
    "another program's file": (holding(b'{"name": "x"}'), "does not say its format"),
    "another format": (holding(b'{"format": "rungbook/cart"}'), "did you mean 'rungbook/card'?"),
    "a later format": (later_format, "made by a newer Rungbook"),
    "17 MiB": (holding(b" " * (17 * 2**20)), "larger than the 16 MiB"),
    "a terabyte": (huge, "larger than the 16 MiB"),
    "a folder": (Path.mkdir, "this is a folder"),
    "a pipe": (pipe, "this is a pipe, socket or device"),
    "a socket": (listening, "this is a pipe, socket or device"),
    "links in a circle": (circle, "the links on this path lead in a circle"),
    "nothing": (lambda path: None, "there is no such file"),
}


@pytest.fixture
def hostile(request: pytest.FixtureRequest, tmp_path: Path) -> tuple[Path, str]:
    """A hostile file, and what must be said of it."""
    make, sentence = HOSTILE[request.param]
    path = tmp_path / "x.card.json"
    make(path)
    return path, sentence


@pytest.mark.parametrize("hostile", HOSTILE, indirect=True)
def test_check_and_handout_answer_in_one_sentence_within_a_second(
    run: Run, hostile: tuple[Path, str]
) -> None:
    path, sentence = hostile
    commands = [("handout", path, "-o", path.with_name("x.html"))]
    commands += [] if path.is_dir() else [("check", path)]
    for command in commands:
        begun = time.perf_counter()
        answer = run(*command)
        assert time.perf_counter() - begun < 1.0
        said = told(answer)
        assert answer.status == 2
        assert sentence in said
        assert said.startswith(f"{path}: ")
        assert "\n" not in said
        assert len(said) < 600
    assert not path.with_name("x.html").exists()


@pytest.mark.parametrize("hostile", [name for name in HOSTILE if name != "nothing"], indirect=True)
def test_inside_a_library_it_is_named_and_the_rest_opens(
    run: Run, hostile: tuple[Path, str], library: Path
) -> None:
    path, sentence = hostile
    inside = library / "cards" / "x.card.json"
    path.rename(inside)
    report = json.loads(run("check", library, "--format", "json").out)
    assert [each["file"] for each in report["unreadable"]] == [str(inside)]
    assert sentence in report["unreadable"][0]["sentence"] + report["unreadable"][0]["mend"]
    assert {each["strength"] for each in report["results"] if each["file"] != str(inside)}


def test_a_byte_order_mark_is_read_over(run: Run, tmp_path: Path) -> None:
    """RFC 8259, section 8.1: a parser may ignore the mark, and none may write it."""
    path = tmp_path / "x.card.json"
    path.write_bytes(b"\xef\xbb\xbf" + SOUND)
    answer = run("check", path)
    assert answer.status == 0


@pytest.mark.parametrize("name", ["library.json", "clinic.json"])
def test_a_broken_manifest_or_clinic_is_named(run: Run, library: Path, name: str) -> None:
    (library / name).write_bytes(b"{")
    answer = run("check", library)
    assert answer.status == (2 if name == "library.json" else 1)
    assert name in answer.out + answer.err


@pytest.mark.parametrize("name", ["cards", "protocols", "images", "history"])
def test_a_file_where_a_folder_should_be_does_not_stop_the_rest(
    run: Run, library: Path, name: str
) -> None:
    folder = library / name
    folder.rename(library.parent / name)
    folder.write_bytes(b"")
    answer = run("check", library, "--format", "json")
    assert answer.status == 1
    unreadable = [each["file"] for each in json.loads(answer.out)["unreadable"]]
    assert unreadable == [str(folder)]


def test_a_folder_that_is_no_library_says_how_to_start_one(run: Run, tmp_path: Path) -> None:
    answer = run("check", tmp_path)
    assert answer.status == 2
    assert "rungbook new" in told(answer)


@pytest.mark.parametrize("name", ["x" * 300, "a\nb", "\x1b[31mred", "caf\udce9", "a\0b"])
def test_a_hostile_name_stays_on_one_line(run: Run, name: str) -> None:
    answer = run("check", name)
    assert answer.status == 2
    said = told(answer)
    assert "\n" not in said
    assert "\x1b" not in said
