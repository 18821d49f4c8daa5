"""The plain part of the zip format, and nothing beside it.

A zip file says what it holds twice, and readers differ in which they believe. Here both must
agree and account for every byte of the file: no overlap, no gap, no comment, no encryption,
no zip64, no data descriptor. Layout: PKWARE APPNOTE 6.3.10, sections 4.3.7 (local header),
4.3.12 (central directory) and 4.3.16 (end record). Overlapping entries: CVE-2024-0450.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator, Mapping

from attrs import frozen

from authoring.files.reading import MEBIBYTE
from authoring.model.sentence import Sentence, say

MOST_ENTRIES = 2002
MOST_IN_ONE = 16 * MEBIBYTE
MOST_IN_ALL = 96 * MEBIBYTE
MOST_RATIO = 100
"""Unpacked bytes a packed one; JSON of ours shrinks to a tenth at best."""
_RATIO_FROM = 64 * 1024

_LOCAL = struct.Struct("<4s5H3I2H")
_CENTRAL = struct.Struct("<4s6H3I5H2I")
_END = struct.Struct("<4s4H2IH")
_UTF8 = 0x800
_LINK, _KIND = 0o120000, 0o170000
_PLAIN_FILE = 0o100000


class BadZip(ValueError):  # noqa: N818 - carries a sentence to whoever names the file
    """The bytes are not a zip file as it is read here; ``sentence`` says why."""

    def __init__(self, sentence: Sentence) -> None:
        super().__init__(sentence)
        self.sentence = sentence


@frozen
class Entry:
    """One entry; ``start`` and ``end`` bound its header and data in the file."""

    name: str
    method: int
    crc: int
    packed: int
    size: int
    start: int
    data: int
    end: int


def entries_of(data: bytes) -> tuple[Entry, ...]:
    """Entries in the order of the file; nothing is unpacked yet.

    Raises:
        BadZip: it is no zip file, is damaged, or holds what is never needed.
    """
    if len(data) < _END.size or not data.startswith(b"PK\x03\x04"):
        raise BadZip(say("this is no zip file, so it is no pack"))
    mark, disk, first, here, count, size, offset, comment = _END.unpack_from(
        data, len(data) - _END.size
    )
    if mark != b"PK\x05\x06" or comment:
        raise BadZip(say("the pack is cut short, or something was added after its end"))
    if disk or first or here != count or count == 0xFFFF or offset == 0xFFFFFFFF:
        raise BadZip(say("the pack is split or uses large-file records, which no pack needs"))
    if count > MOST_ENTRIES:
        raise BadZip(say("the pack holds {n} files, more than {most}", n=count, most=MOST_ENTRIES))
    directory = len(data) - _END.size
    if offset + size != directory:
        raise BadZip(say("the list of files does not lie where the pack says"))
    found = tuple(sorted(_listed(data, offset, directory, count), key=lambda each: each.start))
    _refuse_overlap(found, offset)
    return found


def _listed(data: bytes, at: int, end: int, count: int) -> Iterator[Entry]:
    total = 0
    for _ in range(count):
        if at + _CENTRAL.size > end:
            raise BadZip(say("the list of files is cut short"))
        field = _CENTRAL.unpack_from(data, at)
        mark, flags, method, crc, packed, size = field[0], *field[3:5], *field[7:10]
        names, extra, comment, disk, attributes, start = *field[10:14], *field[15:17]
        at += _CENTRAL.size + names + extra + comment
        if mark != b"PK\x01\x02" or at > end or disk:
            raise BadZip(say("the list of files is damaged"))
        raw = data[at - names - extra - comment : at - extra - comment]
        name = _name(raw, flags)
        _refuse_odd(name, flags, method, extra or comment, attributes)
        total += size
        _refuse_large(name, packed, size, total)
        yield _located(data, Entry(name, method, crc, packed, size, start, 0, 0), flags, raw)
    if at != end:
        raise BadZip(say("the list of files is longer than the pack says"))


def _name(raw: bytes, flags: int) -> str:
    try:
        return raw.decode("utf-8" if flags & _UTF8 else "ascii")
    except UnicodeDecodeError:
        raise BadZip(say("a file in the pack has a name that can't be read")) from None


def _refuse_odd(name: str, flags: int, method: int, more: int, attributes: int) -> None:
    if flags & ~_UTF8:
        raise BadZip(
            say("{name} in the pack is encrypted or has no known length", name=brief(name))
        )
    if method not in (0, 8):
        raise BadZip(say("{name} in the pack is packed in an unknown way", name=brief(name)))
    if more:
        raise BadZip(say("{name} in the pack carries hidden data", name=brief(name)))
    mode = attributes >> 16
    if mode & _KIND == _LINK:
        raise BadZip(say("{name} in the pack is a link", name=brief(name)))
    if mode & _KIND not in (0, _PLAIN_FILE) or attributes & 0x10:
        raise BadZip(say("{name} in the pack is no plain file", name=brief(name)))


def _refuse_large(name: str, packed: int, size: int, total: int) -> None:
    if size > MOST_IN_ONE or total > MOST_IN_ALL:
        raise BadZip(say("{name} makes the pack too large to be unpacked", name=brief(name)))
    if size > _RATIO_FROM and size > packed * MOST_RATIO:
        raise BadZip(
            say(
                "{name} would grow more than {n} times when unpacked",
                name=brief(name),
                n=MOST_RATIO,
            )
        )


def _located(data: bytes, entry: Entry, flags: int, raw: bytes) -> Entry:
    """The entry with its place, where its own header says the same as the list."""
    if entry.start + _LOCAL.size > len(data):
        raise BadZip(say("{name} lies outside the pack", name=brief(entry.name)))
    field = _LOCAL.unpack_from(data, entry.start)
    begin = entry.start + _LOCAL.size
    told = (field[0], field[2], field[3], *field[6:11], data[begin : begin + len(raw)])
    listed = (b"PK\x03\x04", flags, entry.method, entry.crc, entry.packed, entry.size)
    if told != (*listed, len(raw), 0, raw):
        raise BadZip(say("{name} is described in two ways in the pack", name=brief(entry.name)))
    start = begin + len(raw)
    return Entry(
        entry.name,
        entry.method,
        entry.crc,
        entry.packed,
        entry.size,
        entry.start,
        start,
        start + entry.packed,
    )


def _refuse_overlap(found: tuple[Entry, ...], directory: int) -> None:
    at = 0
    for entry in found:
        if entry.start < at:
            raise BadZip(say("{name} overlaps another file in the pack", name=brief(entry.name)))
        if entry.start > at:
            raise BadZip(say("there are hidden data before {name}", name=brief(entry.name)))
        at = entry.end
    if at != directory:
        raise BadZip(say("there are hidden data after the last file of the pack"))


def unpacked(data: bytes, entry: Entry) -> bytes:
    """The bytes of one entry, never more than it says.

    Raises:
        BadZip: they are damaged, or of another length than it says.
    """
    packed = data[entry.data : entry.end]
    wrong = BadZip(say("{name} in the pack is damaged", name=brief(entry.name)))
    if entry.method == 0:
        plain = packed
    else:
        worker = zlib.decompressobj(-zlib.MAX_WBITS)
        try:
            plain = worker.decompress(packed, entry.size + 1)
        except zlib.error:
            raise wrong from None
        if not worker.eof or worker.unused_data or worker.unconsumed_tail:
            raise wrong
    if len(plain) != entry.size or zlib.crc32(plain) != entry.crc:
        raise wrong
    return plain


def brief(name: str) -> str:
    """A name on one line, cut to what a sentence can hold."""
    plain = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in name)
    return plain if len(plain) <= 80 else f"{plain[:80]}…"


# ---- writing -------------------------------------------------------------------------------

_JANUARY_1980 = 0x21


def zip_bytes(files: Mapping[str, bytes]) -> bytes:
    """A zip file of these files in this order, the same bytes for the same files.

    Stored, not deflated: how bytes deflate differs from one zlib to the next.
    """
    body, listing = bytearray(), bytearray()
    for name, data in files.items():
        raw = name.encode("ascii")
        facts = (0, 0, 0, _JANUARY_1980, zlib.crc32(data), len(data), len(data), len(raw), 0)
        start = len(body)
        body += _LOCAL.pack(b"PK\x03\x04", 20, *facts) + raw + data
        mode = (_PLAIN_FILE | 0o644) << 16
        listing += _CENTRAL.pack(b"PK\x01\x02", 0x314, 20, *facts, 0, 0, 0, mode, start) + raw
    end = _END.pack(b"PK\x05\x06", 0, 0, len(files), len(files), len(listing), len(body), 0)
    return bytes(body + listing + end)
