"""Kinds of file a page can be saved as, and what a file is called. No Qt here."""

from __future__ import annotations

import re
from enum import StrEnum
from pathlib import Path

from authoring.editor.i18n import tr
from authoring.editor.page.wish import PageFault, PageJob
from authoring.editor.sentences import said
from authoring.editor.workers import Token
from authoring.files.atomic import write_atomic
from authoring.files.errors import FileProblem

_FORBIDDEN = re.compile(r'[<>:"/\\|?*\x00-\x1f\x7f]+')
"""What Windows, macOS or Linux takes in no file name."""

_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)
_LONGEST = 100


class Format(StrEnum):
    """Kinds of file, by their ending."""

    PDF = ".pdf"
    WORD = ".docx"
    WEB = ".html"


FORMATS = tuple(Format)


def format_words(kind: Format) -> str:
    """A kind of file in words."""
    return {
        Format.PDF: tr("PDF"),
        Format.WORD: tr("Word"),
        Format.WEB: tr("Web page"),
    }[kind]


def file_name(title: str, kind: Format) -> str:
    """A file name that every system takes: "Ankle sprain, stage 2.pdf"."""
    plain = " ".join(_FORBIDDEN.sub(" ", title).split())[:_LONGEST].strip(". ")
    if not plain or _RESERVED.fullmatch(plain):
        plain = f"{plain} handout".strip()
    return f"{plain}{kind.value}"


def with_ending(path: Path, kind: Format) -> Path:
    """The path with an ending of ours: its own, else that of ``kind`` after it."""
    known = {one.value for one in FORMATS}
    return path if path.suffix.lower() in known else path.with_name(f"{path.name}{kind.value}")


def save_page(job: tuple[PageJob, Path], token: Token) -> Path:
    """Write a page to a file, whole or not at all; the file.

    Raises:
        PageFault: the page can't be made or the file not written; nothing was.
        Stopped: not wanted any more; nothing was written.
    """
    from authoring.editor.page.composing import page_bytes  # noqa: PLC0415  (slow to import)

    page, path = job
    token.step(0, 2)
    data = page_bytes(page, path.suffix.lower(), token.check)
    token.step(1, 2)
    try:
        write_atomic(path, data)
    except FileProblem as problem:
        raise PageFault(said(problem.whole)) from problem
    return path
