"""From a snapshot of the open library to the bytes of a page. No Qt here.

Slow to import, as the writers and the checks are: import it in the work, not in a room.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager

from authoring.checks.result import Subject
from authoring.commands.handout import WRITERS, draft_reason
from authoring.commands.outcome import CommandError
from authoring.commands.source import Source, sheet_of
from authoring.dosage.phrases import PhraseMissingError
from authoring.editor.i18n import tr
from authoring.editor.page.blame import place_of
from authoring.editor.page.fonts import handout_fonts
from authoring.editor.page.wish import PageFault, PageJob
from authoring.editor.place import Place
from authoring.editor.sentences import said
from authoring.files.errors import FileProblem
from authoring.files.library import read_images
from authoring.files.picture_store import picture_store
from authoring.files.poses import poses_of
from authoring.handout.catalogue import load_phrases
from authoring.handout.compose import Options
from authoring.handout.context import Context
from authoring.handout.document import HandoutDocument, PageSize, PrintSize
from authoring.handout.errors import HandoutError
from authoring.handout.readers import phrases_for
from authoring.handout.settle import laid_out
from authoring.handout.sheet import Sheet
from authoring.model.base import evolve
from authoring.model.clinic import Clinic
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status


def page_bytes(job: PageJob, ending: str, check: Callable[[], None]) -> bytes:
    """The page as a file of the kind of ``ending`` (".pdf", ".docx", ".html").

    Raises:
        PageFault: it can't be made.
    """
    return made(job, ending, check)[0]


def made(job: PageJob, ending: str, check: Callable[[], None]) -> tuple[bytes, str]:
    """The page as a file, and why it is a draft, as far as the job did not ask for one.

    Raises:
        PageFault: it can't be made.
    """
    with blaming(job):
        document, because = compose_page(job)
        check()
        return WRITERS[ending](document), because


@contextmanager
def blaming(job: PageJob) -> Iterator[None]:
    """Turn what the page maker raises into a :class:`PageFault` with its place."""
    try:
        yield
    except (HandoutError, CommandError, FileProblem, PhraseMissingError) as error:
        whole = getattr(error, "whole", str(error))
        raise PageFault(said(whole), place_of(job, str(error))) from error


def compose_page(job: PageJob) -> tuple[HandoutDocument, str]:
    """The page as the neutral tree, and why it is a draft.

    Raises:
        PageFault, HandoutError, CommandError, FileProblem: it can't be made.
    """
    document = job.document
    if document is None:
        raise PageFault(tr("There is nothing to print yet: choose a protocol or a card."))
    clinic = clinic_of(job)
    held = document.protocols if isinstance(document, Plan) else (document,)
    if any(isinstance(each, Protocol) and each.status is Status.RETIRED for each in held):
        raise PageFault(
            tr("This protocol is retired, so no page is made of it; choose the one after it."),
            job.place,
        )
    _refuse_font(clinic)
    source = Source(document, evolve(job.opened, library=job.library))
    sheet = sheet_of(source, job.wish.stages)
    context = Context(
        phrases=phrases_for(load_phrases(job.wish.language or clinic.language), job.wish.audience),
        own=sheet.own,
        clinic=clinic,
        terms=source.terms(),
        images=_images(job, sheet, clinic),
        poses=poses_of(job.library),
        drawn=picture_store(),
    )
    because = ""
    if job.today is not None and not job.draft:
        because = draft_reason(source, job.today)
    options = options_of(job, clinic, draft=job.draft or bool(because))
    return laid_out(sheet, context, options, job.wish.layout), because


def _refuse_font(clinic: Clinic) -> None:
    """A font that is not there is said at once, not letter by letter."""
    if clinic.brand.font not in handout_fonts():
        raise PageFault(
            tr(
                "The font “{font}” does not come with the program; choose another for the clinic.",
                font=clinic.brand.font,
            ),
            Place(Subject.CLINIC, "", "brand.font"),
        )


def clinic_of(job: PageJob) -> Clinic:
    """The clinic whose page it is.

    Raises:
        PageFault: the library has none.
    """
    if job.library.clinic is None:
        raise PageFault(
            tr("This library has no clinic yet, so a page could not say whom to call."),
            Place(Subject.CLINIC),
        )
    return job.library.clinic


def options_of(job: PageJob, clinic: Clinic, *, draft: bool) -> Options:
    """Paper and print size as wished, else the clinic's own."""
    wish = job.wish
    return Options(
        page_size=wish.paper or PageSize(clinic.paper.value),
        print_size=wish.print_size or PrintSize(clinic.print_size.value),
        draft=draft,
        extras=wish.extras,
    )


def _images(job: PageJob, sheet: Sheet, clinic: Clinic) -> Mapping[str, bytes]:
    names = {
        picture.image
        for item in sheet.items()
        for picture in item.variant.pictures
        if picture.image is not None
    }
    if clinic.brand.logo is not None:
        names.add(clinic.brand.logo.image)
    kept = {name: job.images[name] for name in names if name in job.images}
    return {**read_images(job.opened.folder, names - kept.keys()), **kept}
