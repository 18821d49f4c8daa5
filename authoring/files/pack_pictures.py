"""Pictures in a pack: pixels and nothing beside them.

A picture is named by the hash of its bytes, so it can't be written anew on its way in. It is
refused instead unless it is as this program writes pictures. Chunks: PNG (W3C, third edition)
§ 11; segments: JPEG (ITU-T T.81) annex B.
"""

from __future__ import annotations

import io
import struct
import warnings

from PIL import Image

from authoring.model.sentence import Sentence, say

MOST_PIXELS = 40_000_000
_CHUNKS = {b"IHDR", b"PLTE", b"tRNS", b"IDAT", b"IEND", b"sRGB", b"gAMA", b"pHYs"}
_FRAMES, _JFIF, _ADOBE = (0xC0, 0xC1, 0xC2), 0xE0, 0xEE
_TABLES = (0xC4, 0xDB, 0xDD)


def picture_fault(data: bytes, ending: str) -> Sentence | None:
    """What is wrong with the bytes of a "png" or "jpg" picture, None where nothing is."""
    if not (_only_pixels_png(data) if ending == "png" else _only_pixels_jpeg(data)):
        return say("is no plain {kind} picture, or holds more than a picture", kind=ending.upper())
    try:
        with (
            warnings.catch_warnings(),
            Image.open(io.BytesIO(data), formats=("PNG" if ending == "png" else "JPEG",)) as opened,
        ):
            warnings.simplefilter("error")
            if opened.width * opened.height > MOST_PIXELS:
                return say("has more than 40 million pixels")
            opened.load()
    except (OSError, SyntaxError, ValueError, EOFError, MemoryError, Warning, struct.error):
        return say("is damaged, or has more than 40 million pixels")
    except Image.DecompressionBombError:
        return say("has more than 40 million pixels")
    return None


def _only_pixels_png(data: bytes) -> bool:
    if not data.startswith(b"\x89PNG\r\n\x1a\n"):
        return False
    at = 8
    while at + 12 <= len(data):
        size, kind = struct.unpack_from(">I4s", data, at)
        at += 12 + size
        if kind not in _CHUNKS:
            return False
        if kind == b"IEND":
            return bool(size == 0 and at == len(data))
    return False


def _only_pixels_jpeg(data: bytes) -> bool:
    """Whether all segments before the first scan are of the picture, and it ends the file."""
    if data[:2] != b"\xff\xd8" or data[-2:] != b"\xff\xd9":
        return False
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        kind, size = data[at + 1], struct.unpack_from(">H", data, at + 2)[0]
        if kind == 0xDA:
            return not _hides(data, at + 2 + size)
        if kind not in (*_FRAMES, *_TABLES, _JFIF, _ADOBE) or size < 2:
            return False
        at += 2 + size
    return False


def _hides(data: bytes, at: int) -> bool:
    """Whether there is an end, a note or an application's data among the scans."""
    while (at := data.find(b"\xff", at)) != -1:
        kind = data[at + 1] if at + 1 < len(data) else 0
        if kind == 0xD9:
            return at + 2 != len(data)
        if kind in range(0xE0, 0xF0) or kind == 0xFE:
            return True
        at += 2
    return True
