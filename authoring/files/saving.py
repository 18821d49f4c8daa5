"""Write what changed in a library, all files together or none."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from attrs import frozen

from authoring.files.atomic import make_folder
from authoring.files.documents import document_bytes
from authoring.files.errors import FileProblem, Unconfirmed
from authoring.files.filesystem import DISK, FileSystem
from authoring.files.fingerprint import Fingerprint, fingerprint, fingerprint_on_disk
from authoring.files.formats import Document as FileNoun
from authoring.files.journal import Change, Remove, Write, change_together, recover
from authoring.files.library import CLINIC, IMAGES, MANIFEST, OpenLibrary, file_of
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library, LibraryFile
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol
from authoring.model.sentence import say


@frozen
class SaveJob:
    """One save: a snapshot, so that editing can go on meanwhile.

    Attributes:
        opened: the folder as it was last read or saved.
        before: what the files hold.
        after: what they are to hold.
        images: bytes of pictures by file name, of those not on the disk yet.
        doubted: keys of nouns that are in place though the disk did not confirm it;
            they are written anew.
    """

    opened: OpenLibrary
    before: Library
    after: Library
    images: Mapping[str, bytes]
    doubted: frozenset[str] = frozenset()


@frozen
class Saved:
    """A save that is in place.

    Attributes:
        opened: the folder as it is then.
        doubted: keys of the nouns that the disk did not confirm.
        doubt: what to tell the user about them, or None.
    """

    opened: OpenLibrary
    doubted: frozenset[str] = frozenset()
    doubt: Unconfirmed | None = None


def changed_nouns(before: Library, after: Library) -> tuple[FileNoun, ...]:
    """The nouns of ``after`` that are not the same in ``before``."""
    nouns: list[FileNoun] = []
    if after.manifest != before.manifest:
        nouns.append(after.manifest)
    if after.clinic is not None and after.clinic != before.clinic:
        nouns.append(after.clinic)
    nouns += [c for key, c in after.cards.items() if _differs(before.cards.get(key), c)]
    nouns += [p for key, p in after.protocols.items() if _differs(before.protocols.get(key), p)]
    nouns += [p for key, p in after.poses.items() if _differs(before.poses.get(key), p)]
    return tuple(nouns)


def removed_ids(before: Library, after: Library) -> tuple[str, ...]:
    """Ids of the cards, protocols and poses of ``before`` that ``after`` has no more."""
    pairs = (
        (before.cards, after.cards),
        (before.protocols, after.protocols),
        (before.poses, after.poses),
    )
    return tuple(key for old, new in pairs for key in old if key not in new)


def _differs(one: object, other: object) -> bool:
    # Values that no edit touched are the very same object: no need to compare them through.
    return one is not other and one != other


def key_of(noun: FileNoun) -> str:
    """What an open library knows a noun's file by: its id, or the file's name."""
    if isinstance(noun, LibraryFile):
        return MANIFEST
    if isinstance(noun, Clinic):
        return CLINIC
    return str(getattr(noun, "id", ""))


def path_for(opened: OpenLibrary, noun: FileNoun) -> Path:
    """The file of a noun: the one it was read from, else a free name in its folder.

    Names are compared without regard to case, as some systems do.
    """
    known = opened.paths.get(key_of(noun))
    if known is not None:
        return known
    wanted = opened.folder / file_of(noun)
    # A file that could not be read is somebody's work too.
    unread = (problem.path for problem in opened.problems)
    known_files = (*opened.paths.values(), *opened.baselines, *unread)
    taken = {str(path).casefold() for path in known_files}
    stem, dot, ending = wanted.name.partition(".")
    path, number = wanted, 2
    while str(path).casefold() in taken:
        path, number = wanted.with_name(f"{stem}-{number}{dot}{ending}"), number + 1
    return path


def with_paths(opened: OpenLibrary, nouns: tuple[FileNoun, ...]) -> OpenLibrary:
    """The folder with a file named for each of the nouns."""
    for noun in nouns:
        paths = {**opened.paths, key_of(noun): path_for(opened, noun)}
        opened = evolve(opened, paths=paths)
    return opened


def nouns_of(job: SaveJob) -> tuple[FileNoun, ...]:
    """The nouns to be written: those that changed, and those that the disk did not confirm."""
    changed = changed_nouns(job.before, job.after)
    keys = {key_of(noun) for noun in changed}
    doubted = (noun_of(job.after, key) for key in sorted(job.doubted - keys))
    return (*changed, *(noun for noun in doubted if noun is not None))


def changes_of(job: SaveJob) -> tuple[OpenLibrary, list[Change]]:
    """The folder with names for new files, and the changes that the job asks of the disk."""
    nouns = nouns_of(job)
    gone = [job.opened.paths[key] for key in removed_ids(job.before, job.after)]
    freed = evolve(
        job.opened,
        paths={key: path for key, path in job.opened.paths.items() if path not in gone},
    )
    named = with_paths(freed, nouns)
    changes: list[Change] = []
    for noun in nouns:
        path = named.paths[key_of(noun)]
        changes.append(Write(path, document_bytes(noun), job.opened.baselines.get(path)))
    written = {change.path for change in changes}
    for path in gone:
        baseline = job.opened.baselines.get(path)
        if path not in written and baseline is not None:
            changes.append(Remove(path, baseline))
    changes += _image_writes(job)
    return named, changes


def _image_writes(job: SaveJob) -> Iterator[Write]:
    for name in sorted(job.after.images - job.before.images):
        path = job.opened.folder / IMAGES / name
        # The name is the content's own hash: a file of this name holds this picture.
        if name in job.images and not path.exists():
            yield Write(path, job.images[name], None)


def save(job: SaveJob, earlier: SaveJob | None = None, *, fs: FileSystem = DISK) -> Saved:
    """Write every changed file and remove every removed one.

    Args:
        job: what to save.
        earlier: a save that ended in :class:`Unconfirmed`; what it left on the disk is
            this program's own, not somebody else's.
        fs: the disk.

    Raises:
        OutsideChange: a file changed on disk since it was read; nothing was written.
        Unconfirmed: it is not known what the disk holds.
        FileProblem: the files can't be written; nothing was, unless it says otherwise.
    """
    if earlier is not None and earlier.opened is job.opened:
        found = found_in_place(earlier)
        if found is not None:
            job = evolve(
                job, opened=found.opened, before=earlier.after, doubted=job.doubted | found.doubted
            )
    opened, changes = changes_of(job)
    for folder in {change.path.parent for change in changes if isinstance(change, Write)}:
        make_folder(folder, fs=fs)
    try:
        change_together(job.opened.folder, changes, fs=fs)
    except Unconfirmed:
        found = found_in_place(job)
        if found is None:
            raise
        return found
    return Saved(_after(job, opened, changes))


def found_in_place(job: SaveJob) -> Saved | None:
    """The end of an unconfirmed save where the disk holds all of it, else None."""
    folder = job.opened.folder
    opened, changes = changes_of(job)
    try:
        recover(folder)
        if any(fingerprint_on_disk(change.path) != written(change) for change in changes):
            return None
    except FileProblem:
        return None
    doubt = Unconfirmed(
        folder,
        say("saved, but the disk did not confirm it"),
        say("save again, and have the disk or share checked"),
    )
    keys = frozenset(key_of(noun) for noun in nouns_of(job))
    return Saved(_after(job, opened, changes), keys, doubt)


def written(change: Change) -> Fingerprint | None:
    """What a change leaves on the disk, None for no file."""
    return fingerprint(change.data) if isinstance(change, Write) else None


def _after(job: SaveJob, opened: OpenLibrary, changes: list[Change]) -> OpenLibrary:
    baselines: dict[Path, Fingerprint] = dict(opened.baselines)
    for change in changes:
        after = written(change)
        if after is None:
            baselines.pop(change.path, None)
        elif change.path.parent.name != IMAGES:
            baselines[change.path] = after
    return evolve(opened, library=job.after, baselines=baselines)


def with_noun(library: Library, noun: FileNoun) -> Library:
    """The library with a noun in its place.

    Raises:
        TypeError: such a noun has no place in a library.
    """
    match noun:
        case Card():
            return evolve(library, cards={**library.cards, noun.id: noun})
        case Protocol():
            return evolve(library, protocols={**library.protocols, noun.id: noun})
        case Pose():
            return evolve(library, poses={**library.poses, noun.id: noun})
        case Clinic():
            return evolve(library, clinic=noun)
        case LibraryFile():
            return evolve(library, manifest=noun)
    raise TypeError(f"a {type(noun).__name__} has no place in a library")


def without_key(library: Library, key: str) -> Library:
    """The library without the noun known by a key; the manifest always stays."""
    if key == CLINIC:
        return evolve(library, clinic=None)
    return evolve(
        library,
        cards={k: card for k, card in library.cards.items() if k != key},
        protocols={k: one for k, one in library.protocols.items() if k != key},
        poses={k: pose for k, pose in library.poses.items() if k != key},
    )


def noun_of(library: Library, key: str) -> FileNoun | None:
    """The noun known by a key, or None."""
    if key == MANIFEST:
        return library.manifest
    if key == CLINIC:
        return library.clinic
    return library.cards.get(key) or library.protocols.get(key) or library.poses.get(key)


def name_of(noun: FileNoun, own: str) -> str:
    """What a person calls a file."""
    match noun:
        case Card() | Protocol() | Pose():
            return noun.title.best(own, noun.language) or noun.slug
        case Clinic():
            return noun.name.best(own, noun.language) or CLINIC
        case LibraryFile():
            return noun.name or MANIFEST
    return type(noun).__name__
