"""Kill the saving process at every call to the disk; old or new must be left, never neither."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.files import scenes

WHEN = ("before", "inside", "after")
HERE = Path(__file__).resolve().parents[2]


def _runs(folder: Path, scene: str, when: str, *more: str) -> list[list[str]]:
    done = subprocess.run(
        [sys.executable, "-m", "tests.files.killed", str(folder), scene, when, *more],
        cwd=HERE,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return [line.split(" ", 3) for line in done.stdout.splitlines()]


@pytest.mark.parametrize("when", WHEN)
@pytest.mark.parametrize("scene", scenes.CHOSEN, ids=lambda scene: scene.name)
def test_a_process_killed_at_any_call_leaves_old_or_new(
    scene: scenes.Scene, when: str, tmp_path: Path
) -> None:
    runs = _runs(tmp_path, scene.name, when)
    assert [run for run in runs if run[3] != "ok"] == []
    assert runs[-1][1:3] == ["1", str(len(scene.states) - 1)]
    assert len(runs) > 8


@pytest.mark.long
@pytest.mark.parametrize("when", WHEN)
@pytest.mark.parametrize("scene", scenes.CHOSEN[3:], ids=lambda scene: scene.name)
def test_a_recovery_killed_at_any_call_is_finished_by_the_next(
    scene: scenes.Scene, when: str, tmp_path: Path, record_property: Callable[[str, int], None]
) -> None:
    runs = _runs(tmp_path, scene.name, when, "nested")
    assert [run for run in runs if run[3] != "ok"] == []
    record_property("cases", len(runs))


# ---- killed at any moment, on a real disk with all its flushes -----------------

_SAVER = """
import sys
from pathlib import Path
from authoring.files.baseline import save_checked, fingerprint
from authoring.files.lock import Patience
path, number = Path(sys.argv[1]), int(sys.argv[2])
baseline = fingerprint(path.read_bytes())
sys.stdout.write("ready\\n")
sys.stdout.flush()
while True:
    number += 1
    data = (f"{number} " * 5000).encode()
    baseline = save_checked(path, data, baseline, patience=Patience(5, 0.05, 0.005))
    sys.stdout.write(f"{number}\\n")
    sys.stdout.flush()
"""


def _kill_saver(path: Path, after_s: float) -> tuple[int, int]:
    """The last number acknowledged and the number found; raises unless the file is whole."""
    start = int(path.read_bytes().split()[0])
    with subprocess.Popen(
        [sys.executable, "-c", _SAVER, str(path), str(start)],
        cwd=HERE,
        stdout=subprocess.PIPE,
    ) as saver:
        assert saver.stdout is not None
        assert saver.stdout.readline() == b"ready\n"
        time.sleep(after_s)
        os.kill(saver.pid, signal.SIGKILL)
        told = saver.stdout.read().split()
    words = path.read_bytes().split()
    assert len(words) == 5000
    assert set(words) == {words[0]}
    return int(told[-1]) if told else start, int(words[0])


def _kill_at_random(path: Path, times: int, seed: int) -> int:
    chance = random.Random(seed)
    path.write_bytes(b"0 " * 5000)
    found = 0
    for _ in range(times):
        acknowledged, found = _kill_saver(path, chance.uniform(0.0, 0.08))
        assert found in (acknowledged, acknowledged + 1)
    return found


def test_a_process_killed_at_any_moment_loses_nothing_acknowledged(tmp_path: Path) -> None:
    assert _kill_at_random(tmp_path / "a.json", times=8, seed=1) > 0


@pytest.mark.long
@pytest.mark.parametrize("seed", range(2))
def test_a_process_killed_a_thousand_times_loses_nothing_acknowledged(
    seed: int, tmp_path: Path, record_property: Callable[[str, int], None]
) -> None:
    assert _kill_at_random(tmp_path / "a.json", times=1000, seed=seed) > 0
    record_property("cases", 1000)
