"""Run a scene again and again, killed at each call in turn, and report what was left.

A program of its own, so that it can fork from a single thread:
``python -m tests.files.killed FOLDER SCENE WHEN [nested]`` prints one line a run:
the call, 1 if the run came to its end, acknowledged saves, and ``ok`` or what
was found. ``nested`` kills the recovery at each of its calls as well.
"""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable
from pathlib import Path

from authoring.files.filesystem import FileSystem
from authoring.files.journal import recover
from authoring.files.lock import Patience
from tests.files import scenes
from tests.files.stepped import Hurried, Kill, Stepped

# Waiting takes no time here; fewer looks at a dead lock make fewer calls to be killed at.
RECOVERING = Patience(wait_s=5.0, stale_s=0.2, look_s=0.1)


def in_child(work: Callable[[int], None]) -> tuple[bool, int]:
    """Whether ``work`` came to its end, and how many bytes it wrote to the pipe it is given."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        status = 1
        try:
            work(writing)
            status = 0
        finally:
            os._exit(status)
    os.close(writing)
    told = b""
    while piece := os.read(reading, 4096):
        told += piece
    os.close(reading)
    _, status = os.waitpid(child, 0)
    if os.WIFEXITED(status) and os.WEXITSTATUS(status) != 0:
        raise SystemExit("the saving process failed instead of being killed")
    return os.WIFEXITED(status), len(told)


def killed_run(scene: scenes.Scene, root: Path, at: int, when: str) -> tuple[bool, int]:
    disk = Stepped(Hurried(), Kill(at, when))
    return in_child(lambda pipe: scene.run(root, disk, lambda: _tell(pipe)))


def _tell(pipe: int) -> None:
    os.write(pipe, b"!")


def killed_recovery(root: Path, at: int, when: str) -> bool:
    disk: FileSystem = Stepped(Hurried(), Kill(at, when))

    def work(pipe: int) -> None:
        recover(root, patience=RECOVERING, fs=disk)

    return in_child(work)[0]


def judged(scene: scenes.Scene, root: Path, kept: int) -> str:
    recover(root, patience=RECOVERING, fs=Hurried())
    left = scenes.found(root)
    return "ok" if left in scene.states[kept : kept + 2] else f"found {left}"


def main(folder: Path, scene: scenes.Scene, when: str, nested: bool) -> None:
    at = 0
    ended = False
    while not ended:
        at += 1
        root = folder / "run"
        scenes.lay_out(root, scene.states[0])
        ended, kept = killed_run(scene, root, at, when)
        if nested:
            _recover_killed(folder, scene, root, at, when, kept)
        _report(at, ended, kept, judged(scene, root, kept))
        shutil.rmtree(root)


def _report(at: int | str, ended: bool, kept: int, verdict: str) -> None:
    sys.stdout.write(f"{at} {int(ended)} {kept} {verdict}\n")


def _recover_killed(
    folder: Path, scene: scenes.Scene, root: Path, at: int, when: str, kept: int
) -> None:
    step = 0
    recovered = False
    while not recovered:
        step += 1
        copy = folder / "copy"
        shutil.copytree(root, copy)
        recovered = killed_recovery(copy, step, when)
        _report(f"{at}/{step}", False, kept, judged(scene, copy, kept))
        shutil.rmtree(copy)


if __name__ == "__main__":
    main(Path(sys.argv[1]), scenes.BY_NAME[sys.argv[2]], sys.argv[3], "nested" in sys.argv)
