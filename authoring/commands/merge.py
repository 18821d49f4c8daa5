"""``rungbook merge``: two people's versions of one file become one."""

from __future__ import annotations

from pathlib import Path

from authoring.commands.compare import titles_near
from authoring.commands.outcome import CommandError, Exit
from authoring.exchange.conflict import Side
from authoring.exchange.loose_ends import loose_ends
from authoring.exchange.merge import Merged, merge, prefer
from authoring.exchange.words import Words
from authoring.files.atomic import write_atomic
from authoring.files.documents import document_bytes, read_document
from authoring.files.formats import Document
from authoring.model.base import ModelError


def merge_files(
    base: Path, mine: Path, theirs: Path, output: Path, preferred: str | None
) -> tuple[str, ...]:
    """Write both sides' changes; each conflict that was settled, in one sentence.

    Args:
        preferred: whose change wins where both changed the same: mine, theirs or nobody's.

    Raises:
        FileProblem: a file can't be read, or the output not written.
        CommandError: conflicts are open, or the versions can't become one file; nothing is
            written.
    """
    side = Side(preferred) if preferred else None
    one, two, three = (read_document(path).document for path in (base, mine, theirs))
    try:
        merged = merge(one, two, three)
    except ModelError as error:
        raise CommandError(str(error), Exit.UNUSABLE) from error
    words = Words(merged.mine, merged.theirs, titles_near(mine))
    if merged.open and side is None:
        told = "\n".join(f"  {words.conflict(each)}" for each in merged.open)
        raise CommandError(
            f"Nothing was written: both sides changed the same.\n{told}\n"
            "Settle it with --prefer mine or --prefer theirs, or merge in the editor.",
            Exit.FOUND,
        )
    settled = merged if side is None else prefer(merged, side)
    write_atomic(output, document_bytes(_sound(settled)))
    return tuple(f"{words.conflict(each)} Settled for {preferred}." for each in settled.conflicts)


def _sound(merged: Merged[Document]) -> Document:
    """The merged file, where it is a file that may stand."""
    if merged.value is None:
        raise CommandError(
            f"Nothing was written: the versions don't make one file. {merged.fault}", Exit.FOUND
        )
    if loose := loose_ends(merged.value, merged.mine, merged.theirs):
        told = "\n".join(f"  {each}" for each in loose)
        raise CommandError(
            f"Nothing was written: the merged file has loose ends.\n{told}", Exit.FOUND
        )
    return merged.value
