"""Files to fill in: what is known of a patient, and what happened since a plan was made."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterable
from pathlib import Path

from authoring.commands.outcome import CommandError, Exit
from authoring.files.atomic import write_atomic
from authoring.files.documents import document_bytes, read_document
from authoring.files.errors import shown
from authoring.model.patient import FlagAnswer, Presentation
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol
from authoring.model.review import ItemReview, Review
from authoring.model.vocabulary import Answer


def blank_presentation(sources: Iterable[Path], output: Path) -> None:
    """Write a presentation with every red flag of the protocols named, none asked.

    Raises:
        FileProblem: a source can't be read, or the file not written.
        CommandError: the file is there already.
    """
    _refuse_existing(output)
    found = [read_document(path).document for path in sources]
    protocols = [each for each in found if isinstance(each, Protocol)]
    made = Presentation(id=str(uuid.uuid4()), red_flags=_not_asked(protocols))
    write_atomic(output, document_bytes(made))


def blank_report(plan: Path, output: Path, today: dt.date) -> None:
    """Write a report of a plan with every exercise and red flag, nothing said of any.

    Raises:
        FileProblem: the plan can't be read, or the file not written.
        CommandError: the file is there already.
    """
    _refuse_existing(output)
    read = read_document(plan, Plan).document
    if not isinstance(read, Plan):  # read_document has refused any other
        raise TypeError("not a plan")
    made = Review(
        id=str(uuid.uuid4()),
        plan=read.id,
        date=max(today, read.created),
        items=tuple(ItemReview(item=item.id) for item in read.items),
        red_flags=_not_asked(read.protocols),
    )
    write_atomic(output, document_bytes(made))


def _not_asked(protocols: Iterable[Protocol]) -> tuple[FlagAnswer, ...]:
    return tuple(
        FlagAnswer(protocol=protocol.id, flag=flag.id, answer=Answer.NOT_ASKED)
        for protocol in protocols
        for flag in protocol.red_flags
    )[:200]


def _refuse_existing(output: Path) -> None:
    """What was answered is never written over with nothing."""
    if output.exists():
        raise CommandError(
            f"{shown(output)} is there already, and may hold answers; name another file.",
            Exit.UNWRITTEN,
        )
