"""Why a page is not for patients, known without running the checks anew. No Qt here.

Follows the rule of the command line: only an approved version whose Protocol checks
say no "must" is for patients, and a card alone is approved by nobody.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from authoring.checks.result import CheckResult, Strength
from authoring.editor.i18n import tr, tr_n
from authoring.editor.place import Place
from authoring.model.card import Card
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Status


@frozen
class Draft:
    """What keeps a page from patients.

    Attributes:
        because: why, as the end of a sentence; "" where nothing does.
        musts: Protocol checks that must be mended first.
    """

    because: str = ""
    musts: tuple[CheckResult, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.because)

    @property
    def sentence(self) -> str:
        """The quiet line above the pages; "" for a page that is for patients."""
        return tr("Draft, not for patients: {why}.", why=self.because) if self.because else ""

    @property
    def place(self) -> Place | None:
        """Where the first check is mended."""
        return Place.of(self.musts[0]) if self.musts else None


def draft_of(
    document: Protocol | Card | None, results: Sequence[CheckResult], *, are_current: bool
) -> Draft:
    """Why a page of this document would be a draft.

    Args:
        document: the protocol or card.
        results: results of the Protocol checks.
        are_current: whether they are about the library as it stands.
    """
    if document is None:
        return Draft()
    if isinstance(document, Card):
        return Draft(tr("a card alone is approved by nobody"))
    musts = tuple(_musts(document, results))
    reasons = []
    if document.status is not Status.APPROVED:
        reasons.append(tr("this version is not approved"))
    if musts:
        reasons.append(
            tr_n(
                "{n} Protocol check must be mended",
                "{n} Protocol checks must be mended",
                len(musts),
            )
        )
    elif not are_current:
        reasons.append(tr("the Protocol checks have not seen it yet"))
    joined = tr("{one}, and {other}", one=reasons[0], other=reasons[1]) if reasons[1:] else ""
    return Draft(joined or "".join(reasons), musts)


def _musts(protocol: Protocol, results: Sequence[CheckResult]) -> Iterator[CheckResult]:
    """Those about the protocol, the cards it uses, the clinic and the library itself."""
    used = {protocol.id, *(entry.card for entry in protocol.entries()), ""}
    for result in results:
        if result.strength is Strength.MUST and result.subject_id in used:
            yield result
