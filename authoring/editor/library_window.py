"""A window over an opened library. Imported late: it brings everything with it."""

from __future__ import annotations

from pathlib import Path

from authoring.editor.appearance import Appearance
from authoring.editor.document import Document
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.files.library import OpenLibrary, open_library

__all__ = ["make_window", "open_library"]


def make_window(
    opened: OpenLibrary, settings: Settings, appearance: Appearance, data: Path | None
) -> MainWindow:
    """The window, not shown yet."""
    document = Document(opened)
    session = Session(document, settings, data=data)
    document.setParent(session)
    return MainWindow(session, appearance)
