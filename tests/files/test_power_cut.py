"""Every state a power cut can leave, after Pillai et al., OSDI 2014 (see memory_disk)."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest

from authoring.files.errors import FileProblem
from authoring.files.journal import recover
from tests.files import scenes
from tests.files.memory_disk import MemoryDisk, Snapshot, crash_states
from tests.files.scenes import Scene, State

ROOT = Path("/library")
FOLDERS = ("/library", "/library/cards")


def _holding(state: State) -> MemoryDisk:
    files = frozenset((str(ROOT / name), data) for name, data in state.items())
    return MemoryDisk.holding(files, FOLDERS)


def _after_recovery(found: Snapshot) -> State:
    disk = MemoryDisk.holding(found, FOLDERS)
    recover(ROOT, patience=scenes.QUICKLY, fs=disk)
    return {
        str(Path(path).relative_to(ROOT)): data
        for path, data in disk.files()
        if not Path(path).name.startswith(".rungbook")
    }


def judged(scene: Scene) -> Iterator[str | None]:
    """For each different disk a power cut may leave: None, or what is wrong with it."""
    disk = _holding(scene.states[0])
    acknowledged: list[int] = []
    scene.run(ROOT, disk, lambda: acknowledged.append(len(disk.log)))
    seen: set[tuple[Snapshot, int]] = set()
    for length in range(len(disk.log) + 1):
        kept = sum(at <= length for at in acknowledged)
        for found in crash_states(_holding(scene.states[0]), disk.log[:length]):
            if (found, kept) in seen:
                continue
            seen.add((found, kept))
            wrong = _fault(found, scene.states[kept : kept + 2])
            yield f"cut after {disk.log[:length][-3:]}: {wrong}" if wrong else None


def _fault(found: Snapshot, allowed: Sequence[State]) -> str | None:
    try:
        left = _after_recovery(found)
    except FileProblem as problem:
        return str(problem)
    return None if left in allowed else str(left)


@pytest.mark.parametrize("scene", scenes.CHOSEN, ids=lambda scene: scene.name)
def test_power_cut_leaves_old_or_new_and_nothing_acknowledged_is_lost(scene: Scene) -> None:
    verdicts = list(judged(scene))
    assert [wrong for wrong in verdicts if wrong] == []
    assert len(verdicts) > len(scene.states)


@pytest.mark.long
@pytest.mark.parametrize("scene", scenes.EVERY_CHANGE_OF_UP_TO_THREE, ids=lambda scene: scene.name)
def test_power_cut_in_any_change_of_up_to_three_files_leaves_all_old_or_all_new(
    scene: Scene, record_property: Callable[[str, int], None]
) -> None:
    verdicts = list(judged(scene))
    assert [wrong for wrong in verdicts if wrong] == []
    record_property("cases", len(verdicts))


class _ForgetsFiles(MemoryDisk):
    def sync(self, descriptor: int) -> None:
        pass


class _ForgetsFolders(MemoryDisk):
    def sync_folder(self, folder: Path) -> None:
        pass


@pytest.mark.parametrize("careless", [_ForgetsFiles, _ForgetsFolders])
@pytest.mark.parametrize("scene", scenes.CHOSEN[2:], ids=lambda scene: scene.name)
def test_the_model_catches_a_writer_that_forgets_to_flush(
    careless: type[MemoryDisk], scene: Scene, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("sync", "sync_folder"):
        if name in vars(careless):
            monkeypatch.setattr(MemoryDisk, name, vars(careless)[name])
    assert any(judged(scene))
