"""``rungbook pack``: protocols of a library as one file for a colleague."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from authoring.commands.outcome import CommandError, Exit
from authoring.files.atomic import write_atomic
from authoring.files.errors import shown
from authoring.files.library import OpenLibrary, open_library
from authoring.files.pack_scan import Suspicion
from authoring.files.pack_signature import key_folder, own_key, signature_bytes
from authoring.files.pack_writing import ENDING, PackMade, make_pack

_MOST_TOLD = 8


def pack_protocols(
    folder: Path, named: Iterable[str], output: Path, key: str | None, *, even_so: bool
) -> tuple[PackMade, tuple[str, ...]]:
    """Write a pack; what was made, and what to tell the user of it.

    Args:
        folder: the library.
        named: protocols by short name, id or file.
        output: the pack; its name ends in ``.rungpack``.
        key: name of the clinic's key to sign with; it is made where there is none.
        even_so: pack words that look like a patient's.

    Raises:
        CommandError: a name fits no protocol or pack, or words look like a patient's.
        FileProblem: something can't be read, packed or written.
    """
    if output.suffix != ENDING:
        raise CommandError(f"{shown(output)}: a pack is called …{ENDING}.", Exit.UNUSABLE)
    opened = open_library(folder)
    ids = [_protocol(opened, name) for name in named]
    told: list[str] = []
    sign = None
    if key is not None:
        private, new = own_key(key, key_folder())
        if new:
            where = shown(key_folder() / f"{key}.pub")
            told.append(f"a new key was made; give {where} to those who are to trust it.")

        def sign(manifest: bytes) -> bytes:
            return signature_bytes(manifest, private)

    made = make_pack(opened, ids, sign)
    if made.suspicions and not even_so:
        raise CommandError(suspicious(made.suspicions), Exit.FOUND)
    write_atomic(output, made.data)
    return made, tuple(told)


def suspicious(found: tuple[Suspicion, ...]) -> str:
    """What looks like a patient's data, and what to do about it."""
    words = "; ".join(each.sentence for each in found[:_MOST_TOLD])
    more = f" (and {len(found) - _MOST_TOLD} more)" if len(found) > _MOST_TOLD else ""
    return f"{words}{more}; take it out, or say --even-so where it belongs to no patient."


def _protocol(opened: OpenLibrary, name: str) -> str:
    for key, protocol in opened.library.protocols.items():
        if name in (key, protocol.slug) or Path(name).name == opened.paths[key].name:
            return key
    known = ", ".join(sorted(each.slug for each in opened.library.protocols.values()))
    raise CommandError(
        f"{shown(opened.folder)}: there is no protocol {shown(name)!r}; there are {known}.",
        Exit.UNUSABLE,
    )
