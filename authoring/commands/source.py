"""From a path a user names to the values a handout is made of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import partial
from pathlib import Path

from attrs import frozen

from authoring.commands.outcome import CommandError, Exit, Tell, silent
from authoring.dosage.phrases import Phrases
from authoring.files.documents import read_document
from authoring.files.errors import shown
from authoring.files.library import OpenLibrary, is_library, open_library, read_images
from authoring.files.picture_store import picture_store
from authoring.files.poses import poses_of
from authoring.handout.catalogue import load_phrases
from authoring.handout.context import Context
from authoring.handout.errors import HandoutError
from authoring.handout.sheet import (
    Sheet,
    sheet_of_card,
    sheet_of_plan,
    sheet_of_protocol,
)
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library, LibraryFile, Term
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import TermKind

_NO_LIBRARY = "00000000-0000-4000-8000-000000000000"


@frozen
class Source:
    """What a handout is made from.

    Attributes:
        document: the protocol, plan or card that was named.
        opened: the library it lies in, None for a plan or a file outside any library.
    """

    document: Protocol | Plan | Card
    opened: OpenLibrary | None

    @property
    def library(self) -> Library:
        """The library's values, or an empty library."""
        if self.opened is not None:
            return self.opened.library
        return Library(manifest=LibraryFile(id=_NO_LIBRARY, name="", language="en"))

    @property
    def clinic(self) -> Clinic:
        """The clinic whose page it is.

        Raises:
            CommandError: the library has none, so that no patient could call anybody.
        """
        found = self.library.clinic
        if found is not None:
            return found
        raise CommandError(
            "There is no clinic.json that can be used, so the handout could not say whom to "
            "call; put one into the library folder, or name the library with --library.",
            Exit.UNUSABLE,
        )

    def terms(self) -> dict[tuple[TermKind, str], Term]:
        """Terms by kind and id, those embedded in a plan first."""
        own = self.document.terms if isinstance(self.document, Plan) else ()
        return {(term.kind, term.id): term for term in (*self.library.manifest.terms, *own)}


def library_of(path: Path) -> Path | None:
    """The library folder that a file lies in, or None."""
    try:
        parents = path.resolve().parents[:3]
    except (OSError, RuntimeError):  # links in a circle, or the current folder is gone
        return None
    return next((folder for folder in parents if is_library(folder)), None)


def find_source(path: Path, library: Path | None, tell: Tell = silent) -> Source:
    """Read what a handout is to be made from.

    Args:
        path: a protocol, a plan or a card.
        library: library folder; None means the one the file lies in.
        tell: called with the files of the library read so far, and all of them.

    Raises:
        FileProblem: the file or the library can't be used.
        CommandError: the file is of a kind no handout is made from.
    """
    document = read_document(path).document
    if not isinstance(document, Protocol | Plan | Card):
        raise CommandError(
            f"{shown(path)}: a handout is made from a protocol, a plan or a card, and this is a "
            f"{document.FORMAT} file; name another file.",
            Exit.UNUSABLE,
        )
    folder = library or library_of(path)
    opened = open_library(folder, partial(tell, "Reading")) if folder is not None else None
    return Source(document, opened)


def sheet_of(source: Source, stages: Iterable[int]) -> Sheet:
    """The sheet of a source.

    Raises:
        HandoutError: something on it can't be found.
        CommandError: stages were asked for where there are none.
    """
    wanted = tuple(stages)
    document = source.document
    if isinstance(document, Protocol):
        _refuse_missing_stages(document, wanted)
        return sheet_of_protocol(document, source.library.cards, wanted)
    if wanted:
        raise CommandError(
            "Only a protocol has stages to choose from; leave --stage out.", Exit.UNUSABLE
        )
    if isinstance(document, Plan):
        return sheet_of_plan(document, keep_numbers=source.clinic.protocol_numbers)
    return sheet_of_card(document)


def _refuse_missing_stages(protocol: Protocol, wanted: Iterable[int]) -> None:
    last = len(protocol.stages)
    for number in wanted:
        if not 1 <= number <= last and last:
            raise CommandError(
                f"There is no stage {number}: the protocol {protocol.slug!r} has stages 1 to "
                f"{last}; choose one of them.",
                Exit.UNUSABLE,
            )


def context_of(source: Source, sheet: Sheet, language: str | None) -> Context:
    """What wording the sheet needs.

    Raises:
        CommandError: a language was asked for that has no phrases.
        HandoutError: the clinic's own language has none.
        FileProblem: a picture can't be read.
    """
    clinic = source.clinic
    return Context(
        phrases=_phrases(language, clinic),
        own=sheet.own,
        clinic=clinic,
        terms=source.terms(),
        images=_images(source, sheet, clinic),
        poses=poses_of(source.library),
        drawn=picture_store(),
    )


def _phrases(language: str | None, clinic: Clinic) -> Phrases:
    try:
        return load_phrases(language or clinic.language)
    except HandoutError as error:
        if language is None:
            raise
        raise CommandError(str(error), Exit.UNUSABLE) from error


def _images(source: Source, sheet: Sheet, clinic: Clinic) -> Mapping[str, bytes]:
    if source.opened is None:
        return {}
    names = {
        picture.image
        for item in sheet.items()
        for picture in item.variant.pictures
        if picture.image is not None
    }
    if clinic.brand.logo is not None:
        names.add(clinic.brand.logo.image)
    return read_images(source.opened.folder, names)
