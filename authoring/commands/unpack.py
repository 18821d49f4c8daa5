"""``rungbook unpack``: see what a pack would change, then take it into a library."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from attrs import frozen

from authoring.commands.outcome import CommandError, Exit
from authoring.commands.pack import suspicious
from authoring.files.library import open_library, read_history
from authoring.files.pack_reading import read_pack
from authoring.files.pack_signature import Signer, Trust, key_folder, trusted_keys
from authoring.files.unpack import Conflicts, Intake, Standing, Take, intake_of, lines_of, take_in


@frozen
class Unpacked:
    """What a pack brought, or would bring."""

    intake: Intake
    written: bool


def unpack(
    pack: Path, folder: Path, take: Take, today: dt.date, *, dry: bool, even_so: bool
) -> Unpacked:
    """Take a pack into a library.

    Args:
        take: what becomes of conflicts.
        dry: only look.
        even_so: take words that look like a patient's.

    Raises:
        CommandError: words look like a patient's.
        FileProblem: the pack can't be used, there are conflicts and nobody chose, or the
            library can't be read or written.
    """
    read = read_pack(pack, trusted_keys(key_folder()))
    if read.suspicions and not even_so:
        raise CommandError(suspicious(read.suspicions), Exit.FOUND)
    opened = open_library(folder)
    if opened.problems:
        raise opened.problems[0]
    intake = intake_of(read, opened, read_history(folder), today)
    if not dry:
        try:
            take_in(intake, take)
        except Conflicts as conflicts:
            raise CommandError(str(conflicts), Exit.FOUND) from conflicts
    return Unpacked(intake, not dry)


def unpack_text(made: Unpacked) -> str:
    """Everything of note in a pack, one thing a line."""
    manifest = made.intake.pack.manifest
    licences = ", ".join(manifest.licences) or "not named"
    lines = [
        f"from {manifest.origin}; {_signed(made.intake.pack.signer)}; licence {licences}",
        *(f"by {who}" for who in manifest.attribution),
    ]
    same = 0
    for standing, kind, name in lines_of(made.intake):
        same += standing is Standing.SAME
        if standing is not Standing.SAME:
            lines.append(f"{standing:12}{kind:10}{name}")
    lines.append(f"{same} the same as here")
    return "\n".join(lines if made.written else [*lines, "nothing was written"])


def _signed(signer: Signer) -> str:
    match signer.trust:
        case Trust.KNOWN:
            return f"signed with the key you know as {signer.name}"
        case Trust.UNKNOWN:
            return f"signed with a key you do not know ({signer.key})"
    return "not signed"
