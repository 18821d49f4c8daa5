"""Two writers at once on one folder: an acknowledged save is never lost, nobody waits for ever."""

from __future__ import annotations

import json
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from authoring.files import names
from authoring.files.baseline import save_checked
from authoring.files.errors import Busy, FileProblem, OutsideChange
from authoring.files.filesystem import FileSystem
from authoring.files.fingerprint import fingerprint
from authoring.files.journal import Write, change_together, recover
from authoring.files.lock import Patience
from authoring.files.reading import read_file
from tests.files import scenes
from tests.files.memory_disk import MemoryDisk
from tests.files.stepped import Real, Stepped

ROOT = Path("/library")
LIST = ROOT / "cards" / "list.json"
OTHER = ROOT / "other.json"
HERE = Path(__file__).resolve().parents[2]


def _disk() -> MemoryDisk:
    files = frozenset({(str(LIST), b"start"), (str(OTHER), b"other start")})
    return MemoryDisk.holding(files, ("/library", "/library/cards"))


def _sign_alone(fs: FileSystem, name: bytes) -> None:
    was = read_file(LIST, fs=fs)
    save_checked(
        LIST, was + b" " + name, fingerprint(was), root=ROOT, patience=scenes.QUICKLY, fs=fs
    )


def _sign_both(fs: FileSystem, name: bytes) -> None:
    changes = []
    for path in (LIST, OTHER):
        was = read_file(path, fs=fs)
        changes.append(Write(path, was + b" " + name, fingerprint(was)))
    change_together(ROOT, changes, patience=scenes.QUICKLY, fs=fs)


Sign = Callable[[FileSystem, bytes], None]


def _signed(sign: Sign, fs: FileSystem, name: bytes, signatures: list[bytes]) -> None:
    try:
        sign(fs, name)
    except FileProblem:
        return
    signatures.append(name)


@pytest.mark.parametrize("second", [_sign_alone, _sign_both])
@pytest.mark.parametrize("first", [_sign_alone, _sign_both])
def test_a_writer_that_sleeps_at_any_call_undoes_nothing_when_it_wakes(
    first: Sign, second: Sign
) -> None:
    number = 0
    reached = True
    while reached:
        number += 1
        disk = _disk()
        signatures: list[bytes] = []
        reached = False

        def sleep(at: int, name: str, real: Real, arguments: tuple[Any, ...]) -> Any:
            nonlocal reached
            if at == number:  # noqa: B023 - called within this turn of the loop only
                reached = True
                disk.clock.seconds += 60  # noqa: B023
                _signed(second, disk, b"second", signatures)  # noqa: B023
            return real(*arguments)

        _signed(first, Stepped(disk, sleep), b"first", signatures)
        recover(ROOT, patience=scenes.QUICKLY, fs=disk)
        lines = read_file(LIST, fs=disk).split()
        at = f"slept at call {number}: acknowledged {signatures}, found {lines}"
        assert all(name in lines for name in signatures), at
        assert signatures, at
        assert not reached or b"second" in signatures or b"first" in lines, at
        if first is second is _sign_both:
            others = read_file(OTHER, fs=disk).removeprefix(b"other ").split()
            assert others == lines, at
    assert number > 30


def test_a_lock_left_behind_is_taken_over_and_what_it_guarded_is_removed() -> None:
    disk = _disk()
    temporary = names.new_temporary(LIST.parent)
    for path, content in (
        (temporary, b"of a sleeper"),
        (ROOT / names.LOCK_NAME, json.dumps({"fence": [f"cards/{temporary.name}"]}).encode()),
    ):
        descriptor = disk.create(path, 0o600)
        disk.write(descriptor, content)
        disk.close(descriptor)
    _sign_alone(disk, b"next")
    assert sorted(Path(path).name for path, _ in disk.files()) == ["list.json", "other.json"]


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"[" * 100_000,
        b"\xff",
        b'{"fence": 7}',
        b'{"fence": [null, 3, "x"]}',
        b"0" * 10**6,
    ],
    ids=["empty", "cut", "deep", "not text", "odd", "odd items", "huge"],
)
def test_a_damaged_lock_only_makes_the_next_writer_wait(content: bytes, tmp_path: Path) -> None:
    (tmp_path / names.LOCK_NAME).write_bytes(content)
    patience = Patience(wait_s=5.0, stale_s=0.05, look_s=0.005)
    save_checked(tmp_path / "a.json", b"new", None, patience=patience)
    assert [path.name for path in tmp_path.iterdir()] == ["a.json"]


@pytest.mark.parametrize(
    "fence",
    ["../kept.txt", "/{outside}/kept.txt", "kept.txt", "link/.rungbook-" + "0" * 32 + ".tmp"],
)
def test_a_hostile_lock_removes_nothing_but_our_own_temporary_files(
    fence: str, tmp_path: Path
) -> None:
    library, outside = tmp_path / "library", tmp_path / "outside"
    library.mkdir()
    outside.mkdir()
    (library / "link").symlink_to(outside)
    kept = [tmp_path / "kept.txt", outside / "kept.txt", library / "kept.txt"]
    kept.append(outside / (".rungbook-" + "0" * 32 + ".tmp"))
    for path in kept:
        path.write_text("kept")
    record = {"fence": [fence.format(outside=outside)]}
    (library / names.LOCK_NAME).write_text(json.dumps(record))
    patience = Patience(wait_s=5.0, stale_s=0.05, look_s=0.005)
    save_checked(library / "a.json", b"new", None, patience=patience)
    assert all(path.read_text() == "kept" for path in kept)


def test_a_writer_that_never_lets_go_is_named_after_the_time_allowed() -> None:
    disk = _disk()
    lock = ROOT / names.LOCK_NAME
    turn = 0

    def renew(number: int, name: str, real: Real, arguments: tuple[Any, ...]) -> Any:
        nonlocal turn
        if name == "create" and arguments[0] == lock:
            turn += 1
            disk.folders[ROOT][lock.name] = turn
            disk.contents[turn] = json.dumps({"owner": f"kim\x1b[2J, turn {turn}"}).encode()
        return real(*arguments)

    with pytest.raises(Busy) as caught:
        _sign_alone(Stepped(disk, renew), b"waiting")
    assert "another writer (kim[2J, turn" in str(caught.value)
    assert read_file(LIST, fs=disk) == b"start"
    assert [name for name in disk.names(LIST.parent) if names.is_temporary(name)] == []


# ---- real processes --------------------------------------------------------

_WRITER = """
import sys
from pathlib import Path
from authoring.files.baseline import save_checked, fingerprint
from authoring.files.errors import OutsideChange, Busy
from authoring.files.lock import Patience
path, name, times = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
refused = 0
for turn in range(times):
    while True:
        was = path.read_bytes()
        try:
            save_checked(path, was + f"{name}{turn}\\n".encode(), fingerprint(was),
                         patience=Patience(30, 0.3, 0.002))
        except (OutsideChange, Busy):
            refused += 1
            continue
        break
    sys.stdout.write(f"{name}{turn}\\n")
    sys.stdout.flush()
sys.stdout.write(f"refused {refused}\\n")
"""


def _writer(path: Path, name: str, times: int) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", _WRITER, str(path), name, str(times)],
        cwd=HERE,
        stdout=subprocess.PIPE,
        text=True,
    )


def _compete(path: Path, writers: int, times: int) -> int:
    """Let them write; the number of refusals."""
    path.write_bytes(b"")
    running = [_writer(path, f"w{number}-", times) for number in range(writers)]
    told = [writer.communicate(timeout=300)[0].splitlines() for writer in running]
    assert [writer.returncode for writer in running] == [0] * writers
    acknowledged = [line for lines in told for line in lines[:-1]]
    assert sorted(path.read_text().splitlines()) == sorted(acknowledged)
    assert len(acknowledged) == writers * times
    return sum(int(lines[-1].split()[1]) for lines in told)


def test_two_processes_saving_at_once_lose_no_acknowledged_save(tmp_path: Path) -> None:
    _compete(tmp_path / "list.txt", writers=2, times=25)


@pytest.mark.long
def test_four_processes_saving_at_once_lose_no_acknowledged_save(
    tmp_path: Path, record_property: Callable[[str, int], None]
) -> None:
    assert _compete(tmp_path / "list.txt", writers=4, times=500) > 0
    record_property("cases", 2000)


def _compete_killed(path: Path, rounds: int, seed: int) -> None:
    """One writer is killed now and then while another goes on."""
    chance = random.Random(seed)
    path.write_bytes(b"")
    acknowledged: list[str] = []
    for number in range(rounds):
        steady = _writer(path, f"steady{number}-", 10)
        doomed = _writer(path, f"doomed{number}-", 10_000)
        time.sleep(chance.uniform(0.1, 0.4))
        os.kill(doomed.pid, signal.SIGKILL)
        acknowledged += doomed.communicate()[0].splitlines()
        acknowledged += steady.communicate(timeout=60)[0].splitlines()[:-1]
        assert steady.returncode == 0
    found = path.read_text().splitlines()
    assert set(acknowledged) <= set(found)
    assert len(set(found)) == len(found) <= len(acknowledged) + rounds


def test_a_killed_writer_neither_stops_the_other_nor_undoes_its_saves(tmp_path: Path) -> None:
    _compete_killed(tmp_path / "list.txt", rounds=3, seed=7)


@pytest.mark.long
def test_writers_killed_a_hundred_times_neither_stop_nor_undo_the_other(
    tmp_path: Path, record_property: Callable[[str, int], None]
) -> None:
    _compete_killed(tmp_path / "list.txt", rounds=100, seed=8)
    record_property("cases", 100)


def test_of_two_savers_from_one_baseline_the_second_is_refused() -> None:
    disk = _disk()
    baseline = fingerprint(b"start")
    save_checked(LIST, b"mine", baseline, root=ROOT, fs=disk)
    with pytest.raises(OutsideChange):
        save_checked(LIST, b"yours", baseline, root=ROOT, fs=disk)
    assert read_file(LIST, fs=disk) == b"mine"
