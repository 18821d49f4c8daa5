"""``rungbook handout``: one source, one file."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from attrs import frozen

from authoring.checks.context import Shelf
from authoring.checks.library import check_card, check_clinic, check_protocol
from authoring.checks.result import CheckResult
from authoring.commands.approval import (
    Hindrance,
    Kept,
    Reason,
    plan_reasons,
    protocol_reasons,
)
from authoring.commands.outcome import CommandError, Exit, Tell, silent
from authoring.commands.source import Source, context_of, find_source, sheet_of
from authoring.files.atomic import write_atomic
from authoring.files.errors import FileProblem, shown
from authoring.files.history import approved_version
from authoring.handout.choices import Audience, ExtraKind, Layout
from authoring.handout.compose import Options
from authoring.handout.document import HandoutDocument, PageSize, PrintSize
from authoring.handout.readers import phrases_for
from authoring.handout.settle import laid_out
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status
from authoring.tailoring.release import release

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
    """What was asked for on the command line; None means the clinic's own choice.

    Attributes:
        layout: None means compact where only that fits one duplex sheet, else full.
    """

    stages: tuple[int, ...] = ()
    language: str | None = None
    page: PageSize | None = None
    print_size: PrintSize | None = None
    library: Path | None = None
    layout: Layout | None = None
    extras: frozenset[ExtraKind] = frozenset()
    audience: Audience = Audience.ADULT


@frozen
class Made:
    """A written handout.

    Attributes:
        draft_because: why it says "Draft, not for patients", "" where it does not.
    """

    file: Path
    draft_because: str


def extras_named(words: str) -> frozenset[ExtraKind]:
    """The sheets that a list with commas names ("wallet,diary"); none for "".

    Raises:
        CommandError: there is no such sheet.
    """
    found = []
    for word in filter(None, (each.strip().lower() for each in words.split(","))):
        if word not in set(ExtraKind):
            known = ", ".join(ExtraKind)
            raise CommandError(
                f"There is no sheet {word!r} to go with a handout; choose from: {known}.",
                Exit.UNUSABLE,
            )
        found.append(ExtraKind(word))
    return frozenset(found)


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
    _refuse_blocked(source)
    sheet = sheet_of(source, wish.stages)
    because = draft_reason(source, today)
    options = _options(source.clinic, wish, draft=bool(because))
    context = context_of(source, sheet, wish.language)
    context = evolve(context, phrases=phrases_for(context.phrases, wish.audience))
    return laid_out(sheet, context, options, wish.layout), because


def _options(clinic: Clinic, wish: Wish, *, draft: bool) -> Options:
    page = wish.page or PageSize(clinic.paper.value)
    size = wish.print_size or PrintSize(clinic.print_size.value)
    return Options(page_size=page, print_size=size, draft=draft, extras=wish.extras)


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


def _refuse_blocked(source: Source) -> None:
    """Refuse a plan that may not be printed: a red flag not asked, a sign that is missing."""
    document = source.document
    freed = release(document) if isinstance(document, Plan) else None
    if freed is None or freed.may_print:
        return
    count = len(freed.not_asked)
    asked = f"{count} red flags were not asked" if count > 1 else "a red flag was not asked"
    cause = asked if count else "an override waits for a second clinician's sign"
    raise CommandError(
        f"The plan may not be printed yet, because {cause}: {freed.reasons[0].text}",
        Exit.FOUND,
    )


def draft_reason(source: Source, today: dt.date) -> str:
    """Why the handout is not for patients, "" where it is; the first reason where there are more.

    The rule is that of :mod:`authoring.commands.approval`; a card alone is approved by nobody.
    """
    reasons = _reasons(source, today)
    return _in_words(reasons[0]) if reasons else ""


def _reasons(source: Source, today: dt.date) -> tuple[Reason, ...]:
    document = source.document
    if isinstance(document, Card):
        return (Reason(Hindrance.CARD_ALONE, document),)
    library = _with_embedded(source.library, document)
    shelf = evolve(Shelf.of(library, today), terms=source.terms())
    if isinstance(document, Protocol):
        used = dict.fromkeys(entry.card for entry in document.entries())
        cards = tuple(library.cards[card] for card in used if card in library.cards)
        results = _results(source, (document,), cards, shelf)
        return protocol_reasons(document, library, results, _kept(source, document))
    results = _results(source, document.protocols, document.cards, shelf)
    return plan_reasons(document, library, results, lambda each: _kept(source, each))


def _with_embedded(library: Library, document: Protocol | Plan) -> Library:
    """The library as the document sees it: a plan's own copies come before the library's."""
    if isinstance(document, Protocol):
        return library
    cards = {card.id: card for card in document.cards}
    protocols = {protocol.id: protocol for protocol in document.protocols}
    return evolve(
        library,
        cards={**library.cards, **cards},
        protocols={**library.protocols, **protocols},
    )


def _kept(source: Source, protocol: Protocol) -> Kept:
    if source.opened is None:
        return None
    try:
        return approved_version(source.opened.folder, protocol)
    except FileProblem as problem:
        return problem


def _results(
    source: Source, protocols: Iterable[Protocol], cards: Iterable[Card], shelf: Shelf
) -> tuple[CheckResult, ...]:
    """Results of these files and of the clinic.

    The rest of the library is not looked at: it may hold thousands of cards.
    """
    if source.opened is None:
        return ()
    clinic = shelf.library.clinic
    return (
        *(result for protocol in protocols for result in check_protocol(protocol, shelf)),
        *(result for card in cards for result in check_card(card, shelf)),
        *(check_clinic(clinic, shelf) if clinic is not None else ()),
    )


def _in_words(reason: Reason) -> str:
    slug = repr(reason.about.slug) if reason.about is not None else ""
    version = reason.about.version if isinstance(reason.about, Protocol) else ""
    words = {
        Hindrance.CARD_ALONE: "a card alone is approved by nobody",
        Hindrance.NO_CLINICIAN: "the plan does not say which clinician decided it",
        Hindrance.NOT_EMBEDDED: "the plan names a protocol that it does not hold",
        Hindrance.NOT_APPROVED: f"the protocol {slug} is not approved",
        Hindrance.MUSTS: (
            f"{len(reason.musts)} Protocol checks must be mended first (see 'rungbook check')"
        ),
        Hindrance.UNREADABLE: f"the approved version {version} in the history can't be read",
        Hindrance.PROTOCOL_CHANGED: f"the protocol {slug} was changed after it was approved",
        Hindrance.CARD_CHANGED: f"the card {slug} was changed after the protocol was approved",
    }
    return words[reason.kind]
