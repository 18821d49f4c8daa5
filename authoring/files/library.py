"""A library folder: open it whole, save one file or several of it.

A file that can't be used is named and set aside; it never keeps the rest of the
library from opening.

    library.json  clinic.json
    cards/*.card.json  protocols/*.protocol.json  poses/*.pose.json  images/<hash>.png
    history/<id>/<version>.json
"""

from __future__ import annotations

import gc
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from attrs import field, frozen
from immutabledict import immutabledict

from authoring.files.atomic import make_folder
from authoring.files.baseline import save_checked
from authoring.files.documents import Loaded, document_bytes, read_document
from authoring.files.errors import FileProblem, Unreadable, Unwritable, told_as
from authoring.files.fingerprint import Fingerprint
from authoring.files.formats import Document
from authoring.files.journal import Change, Write, change_together, recover
from authoring.files.poses import StockPoses
from authoring.files.reading import read_file
from authoring.model.base import ModelError
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import ApprovedVersion, Library, LibraryFile
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol
from authoring.model.sentence import say

MANIFEST = "library.json"
CLINIC = "clinic.json"
CARDS = "cards"
PROTOCOLS = "protocols"
POSES = "poses"
IMAGES = "images"
HISTORY = "history"

_MOST_FILES = 100_000


@frozen
class OpenLibrary:
    """A library folder as it was read.

    Attributes:
        folder: the folder.
        library: everything in it that could be read.
        problems: files that could not be used, and why.
        paths: the file of each card, protocol and pose, by its id;
            the manifest and the clinic under their file names.
        baselines: what was read from each file, to notice outside changes.
        unknown: fields kept though this version does not know them, by file.
    """

    folder: Path
    library: Library
    problems: tuple[FileProblem, ...]
    paths: Mapping[str, Path] = field(converter=immutabledict)
    baselines: Mapping[Path, Fingerprint] = field(converter=immutabledict)
    unknown: Mapping[Path, tuple[str, ...]] = field(converter=immutabledict)


class NotALibrary(FileProblem):
    """The folder holds no library, or its ``library.json`` can't be used."""


def is_library(folder: Path) -> bool:
    """Whether a folder says that it is a library; one that can't be asked does not."""
    try:
        return (folder / MANIFEST).is_file()
    except OSError:
        return False


def file_of(document: Document) -> Path:
    """Where in a library folder the file of a noun lies, from the folder.

    Raises:
        ModelError: the noun has no place in a library (plans never have).
    """
    match document:
        case LibraryFile():
            return Path(MANIFEST)
        case Clinic():
            return Path(CLINIC)
        case Card():
            return Path(CARDS, f"{document.slug}.card.json")
        case Protocol():
            return Path(PROTOCOLS, f"{document.slug}.protocol.json")
        case Pose():
            return Path(POSES, f"{document.slug}.pose.json")
        case ApprovedVersion():
            approved = document.protocol
            return Path(HISTORY, approved.id, f"{approved.version}.json")
    raise ModelError(
        "format", say("A {kind} file has no place in a library.", kind=document.FORMAT)
    )


# ---- open -------------------------------------------------------------------------


@frozen
class _Reading:
    """Files read so far, and what could not be."""

    loaded: dict[Path, Loaded] = field(factory=dict)
    problems: list[FileProblem] = field(factory=list)

    def read(self, path: Path, expected: type[Document]) -> Document | None:
        try:
            self.loaded[path] = read_document(path, expected)
        except FileProblem as problem:
            self.problems.append(problem)
            return None
        return self.loaded[path].document

    def listed(self, folder: Path, ending: str) -> Iterator[Path]:
        """Files of a folder by name; a folder that can't be read is a problem like a file."""
        try:
            with told_as(Unreadable, folder, say("could not read the folder")):
                yield from _listed(folder, ending)
        except FileProblem as problem:
            self.problems.append(problem)


def _silent(done: int, total: int) -> None:
    """Tell nobody."""


def open_library(folder: Path, tell: Callable[[int, int], None] = _silent) -> OpenLibrary:
    """Read a library folder.

    An interrupted save of several files is finished first.

    Args:
        folder: the folder.
        tell: called with the cards and protocols read so far, and all of them.

    Raises:
        NotALibrary: there is no ``library.json``, or it can't be used.
        FileProblem: the folder can't be read, or an interrupted save can't be finished.
    """
    manifest_path = folder / MANIFEST
    with told_as(Unreadable, folder, say("could not open the folder")):
        if not folder.is_dir():
            raise Unreadable(folder, say("there is no such folder"), say("check the name"))
        there = manifest_path.is_file()
    if not there:
        raise NotALibrary(
            folder,
            say("this folder holds no library (there is no library.json in it)"),
            say("choose a library folder, or start one with 'rungbook new'"),
        )
    _recover(folder)
    with _without_collecting():
        reading = _Reading()
        manifest = reading.read(manifest_path, LibraryFile)
        if not isinstance(manifest, LibraryFile):
            raise reading.problems[0]
        return _gather(folder, manifest, reading, tell)


@contextmanager
def _without_collecting() -> Iterator[None]:
    """Put the cyclic collector off: the values read hold no cycles, and there are many."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _recover(folder: Path) -> None:
    """Finish an interrupted save where the folder can be written to."""
    if os.access(folder, os.W_OK):
        recover(folder)


def _gather(
    folder: Path, manifest: LibraryFile, reading: _Reading, tell: Callable[[int, int], None]
) -> OpenLibrary:
    clinic_path = folder / CLINIC
    clinic = reading.read(clinic_path, Clinic) if os.path.lexists(clinic_path) else None
    paths: dict[str, Path] = {MANIFEST: folder / MANIFEST}
    if clinic is not None:
        paths[CLINIC] = clinic_path
    files = {
        Card: list(reading.listed(folder / CARDS, ".card.json")),
        Protocol: list(reading.listed(folder / PROTOCOLS, ".protocol.json")),
        Pose: list(reading.listed(folder / POSES, ".pose.json")),
    }
    total = sum(map(len, files.values()))
    found: list[Card | Protocol | Pose] = []
    done = 0
    for kind, listed in files.items():
        for path in listed:
            noun = reading.read(path, kind)
            if isinstance(noun, Card | Protocol | Pose) and _new(noun.id, path, paths, reading):
                found.append(noun)
            done += 1
            tell(done, total)
    library = Library(
        manifest=manifest,
        clinic=clinic if isinstance(clinic, Clinic) else None,
        cards={each.id: each for each in found if isinstance(each, Card)},
        protocols={each.id: each for each in found if isinstance(each, Protocol)},
        poses={each.id: each for each in found if isinstance(each, Pose)},
        images=frozenset(path.name for path in reading.listed(folder / IMAGES, "")),
        stock_poses=StockPoses(),
        kept=frozenset(_kept(folder, reading)),
    )
    return OpenLibrary(
        folder,
        library,
        tuple(reading.problems),
        paths,
        {path: loaded.fingerprint for path, loaded in reading.loaded.items()},
        {path: loaded.unknown for path, loaded in reading.loaded.items() if loaded.unknown},
    )


def _kept(folder: Path, reading: _Reading) -> Iterator[tuple[str, str]]:
    """Id and version of every file in the history, by its name."""
    for holder in reading.listed(folder / HISTORY, ""):
        if holder.is_dir():
            for path in reading.listed(holder, ".json"):
                yield holder.name, path.name.removesuffix(".json")


def _new(file_id: str, path: Path, paths: dict[str, Path], reading: _Reading) -> bool:
    """Whether an id is met for the first time; two files of one id can't both be used."""
    if file_id not in paths:
        paths[file_id] = path
        return True
    reading.problems.append(same_id(path, paths[file_id]))
    return False


def same_id(path: Path, first: Path) -> Unreadable:
    """What is said of a file whose id another file has already."""
    return Unreadable(
        path,
        say("this file has the same id as {name}, so it was left out", name=first.name),
        say("delete one of the two, or give one a new id"),
    )


def _listed(folder: Path, ending: str) -> Iterator[Path]:
    """Files of a folder by name; hidden ones and our temporaries begin with a dot."""
    if not os.path.lexists(folder):
        return
    names = sorted(
        entry.name
        for entry in folder.iterdir()
        if entry.name.endswith(ending) and not entry.name.startswith(".")
    )
    yield from (folder / name for name in names[:_MOST_FILES])


# ---- save -------------------------------------------------------------------------


def save_document(opened: OpenLibrary, document: Document) -> Fingerprint:
    """Save one file of an open library; the new baseline.

    Raises:
        OutsideChange: the file changed on disk since it was read; nothing was written.
        Unwritable: it can't be written; nothing was.
    """
    path = _path_for(opened, document)
    make_folder(path.parent)
    data = document_bytes(document)
    return save_checked(path, data, opened.baselines.get(path), root=opened.folder)


def save_together(opened: OpenLibrary, documents: Sequence[Document]) -> Mapping[Path, Fingerprint]:
    """Save several files of an open library together or not at all; the new baselines.

    Raises:
        OutsideChange, Unwritable: as for :func:`save_document`.
    """
    changes: list[Change] = []
    for document in documents:
        path = _path_for(opened, document)
        make_folder(path.parent)
        changes.append(Write(path, document_bytes(document), opened.baselines.get(path)))
    made = change_together(opened.folder, changes)
    return {
        change.path: after for change, after in zip(changes, made, strict=True) if after is not None
    }


def _path_for(opened: OpenLibrary, document: Document) -> Path:
    """The file a noun was read from, else the one it belongs in."""
    known = opened.paths.get(getattr(document, "id", ""))
    return known or opened.folder / file_of(document)


def create_library(
    folder: Path, documents: Sequence[Document], images: Mapping[str, bytes]
) -> None:
    """Start a library in a new or empty folder.

    Args:
        folder: the folder; it is made where it is missing.
        documents: the manifest, the clinic and whatever else it starts with.
        images: bytes of pictures by file name.

    Raises:
        Unwritable: the folder holds something already, or can't be written.
    """
    with told_as(Unwritable, folder, say("could not start a library")):
        taken = os.path.lexists(folder) and (not folder.is_dir() or any(folder.iterdir()))
    if taken:
        raise Unwritable(
            folder,
            say("there is something here already, and it was left as it is"),
            say("name a new or an empty folder"),
        )
    make_folder(folder)
    contents = {folder / file_of(document): document_bytes(document) for document in documents}
    contents |= {folder / IMAGES / name: data for name, data in images.items()}
    for parent in {path.parent for path in contents}:
        make_folder(parent)
    change_together(folder, [Write(path, data, None) for path, data in contents.items()])


def read_images(folder: Path, names: Iterable[str]) -> dict[str, bytes]:
    """Bytes of pictures of a library by file name; names that are not there are left out.

    Raises:
        Unreadable: a picture is there and can't be read.
    """
    paths = {name: folder / IMAGES / name for name in names}
    return {name: read_file(path) for name, path in paths.items() if path.is_file()}


def read_history(folder: Path) -> tuple[ApprovedVersion, ...]:
    """Every approved version in a library's history.

    Raises:
        FileProblem: one of them can't be used.
    """
    found = []
    for path in sorted((folder / HISTORY).glob("*/*.json")):
        document = read_document(path, ApprovedVersion).document
        if isinstance(document, ApprovedVersion):
            found.append(document)
    return tuple(found)
