"""Edits a library, waits for the recovery copy, says so and waits to be killed."""

import sys
from pathlib import Path

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QApplication

from authoring.editor.document import Document
from authoring.editor.library_edits import without_card
from authoring.editor.storage import Storage
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.text import Text


def main(folder: Path, data: Path, card: str, gone: str) -> None:
    """Never returns: it waits to be killed."""
    app = QApplication([])
    document = Document(open_library(folder))
    storage = Storage(document, data)
    assert storage.claim()
    document.edit_card("Rename", card, lambda c: evolve(c, title=Text.plain("Lost and found")))
    document.edit("Remove", lambda library: without_card(library, gone))
    storage.keep()
    storage.jobs.finish()
    sys.stdout.write("kept\n")
    sys.stdout.flush()
    QCoreApplication.exec()
    del app


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3], sys.argv[4])
