"""Whether a plan's pages may leave the clinic, in one sentence. No Qt here."""

from __future__ import annotations

from attrs import frozen

from authoring.editor.i18n import tr, tr_n
from authoring.model.plan import Plan
from authoring.model.vocabulary import Status
from authoring.tailoring.release import release


@frozen
class Going:
    """What may be done with a plan's pages.

    Attributes:
        may: whether anything may be printed or saved at all.
        is_draft: whether they are drafts, not for patients, as far as is plain to see.
        sentence: why not, or what stands on the pages instead; "" where all is well.
        is_raised: whether a red flag is answered yes.
    """

    may: bool
    is_draft: bool = False
    sentence: str = ""
    is_raised: bool = False


def going(plan: Plan | None) -> Going:
    """What may be done with this plan's pages."""
    if plan is None:
        return Going(may=False, sentence=tr("Choose a protocol or a card first."))
    freed = release(plan)
    if freed.raised:
        own = freed.raised[0].protocol.language
        action = freed.raised[0].flag.action.best(own, own)
        words = tr("A red flag is answered yes, so no exercise prints: {action}", action=action)
        return Going(may=True, sentence=words, is_raised=True)
    if not freed.may_print:
        count = len(freed.not_asked)
        if count:
            words = tr_n(
                "{n} red flag was not asked, so nothing prints yet.",
                "{n} red flags were not asked, so nothing prints yet.",
                count,
            )
        else:
            words = tr("A choice waits for a second clinician's sign, so nothing prints yet.")
        return Going(may=False, sentence=words)
    unapproved = [each for each in plan.protocols if each.status is not Status.APPROVED]
    if unapproved:
        own = unapproved[0].language
        title = unapproved[0].title.best(own, own)
        words = tr("Draft, not for patients: “{title}” is not approved.", title=title)
        return Going(may=True, is_draft=True, sentence=words)
    if not plan.clinician:
        words = tr("Draft, not for patients: nobody says who decided it.")
        return Going(may=True, is_draft=True, sentence=words)
    return Going(may=True)
