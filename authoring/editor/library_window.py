"""A window over an opened library. Imported late: it brings everything with it."""

from __future__ import annotations

from pathlib import Path

from authoring.editor.appearance import Appearance
from authoring.editor.document import Document
from authoring.editor.rooms import ROOMS, bring_all
from authoring.editor.session import Session
from authoring.editor.settings import Settings
from authoring.editor.shell import MainWindow
from authoring.editor.spelling import dictionaries
from authoring.files.library import OpenLibrary, open_library

__all__ = ["FIRST_ROOM", "bring_all", "make_window", "read_library"]

FIRST_ROOM = ROOMS[0].key
"""The room that a window opens with."""


def read_library(folder: Path) -> OpenLibrary:
    """A library, and what its window needs at hand; on a thread, before there is a window.

    Raises:
        FileProblem: the folder holds no library that can be read.
    """
    opened = open_library(folder)
    dictionaries.load(opened.library.manifest.language)
    len(opened.library.stock_poses)  # read here, not when a room first asks for one
    return opened


def make_window(
    opened: OpenLibrary, settings: Settings, appearance: Appearance, data: Path | None
) -> MainWindow:
    """The window, not shown yet, and without a room."""
    document = Document(opened)
    session = Session(document, settings, data=data)
    document.setParent(session)
    return MainWindow(session, appearance, waiting=True)
