"""The approved versions that a library keeps, never rewritten."""

from __future__ import annotations

from pathlib import Path

from attrs import field, frozen

from authoring.files.documents import read_document
from authoring.files.errors import FileProblem, Unreadable, told_as
from authoring.files.library import HISTORY
from authoring.model.library import ApprovedVersion
from authoring.model.protocol import Protocol
from authoring.model.sentence import say


def approved_version(folder: Path, protocol: Protocol) -> ApprovedVersion | None:
    """The version of a protocol as it was approved, None where the library keeps none.

    Args:
        folder: the library folder.
        protocol: the protocol; its id and version name the file.

    Raises:
        FileProblem: there is such a file, and it can't be used.
    """
    path = _path(folder, protocol)
    with told_as(Unreadable, path, say("could not read")):
        if not path.is_file():
            return None
    document = read_document(path, ApprovedVersion).document
    return document if isinstance(document, ApprovedVersion) else None


@frozen
class ApprovedVersions:
    """Reads approved versions from a library's history, each file once until it changes."""

    folder: Path
    _read: dict[Path, tuple[tuple[int, int], ApprovedVersion | FileProblem | None]] = field(
        factory=dict, repr=False
    )

    def of(self, protocol: Protocol) -> ApprovedVersion | FileProblem | None:
        """As :func:`approved_version`, a file that can't be used given back, not raised."""
        path = _path(self.folder, protocol)
        stamp = _stamp(path)
        known = self._read.get(path)
        if known is None or stamp is None or known[0] != stamp:
            found = _read(self.folder, protocol)
            if stamp is None:
                return found
            self._read[path] = known = (stamp, found)
        return known[1]


def _path(folder: Path, protocol: Protocol) -> Path:
    return folder / HISTORY / protocol.id / f"{protocol.version}.json"


def _stamp(path: Path) -> tuple[int, int] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_size


def _read(folder: Path, protocol: Protocol) -> ApprovedVersion | FileProblem | None:
    try:
        return approved_version(folder, protocol)
    except FileProblem as problem:
        return problem
