"""``rungbook review``: a plan and a report, the next plan."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from attrs import frozen

from authoring.commands.outcome import CommandError, Exit, Tell, silent
from authoring.commands.source import library_of
from authoring.files.atomic import write_atomic
from authoring.files.documents import document_bytes, read_document
from authoring.files.library import open_library
from authoring.model.library import Library
from authoring.model.plan import Plan
from authoring.model.review import Review
from authoring.model.vocabulary import StageOutcome
from authoring.tailoring.overrides import Decision
from authoring.tailoring.review import Reviewed, review
from authoring.tailoring.review_confirm import StageKey, confirm
from authoring.tailoring.review_facts import ReviewError

ALL = "all"


@frozen
class ReviewWish:
    """What was asked for on the command line.

    Attributes:
        confirmed: ids of exercises whose step up the clinician confirms, or "all".
        move_on: whether the clinician confirms each move to the next stage.
        library: None means the one that the plan lies in, if any.
    """

    confirmed: tuple[str, ...] = ()
    move_on: bool = False
    clinician: str = ""
    library: Path | None = None


@frozen(eq=False)
class Made:
    """A review and the next plan."""

    reviewed: Reviewed
    plan: Plan


def make_next(
    source: Path, report: Path, output: Path, wish: ReviewWish, tell: Tell = silent
) -> Made:
    """Write the next plan.

    Args:
        source: plan file.
        report: review file: what happened since.
        output: plan file to write.

    Raises:
        FileProblem: something can't be read, or the plan not written.
        CommandError: the report is not of this plan, or something can't be confirmed.
    """
    plan = read_document(source, Plan).document
    told = read_document(report, Review).document
    if not isinstance(plan, Plan) or not isinstance(told, Review):  # refused by read_document
        raise TypeError("not a plan with a report")
    library = _library(source, wish, tell)
    try:
        reviewed = review(plan, told, library)
        by = Decision(who=wish.clinician or told.clinician, date=told.date)
        up = reviewed.steps_up() if ALL in wish.confirmed else wish.confirmed
        made = confirm(reviewed, by, up=up, on=_on(reviewed, wish), library=library)
    except ReviewError as error:
        raise CommandError(str(error), Exit.UNUSABLE) from error
    write_atomic(output, document_bytes(made))
    return Made(reviewed, made)


def _on(reviewed: Reviewed, wish: ReviewWish) -> tuple[StageKey, ...]:
    if not wish.move_on or reviewed.raised:
        return ()
    found = [each for each in reviewed.stages if each.outcome is StageOutcome.MOVE_ON]
    return tuple((each.protocol, each.side) for each in found)


def _library(source: Path, wish: ReviewWish, tell: Tell) -> Library | None:
    folder = wish.library or library_of(source)
    return None if folder is None else open_library(folder, partial(tell, "Reading")).library
