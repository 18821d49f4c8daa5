"""The recovery file: unsaved work, kept in the user's own data folder. No Qt here.

It holds only what differs from the library's files, with the fingerprint that each
file had when it was read. Restoring keeps those fingerprints, so that a file which
somebody else changed meanwhile is never overwritten by the restored work.
"""

from __future__ import annotations

import base64
import binascii
import datetime as dt
import hashlib
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from attrs import frozen

from authoring.files.atomic import make_folder, write_atomic
from authoring.files.documents import document_bytes, parse_document
from authoring.files.errors import Unreadable, Unwritable
from authoring.files.fingerprint import Fingerprint
from authoring.files.formats import Document as FileNoun
from authoring.files.library import OpenLibrary
from authoring.files.reading import MEBIBYTE, read_file
from authoring.files.saving import (
    SaveJob,
    key_of,
    name_of,
    noun_of,
    nouns_of,
    removed_ids,
    with_noun,
    with_paths,
    without_key,
)
from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.sentence import say

FORMAT = "rungbook/recovery"
VERSION = 1

LARGEST = 512 * MEBIBYTE
"""Bytes of a recovery file: pictures make it far larger than any file of a library."""


@frozen
class Recovered:
    """What a recovery file holds.

    Attributes:
        at: when it was written.
        nouns: changed and new nouns.
        removed: keys of removed nouns.
        baselines: fingerprint of each file when it was read, by its path in the folder;
            None where there was no file.
        images: pictures not saved yet.
    """

    at: dt.datetime
    nouns: tuple[FileNoun, ...]
    removed: tuple[str, ...]
    baselines: Mapping[str, Fingerprint | None]
    images: Mapping[str, bytes]


def recovery_path(data_folder: Path, library_folder: Path) -> Path:
    """Where unsaved work of a library is kept."""
    key = hashlib.sha256(str(library_folder.resolve()).encode()).hexdigest()[:32]
    return data_folder / "recovery" / f"{key}.json"


def write_recovery(path: Path, job: SaveJob, at: dt.datetime) -> None:
    """Keep unsaved work.

    Raises:
        FileProblem: it can't be written, or would be larger than can be read again;
            what was kept before is still there.
    """
    nouns = nouns_of(job)
    named = with_paths(job.opened, nouns)
    gone = removed_ids(job.before, job.after)
    folder = job.opened.folder
    keys = [*(key_of(noun) for noun in nouns), *gone]
    baselines: dict[str, object] = {}
    for key in keys:
        file = named.paths[key]
        known = job.opened.baselines.get(file)
        baselines[file.relative_to(folder).as_posix()] = (
            None if known is None else {"sha256": known.sha256, "size": known.size}
        )
    new_images = {name: job.images[name] for name in job.after.images if name in job.images}
    content = {
        "format": FORMAT,
        "format_version": VERSION,
        "folder": str(folder),
        "at": at.isoformat(),
        "nouns": [document_bytes(noun).decode("utf-8") for noun in nouns],
        "removed": list(gone),
        "baselines": baselines,
        "images": {
            name: base64.b64encode(data).decode("ascii") for name, data in new_images.items()
        },
    }
    data = json.dumps(content, ensure_ascii=False).encode("utf-8")
    if len(data) > LARGEST:
        raise Unwritable(
            path,
            say("the unsaved work is too large for a recovery file"),
            say("save it to the library now"),
        )
    make_folder(path.parent.parent)
    make_folder(path.parent)
    write_atomic(path, data)


def read_recovery(path: Path) -> Recovered:
    """Read kept work.

    Raises:
        FileProblem: it can't be read, or is no recovery file.
    """
    data = read_file(path, LARGEST)
    try:
        content = json.loads(data)
        return _recovered(content, path)
    except (ValueError, KeyError, TypeError, AttributeError, binascii.Error) as error:
        raise Unreadable(
            path,
            say("this recovery file is damaged"),
            say("discard it; the library is untouched"),
        ) from error


def _recovered(content: Any, path: Path) -> Recovered:
    if content["format"] != FORMAT or content["format_version"] != VERSION:
        raise ValueError("another format")
    nouns = tuple(parse_document(text.encode("utf-8"), path).document for text in content["nouns"])
    baselines = {
        str(name): None if one is None else Fingerprint(str(one["sha256"]), int(one["size"]))
        for name, one in content["baselines"].items()
    }
    images = {str(n): base64.b64decode(d, validate=True) for n, d in content["images"].items()}
    at = dt.datetime.fromisoformat(content["at"])
    return Recovered(at, nouns, tuple(map(str, content["removed"])), baselines, images)


def restored(opened: OpenLibrary, kept: Recovered) -> tuple[OpenLibrary, Library]:
    """The folder and the value with kept work put back.

    The folder's fingerprints become those of the time when the work was done, so that
    saving refuses where a file was changed since.
    """
    library = opened.library
    for noun in kept.nouns:
        library = with_noun(library, noun)
    for key in kept.removed:
        library = without_key(library, key)
    library = evolve(library, images=library.images | frozenset(kept.images))
    baselines = dict(opened.baselines)
    for name, one in kept.baselines.items():
        path = opened.folder / name
        if one is None:
            baselines.pop(path, None)
        else:
            baselines[path] = one
    return evolve(opened, baselines=baselines), library


def told(opened: OpenLibrary, kept: Recovered) -> tuple[tuple[str, str], ...]:
    """Names of the files with unsaved work, each with "changed", "new" or "removed"."""
    own = opened.library.manifest.language
    lines: list[tuple[str, str]] = []
    for noun in kept.nouns:
        known = noun_of(opened.library, key_of(noun)) is not None
        lines.append((name_of(noun, own), "changed" if known else "new"))
    for key in kept.removed:
        noun_there = noun_of(opened.library, key)
        if noun_there is not None:
            lines.append((name_of(noun_there, own), "removed"))
    return tuple(lines)
