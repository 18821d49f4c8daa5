"""The command as a process: start, pipes, terminals, encodings, and faults of its own."""

from __future__ import annotations

import json
import os
import pty
import re
import subprocess
import sys
from pathlib import Path

import pytest

from authoring import __version__
from authoring.commands import crash
from tests.commands.conftest import ANKLE, CARD, EXAMPLE, Run, told, typed


def test_the_command_answers_as_a_process() -> None:
    done = typed("--version")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"rungbook {__version__}\n", "")


def test_a_user_can_go_from_nothing_to_a_handout(tmp_path: Path) -> None:
    folder, out = tmp_path / "clinic", tmp_path / "sheet.html"
    for arguments in (
        ("new", folder, "--example"),
        ("check", folder),
        ("handout", folder / ANKLE, "-o", out, "--stage", "1"),
    ):
        done = typed(*arguments)
        assert (done.returncode, done.stderr) == (0, "")
    assert "Sprained ankle" in out.read_text(encoding="utf-8")


def test_a_reader_that_goes_away_is_no_fault() -> None:
    command = [sys.executable, "-m", "authoring", "check", str(EXAMPLE)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(timeout=60) == 3


def test_a_full_disk_behind_standard_output_is_told() -> None:
    with Path("/dev/full").open("wb") as full:
        done = typed("check", EXAMPLE, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 3
    assert done.stderr.startswith("rungbook: The result could not be written to standard output")
    assert done.stderr.count("\n") == 1


def test_a_closed_standard_output_is_no_fault() -> None:
    command = f"exec {sys.executable} -m authoring check {EXAMPLE} >&-"
    done = subprocess.run(
        ["/bin/sh", "-c", command], capture_output=True, text=True, timeout=60, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
def test_any_text_reaches_any_terminal(tmp_path: Path, encoding: str) -> None:
    name = os.fsdecode("Ωmega–\u202e".encode() + b"\xe9.card.json")
    path = tmp_path / name
    data = json.loads((EXAMPLE / CARD).read_bytes())
    path.write_text(json.dumps(data | {"größe": 1}), encoding="utf-8")
    environment = {**os.environ, "PYTHONIOENCODING": encoding}
    done = typed("check", path, env=environment, text=False)
    assert done.returncode == 0
    assert b"Traceback" not in done.stderr
    assert b"Protocol checks: 0 must" in done.stdout


def seen_on_a_terminal(*arguments: object) -> str:
    """What a terminal on standard error shows."""
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "authoring", *map(str, arguments)]
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=theirs) as process:
        os.close(theirs)
        seen = b""
        while True:
            try:
                piece = os.read(ours, 4096)
            except OSError:  # Linux: the last writer has gone
                break
            if not piece:
                break
            seen += piece
        process.wait(timeout=120)
    os.close(ours)
    return seen.decode()


def many_cards(library: Path, count: int) -> None:
    data = json.loads((library / CARD).read_bytes())
    for number in range(count):
        mine = data | {
            "id": f"00000000-0000-4000-8000-{number:012d}",
            "slug": f"card-{number}",
        }
        path = library / "cards" / f"card-{number}.card.json"
        path.write_text(json.dumps(mine), encoding="utf-8")


def test_a_long_check_shows_how_far_it_is_and_wipes_the_line(library: Path) -> None:
    many_cards(library, 600)
    seen = seen_on_a_terminal("check", library)
    shown = re.findall(r"\r(Reading|Checking): (\d+) of (\d+)", seen)
    assert [what for what, _, _ in shown] == sorted((w for w, _, _ in shown), reverse=True)
    files = 600 + len(list(EXAMPLE.glob("*s/*.json")))
    for phase, total in (("Reading", files), ("Checking", files + 2)):
        steps = [(int(done), int(of)) for what, done, of in shown if what == phase]
        assert steps == sorted(steps)
        # The clinic and the library as a whole are checked too.
        assert {of for _, of in steps} == {total}, phase
    assert re.search(r"\r +\r$", seen)


def test_a_short_check_shows_nothing_on_a_terminal(tmp_path: Path) -> None:
    alone = tmp_path / "alone.card.json"
    alone.write_bytes((EXAMPLE / CARD).read_bytes())
    assert seen_on_a_terminal("check", alone) == ""
    assert seen_on_a_terminal("check", tmp_path / "none").startswith("rungbook: ")


# ---- faults of the program itself -----------------------------------------------------------


@pytest.mark.parametrize(
    ("fault", "opening"),
    [
        (ZeroDivisionError("a secret label"), "Something went wrong inside Rungbook"),
        (RecursionError("deep"), "Something went wrong inside Rungbook (RecursionError)"),
        (MemoryError(), "The computer ran out of memory"),
    ],
)
def test_a_fault_of_ours_is_one_sentence_and_its_traceback_a_file(
    run: Run, monkeypatch: pytest.MonkeyPatch, fault: Exception, opening: str, tmp_path: Path
) -> None:
    quoted = KeyError("another secret label")

    def broken(*_: object) -> None:
        raise fault from quoted

    monkeypatch.setattr("authoring.commands.check.check_paths", broken)
    answer = run("check", EXAMPLE)
    said = told(answer)
    assert answer.status == 3
    assert said.startswith(opening)
    (log,) = (tmp_path / "state" / "rungbook").iterdir()
    assert f"send the file {log} to whoever gave you Rungbook" in said
    kept = log.read_text(encoding="utf-8")
    assert kept.startswith(f"rungbook {__version__}, Python 3.")
    assert "Traceback (most recent call last)" in kept
    assert type(fault).__name__ in kept
    assert "builtins.KeyError\n\nwhich led to\n" in kept
    # An argument may hold the label of a patient.
    assert "secret label" not in kept
    assert str(EXAMPLE) not in kept


def test_where_no_log_can_be_kept_the_sentence_stands_alone(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("authoring.commands.check.check_paths", broken)
    (tmp_path / "state").write_text("a file", encoding="utf-8")
    said = told(run("check", EXAMPLE))
    assert "tell what you did to whoever gave you Rungbook" in said


@pytest.mark.parametrize(
    ("platform", "variables", "expected"),
    [
        ("linux", {"XDG_STATE_HOME": "/state"}, "/state/rungbook"),
        ("linux", {}, "/home/x/.local/state/rungbook"),
        ("darwin", {}, "/home/x/Library/Logs/Rungbook"),
        ("win32", {"LOCALAPPDATA": "/local"}, "/local/Rungbook/Logs"),
    ],
)
def test_logs_lie_where_the_system_wants_them(
    monkeypatch: pytest.MonkeyPatch, platform: str, variables: dict[str, str], expected: str
) -> None:
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setenv("HOME", "/home/x")
    for name in ("XDG_STATE_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    assert crash.log_folder().as_posix() == expected


def test_a_stop_by_the_user_is_told_without_a_log(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("authoring.commands.check.check_paths", stopped)
    answer = run("check", EXAMPLE)
    assert answer.status == 3
    assert told(answer) == "Stopped; nothing was left half written."
    assert not (tmp_path / "state").exists()


def test_a_damaged_installation_says_how_to_mend_it(
    run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("authoring.resources._PACKAGE", tmp_path / "authoring")
    answer = run("new", tmp_path / "x", "--example")
    assert answer.status == 2
    assert "Install the program again to mend it" in told(answer)
