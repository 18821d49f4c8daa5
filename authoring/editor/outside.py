"""What somebody else changed in the library folder meanwhile. No Qt here."""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from pathlib import Path

from attrs import field, frozen

from authoring.files.documents import Loaded, read_document
from authoring.files.errors import FileProblem, Outcome
from authoring.files.fingerprint import Fingerprint, compare
from authoring.files.formats import Document as FileNoun
from authoring.files.library import CARDS, PROTOCOLS, OpenLibrary, same_id
from authoring.files.saving import (
    SaveJob,
    changes_of,
    key_of,
    name_of,
    noun_of,
    with_noun,
    without_key,
    written,
)
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol


@frozen
class OutsideFile:
    """One file that is not as it was read.

    Attributes:
        path: the file.
        key: what the library knows its noun by; "" for a new file that can't be used.
        noun: what it holds now; None where it is gone or can't be read.
        fingerprint: of what it holds now, or None.
        problem: why it can't be used, or None.
    """

    path: Path
    key: str
    noun: FileNoun | None
    fingerprint: Fingerprint | None
    problem: FileProblem | None = field(default=None, eq=str)

    @property
    def is_gone(self) -> bool:
        """Whether the file was deleted or moved."""
        return self.noun is None and self.problem is None


Outside = tuple[OutsideFile, ...]


def look(opened: OpenLibrary, unsettled: SaveJob | None = None) -> Outside:
    """Every file that was changed, deleted or added since the folder was read.

    Args:
        opened: the folder as it was read.
        unsettled: a save of one's own that the disk did not confirm: what it wrote is
            not somebody else's.

    Raises:
        FileProblem: the folder can't be looked at.
    """
    found = tuple(_without_copies(_look(opened), opened))
    if unsettled is None or unsettled.opened is not opened:
        return found
    own = {change.path: written(change) for change in changes_of(unsettled)[1]}
    return tuple(
        file
        for file in found
        if file.problem is not None or file.path not in own or own[file.path] != file.fingerprint
    )


def _without_copies(files: Iterator[OutsideFile], opened: OpenLibrary) -> Iterator[OutsideFile]:
    """The files, a second one of an id as a problem; one that was only renamed stays."""
    homes = dict(opened.paths)
    for file in files:
        home = homes.get(file.key)
        if file.is_gone:
            homes.pop(file.key, None)
        elif file.noun is not None and home is not None and home != file.path:
            yield OutsideFile(file.path, "", None, None, same_id(file.path, home))
            continue
        elif file.noun is not None:
            homes[file.key] = file.path
        yield file


def told_apart(outside: Outside) -> tuple[tuple[FileProblem, ...], Outside]:
    """New files that can't be used, by what is wrong with them, and all the other files.

    The former are nobody's version of anything: as when a folder is opened, they are
    named and left alone.
    """
    problems = tuple(f.problem for f in outside if f.problem is not None and not f.key)
    return problems, tuple(f for f in outside if f.problem is None or f.key)


def _look(opened: OpenLibrary) -> Iterator[OutsideFile]:
    keys = {path: key for key, path in opened.paths.items()}
    troubled = {problem.path for problem in opened.problems}
    for path, baseline in opened.baselines.items():
        if path in troubled:
            continue
        outcome = compare(path, baseline)
        if outcome is Outcome.MISSING:
            yield OutsideFile(path, keys.get(path, ""), None, None)
        elif outcome is Outcome.CHANGED:
            yield _read(path, keys.get(path, ""))
    for folder, ending in ((CARDS, ".card.json"), (PROTOCOLS, ".protocol.json")):
        for path in sorted((opened.folder / folder).glob(f"[!.]*{ending}")):
            if path not in opened.baselines and path not in troubled:
                yield _read(path, "")


def _read(path: Path, key: str) -> OutsideFile:
    try:
        loaded: Loaded = read_document(path)
    except FileProblem as problem:
        return OutsideFile(path, key, None, None, problem)
    return OutsideFile(path, key or key_of(loaded.document), loaded.document, loaded.fingerprint)


def rebased(opened: OpenLibrary, on_disk: Library, outside: Outside) -> tuple[OpenLibrary, Library]:
    """The folder and what its files hold, after somebody else's changes.

    Files that can't be read stay as they were known, so that they are never overwritten.
    """
    baselines, paths = dict(opened.baselines), dict(opened.paths)
    for file in outside:
        if file.noun is not None and file.fingerprint is not None:
            on_disk = with_noun(on_disk, file.noun)
            baselines[file.path] = file.fingerprint
            paths[file.key] = file.path
        elif file.is_gone:
            on_disk = without_key(on_disk, file.key)
            baselines.pop(file.path, None)
            paths.pop(file.key, None)
    return evolve(opened, library=on_disk, baselines=baselines, paths=paths), on_disk


def theirs(library: Library, outside: Outside) -> Library:
    """The value with somebody else's changes in place of one's own."""
    for file in outside:
        if file.noun is not None:
            library = with_noun(library, file.noun)
        elif file.is_gone:
            library = without_key(library, file.key)
    return library


def both(library: Library, before: Library, outside: Outside, copy_of: str) -> Library:
    """Somebody else's changes, with one's own changed cards and protocols kept as copies.

    Args:
        before: what the files held when they were read.
        copy_of: title of a copy, with a place for the name: "{name} (mine)".
    """
    copies: list[Card | Protocol] = []
    for file in outside:
        mine = noun_of(library, file.key)
        if isinstance(mine, Card | Protocol) and mine != noun_of(before, file.key):
            copies.append(_copy(mine, copy_of))
    library = theirs(library, outside)
    for copy in copies:
        library = with_noun(library, copy)
    return library


def _copy(noun: Card | Protocol, copy_of: str) -> Card | Protocol:
    values = {
        tag: copy_of.format(name=words) if words else words
        for tag, words in noun.title.values.items()
    }
    title = evolve(noun.title, values=values)
    return evolve(noun, id=str(uuid.uuid4()), slug=f"{noun.slug[:70]}-mine", title=title)


def names(outside: Outside, library: Library) -> tuple[tuple[str, str], ...]:
    """Each file by its name, with "changed", "deleted", "new" or "unreadable"."""
    own = library.manifest.language
    lines: list[tuple[str, str]] = []
    for file in outside:
        known = noun_of(library, file.key)
        noun = file.noun or known
        name = name_of(noun, own) if noun is not None else file.path.name
        if file.problem is not None:
            what = "unreadable"
        elif file.is_gone:
            what = "deleted"
        else:
            what = "changed" if known is not None else "new"
        lines.append((name, what))
    return tuple(lines)
