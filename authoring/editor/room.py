"""What every screen is: a room of the window that draws one immutable value."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from attrs import frozen
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QShowEvent
from PySide6.QtWidgets import QWidget

from authoring.checks.result import Subject
from authoring.editor.commands import Keys, command
from authoring.editor.session import Session
from authoring.model.library import Library


@frozen
class KeyHint:
    """One item of the key line: keys as people read them ("Alt →"), and what they do."""

    keys: str
    does: str


GROUP = "group"
"""Property of a command: the words of its submenu."""


class Room(QWidget):
    """Base of every screen.

    A room builds its widgets in ``__init__``, draws ``self.session.library`` in
    :meth:`refresh`, and edits only through ``self.session.document``. It is made when
    it is first opened, and made anew when text size or language change: keep what must
    outlive it in the session or the settings.

    Signals:
        key_hints_changed(): the key line should ask :meth:`key_hints` again (moving the
            focus does so by itself).
    """

    key_hints_changed = Signal()

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("whole", True)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.session = session
        self._drawn: Library | None = None
        session.document.changed.connect(self._on_change)

    # ---- what a room may say of itself ------------------------------------------

    def title(self) -> str:
        """Name of what is shown, for the window's title ("Lateral ankle sprain")."""
        return ""

    def key_hints(self) -> Sequence[KeyHint]:
        """Keys for what has the focus, most useful first; five or six fit."""
        return ()

    def show_place(self, subject: Subject, subject_id: str, path: str) -> None:
        """Show a place (a check's, or one found by search) and put the focus there."""

    def drop_files(self, paths: Sequence[Path]) -> bool:
        """Take files that were dropped on the window (pictures); False for what is not taken."""
        return False

    def refresh(self, before: Library, after: Library) -> None:
        """Draw the new value. Only called while the room is seen, or when it is seen again.

        Compare with ``is``: what no edit touched is the very same object in both. The
        first time, ``before`` is ``after``.
        """

    def focus_first(self) -> None:
        """Put the focus on the room's main part; called when the room is opened."""
        self.setFocus()

    # ---- for a room to use ------------------------------------------------------

    def add_command(
        self, name: str, run: Callable[[], object], *, keys: Keys = "", group: str = ""
    ) -> QAction:
        """Add a command of the room: to its menu, the shortcut sheet and the command search.

        ``actions()`` lists them. Its keys work while the focus is in the room.

        Args:
            group: the submenu that it stands in, in words; "" for the room's menu itself.
        """
        action = command(self, name, run, keys=keys)
        action.setProperty(GROUP, group)
        return action

    def refresh_all(self) -> None:
        """Draw the present value as if for the first time."""
        self._drawn = self.session.library
        self.refresh(self._drawn, self._drawn)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        after = self.session.library
        if self._drawn is not after:
            before, self._drawn = self._drawn, after
            self.refresh(after if before is None else before, after)

    def _on_change(self, _before: Library, after: Library) -> None:
        if self.isVisible() and self._drawn is not None:
            before, self._drawn = self._drawn, after
            self.refresh(before, after)
