"""Bring a pack into a library: first what would change, then all of it or nothing.

Only what reads otherwise is touched. What arrives is a draft of this library, under its own
clinic; who wrote it and under which licence stays with it.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum
from typing import TypeAlias

from attrs import field, frozen
from immutabledict import immutabledict

from authoring.files import saving
from authoring.files.errors import FileProblem
from authoring.files.filesystem import DISK, FileSystem
from authoring.files.library import OpenLibrary
from authoring.files.pack_reading import Pack
from authoring.files.saving import Saved, SaveJob
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.edits.protocols import next_version, reopened, same_content
from authoring.model.library import ApprovedVersion, Library, Term
from authoring.model.pose import Pose
from authoring.model.protocol import ChangeNote, Protocol
from authoring.model.sentence import say
from authoring.model.vocabulary import Status

Noun: TypeAlias = Protocol | Card | Pose | Term


class Standing(StrEnum):
    """How something in a pack stands to the library.

    ``CHANGED`` reads otherwise, and the library's own is as it was approved; ``CONFLICTING``
    reads otherwise and the library's own was worked on since, or takes the same name.
    """

    NEW = "new"
    SAME = "same"
    CHANGED = "changed"
    CONFLICTING = "conflicting"


class Take(StrEnum):
    """What is taken: conflicts stop it all, keep the library's own, or take the pack's."""

    NEW = "new"
    MINE = "mine"
    THEIRS = "theirs"


@frozen
class Arrival:
    """One thing in a pack: what it would become here, and how it stands."""

    noun: Noun
    standing: Standing


@frozen
class Intake:
    """What a pack would bring, before anything is written.

    Attributes:
        pack: the pack.
        opened: the library as it was read.
        arrivals: protocols, cards, poses and terms, in this order.
        images: bytes of the photos that the library has not got, by name.
    """

    pack: Pack
    opened: OpenLibrary
    arrivals: tuple[Arrival, ...]
    images: Mapping[str, bytes] = field(converter=immutabledict)

    def having(self, standing: Standing) -> tuple[Arrival, ...]:
        """The arrivals that stand so."""
        return tuple(each for each in self.arrivals if each.standing is standing)


@frozen
class Restore:
    """How the library was before a pack came in."""

    library: Library
    saved: Saved


class Conflicts(FileProblem):
    """The library's own was worked on too; nothing was written."""


def intake_of(
    pack: Pack, opened: OpenLibrary, history: Iterable[ApprovedVersion], today: dt.date
) -> Intake:
    """What a pack would bring.

    Args:
        history: the library's approved versions: what was there before anybody worked on it.
        today: the day that notes of the change bear.
    """
    library = opened.library
    versions = tuple(history)
    old: dict[str, list[Noun]] = {}
    for version in versions:
        nouns: tuple[Protocol | Card | Pose, ...] = (
            version.protocol,
            *version.cards,
            *version.poses,
        )
        for noun in nouns:
            old.setdefault(noun.id, []).append(noun)
    arrivals = [
        *(_protocol(each, pack, library, old, today) for each in pack.protocols),
        *(_card(each, pack, library, old) for each in pack.cards),
        *(_pose(each, library, old) for each in pack.poses),
        *(_term(each, library) for each in pack.manifest.terms),
    ]
    fresh = {name: data for name, data in pack.images.items() if name not in library.images}
    return Intake(pack, opened, tuple(arrivals), fresh)


def _protocol(
    theirs: Protocol, pack: Pack, library: Library, old: Mapping[str, list[Noun]], today: dt.date
) -> Arrival:
    mine = library.protocols.get(theirs.id)
    draft = _as_draft(theirs, pack, today)
    if mine is None:
        return Arrival(draft, Standing.NEW)
    if _reads_alike(mine, theirs, pack):
        return Arrival(mine, Standing.SAME)
    untouched = any(
        isinstance(each, Protocol) and same_content(each, mine) for each in old.get(mine.id, ())
    )
    version = next_version(max(mine.version, draft.version, key=_parts))
    return Arrival(
        evolve(draft, version=version), Standing.CHANGED if untouched else Standing.CONFLICTING
    )


def _reads_alike(mine: Protocol, theirs: Protocol, pack: Pack) -> bool:
    """Whether both say the same, whatever this library noted and numbered on the way in."""
    licence = theirs.licence or _licence(pack)
    ours = evolve(mine, changes=(), version="0", licence=mine.licence or licence)
    other = evolve(theirs, changes=(), version="0", licence=licence)
    return same_content(_unnumbered(ours), _unnumbered(other))


def _unnumbered(protocol: Protocol) -> Protocol:
    return evolve(reopened(protocol).value, version="0")


def _parts(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split("."))


def _as_draft(theirs: Protocol, pack: Pack, today: dt.date) -> Protocol:
    """A draft of the next version, with a note of where it came from."""
    draft = theirs
    if theirs.status is not Status.DRAFT:
        draft = reopened(theirs).value
    origin = pack.manifest.origin
    licence = theirs.licence or _licence(pack)
    note = ChangeNote(
        version=draft.version,
        date=today,
        author=origin,
        text=(
            f"From a pack of {origin}: version {theirs.version}, licence {licence or 'not named'}."
        ),
    )
    changes = (note, *draft.changes)[:500]
    return evolve(draft, licence=licence, changes=changes, approvals=())


def _licence(pack: Pack) -> str:
    """The licence of the pack where it names a single one."""
    return pack.manifest.licences[0] if len(pack.manifest.licences) == 1 else ""


def _card(theirs: Card, pack: Pack, library: Library, old: Mapping[str, list[Noun]]) -> Arrival:
    owner = theirs.owner or (pack.manifest.origin if not theirs.authors else "")
    brought = evolve(theirs, licence=theirs.licence or _licence(pack), owner=owner)
    mine = library.cards.get(theirs.id)
    return Arrival(brought, _standing(mine, (theirs, brought), old))


def _pose(theirs: Pose, library: Library, old: Mapping[str, list[Noun]]) -> Arrival:
    named = next((each for each in library.poses.values() if each.slug == theirs.slug), None)
    if named is not None and named.id != theirs.id:
        return Arrival(theirs, Standing.CONFLICTING)
    return Arrival(theirs, _standing(library.poses.get(theirs.id), (theirs,), old))


def _standing(
    mine: Noun | None, theirs: tuple[Noun, ...], old: Mapping[str, list[Noun]]
) -> Standing:
    if mine is None:
        return Standing.NEW
    if mine in theirs:
        return Standing.SAME
    return Standing.CHANGED if mine in old.get(mine.id, ()) else Standing.CONFLICTING


def _term(theirs: Term, library: Library) -> Arrival:
    mine = library.manifest.term(theirs.kind, theirs.id)
    if mine is None:
        return Arrival(theirs, Standing.NEW)
    return Arrival(theirs, Standing.SAME if mine == theirs else Standing.CONFLICTING)


# ---- writing -------------------------------------------------------------------------------


def job_of(intake: Intake, take: Take) -> SaveJob:
    """The save that takes a pack in.

    Raises:
        Conflicts: there are some, and nobody chose; or a pose would need the name of another.
    """
    conflicts = intake.having(Standing.CONFLICTING)
    if conflicts and take is Take.NEW:
        raise Conflicts(
            intake.opened.folder,
            say("{n} things in the pack were changed here too", n=len(conflicts)),
            say("choose whether to take mine or theirs"),
        )
    after = intake.opened.library
    taken = [Standing.NEW, Standing.CHANGED]
    if take is Take.THEIRS:
        taken.append(Standing.CONFLICTING)
    terms: list[Term] = []
    for arrival in intake.arrivals:
        if arrival.standing not in taken:
            continue
        if isinstance(arrival.noun, Term):
            terms.append(arrival.noun)
        else:
            after = _with(after, arrival.noun, intake)
    after = evolve(
        after,
        manifest=evolve(after.manifest, terms=_merged(after.manifest.terms, terms)),
        images=after.images | frozenset(intake.images),
    )
    return SaveJob(intake.opened, intake.opened.library, after, intake.images)


def _with(library: Library, noun: Protocol | Card | Pose, intake: Intake) -> Library:
    if isinstance(noun, Pose):
        others = (each for each in library.poses.values() if each.slug == noun.slug)
        if any(each.id != noun.id for each in others):
            raise Conflicts(
                intake.opened.folder,
                say("another pose is called {name} here", name=noun.slug),
                say("give yours another name first"),
            )
    return saving.with_noun(library, noun)


def _merged(mine: tuple[Term, ...], theirs: Iterable[Term]) -> tuple[Term, ...]:
    by_key = {(term.kind, term.id): term for term in mine}
    by_key |= {(term.kind, term.id): term for term in theirs}
    return tuple(by_key.values())


def take_in(intake: Intake, take: Take, *, fs: FileSystem = DISK) -> Restore:
    """Write what is taken, all or nothing; gives back what :func:`put_back` needs.

    Raises:
        Conflicts: as :func:`job_of`; nothing was written.
        OutsideChange: a file changed on disk since the library was read; nothing was written.
        FileProblem: as :func:`saving.save`.
    """
    job = job_of(intake, take)
    return Restore(job.before, saving.save(job, fs=fs))


def put_back(restore: Restore) -> Saved:
    """Make the library what it was before a pack came in; photos stay, as nothing shows them.

    Raises:
        OutsideChange: a file was changed since; nothing was written.
        FileProblem: as :func:`saving.save`.
    """
    opened = restore.saved.opened
    return saving.save(SaveJob(opened, opened.library, restore.library, {}))


def lines_of(intake: Intake) -> Iterator[tuple[Standing, str, str]]:
    """Standing, kind and name of every arrival, for lists."""
    own = intake.opened.library.manifest.language
    for arrival in intake.arrivals:
        noun = arrival.noun
        if isinstance(noun, Term):
            name, kind = noun.name.best(own, intake.pack.manifest.language), "term"
        else:
            name, kind = saving.name_of(noun, own), type(noun).__name__.lower()
        yield arrival.standing, kind, name
