"""What every page of the library room is."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from authoring.editor.room import KeyHint
from authoring.editor.session import Session
from authoring.model.library import Library


class LibraryPage(QWidget):
    """Base of the pages. A page draws only while it is seen.

    Signals:
        moved(): the focus or the chosen row changed; key hints may differ.
        counted(text): a short count for the page's button ("12"), "" for none.
        replace_wanted(Wish): words to be found and replaced on the page for that.
    """

    moved = Signal()
    counted = Signal(str)
    replace_wanted = Signal(object)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session = session

    def refresh(self, before: Library, after: Library) -> None:
        """Draw the library; the first time ``before`` is ``after``."""

    def focus_first(self) -> None:
        """Put the focus on the main part."""

    def hints(self) -> Sequence[KeyHint]:
        """Keys for what has the focus."""
        return ()
