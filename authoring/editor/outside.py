"""What somebody else changed in the library folder meanwhile. No Qt here."""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from pathlib import Path

from attrs import frozen

from authoring.editor.saving import key_of, name_of, noun_of, with_noun, without_key
from authoring.files.documents import Loaded, read_document
from authoring.files.errors import FileProblem, Outcome
from authoring.files.fingerprint import Fingerprint, compare
from authoring.files.formats import Document as FileNoun
from authoring.files.library import CARDS, PROTOCOLS, OpenLibrary
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol


@frozen
class OutsideFile:
    """One file that is not as it was read.

    Attributes:
        path: the file.
        key: what the library knows its noun by; "" for a new file that can't be read.
        noun: what it holds now; None where it is gone or can't be read.
        fingerprint: of what it holds now, or None.
        problem: why it can't be read, or None.
    """

    path: Path
    key: str
    noun: FileNoun | None
    fingerprint: Fingerprint | None
    problem: FileProblem | None = None

    @property
    def is_gone(self) -> bool:
        """Whether the file was deleted or moved."""
        return self.noun is None and self.problem is None


Outside = tuple[OutsideFile, ...]


def look(opened: OpenLibrary) -> Outside:
    """Every file that was changed, deleted or added since the folder was read.

    Raises:
        FileProblem: the folder can't be looked at.
    """
    return tuple(_look(opened))


def _look(opened: OpenLibrary) -> Iterator[OutsideFile]:
    keys = {path: key for key, path in opened.paths.items()}
    for path, baseline in opened.baselines.items():
        outcome = compare(path, baseline)
        if outcome is Outcome.MISSING:
            yield OutsideFile(path, keys.get(path, ""), None, None)
        elif outcome is Outcome.CHANGED:
            yield _read(path, keys.get(path, ""))
    troubled = {problem.path for problem in opened.problems}
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
