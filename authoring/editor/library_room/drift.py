"""Cards that changed since a protocol that uses them was approved. No Qt here."""

from __future__ import annotations

from collections.abc import Callable

from attrs import frozen

from authoring.files.errors import FileProblem
from authoring.files.history import ApprovedVersions
from authoring.model.edits.tree import path_of, path_text
from authoring.model.edits.uses import redrawn, shows, what_changes
from authoring.model.library import ApprovedVersion, Library
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status


@frozen
class Drift:
    """One approved protocol that no longer says what was approved.

    Attributes:
        protocol: the protocol as it stands.
        changed: ids of its cards that patients would read differently.
        gone: titles of cards that the library has no more.
        path: its first exercise that is touched, "" for none.
    """

    protocol: Protocol
    changed: tuple[str, ...]
    gone: tuple[str, ...]
    path: str


def drifts(
    library: Library, versions: ApprovedVersions, step: Callable[[], None] = lambda: None
) -> tuple[tuple[Drift, ...], tuple[FileProblem, ...]]:
    """The approved protocols whose cards changed, and the history files that can't be read.

    Args:
        step: called between two protocols; may raise to stop.
    """
    found, problems = [], []
    for protocol in library.protocols.values():
        if protocol.status is not Status.APPROVED:
            continue
        step()
        approved = versions.of(protocol)
        if isinstance(approved, FileProblem):
            problems.append(approved)
        elif approved is not None:
            drift = _drift(library, protocol, approved)
            if drift is not None:
                found.append(drift)
    return tuple(found), tuple(problems)


def _drift(library: Library, protocol: Protocol, approved: ApprovedVersion) -> Drift | None:
    changed, gone, entries = [], [], []
    used = {entry.card for entry in protocol.entries()}
    drawn_anew = redrawn(library, approved.poses)
    for before in approved.cards:
        if before.id not in used:
            continue
        after = library.cards.get(before.id)
        if after is None:
            gone.append(before.title.best(library.manifest.language, before.language))
        elif shows(after, drawn_anew):
            changed.append(after.id)
            entries += [entry.id for entry in protocol.entries() if entry.card == after.id][:1]
        elif after is not before and after != before:
            touched = [
                touch
                for touch in what_changes(library, before, after)
                if touch.use.protocol.id == protocol.id
            ]
            if touched:
                changed.append(after.id)
                entries.append(touched[0].use.entry.id)
    if not changed and not gone:
        return None
    path = path_text(path_of(protocol, entries[0])) if entries else ""
    return Drift(protocol, tuple(changed), tuple(gone), path)
