"""Edits of a whole protocol: making one, copying one, and where it is in its life."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from typing import Any

from authoring.model.base import evolve
from authoring.model.edits.entries import freeze_numbers, unfreeze_numbers
from authoring.model.edits.naming import fresh_id, slug_of_text
from authoring.model.edits.outcome import Edited, note, refuse
from authoring.model.edits.stages import add_stage
from authoring.model.edits.tree import set_fields
from authoring.model.protocol import Approval, ChangeNote, Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import Status

_LIFE = ("status", "approvals", "version", "changes", "last_review", "review_due")
"""Fields that say where a protocol is in its life, not what it is."""


def new_protocol(
    *,
    protocol_id: str,
    title: Text,
    language: str,
    slugs: Collection[str],
    stages: Collection[Text] = (),
    **facts: Any,
) -> Protocol:
    """A draft with empty stages of these names.

    Args:
        protocol_id: a new UUID.
        slugs: slugs of the library's protocols; the new one's is unlike them.
        facts: other fields (conditions, regions, pathway …).
    """
    slug = fresh_id(slug_of_text(title, otherwise="protocol"), taken=slugs)
    made = Protocol(id=protocol_id, slug=slug, language=language, title=title, **facts)
    for name in stages:
        made = add_stage(made, name=name).value
    return made


def copied_protocol(
    protocol: Protocol, *, protocol_id: str, title: Text, slugs: Collection[str]
) -> Protocol:
    """A draft like a protocol, under another id and title; its life starts anew."""
    slug = fresh_id(slug_of_text(title, otherwise="protocol"), taken=slugs)
    return evolve(
        unfreeze_numbers(protocol).value,
        id=protocol_id,
        slug=slug,
        title=title,
        status=Status.DRAFT,
        version="0.1",
        approvals=(),
        changes=(),
        last_review=None,
        review_due=None,
    )


def set_protocol(protocol: Protocol, **changes: Any) -> Edited[Protocol]:
    """Change fields of a protocol: titles, conditions, regions, delivery, owner, review dates …

    Raises:
        EditError: no such field, or one with edits of its own
            (id, stages, status, approvals).
        ModelError: a value is outside the limits of its field.
    """
    for name in ("id", "stages", "status", "approvals"):
        if name in changes:
            raise refuse("{field} has an edit of its own.", field=name)
    return Edited(set_fields(protocol, (), **changes), (protocol.id,))


# ---- its life -------------------------------------------------------------------------------


def sent_for_review(protocol: Protocol) -> Edited[Protocol]:
    """A draft that waits for its reviewer.

    Raises:
        EditError: it is no draft.
    """
    if protocol.status is not Status.DRAFT:
        raise refuse("Only a draft is sent for review.")
    return Edited(evolve(protocol, status=Status.IN_REVIEW))


def approved(
    protocol: Protocol,
    *,
    reviewer: str,
    date: dt.date,
    note_text: str = "",
    change: ChangeNote | None = None,
) -> Edited[Protocol]:
    """The protocol as approved: numbers frozen, reviewer and day recorded.

    Whether it may be approved is for the checks to say, beforehand.

    Args:
        change: what changed in this version; it goes before the older notes.

    Raises:
        EditError: it is retired.
        ModelError: the reviewer is not named.
    """
    if protocol.status is Status.RETIRED:
        raise refuse("A retired protocol is not approved: start a new version of it first.")
    approval = Approval(reviewer=reviewer, date=date, note=note_text)
    frozen = freeze_numbers(protocol).value
    changes = protocol.changes if change is None else (change, *protocol.changes)
    return Edited(
        evolve(
            frozen,
            status=Status.APPROVED,
            approvals=(*protocol.approvals, approval),
            last_review=date,
            changes=changes,
        )
    )


def reopened(protocol: Protocol) -> Edited[Protocol]:
    """A draft of the next version: approvals are of the one before, and numbers count anew."""
    draft = evolve(
        unfreeze_numbers(protocol).value,
        status=Status.DRAFT,
        approvals=(),
        version=next_version(protocol.version),
    )
    said = note("This is a draft of version {version} now.", about=draft.id, version=draft.version)
    return Edited(draft, (), (said,))


def retired(protocol: Protocol) -> Edited[Protocol]:
    """A protocol that stays readable and prints no more."""
    return Edited(evolve(protocol, status=Status.RETIRED))


def next_version(version: str) -> str:
    """The version after this one: its last number one higher ("1.2" to "1.3", "2" to "2.1")."""
    first, *rest = version.split(".")
    if not rest:
        return f"{first}.1"
    return ".".join([first, *rest[:-1], str(int(rest[-1]) + 1)])


def reopened_if_changed(before: Protocol, after: Protocol) -> Edited[Protocol]:
    """The protocol after any edit, as a draft where an approved text changed.

    What was approved must not read differently under the same approval. Edits of its life
    (status, review dates) are let be.
    """
    was_approved = before.status is Status.APPROVED
    if not was_approved or after.status is not before.status or same_content(before, after):
        return Edited(after)
    return reopened(after)


def same_content(before: Protocol, after: Protocol) -> bool:
    """Whether both read the same, whatever became of them (status, approvals, review dates)."""
    life = {name: getattr(before, name) for name in _LIFE}
    return evolve(after, **life) == before
