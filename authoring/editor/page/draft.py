"""Why a page is not for patients, as far as it is known before the page is made. No Qt here.

Whoever makes the page applies the whole rule of the command line; this only says early, in
the words of the screens and with a place to go to, what is plain to see.
"""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from authoring.checks.result import CheckResult
from authoring.commands.approval import Hindrance, plain_reasons
from authoring.editor.i18n import tr, tr_n
from authoring.editor.place import Place
from authoring.model.card import Card
from authoring.model.plan import Plan
from authoring.model.protocol import Protocol


@frozen
class Draft:
    """What keeps a page from patients.

    Attributes:
        because: why, as the end of a sentence; "" where nothing does.
        musts: Protocol checks that must be mended first.
        at: where it is mended where no check says so.
    """

    because: str = ""
    musts: tuple[CheckResult, ...] = ()
    at: Place | None = None

    def __bool__(self) -> bool:
        return bool(self.because)

    @property
    def sentence(self) -> str:
        """The quiet line above the pages; "" for a page that is for patients."""
        return tr("Draft, not for patients: {why}.", why=self.because) if self.because else ""

    @property
    def place(self) -> Place | None:
        """Where it is mended; the first check's place where there are several."""
        return Place.of(self.musts[0]) if self.musts else self.at


def draft_of(document: Protocol | Card | Plan | None, results: Sequence[CheckResult]) -> Draft:
    """Why a page of this document would be a draft, as far as it is plain to see.

    Args:
        document: the protocol or card; of a plan only its maker knows.
        results: results of the Protocol checks.
    """
    if document is None or isinstance(document, Plan):
        return Draft()
    if isinstance(document, Card):
        return Draft(tr("a card alone is approved by nobody"))
    found = plain_reasons(document, results)
    musts = tuple(result for reason in found for result in reason.musts)
    reasons = []
    if any(reason.kind is Hindrance.NOT_APPROVED for reason in found):
        reasons.append(tr("this version is not approved"))
    if musts:
        reasons.append(
            tr_n(
                "{n} Protocol check must be mended",
                "{n} Protocol checks must be mended",
                len(musts),
            )
        )
    joined = tr("{one}, and {other}", one=reasons[0], other=reasons[1]) if reasons[1:] else ""
    return Draft(joined or "".join(reasons), musts)
