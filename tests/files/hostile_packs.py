"""Packs made to do harm."""

from __future__ import annotations

import io
import json
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterator
from typing import Any

from PIL import Image, PngImagePlugin

from tests.files.packs import edited, files_of, good_pack, relisted, small_pack, zipped

Hostile = tuple[str, Callable[[], bytes]]

NAMES = [
    *("../evil.json", "../../etc/cron.d/evil", "cards/../../evil", "cards/./a.json", "..", "./a"),
    *("/etc/passwd", "//server/share/a", "C:/evil.json", "c:evil.json", "cards//a.json", "cards/"),
    *("..\\evil.json", "cards\\a.card.json", "\\\\server\\share", "C:\\evil.exe", "a:stream"),
    *("con", "NUL", "cards/aux.card.json", "com1.json", "LPT9", "prn.txt", "COM¹.json", "nul ."),
    *("Manifest.json", "MANIFEST.JSON", "Signature.json", "CARDS/x", "cards/A.card.json"),
    *("plans/a.plan.json", "ankle.presentation.json", "a.review.json", "patients/x.json"),
    *("inner.zip", "inner.rungpack", "letter.docx", "evil.exe", "run.sh", "clinic.json"),
    *("library.json", "history/x/1.0.json", ".rungbook.lock", ".hidden", "cards/.x.card.json"),
    *("images/logo.svg", "images/" + "0" * 63 + ".png", "images/" + "0" * 64 + ".gif"),
    *(
        "cards/" + "a" * 300 + ".card.json",
        "x" * 5000,
        "a\nb",
        "a\x1b[31m",
        "é.json",
        "\u202egpj.json",
    ),
    *("manifest.json ", "manifest.json.", " ", "cards", "poses/nul", "cards/üüü.card.json"),
]


def _with_name(name: str) -> bytes:
    return zipped([*files_of(small_pack()).items(), (name, b"{}")])


def _attributes(mode: int) -> bytes:
    def change(info: zipfile.ZipInfo) -> None:
        info.create_system = 3
        info.external_attr = mode << 16

    return zipped(files_of(small_pack()).items(), change)


def deflated(files: list[tuple[str, bytes]]) -> bytes:
    return zipped(files, lambda info: setattr(info, "compress_type", zipfile.ZIP_DEFLATED))


def bomb() -> bytes:
    name = next(each for each in files_of(small_pack()) if each.startswith("cards/"))
    return deflated([*files_of(small_pack()).items(), (name, b" " * 1_900_000)])


def _patched(at: int, layout: str, *values: int, central: bool = True, which: int = 0) -> bytes:
    """A good pack with a number of one header overwritten."""
    data = bytearray(small_pack())
    offset = struct.unpack_from("<I", data, len(data) - 6)[0] if central else 0
    for _ in range(which):
        offset += 46 + sum(struct.unpack_from("<3H", data, offset + 28))
    struct.pack_into(layout, data, offset + at, *values)
    return bytes(data)


def _end(at: int, layout: str, value: int) -> bytes:
    data = bytearray(small_pack())
    struct.pack_into(layout, data, len(data) - 22 + at, value)
    return bytes(data)


def _extra() -> bytes:
    return zipped(
        files_of(small_pack()).items(), lambda info: setattr(info, "extra", b"\x99\x99\x02\x00ab")
    )


def _commented() -> bytes:
    out = io.BytesIO(small_pack())
    with zipfile.ZipFile(out, "a") as opened:
        opened.comment = b"hidden"
    return out.getvalue()


def _method(method: int) -> Callable[[], bytes]:
    return lambda: zipped(
        files_of(small_pack()).items(), lambda info: setattr(info, "compress_type", method)
    )


def _raw_deflate(raw: bytes, size: int, crc: int) -> bytes:
    name = b"manifest.json"
    facts = (0, 8, 0, 0x21, crc, len(raw), size, len(name), 0)
    local = struct.pack("<4s5H3I2H", b"PK\x03\x04", 20, *facts) + name + raw
    listed = struct.pack("<4s6H3I5H2I", b"PK\x01\x02", 20, 20, *facts, 0, 0, 0, 0, 0) + name
    end = struct.pack("<4s4H2IH", b"PK\x05\x06", 0, 0, 1, 1, len(listed), len(local), 0)
    return local + listed + end


def _broken_deflate() -> bytes:
    return _raw_deflate(b"\xff" * 40, 100, 0)


def _short_deflate() -> bytes:
    """More than it says: what a reader that trusts the size would never notice."""
    worker = zlib.compressobj(wbits=-15)
    raw = worker.compress(b"{" * 60_000) + worker.flush()
    return _raw_deflate(raw, 10, zlib.crc32(b"{" * 10))


CONTAINERS: list[Hostile] = [
    ("empty", lambda: b""),
    ("text", lambda: b"hello, this is no zip at all, though long enough"),
    ("only an end record", lambda: b"PK\x05\x06" + bytes(18)),
    ("program before the zip", lambda: b"MZ" + bytes(100) + small_pack()),
    ("shifted", lambda: b"PK\x03\x04" + small_pack()),
    ("bytes after the end", lambda: small_pack() + b"\0"),
    ("second zip after the end", lambda: small_pack() + small_pack()),
    ("comment", _commented),
    ("half", lambda: small_pack()[: len(small_pack()) // 2]),
    ("without the end record", lambda: small_pack()[:-22]),
    ("symbolic link", lambda: _attributes(0o120777)),
    ("pipe", lambda: _attributes(0o010644)),
    ("device", lambda: _attributes(0o020644)),
    ("folder", lambda: _attributes(0o040755)),
    ("socket", lambda: _attributes(0o140644)),
    ("bomb by ratio", bomb),
    ("hidden data in a header", _extra),
    ("bzip2", _method(zipfile.ZIP_BZIP2)),
    ("lzma", _method(zipfile.ZIP_LZMA)),
    ("encrypted", lambda: _patched(8, "<H", 1)),
    ("length after the data", lambda: _patched(8, "<H", 8)),
    ("size larger than the data", lambda: _patched(24, "<I", 10_000_000)),
    ("size of four gigabytes", lambda: _patched(24, "<I", 0xFFFFFFFF)),
    ("packed size of four gigabytes", lambda: _patched(20, "<I", 0xFFFFFFFF)),
    ("offset beyond the end", lambda: _patched(42, "<I", 0xFFFFFFF0)),
    ("overlapping entries", lambda: _patched(42, "<I", 0, which=1)),
    ("wrong check sum", lambda: _patched(16, "<I", 1)),
    ("another name in the header", lambda: _patched(30, "<c", b"X", central=False)),  # type: ignore[arg-type]
    ("another size in the header", lambda: _patched(22, "<I", 1, central=False)),
    ("another method in the header", lambda: _patched(8, "<H", 8, central=False)),
    ("extra length in the header", lambda: _patched(28, "<H", 4, central=False)),
    ("name longer than the list", lambda: _patched(28, "<H", 0xFFFF)),
    ("on another disk", lambda: _patched(34, "<H", 1)),
    ("damaged mark in the list", lambda: _patched(0, "<I", 0)),
    ("counts no files", lambda: _end(10, "<H", 0)),
    ("counts more files", lambda: _end(10, "<H", 60000)),
    ("counts too many files on both", lambda: _count(3000)),
    ("large-file count", lambda: _count(0xFFFF)),
    ("split over disks", lambda: _end(4, "<H", 1)),
    ("list at the start", lambda: _end(16, "<I", 0)),
    ("list beyond the end", lambda: _end(16, "<I", 0xFFFFFFFF)),
    ("list longer than it is", lambda: _end(12, "<I", 0xFFFFFF)),
    ("thousands of files", lambda: zipped((f"cards/{n}", b"") for n in range(2500))),
    ("same name twice", lambda: zipped([*files_of(small_pack()).items()] * 2)),
    ("manifest last", lambda: zipped(reversed(files_of(small_pack()).items()))),
    ("no manifest", lambda: zipped(list(files_of(small_pack()).items())[1:])),
    ("broken deflate", _broken_deflate),
    ("endless deflate", _short_deflate),
]


def _count(number: int) -> bytes:
    data = bytearray(small_pack())
    struct.pack_into("<HH", data, len(data) - 14, number, number)
    return bytes(data)


def _manifest(edit: Callable[[dict[str, Any]], None]) -> Callable[[], bytes]:
    def make() -> bytes:
        files = files_of(small_pack())
        head = json.loads(files["manifest.json"])
        edit(head)
        return zipped({**files, "manifest.json": json.dumps(head).encode()}.items())

    return make


def _head(data: bytes) -> Callable[[], bytes]:
    return lambda: zipped({**files_of(small_pack()), "manifest.json": data}.items())


def _set(**changes: Any) -> Callable[[], bytes]:
    return _manifest(lambda head: head.update(changes))


def _member(**changes: Any) -> Callable[[], bytes]:
    return _manifest(lambda head: head["members"][0].update(changes))


MANIFESTS: list[Hostile] = [
    ("no JSON", _head(b"not json")),
    ("empty manifest", _head(b"")),
    ("a list", _head(b"[]")),
    ("null", _head(b"null")),
    ("NaN", _head(b'{"format": NaN}')),
    ("1e999", _head(b'{"format": 1e999}')),
    ("number of thousands of digits", _head(b'{"format": ' + b"9" * 100_000 + b"}")),
    ("deep nesting", _head(b"[" * 100_000)),
    ("key twice", _head(b'{"format": 1, "format": 2}')),
    ("UTF-16", _head('{"format": 1}'.encode("utf-16"))),
    ("half a character", _head(b'{"format": "\\ud800"}')),
    ("another format", _set(format="rungbook/plan")),
    ("unknown format", _set(format="evil/pack")),
    ("newer format", _set(format_version=2)),
    ("much newer format", _set(format_version=10**9)),
    ("version of text", _set(format_version="1")),
    ("version below one", _set(format_version=0)),
    ("origin a number", _set(origin=5)),
    ("origin without end", _set(origin="x" * 100_000)),
    ("no origin", _manifest(lambda head: head.pop("origin"))),
    ("language of nowhere", _set(language="../../en")),
    ("protocols a text", _set(protocols="all")),
    ("no protocols", _set(protocols=[])),
    ("protocol that is not there", _set(protocols=["00000000-0000-4000-8000-000000000000"])),
    ("protocol no id", _set(protocols=["../x"])),
    ("members an object", _set(members={})),
    ("no members", _set(members=[])),
    ("a member left out", _manifest(lambda head: head["members"].pop())),
    ("a member twice", _manifest(lambda head: head["members"].append(head["members"][0]))),
    ("wrong hash", _member(sha256="0" * 64)),
    ("short hash", _member(sha256="0")),
    ("hash a number", _member(sha256=5)),
    ("wrong size", _member(size=1)),
    ("negative size", _member(size=-1)),
    ("huge size", _member(size=2**53)),
    ("size with a fraction", _member(size=1.5)),
    ("member leads out", _member(name="../evil")),
    ("member not there", _member(name=f"images/{'0' * 64}.png")),
    ("terms a number", _set(terms=5)),
    ("terms in a circle", _set(terms=[
        {"id": "a", "kind": "condition", "name": "A", "broader": "b"},
        {"id": "b", "kind": "condition", "name": "B", "broader": "a"},
    ])),
    ("term wider than itself", _set(terms=[
        {"id": "a", "kind": "condition", "name": "A", "broader": "a"},
    ])),
    ("term twice", _set(terms=[{"id": "a", "kind": "condition", "name": "A"}] * 2)),
]  # fmt: skip


def _in(name: str, **changes: Any) -> Callable[[], bytes]:
    return lambda: edited(name, lambda value: value.update(changes))


def _circle(value: dict[str, Any]) -> None:
    entries = [
        e for stage in value["stages"] for block in stage["blocks"] for e in block["entries"]
    ]
    entries[0]["builds_on"], entries[1]["builds_on"] = entries[1]["id"], entries[0]["id"]


def _self(value: dict[str, Any]) -> None:
    entry = next(e for s in value["stages"] for b in s["blocks"] for e in b["entries"])
    entry["builds_on"] = entry["id"]


def _without(folder: str) -> Callable[[], bytes]:
    def make() -> bytes:
        files = files_of(good_pack())
        files.pop(next(name for name in files if name.startswith(folder)))
        return relisted(files)

    return make


def _renamed() -> bytes:
    files = files_of(small_pack())
    name = next(each for each in files if each.startswith("cards/"))
    files["cards/00000000-0000-4000-8000-000000000000.card.json"] = files.pop(name)
    return relisted(files)


def _spare(folder: str) -> Callable[[], bytes]:
    """A good file that nothing in the pack needs."""

    def make() -> bytes:
        small, whole = files_of(small_pack()), files_of(good_pack())
        name = next(each for each in whole if each.startswith(folder) and each not in small)
        return relisted({**small, name: whole[name]})

    return make


def _pictured(data: bytes, ending: str = "png") -> Callable[[], bytes]:
    """A pack whose photo is replaced, with every name and hash made to fit."""

    def make() -> bytes:
        import hashlib

        files = files_of(good_pack())
        old = next(name for name in files if name.startswith("images/"))
        new = f"images/{hashlib.sha256(data).hexdigest()}.{ending}"
        del files[old]
        fitted = {
            name: held.replace(old[7:].encode(), new[7:].encode()) for name, held in files.items()
        }
        return relisted({**fitted, new: data})

    return make


def _png(width: int = 4, *, text: bool = False, size: tuple[int, int] | None = None) -> bytes:
    out = io.BytesIO()
    info = PngImagePlugin.PngInfo()
    if text:
        info.add_text("Comment", "where the photo was taken")
    Image.new("RGB", (width, width)).save(out, "PNG", pnginfo=info)
    data = bytearray(out.getvalue())
    if size is not None:
        struct.pack_into(">II", data, 16, *size)
        struct.pack_into(">I", data, 29, zlib.crc32(data[12:29]))
    return bytes(data)


def _other(kind: str, **options: Any) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (4, 4)).save(out, kind, **options)
    return out.getvalue()


def _moving() -> bytes:
    return _other("PNG", save_all=True, append_images=[Image.new("RGB", (4, 4), 9)])


def _exif() -> bytes:
    exif = Image.Exif()
    exif[0x010E] = "a patient's garden"
    return _other("JPEG", exif=exif)


SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'

CONTENTS: list[Hostile] = [
    ("plan as a card", _in("cards/", format="rungbook/plan")),
    ("presentation as a card", _in("cards/", format="rungbook/presentation")),
    ("clinic as a protocol", _in("protocols/", format="rungbook/clinic")),
    ("newer card", _in("cards/", format_version=2)),
    ("newer protocol", _in("protocols/", format_version=99)),
    ("card of a list", lambda: edited("cards/", lambda value: [1])),
    ("card with another id", _in("cards/", id="00000000-0000-4000-8000-000000000000")),
    ("card id leads out", _in("cards/", id="../../x")),
    ("card slug leads out", _in("cards/", slug="../../x")),
    ("card slug with a backslash", _in("cards/", slug="a\\b")),
    ("card title a number", _in("cards/", title=5)),
    ("card title without end", _in("cards/", title="x" * 1_000_000)),
    ("card variants an object", _in("cards/", variants={})),
    ("card with control characters", _in("cards/", title="\u0001")),
    ("protocol stages a text", _in("protocols/", stages="x")),
    ("protocol without stages", _in("protocols/", stages=[])),
    ("protocol version of letters", _in("protocols/", version="final2")),
    ("protocol version without end", _in("protocols/", version="9" * 1000)),
    ("status of its own", _in("protocols/", status="blessed")),
    ("exercises in a circle", lambda: edited("protocols/", _circle)),
    ("exercise on itself", lambda: edited("protocols/", _self)),
    ("card missing", _without("cards/")),
    ("protocol missing", _without("protocols/")),
    ("photo missing", _without("images/")),
    ("card under another name", _renamed),
    ("card nobody needs", _spare("cards/")),
    ("protocol nobody named", _spare("protocols/")),
    ("photo nobody needs", _spare("images/")),
    ("SVG as a photo", _pictured(SVG)),
    ("HTML as a photo", _pictured(b"<html><script>alert(1)</script>")),
    ("empty photo", _pictured(b"")),
    ("photo of 60,000 by 60,000", _pictured(_png(size=(60_000, 60_000)))),
    ("photo of no width", _pictured(_png(size=(0, 4)))),
    ("photo with a comment", _pictured(_png(text=True))),
    ("photo with a zip behind it", _pictured(_png() + zipped([("evil", b"x")]))),
    ("photo cut short", _pictured(_png(400)[:-30])),
    ("GIF as a photo", _pictured(_other("GIF"))),
    ("TIFF as a photo", _pictured(_other("TIFF"))),
    ("JPEG under the name of a PNG", _pictured(_other("JPEG"))),
    ("PNG under the name of a JPEG", _pictured(_png(), "jpg")),
    ("JPEG with its camera's notes", _pictured(_exif(), "jpg")),
    ("JPEG with a comment", _pictured(_other("JPEG", comment=b"Garden Lane"), "jpg")),
    ("JPEG with a zip behind it", _pictured(_other("JPEG") + b"PK\x03\x04\xff\xd9", "jpg")),
    ("moving PNG", _pictured(_moving())),
]  # fmt: skip

SIGNATURES = [
    b"",
    b"null",
    b"[]",
    b"{}",
    b"1",
    b'{"algorithm": "none", "public_key": "", "signature": ""}',
    b'{"algorithm": "Ed25519", "public_key": 1, "signature": 2}',
    json.dumps({"algorithm": "Ed25519", "public_key": "0" * 64, "signature": "0" * 128}).encode(),
    b"x" * 10_000,
    b"[" * 4000,
]


def _signed_by(data: bytes) -> bytes:
    files = files_of(small_pack())
    head = files.pop("manifest.json")
    return zipped({"manifest.json": head, "signature.json": data, **files}.items())


def every_hostile() -> Iterator[Hostile]:
    for name in NAMES:
        yield f"name {ascii(name)[:40]} {len(name)}", lambda name=name: _with_name(name)  # type: ignore[misc]
    yield from CONTAINERS
    yield from MANIFESTS
    yield from CONTENTS
    for number, data in enumerate(SIGNATURES):
        yield f"signature {number}", lambda data=data: _signed_by(data)  # type: ignore[misc]


HOSTILE = list(every_hostile())
