"""Pages made away from the window. No Qt here."""

from __future__ import annotations

from attrs import frozen

from authoring.editor.page.wish import PageJob
from authoring.editor.workers import Token


@frozen
class MadePage:
    """A page that was made.

    Attributes:
        job: what it was made from.
        data: a PDF.
        because: why it says "Draft, not for patients", "" where it does not or where
            the job asked for it.
    """

    job: PageJob
    data: bytes
    because: str = ""


def make_page(job: PageJob, token: Token) -> MadePage:
    """The page as a PDF.

    Raises:
        PageFault: it can't be made.
        Stopped: it is not wanted any more.
    """
    from authoring.editor.page.composing import made  # noqa: PLC0415  (slow to import)

    data, because = made(job, ".pdf", token.check)
    return MadePage(job, data, because)
