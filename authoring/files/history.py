"""The approved versions that a library keeps, never rewritten."""

from __future__ import annotations

from pathlib import Path

from authoring.files.documents import read_document
from authoring.files.errors import Unreadable, told_as
from authoring.files.library import HISTORY
from authoring.model.library import ApprovedVersion
from authoring.model.protocol import Protocol


def approved_version(folder: Path, protocol: Protocol) -> ApprovedVersion | None:
    """The version of a protocol as it was approved, None where the library keeps none.

    Args:
        folder: the library folder.
        protocol: the protocol; its id and version name the file.

    Raises:
        FileProblem: there is such a file, and it can't be used.
    """
    path = folder / HISTORY / protocol.id / f"{protocol.version}.json"
    with told_as(Unreadable, path, "could not read"):
        if not path.is_file():
            return None
    document = read_document(path, ApprovedVersion).document
    return document if isinstance(document, ApprovedVersion) else None
