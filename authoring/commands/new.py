"""``rungbook new``: start a library, empty or with the example clinic."""

from __future__ import annotations

import uuid
from collections.abc import Sequence
from pathlib import Path

from authoring import resources
from authoring.files.errors import shown
from authoring.files.formats import Document
from authoring.files.library import (
    create_library,
    open_library,
    read_history,
    read_images,
)
from authoring.model.base import evolve
from authoring.model.clinic import Clinic
from authoring.model.library import LibraryFile
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind

EXAMPLE = "larkfield"
_UNNAMED = "Library"
_LONGEST_NAME = 200


def example_folder() -> Path:
    """The example clinic's library as it comes with the program."""
    return resources.examples() / EXAMPLE


def new_library(folder: Path, *, example: bool) -> None:
    """Start a library in a new or empty folder.

    Args:
        folder: where.
        example: with the invented example clinic; otherwise with the common terms
            (positions, kit, demands, movements, measures, purposes) and nothing else.

    Raises:
        Unwritable: the folder is not empty, or can't be written.
    """
    opened = open_library(example_folder())
    manifest = opened.library.manifest
    if not example:
        create_library(folder, _empty(manifest, _name_of(folder)), {})
        return
    library = opened.library
    documents: Sequence[Document] = [
        manifest,
        *([library.clinic] if library.clinic is not None else []),
        *library.cards.values(),
        *library.protocols.values(),
        *library.poses.values(),
        *library.poses.values(),
        *read_history(opened.folder),
    ]
    create_library(folder, documents, read_images(opened.folder, library.images))


def _name_of(folder: Path) -> str:
    """The folder's own name, as far as a library's name can hold it."""
    try:
        name = shown(folder.resolve().name)
    except (OSError, RuntimeError):
        name = shown(folder.name)
    return name[:_LONGEST_NAME] or _UNNAMED


def _empty(manifest: LibraryFile, name: str) -> tuple[LibraryFile, Clinic]:
    terms = tuple(term for term in manifest.terms if term.kind is not TermKind.CONDITION)
    fresh = evolve(
        manifest, id=str(uuid.uuid4()), name=name, terms=terms, clinic_words=(), invented=False
    )
    return fresh, Clinic(language=manifest.language, name=Text.plain(name))
