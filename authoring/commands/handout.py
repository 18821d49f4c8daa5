"""``rungbook handout``: one source, one file."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from pathlib import Path

from attrs import frozen

from authoring.checks.context import Shelf
from authoring.checks.library import check_card, check_clinic, check_protocol
from authoring.checks.result import Strength
from authoring.commands.outcome import CommandError, Exit, Tell, silent
from authoring.commands.source import Source, context_of, find_source, sheet_of
from authoring.files.atomic import write_atomic
from authoring.files.errors import FileProblem, shown
from authoring.files.history import approved_version
from authoring.handout.compose import Options, compose
from authoring.handout.document import HandoutDocument, PageSize, PrintSize
from authoring.model.clinic import Clinic
from authoring.model.edits.protocols import same_content
from authoring.model.edits.uses import what_changes
from authoring.model.patient import Plan
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status

Writer = Callable[[HandoutDocument], bytes]


def _docx(document: HandoutDocument) -> bytes:
    from authoring.handout.docx import write_docx  # noqa: PLC0415  (slow to import)

    return write_docx(document)


def _html(document: HandoutDocument) -> bytes:
    from authoring.handout.html import write_html  # noqa: PLC0415  (slow to import)

    return write_html(document)


def _pdf(document: HandoutDocument) -> bytes:
    from authoring.handout.pdf import write_pdf  # noqa: PLC0415  (slow to import)

    return write_pdf(document)


WRITERS: Mapping[str, Writer] = {".docx": _docx, ".html": _html, ".pdf": _pdf}
"""Writers by ending of the output file."""


@frozen
class Wish:
    """What was asked for on the command line; None means the clinic's own choice."""

    stages: tuple[int, ...] = ()
    language: str | None = None
    page: PageSize | None = None
    print_size: PrintSize | None = None
    library: Path | None = None


@frozen
class Made:
    """A written handout.

    Attributes:
        draft_because: why it says "Draft, not for patients", "" where it does not.
    """

    file: Path
    draft_because: str


def writer_for(output: Path) -> Writer:
    """The writer for an output file.

    Raises:
        CommandError: the ending is none of ours.
    """
    writer = WRITERS.get(output.suffix.lower())
    if writer is None:
        raise CommandError(
            f"{shown(output)}: a handout is a .docx, .html or .pdf file; name one that ends so.",
            Exit.UNUSABLE,
        )
    return writer


def make_handout(path: Path, output: Path, wish: Wish, today: dt.date, tell: Tell = silent) -> Made:
    """Write one handout, whole or not at all.

    Args:
        path: protocol, plan or card.
        output: file to write; its ending chooses the format.
        wish: what was asked for.
        today: day against which the checks hold review dates.
        tell: called with the files of the library read so far, and all of them.

    Raises:
        FileProblem: something can't be read, or the output not written.
        HandoutError: something on the page can't be made; nothing was written.
        CommandError: the source is retired, or the wish can't be met.
    """
    writer = writer_for(output)
    source = find_source(path, wish.library, tell)
    document, because = compose_source(source, wish, today)
    write_atomic(output, writer(document))
    return Made(output, because)


def compose_source(source: Source, wish: Wish, today: dt.date) -> tuple[HandoutDocument, str]:
    """The handout of a source as the neutral tree, and why it is a draft ("" if it is none).

    Raises:
        HandoutError, CommandError: as for :func:`make_handout`.
    """
    _refuse_retired(source)
    sheet = sheet_of(source, wish.stages)
    because = draft_reason(source, today)
    options = _options(source.clinic, wish, draft=bool(because))
    return compose(sheet, context_of(source, sheet, wish.language), options), because


def _options(clinic: Clinic, wish: Wish, *, draft: bool) -> Options:
    page = wish.page or PageSize(clinic.paper.value)
    size = wish.print_size or PrintSize(clinic.print_size.value)
    return Options(page_size=page, print_size=size, draft=draft)


def _protocols(source: Source) -> tuple[Protocol, ...]:
    match source.document:
        case Protocol():
            return (source.document,)
        case Plan():
            return source.document.protocols
        case _:
            return ()


def _refuse_retired(source: Source) -> None:
    for protocol in _protocols(source):
        if protocol.status is Status.RETIRED:
            raise CommandError(
                f"The protocol {protocol.slug!r} is retired, so no handout is made from it; "
                "choose the one that took its place.",
                Exit.FOUND,
            )


def draft_reason(source: Source, today: dt.date) -> str:
    """Why the handout is not for patients, "" where it is.

    Only an approved version without ``must`` results, which still reads as it was approved,
    is for patients; a card alone is approved by nobody.
    """
    if not _protocols(source):
        return "" if isinstance(source.document, Plan) else "a card alone is approved by nobody"
    for protocol in _protocols(source):
        if protocol.status is not Status.APPROVED:
            return f"the protocol {protocol.slug!r} is not approved"
    if isinstance(source.document, Protocol):
        musts = _musts(source, source.document, today)
        if musts:
            return f"{musts} Protocol checks must be mended first (see 'rungbook check')"
        return _changed_since_approval(source, source.document)
    return ""


def _changed_since_approval(source: Source, protocol: Protocol) -> str:
    """What reads otherwise than the version kept at approval, as a reason; "" for nothing.

    Nobody approved the words of a card that was changed afterwards, in the editor or
    outside it. Where no version was kept there is nothing to compare with.
    """
    if source.opened is None:
        return ""
    try:
        approved = approved_version(source.opened.folder, protocol)
    except FileProblem:
        return f"the approved version {protocol.version} in the history can't be read"
    if approved is None:
        return ""
    if not same_content(approved.protocol, protocol):
        return f"the protocol {protocol.slug!r} was changed after it was approved"
    cards = source.library.cards
    for before in approved.cards:
        after = cards.get(before.id)
        if after is None or after == before:
            continue
        touched = what_changes(source.library, before, after)
        if any(each.use.protocol.id == protocol.id for each in touched):
            return f"the card {after.slug!r} was changed after the protocol was approved"
    return ""


def _musts(source: Source, protocol: Protocol, today: dt.date) -> int:
    """``must`` results of the protocol, of the cards it uses and of the clinic.

    The rest of the library is not looked at: it may hold thousands of cards.
    """
    library = source.library
    if source.opened is None:
        return 0
    shelf = Shelf.of(library, today)
    used = dict.fromkeys(entry.card for entry in protocol.entries())
    cards = (library.cards[card] for card in used if card in library.cards)
    found = [
        *check_protocol(protocol, shelf),
        *(result for card in cards for result in check_card(card, shelf)),
        *(check_clinic(library.clinic, shelf) if library.clinic is not None else ()),
    ]
    return sum(result.strength is Strength.MUST for result in found)
