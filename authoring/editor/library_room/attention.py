"""What in a library needs somebody's attention. No Qt here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping, Sequence
from enum import StrEnum
from pathlib import Path

from attrs import frozen

from authoring.checks.result import CheckResult, Strength, Subject
from authoring.editor.i18n import mark, tr, tr_n
from authoring.editor.library_room.drift import Drift, drifts
from authoring.editor.library_room.words import review_words, title_of
from authoring.editor.place import Place
from authoring.editor.search.facets import Review, review_of
from authoring.editor.search.pieces import Noun
from authoring.editor.sentences import said
from authoring.files.errors import FileProblem
from authoring.files.history import ApprovedVersions
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.vocabulary import Status


class Group(StrEnum):
    """Kinds of work, the most pressing first."""

    FILES = "files"
    CHANGED = "changed"
    MUST = "must"
    OVERDUE = "overdue"
    IN_REVIEW = "in_review"
    DRAFT = "draft"
    SOON = "soon"
    SHOULD = "should"
    MAY = "may"


_GROUPS: Mapping[Group, str] = {
    Group.FILES: mark("Files that could not be read"),
    Group.CHANGED: mark("Changed since approval"),
    Group.MUST: mark("Checks: must be mended"),
    Group.OVERDUE: mark("Review overdue"),
    Group.IN_REVIEW: mark("Waiting for review"),
    Group.DRAFT: mark("Drafts"),
    Group.SOON: mark("Review due soon"),
    Group.SHOULD: mark("Checks: should be mended"),
    Group.MAY: mark("Checks: may be better"),
}
PRESSING = frozenset({Group.FILES, Group.CHANGED, Group.MUST, Group.OVERDUE, Group.IN_REVIEW})
"""Groups that are counted on the page's button."""


def group_words(group: Group) -> str:
    """A group's name."""
    return tr(_GROUPS[group])


@frozen
class Item:
    """One piece of work.

    Attributes:
        group: what kind.
        title: the file it is about.
        sentence: what is the matter.
        mend: what to do about it, "" where the sentence says it.
        place: where to go; None for a file that could not be read.
        file: the file or folder that could not be read; None for others.
    """

    group: Group
    title: str
    sentence: str
    mend: str = ""
    place: Place | None = None
    file: Path | None = None


@frozen
class Situation:
    """What the work is gathered from; immutable.

    Attributes:
        problems: files that could not be used when the library was opened.
        results: results of the Protocol checks.
        versions: the approved versions in the folder.
        today: the day that reviews are seen from.
    """

    library: Library
    problems: Sequence[FileProblem]
    results: Sequence[CheckResult]
    versions: ApprovedVersions
    today: dt.date


def gather(situation: Situation, step: Callable[[], None] = lambda: None) -> tuple[Item, ...]:
    """All the work, by group.

    Args:
        step: called now and then; may raise to stop.
    """
    library = situation.library
    changed, unread = drifts(library, situation.versions, step)
    items = [_file_item(problem) for problem in (*situation.problems, *unread)]
    items += [_drift_item(drift, library) for drift in changed]
    items += _life_items(situation)
    items += _check_items(situation)
    order = list(Group)
    return tuple(sorted(items, key=lambda item: order.index(item.group)))


def _file_item(problem: FileProblem) -> Item:
    sentence, mend = (
        f"{words[:1].upper()}{words[1:]}." for words in (said(problem.sentence), said(problem.mend))
    )
    return Item(Group.FILES, problem.path.name, sentence, mend, file=problem.path)


def _drift_item(drift: Drift, library: Library) -> Item:
    names = [title_of(library.cards[card], library) for card in drift.changed]
    parts = []
    if names:
        words = ", ".join(names[:3]) + (" …" if len(names) > 3 else "")
        parts.append(
            tr_n("{n} card reads differently: {cards}.", "{n} cards read differently: {cards}.",
                 len(names), cards=words)
        )  # fmt: skip
    if drift.gone:
        parts.append(
            tr_n("{n} card is gone: {cards}.", "{n} cards are gone: {cards}.",
                 len(drift.gone), cards=", ".join(drift.gone[:3]))
        )  # fmt: skip
    return Item(
        Group.CHANGED,
        title_of(drift.protocol, library),
        " ".join(parts),
        tr("Read it through, then approve it anew, or take the change back."),
        Place(Subject.PROTOCOL, drift.protocol.id, drift.path),
    )


def _life_items(situation: Situation) -> Iterator[Item]:
    library = situation.library
    nouns: list[Noun] = [*library.protocols.values(), *library.cards.values()]
    for noun in nouns:
        title, whole = title_of(noun, library), _whole(noun)
        status = Status.APPROVED if isinstance(noun, Card) else noun.status
        if status is Status.RETIRED:
            continue
        review = review_of(noun.review_due, situation.today)
        if review in (Review.OVERDUE, Review.SOON):
            group = Group.OVERDUE if review is Review.OVERDUE else Group.SOON
            sentence = f"{review_words(noun.review_due, situation.today)}."
            mend = tr("Read it through, then set the day of the next review.")
            yield Item(group, title, sentence, mend, whole)
        if status is Status.IN_REVIEW:
            sentence = tr("This protocol waits for its reviewer.")
            yield Item(Group.IN_REVIEW, title, sentence, tr("Approve it, or send it back."), whole)
        if status is Status.DRAFT:
            sentence = tr("A draft does not print for patients.")
            mend = tr("Finish it, then send it for review.")
            yield Item(Group.DRAFT, title, sentence, mend, whole)


def _whole(noun: Noun) -> Place:
    return Place(Subject.CARD if isinstance(noun, Card) else Subject.PROTOCOL, noun.id)


_BY_STRENGTH = {
    Strength.MUST: Group.MUST,
    Strength.SHOULD: Group.SHOULD,
    Strength.MAY: Group.MAY,
}


def _check_items(situation: Situation) -> Iterator[Item]:
    """One item for each file and strength."""
    files: dict[tuple[Strength, Subject, str], list[CheckResult]] = {}
    for result in situation.results:
        key = (result.strength, result.subject, result.subject_id)
        files.setdefault(key, []).append(result)
    for (strength, subject, subject_id), results in files.items():
        first = results[0]
        sentence = said(first.sentence)
        if len(results) > 1:
            more = tr_n("And {n} more.", "And {n} more.", len(results) - 1)
            sentence = f"{sentence} {more}"
        title = _subject_title(situation.library, subject, subject_id)
        yield Item(_BY_STRENGTH[strength], title, sentence, said(first.mend), Place.of(first))


def _subject_title(library: Library, subject: Subject, subject_id: str) -> str:
    noun = library.cards.get(subject_id) or library.protocols.get(subject_id)
    if noun is not None:
        return title_of(noun, library)
    return tr("Clinic") if subject is Subject.CLINIC else tr("Library")
