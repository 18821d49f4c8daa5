"""``rungbook tailor``: protocols and cards, a presentation, one plan."""

from __future__ import annotations

import datetime as dt
from functools import partial
from pathlib import Path

from attrs import frozen

from authoring.commands.outcome import CommandError, Exit, Tell, silent
from authoring.commands.source import library_of
from authoring.files.atomic import write_atomic
from authoring.files.documents import document_bytes, read_document
from authoring.files.errors import shown
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.patient import Presentation
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Side, Status
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish


@frozen
class TailorWish:
    """What was asked for on the command line.

    Attributes:
        stages: numbers of stages, one for all protocols or one for each in their order.
        most: exercises at most; None means the clinic's setting.
        library: None means the one that the first protocol or card lies in.
    """

    stages: tuple[int, ...] = ()
    most: int | None = None
    clinician: str = ""
    library: Path | None = None


def make_plan(
    sources: tuple[Path, ...],
    presentation: Path,
    output: Path,
    wish: TailorWish,
    today: dt.date,
    tell: Tell = silent,
) -> Plan:
    """Write the plan for a presentation, and return it.

    Args:
        sources: files of protocols and cards; none makes an empty plan.
        presentation: file about the patient.
        output: plan file to write.
        today: day that dates are counted to.

    Raises:
        FileProblem: something can't be read, or the plan not written.
        CommandError: a source is of another kind, retired, or the wish can't be met.
    """
    patient = read_document(presentation, Presentation).document
    library = _library(sources, wish, tell)
    documents = [_source(path) for path in sources]
    protocols = tuple(each for each in documents if isinstance(each, Protocol))
    cards = tuple(each for each in documents if isinstance(each, Card))
    ask = Request(
        today=today,
        protocols=tuple(each.id for each in protocols),
        cards=tuple(each.id for each in cards),
        stages=_stages(protocols, wish.stages),
        most_exercises=wish.most,
        clinician=wish.clinician,
    )
    if not isinstance(patient, Presentation):  # read_document has refused any other
        raise TypeError("not a presentation")
    plan = propose(_with(library, protocols, cards), patient, ask)
    write_atomic(output, document_bytes(plan))
    return plan


def _library(sources: tuple[Path, ...], wish: TailorWish, tell: Tell) -> Library:
    folder = wish.library or next((found for path in sources if (found := library_of(path))), None)
    if folder is None:
        raise CommandError(
            "No library is near: name its folder with --library, so that cards, terms and the "
            "clinic are found.",
            Exit.UNUSABLE,
        )
    return open_library(folder, partial(tell, "Reading")).library


def _source(path: Path) -> Protocol | Card:
    document = read_document(path).document
    if not isinstance(document, Protocol | Card):
        raise CommandError(
            f"{shown(path)}: a plan is made from protocols and cards, and this is a "
            f"{document.FORMAT} file; name another file.",
            Exit.UNUSABLE,
        )
    if isinstance(document, Protocol) and document.status is Status.RETIRED:
        raise CommandError(
            f"The protocol {document.slug!r} is retired, so no plan is made from it; choose the "
            "one that took its place.",
            Exit.FOUND,
        )
    return document


def _with(library: Library, protocols: tuple[Protocol, ...], cards: tuple[Card, ...]) -> Library:
    """The library with the files that were named, which may lie outside it."""
    return evolve(
        library,
        protocols={**library.protocols, **{each.id: each for each in protocols}},
        cards={**library.cards, **{each.id: each for each in cards}},
    )


def _stages(protocols: tuple[Protocol, ...], numbers: tuple[int, ...]) -> tuple[StageWish, ...]:
    if not numbers:
        return ()
    if len(numbers) not in (1, len(protocols)):
        raise CommandError(
            f"{len(numbers)} stages are asked for and {len(protocols)} protocols named; give one "
            "stage, or one for each protocol.",
            Exit.UNUSABLE,
        )
    asked = numbers if len(numbers) == len(protocols) else numbers * len(protocols)
    for protocol, number in zip(protocols, asked, strict=True):
        if not 1 <= number <= len(protocol.stages):
            raise CommandError(
                f"There is no stage {number}: the protocol {protocol.slug!r} has stages 1 to "
                f"{len(protocol.stages)}; choose one of them.",
                Exit.UNUSABLE,
            )
    return tuple(
        StageWish(protocol.id, protocol.stages[number - 1].id, Side.NONE)
        for protocol, number in zip(protocols, asked, strict=True)
    )
