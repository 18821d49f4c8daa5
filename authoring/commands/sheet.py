"""``rungbook sheet``: every picture of a library, and every stock pose, on one sheet."""

from __future__ import annotations

from pathlib import Path

from authoring.commands.outcome import CommandError, Exit, Tell, silent
from authoring.commands.sheet_cells import Sheet, sheet_of
from authoring.commands.sheet_image import as_png
from authoring.commands.sheet_page import as_html
from authoring.files.atomic import write_atomic
from authoring.files.errors import shown


def make_sheet(folder: Path, output: Path, tell: Tell = silent) -> Sheet:
    """Write the contact sheet of a library, whole or not at all.

    Args:
        folder: the library.
        output: file to write; .html or .png.

    Raises:
        FileProblem: the library can't be read, or the output not written.
        CommandError: the ending is none of ours.
    """
    ending = output.suffix.lower()
    if ending not in (".html", ".png"):
        raise CommandError(
            f"{shown(output)}: a contact sheet is a .html or .png file; name one that ends so.",
            Exit.UNUSABLE,
        )
    sheet = sheet_of(folder, tell)
    if ending == ".html":
        write_atomic(output, as_html(sheet).encode())
    else:
        write_atomic(output, as_png(sheet))
    return sheet
