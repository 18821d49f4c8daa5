"""Choices of the page room that hold for one library. No Qt widgets here."""

from __future__ import annotations

import hashlib
from pathlib import Path

from authoring.editor.settings import Settings


class Kept:
    """What was chosen for the pages of one library, by short keys.

    The folder's path is shortened to a key, as a path may hold signs that split keys.
    """

    def __init__(self, settings: Settings, folder: Path) -> None:
        self._settings = settings
        digest = hashlib.sha256(str(folder.absolute()).encode()).hexdigest()
        self._room = f"page/of/{digest[:16]}"

    def of(self, key: str) -> str:
        """What is kept, "" for nothing."""
        return self._settings.kept(f"{self._room}/{key}")

    def keep(self, key: str, words: str) -> None:
        """Keep a choice."""
        self._settings.keep(f"{self._room}/{key}", words)
