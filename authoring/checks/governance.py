"""Who answers for a file, who approved it, and whether it is out of date."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.placed import placed
from authoring.checks.result import Strength, Subject
from authoring.model.card import Card
from authoring.model.protocol import Protocol
from authoring.model.sentence import say, say_n
from authoring.model.vocabulary import Status

CARD, PROTOCOL = Subject.CARD, Subject.PROTOCOL
PRACTICE = "Common practice, no source."


@check(
    "review-overdue",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="The day of the next review has passed.",
    why="Advice grows old; a review date says until when it is trusted. " + PRACTICE,
)
def overdue(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    due = value.review_due
    if due is not None and due < context.today:
        yield Spot(
            "review_due",
            say("The review was due on {day}.", day=due.isoformat()),
            say("Review it and set the next date."),
        )


@check(
    "review-date-missing",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="No day is set for the next review.",
    why="Without one nobody is told when the file grows old. " + PRACTICE,
)
def no_review_date(value: Card | Protocol, _: Context) -> Iterator[Spot]:
    if value.review_due is None:
        yield Spot("review_due", say("No day is set for the next review."), say("Set the date."))


@check(
    "authors-missing",
    Strength.SHOULD,
    PROTOCOL,
    says="A protocol names no author.",
    why="TIDieR item 1 and common practice: somebody answers for it.",
)
def no_authors(protocol: Protocol, _: Context) -> Iterator[Spot]:
    if not any(name.strip() for name in protocol.authors):
        yield Spot("authors", say("The protocol names no author."), say("Name who wrote it."))


@check(
    "approved-without-approval",
    Strength.MUST,
    PROTOCOL,
    says="An approved protocol does not say who approved it.",
    why="A status nobody answers for is none. " + PRACTICE,
)
def no_approval(protocol: Protocol, _: Context) -> Iterator[Spot]:
    if protocol.status is Status.APPROVED and not protocol.approvals:
        yield Spot(
            "approvals",
            say("The protocol is marked as approved, and nobody is named who approved it."),
            say("Have it approved, or set it back to in review."),
        )


@check(
    "approved-not-kept",
    Strength.MUST,
    PROTOCOL,
    says="The history keeps no copy of an approved version.",
    why="What was approved could not be reprinted, nor a change since then be seen. " + PRACTICE,
)
def not_kept(protocol: Protocol, context: Context) -> Iterator[Spot]:
    approved = protocol.status is Status.APPROVED
    if approved and not context.keeps(protocol.id, protocol.version):
        yield Spot(
            "version",
            say(
                "The history keeps no copy of the approved version {version}.",
                version=protocol.version,
            ),
            say("Approve it anew, or bring the file back from a backup."),
        )


@check(
    "approved-by-author-only",
    Strength.MUST,
    PROTOCOL,
    says="Only its own authors approved a protocol, where the clinic wants a second person.",
    why="Four eyes. " + PRACTICE,
)
def own_approval(protocol: Protocol, context: Context) -> Iterator[Spot]:
    if protocol.status is not Status.APPROVED or not protocol.approvals:
        return
    clinic = context.clinic
    authors = {name.strip().casefold() for name in protocol.authors}
    reviewers = {approval.reviewer.strip().casefold() for approval in protocol.approvals}
    if clinic is not None and clinic.second_approver and reviewers <= authors:
        yield Spot(
            "approvals",
            say("Only the protocol's own authors approved it."),
            say("Have somebody else approve it."),
        )


@check(
    "approval-in-the-future",
    Strength.SHOULD,
    PROTOCOL,
    says="The day of an approval or of the last review has not come yet.",
    why="Likely a typing error.",
)
def future_approval(protocol: Protocol, context: Context) -> Iterator[Spot]:
    days = [(f"approvals[{i}].date", each.date) for i, each in enumerate(protocol.approvals)]
    if protocol.last_review is not None:
        days.append(("last_review", protocol.last_review))
    for path, day in days:
        if day > context.today:
            yield Spot(
                path,
                say("{day} has not come yet.", day=day.isoformat()),
                say("Correct the date."),
            )


@check(
    "approved-number-missing",
    Strength.MUST,
    PROTOCOL,
    says="Exercises of an approved protocol have no number of their own.",
    why="Numbers are frozen at approval, so that talk about “exercise 7” stays true.",
)
def unnumbered(protocol: Protocol, context: Context) -> Iterator[Spot]:
    if protocol.status is not Status.APPROVED:
        return
    lacking = [place for place in placed(protocol, context) if place.entry.number is None]
    if lacking:
        yield Spot(
            f"{lacking[0].path}.number",
            say_n(
                "The approved protocol has {n} exercise without a number.",
                "The approved protocol has {n} exercises without a number.",
                len(lacking),
            ),
            say("Freeze the numbers by approving it anew."),
        )


@check(
    "approved-change-note-missing",
    Strength.MAY,
    PROTOCOL,
    says="No note says what changed in the approved version.",
    why="TIDieR item 10: what was changed, why and when.",
)
def no_change_note(protocol: Protocol, _: Context) -> Iterator[Spot]:
    versions = {change.version for change in protocol.changes}
    if protocol.status is Status.APPROVED and protocol.version not in versions:
        yield Spot(
            "changes",
            say("No note says what changed in version {version}.", version=protocol.version),
            say("Add a note with the day, who, what and why."),
        )


@check(
    "retired",
    Strength.MAY,
    PROTOCOL,
    says="A protocol is retired, and does not print.",
    why="So that nobody wonders why it is refused.",
)
def is_retired(protocol: Protocol, _: Context) -> Iterator[Spot]:
    if protocol.status is Status.RETIRED:
        yield Spot(
            "status",
            say("The protocol is retired: it stays readable and does not print."),
            say("Nothing, or start a new version of it."),
        )
