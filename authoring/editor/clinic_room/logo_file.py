"""Logos from files: PNG, JPEG and WebP, written anew from their pixels alone. No Qt here."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image

from authoring.editor.i18n import tr
from authoring.editor.workers import Token
from authoring.editor.workshop.photos import MOST_PIXELS, Photo, PhotoProblem, prepared

MOST_BYTES = 60_000_000
"""Larger files are refused unread."""


def read_logo(source: Path | bytes, token: Token) -> Photo:
    """A logo from a file, or from the bytes of one.

    Raises:
        PhotoProblem: no PNG, JPEG or WebP picture, damaged or too large.
        Stopped: not wanted any more.
    """
    name = source.name if isinstance(source, Path) else tr("The picture")
    data = _bytes_of(source, name) if isinstance(source, Path) else source
    token.check()
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        data = _as_png(data, name)
        token.check()
    return prepared(data, name)


def _bytes_of(path: Path, name: str) -> bytes:
    try:
        if path.stat().st_size > MOST_BYTES:
            raise PhotoProblem(
                tr("{name} is larger than 60 megabytes. Make it smaller first.", name=name)
            )
        return path.read_bytes()
    except OSError as error:
        why = error.strerror or str(error)
        raise PhotoProblem(tr("{name} can't be read: {why}.", name=name, why=why)) from error


def _as_png(data: bytes, name: str) -> bytes:
    try:
        with Image.open(io.BytesIO(data), formats=("WEBP",)) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                raise PhotoProblem(
                    tr("{name} has more than 40 million pixels. Make it smaller first.", name=name)
                )
            out = io.BytesIO()
            opened.save(out, "PNG", compress_level=1)
            return out.getvalue()
    except (OSError, SyntaxError, ValueError, EOFError) as error:
        if isinstance(error, PhotoProblem):
            raise
        raise PhotoProblem(
            tr("{name} is damaged and can't be read. Try another copy of it.", name=name)
        ) from error
