"""Fail the N-th call to the disk, for every N and every fault, until a run passes."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import Any

import pytest

from authoring.files.errors import FileProblem, Unconfirmed
from authoring.files.filesystem import FileSystem
from authoring.files.journal import recover
from tests.files import scenes
from tests.files.memory_disk import MemoryDisk
from tests.files.scenes import Scene, State
from tests.files.stepped import Fault, Hurried, Real, Stepped

ROOT = Path("/library")
FOLDERS = ("/library", "/library/cards")


def _error(number: int) -> OSError:
    return OSError(number, os.strerror(number))


FAULTS = {
    "disk fault": (_error(errno.EIO), False),
    "disk full": (_error(errno.ENOSPC), False),
    "no right": (_error(errno.EACCES), False),
    "share gone for a moment": (_error(errno.ESTALE), False),
    "share gone for good": (_error(errno.ESTALE), True),
    "out of memory": (MemoryError(), False),
    "half a write": (None, False),
}


def _memory_disk(state: State) -> MemoryDisk:
    files = frozenset((str(ROOT / name), data) for name, data in state.items())
    return MemoryDisk.holding(files, FOLDERS)


def _on_memory(disk: MemoryDisk) -> State:
    return {str(Path(path).relative_to(ROOT)): data for path, data in disk.files()}


def _ours(state: State) -> list[str]:
    return [name for name in state if Path(name).name.startswith(".rungbook")]


def _theirs(state: State) -> State:
    return {name: data for name, data in state.items() if name not in _ours(state)}


def _run_failing(scene: Scene, disk: FileSystem, root: Path, fault: Fault) -> tuple[int, object]:
    """How many saves were acknowledged, and the problem raised or None."""
    acknowledged: list[None] = []
    try:
        scene.run(root, Stepped(disk, fault), lambda: acknowledged.append(None))
    except FileProblem as problem:
        return len(acknowledged), problem
    return len(acknowledged), None


@pytest.mark.parametrize("fault_name", FAULTS)
@pytest.mark.parametrize("scene", scenes.CHOSEN, ids=lambda scene: scene.name)
def test_any_failing_call_leaves_old_or_new_and_says_so(scene: Scene, fault_name: str) -> None:
    error, lasting = FAULTS[fault_name]
    number = 0
    while True:
        number += 1
        disk = _memory_disk(scene.states[0])
        fault = Fault(number, error, lasting=lasting)
        kept, problem = _run_failing(scene, disk, ROOT, fault)
        at = f"call {number}, {fault.struck}"
        assert disk.opened == {}, at
        if problem is None:
            assert kept == len(scene.states) - 1, at
        if not lasting and fault.struck != "remove" and not isinstance(problem, Unconfirmed):
            assert [name for name in _ours(_on_memory(disk)) if name.endswith(".tmp")] == [], at
        recover(ROOT, patience=scenes.QUICKLY, fs=disk)
        assert _theirs(_on_memory(disk)) in scene.states[kept : kept + 2], at
        if fault.struck is None:
            break
    assert number > 5


@pytest.mark.parametrize("scene", scenes.CHOSEN, ids=lambda scene: scene.name)
def test_half_a_write_is_taken_up_and_finished(scene: Scene) -> None:
    disk = _memory_disk(scene.states[0])

    def halve(number: int, name: str, real: Real, arguments: tuple[Any, ...]) -> Any:
        return Fault(number, None)(number, name, real, arguments)

    acknowledged: list[None] = []
    scene.run(ROOT, Stepped(disk, halve), lambda: acknowledged.append(None))
    assert _theirs(_on_memory(disk)) == scene.states[-1]


@pytest.mark.parametrize("scene", scenes.CHOSEN, ids=lambda scene: scene.name)
def test_after_any_fault_the_next_save_goes_through(scene: Scene) -> None:
    number = 0
    while True:
        number += 1
        disk = _memory_disk(scene.states[0])
        fault = Fault(number, _error(errno.EIO))
        _run_failing(scene, disk, ROOT, fault)
        recover(ROOT, patience=scenes.QUICKLY, fs=disk)
        now = _theirs(_on_memory(disk))
        at = f"call {number}, {fault.struck}"
        left = [state for state in scene.states if state == now]
        assert left, at
        again = scenes.overwrite_all(now)
        kept, problem = _run_failing(again, disk, ROOT, Fault(0, None))
        assert (kept, problem) == (1, None), at
        if fault.struck is None:
            break


@pytest.mark.parametrize("scene", scenes.CHOSEN, ids=lambda scene: scene.name)
def test_a_full_disk_on_a_real_folder_leaves_old_or_new(scene: Scene, tmp_path: Path) -> None:
    number = 0
    while True:
        number += 1
        root = tmp_path / str(number)
        scenes.lay_out(root, scene.states[0])
        fault = Fault(number, _error(errno.ENOSPC))
        kept, _ = _run_failing(scene, Hurried(), root, fault)
        recover(root, patience=scenes.QUICKLY, fs=Hurried())
        assert scenes.found(root) in scene.states[kept : kept + 2], f"call {number}"
        if fault.struck is None:
            break
