"""What keeps a handout from patients: one rule for every way to make one.

Values in, values out: a command and the editor each word the reasons for their reader.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from enum import Enum, auto
from typing import TypeAlias

from attrs import frozen

from authoring.checks.result import CheckResult, Strength
from authoring.files.errors import FileProblem
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.edits.protocols import same_content
from authoring.model.edits.uses import redrawn, shows, what_changes
from authoring.model.library import ApprovedVersion, Library
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status

Kept: TypeAlias = ApprovedVersion | FileProblem | None
"""A version as the history keeps it; a problem where it can't be read, None where it has none."""


class Hindrance(Enum):
    """A kind of reason."""

    CARD_ALONE = auto()
    NO_CLINICIAN = auto()
    NOT_EMBEDDED = auto()
    NOT_APPROVED = auto()
    MUSTS = auto()
    UNREADABLE = auto()
    PROTOCOL_CHANGED = auto()
    CARD_CHANGED = auto()


@frozen
class Reason:
    """One reason why a handout is a draft.

    Attributes:
        about: the protocol or card it is about, None where that goes without saying.
        musts: Protocol checks that must be mended first; of ``MUSTS`` alone.
    """

    kind: Hindrance
    about: Protocol | Card | None = None
    musts: tuple[CheckResult, ...] = ()


def plain_reasons(protocol: Protocol, results: Sequence[CheckResult]) -> tuple[Reason, ...]:
    """Why a handout of a protocol is a draft, as far as no history is needed to see it.

    Args:
        protocol: as it stands, unsaved edits included.
        results: of the Protocol checks; those about files it does not use do not count.
    """
    used = {protocol.id, *(entry.card for entry in protocol.entries()), ""}
    approved = protocol.status is Status.APPROVED
    status = () if approved else (Reason(Hindrance.NOT_APPROVED, protocol),)
    return (*status, *_musts(result for result in results if result.subject_id in used))


def protocol_reasons(
    protocol: Protocol, library: Library, results: Sequence[CheckResult], kept: Kept
) -> tuple[Reason, ...]:
    """Why a handout of a protocol is not for patients, () where it is.

    Only an approved version without ``must`` results, which still reads as it was approved,
    is for patients.

    Args:
        protocol: as it stands, unsaved edits included.
        library: the cards as they stand.
        results: of the Protocol checks.
        kept: the version that the history keeps. Where it keeps none there is nothing to
            compare with.
    """
    approved = protocol.status is Status.APPROVED
    changed = tuple(_changed(protocol, library, kept)) if approved else ()
    return (*plain_reasons(protocol, results), *changed)


def plan_reasons(
    plan: Plan,
    library: Library,
    results: Sequence[CheckResult],
    kept: Callable[[Protocol], Kept],
) -> tuple[Reason, ...]:
    """Why a handout of a plan is not for patients, () where it is.

    Somebody must have decided the plan, and what it embeds must be fit for patients: each
    protocol approved and as it was approved, and no ``must`` result on protocols or cards.

    Args:
        plan: the plan.
        library: the library with all that the plan embeds in it.
        results: of the checks of what the plan embeds, and of the clinic.
        kept: the version of a protocol that the history keeps.
    """
    embedded = {protocol.id for protocol in plan.protocols}
    named = {
        *(stage.protocol for stage in plan.stages),
        *(item.protocol for item in plan.items if item.protocol is not None),
    }
    found: list[Reason] = []
    if not plan.clinician.strip():
        found.append(Reason(Hindrance.NO_CLINICIAN))
    if named - embedded:
        found.append(Reason(Hindrance.NOT_EMBEDDED))
    for protocol in plan.protocols:
        if protocol.status is Status.APPROVED:
            found += _changed(protocol, library, kept(protocol))
        else:
            found.append(Reason(Hindrance.NOT_APPROVED, protocol))
    return (*found, *_musts(results))


def _musts(results: Iterable[CheckResult]) -> tuple[Reason, ...]:
    musts = tuple(result for result in results if result.strength is Strength.MUST)
    return (Reason(Hindrance.MUSTS, musts=musts),) if musts else ()


def _changed(protocol: Protocol, library: Library, kept: Kept) -> Iterator[Reason]:
    """What reads otherwise than it was approved: nobody approved those words."""
    if isinstance(kept, FileProblem):
        yield Reason(Hindrance.UNREADABLE, protocol)
    elif kept is not None:
        if not same_content(kept.protocol, protocol):
            yield Reason(Hindrance.PROTOCOL_CHANGED, protocol)
        alone = evolve(library, protocols={protocol.id: protocol})
        drawn_anew = redrawn(library, kept.poses)
        for before in kept.cards:
            after = library.cards.get(before.id)
            if after is None:
                continue  # a card that is gone is a must of the Protocol checks
            if shows(after, drawn_anew) or (after != before and what_changes(alone, before, after)):
                yield Reason(Hindrance.CARD_CHANGED, after)
