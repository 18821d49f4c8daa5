"""Saves to be killed, failed and cut short: each says what stood before and what after.

A scene runs on any disk below any root, and calls ``acknowledged`` after each
save that returned, so that whoever watches knows what must not be lost.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import product
from pathlib import Path

from attrs import frozen

from authoring.files.atomic import write_atomic
from authoring.files.baseline import save_checked
from authoring.files.filesystem import FileSystem
from authoring.files.fingerprint import fingerprint
from authoring.files.journal import Change, Remove, Write, change_together
from authoring.files.lock import Patience

QUICKLY = Patience(wait_s=5.0, stale_s=0.2, look_s=0.005)
State = Mapping[str, bytes]
Run = Callable[[Path, FileSystem, Callable[[], None]], None]

FILES = ("a.json", "b.json", "cards/c.json")
OLD = {name: f"old {name}".encode() for name in FILES}
NEW = {name: f"new, and longer, {name}".encode() for name in FILES}


@frozen
class Scene:
    """``states[n]`` is what the files hold after the n-th acknowledgement."""

    name: str
    states: tuple[State, ...]
    run: Run


def _plain_save() -> Scene:
    def run(root: Path, fs: FileSystem, acknowledged: Callable[[], None]) -> None:
        write_atomic(root / "a.json", NEW["a.json"], fs=fs)
        acknowledged()

    return Scene("one save", (OLD, OLD | {"a.json": NEW["a.json"]}), run)


def _first_save() -> Scene:
    def run(root: Path, fs: FileSystem, acknowledged: Callable[[], None]) -> None:
        write_atomic(root / "a.json", NEW["a.json"], fs=fs)
        acknowledged()

    return Scene("a first save", ({}, {"a.json": NEW["a.json"]}), run)


def _checked_saves() -> Scene:
    """Two saves of one file, the second from the baseline the first returned."""

    def run(root: Path, fs: FileSystem, acknowledged: Callable[[], None]) -> None:
        path = root / "cards" / "c.json"
        baseline = fingerprint(OLD["cards/c.json"])
        for data in (NEW["cards/c.json"], OLD["cards/c.json"]):
            baseline = save_checked(path, data, baseline, root=root, patience=QUICKLY, fs=fs)
            acknowledged()

    return Scene("two checked saves", (OLD, OLD | {"cards/c.json": NEW["cards/c.json"]}, OLD), run)


def together(kinds: Mapping[str, str]) -> Scene:
    """One change: per file ``overwrite``, ``remove`` or ``create``."""
    before = {name: data for name, data in OLD.items() if kinds.get(name) != "create"}
    after = {
        name: NEW[name] if name in kinds else data
        for name, data in OLD.items()
        if kinds.get(name) != "remove"
    }

    def run(root: Path, fs: FileSystem, acknowledged: Callable[[], None]) -> None:
        changes = [_change(root, name, kind) for name, kind in kinds.items()]
        change_together(root, changes, patience=QUICKLY, fs=fs)
        acknowledged()

    return Scene(", ".join(f"{kind} {name}" for name, kind in kinds.items()), (before, after), run)


def _change(root: Path, name: str, kind: str) -> Change:
    if kind == "remove":
        return Remove(root / name, fingerprint(OLD[name]))
    return Write(root / name, NEW[name], fingerprint(OLD[name]) if kind == "overwrite" else None)


def _there_and_back() -> Scene:
    """A change of three, then single saves that bring the old contents back."""
    mixed = together({"a.json": "overwrite", "b.json": "remove", "cards/c.json": "create"})

    def run(root: Path, fs: FileSystem, acknowledged: Callable[[], None]) -> None:
        mixed.run(root, fs, acknowledged)
        was = fingerprint(NEW["a.json"])
        for name, baseline in (("a.json", was), ("b.json", None)):
            save_checked(root / name, OLD[name], baseline, root=root, patience=QUICKLY, fs=fs)
            acknowledged()

    one = {**mixed.states[1], "a.json": OLD["a.json"]}
    return Scene("a change, then back", (*mixed.states, one, one | {"b.json": OLD["b.json"]}), run)


KINDS = ("overwrite", "remove", "create")
EVERY_CHANGE_OF_UP_TO_THREE = [
    together(dict(zip(FILES[:count], kinds, strict=True)))
    for count in (1, 2, 3)
    for kinds in product(KINDS, repeat=count)
]
CHOSEN = [
    _plain_save(),
    _first_save(),
    _checked_saves(),
    together({"a.json": "overwrite", "b.json": "remove", "cards/c.json": "create"}),
    _there_and_back(),
]
BY_NAME = {scene.name: scene for scene in [*CHOSEN, *EVERY_CHANGE_OF_UP_TO_THREE]}


def overwrite_all(state: State) -> Scene:
    """One change to every file there is, from whatever it holds now."""

    def run(root: Path, fs: FileSystem, acknowledged: Callable[[], None]) -> None:
        changes = [
            Write(root / name, b"again " + data, fingerprint(data)) for name, data in state.items()
        ] or [Write(root / "a.json", b"again ", None)]
        change_together(root, changes, patience=QUICKLY, fs=fs)
        acknowledged()

    after = {name: b"again " + data for name, data in state.items()} or {"a.json": b"again "}
    return Scene("overwrite all", (state, after), run)


def lay_out(root: Path, state: State) -> None:
    """Make the folders and files of ``state`` on the real disk."""
    (root / "cards").mkdir(parents=True)
    for name, data in state.items():
        (root / name).write_bytes(data)


def found(root: Path) -> State:
    """What the user's own files below ``root`` hold."""
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and not path.name.startswith(".rungbook")
    }
