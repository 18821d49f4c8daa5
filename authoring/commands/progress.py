"""``rungbook progress``: the weeks ahead of a card, a plan or a protocol."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from attrs import frozen

from authoring.commands.outcome import CommandError, Exit
from authoring.commands.source import find_source
from authoring.dosage.progression.placed import Line, card_lines, plan_lines, protocol_lines
from authoring.dosage.progression.project import MOST_WEEKS
from authoring.files.errors import shown
from authoring.model.base import ModelError
from authoring.model.card import Card
from authoring.model.patient import OwnedKit
from authoring.model.plan import Plan
from authoring.model.vocabulary import Unit

_KIT = re.compile(
    r"(?P<kit>[a-z0-9]+(?:-[a-z0-9]+)*)=(?P<sizes>\d+(?:\.\d+)?(?:,\d+(?:\.\d+)?)*)"
    r"(?P<unit>kg|lb|cm|N)(?:x(?P<count>\d{1,2}))?"
)


@frozen
class Progress:
    """The exercises of one file with their weeks ahead.

    Attributes:
        weeks: how many.
        plan: whether the file is a plan, whose exercises are done together.
    """

    title: str
    lines: tuple[Line, ...]
    weeks: int
    plan: bool = False


def kit_of(words: str) -> OwnedKit:
    """Kit at hand as the command line says it: ``dumbbell=2,4,6kg`` or ``plate=1.25,5kgx4``.

    There are two of each size unless a number says otherwise.

    Raises:
        CommandError: it is written otherwise.
    """
    found = _KIT.fullmatch(words.strip())
    fault = CommandError(
        f"{words[:60]!r} is no kit: write its id, its sizes and their unit, such as "
        "dumbbell=2,4,6kg, band=20,30N or plate=1.25,2.5,5kgx4.",
        Exit.UNUSABLE,
    )
    if found is None:
        raise fault
    try:
        return OwnedKit(
            kit=found["kit"],
            sizes=tuple(float(size) for size in found["sizes"].split(",")),
            unit=Unit(found["unit"]),
            count=int(found["count"] or 2),
        )
    except ModelError as error:
        raise fault from error


def progress_of(
    path: Path, weeks: int, owned: Sequence[OwnedKit] = (), library: Path | None = None
) -> Progress:
    """The weeks ahead of every exercise that a file names.

    A card in a library has one line for each exercise that places it in a protocol; on its own
    it has one by the usual rule.

    Args:
        weeks: 1 to 52.
        owned: kit at hand; empty takes that of the plan's patient, else the protocol's steps.
        library: library folder; None means the one the file lies in.

    Raises:
        FileProblem: the file or its library can't be used.
        CommandError: the file is of another kind, or so many weeks can't be.
    """
    if not 1 <= weeks <= MOST_WEEKS:
        raise CommandError(
            f"{weeks} weeks can't be projected; ask for 1 to {MOST_WEEKS}.", Exit.UNUSABLE
        )
    source = find_source(path, library)
    document, cards = source.document, source.library.cards
    if isinstance(document, Plan):
        lines = tuple(plan_lines(document, weeks, owned))
        return Progress(document.label or shown(path), lines, weeks, plan=True)
    own = document.language
    title = document.title.best(own, own)
    if not isinstance(document, Card):
        return Progress(title, tuple(protocol_lines(document, cards, weeks, owned)), weeks)
    known = {**cards, document.id: document}
    placed = tuple(
        line
        for protocol in source.library.protocols.values()
        for line in protocol_lines(protocol, known, weeks, owned, document.id)
    )
    return Progress(title, placed or tuple(card_lines(document, weeks, owned)), weeks)
