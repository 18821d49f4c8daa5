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
    """

    job: PageJob
    data: bytes


def make_page(job: PageJob, token: Token) -> MadePage:
    """The page as a PDF.

    Raises:
        PageFault: it can't be made.
        Stopped: it is not wanted any more.
    """
    from authoring.editor.page.composing import page_bytes  # noqa: PLC0415  (slow to import)

    return MadePage(job, page_bytes(job, ".pdf", token.check))
