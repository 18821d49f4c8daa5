"""An open library and its edits: one value, one undo stack, one place that saves.

Views draw :attr:`Document.library` and call :meth:`Document.edit`; nothing else
changes anything. Saving writes only the files whose value differs from the disk.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from authoring.editor.history import History
from authoring.editor.i18n import tr
from authoring.editor.library_edits import changed_nouns, with_card, with_protocol
from authoring.files.fingerprint import Fingerprint
from authoring.files.formats import Document as FileNoun
from authoring.files.library import OpenLibrary, file_of, save_together
from authoring.model.base import ModelError, evolve
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol

Edit = Callable[[Library], Library]


class Document(QObject):
    """An open library.

    Signals:
        changed(before, after): the value changed, by an edit, undo, redo or reload.
        dirty_changed(bool): whether there is unsaved work.
        saved(): every changed file is on the disk.
        refused(str): an edit could not be made; one sentence for the user.
    """

    changed = Signal(object, object)
    dirty_changed = Signal(bool)
    saved = Signal()
    refused = Signal(str)

    def __init__(self, opened: OpenLibrary, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._on_disk = opened.library
        self._saved_at: dt.datetime | None = None
        self._history: History[Library] = History(opened.library)

    # ---- the value ------------------------------------------------------------

    @property
    def folder(self) -> Path:
        """The library folder."""
        return self._opened.folder

    @property
    def opened(self) -> OpenLibrary:
        """The folder as it was last read or saved."""
        return self._opened

    @property
    def library(self) -> Library:
        """The value as it stands now."""
        return self._history.value

    @property
    def is_dirty(self) -> bool:
        """Whether there is unsaved work."""
        return self.library != self._on_disk

    def state_words(self) -> str:
        """Whether the work is saved, for the foot of the window."""
        if self.is_dirty:
            return tr("Not saved yet")
        if self._saved_at is None:
            return tr("Nothing to save")
        clock = self._saved_at.strftime("%H:%M")
        return tr("Saved {time} to {folder}", time=clock, folder=self.folder.name)

    @property
    def undo_name(self) -> str:
        """Name of the edit that undo takes back, "" for none."""
        return self._history.undo_name

    @property
    def redo_name(self) -> str:
        """Name of the edit that redo brings back, "" for none."""
        return self._history.redo_name

    @property
    def can_undo(self) -> bool:
        """Whether there is an edit to take back."""
        return bool(self._history.steps)

    @property
    def can_redo(self) -> bool:
        """Whether there is an undone edit to bring back."""
        return bool(self._history.undone)

    # ---- edits ----------------------------------------------------------------

    def edit(self, name: str, change: Edit, *, merge_key: str = "") -> bool:
        """Make one named edit; False where it could not be made (and `refused` says why).

        Args:
            name: what the menu calls it ("Move entry").
            change: pure function from the library before to the library after.
            merge_key: not empty for typing, so that one word is one step of undo.
        """
        try:
            after = change(self.library)
        except ModelError as error:
            self.refused.emit(error.sentence)
            return False
        self._become(self._history.edited(name, after, merge_key))
        return True

    def edit_card(
        self, name: str, card_id: str, change: Callable[[Card], Card], *, merge_key: str = ""
    ) -> bool:
        """Make one named edit of one card."""
        return self.edit(
            name,
            lambda library: with_card(library, change(library.cards[card_id])),
            merge_key=merge_key,
        )

    def edit_protocol(
        self,
        name: str,
        protocol_id: str,
        change: Callable[[Protocol], Protocol],
        *,
        merge_key: str = "",
    ) -> bool:
        """Make one named edit of one protocol."""
        return self.edit(
            name,
            lambda library: with_protocol(library, change(library.protocols[protocol_id])),
            merge_key=merge_key,
        )

    def seal(self) -> None:
        """End the step of undo that typing has been going into."""
        self._history = self._history.sealed()

    def undo(self) -> None:
        """Take the last edit back."""
        self._become(self._history.undo())

    def redo(self) -> None:
        """Bring back what was undone last."""
        self._become(self._history.redo())

    def _become(self, history: History[Library]) -> None:
        before, was_dirty = self.library, self.is_dirty
        self._history = history
        if history.value != before:
            self.changed.emit(before, history.value)
        if self.is_dirty != was_dirty:
            self.dirty_changed.emit(self.is_dirty)

    # ---- saving ---------------------------------------------------------------

    def unsaved(self) -> tuple[FileNoun, ...]:
        """The nouns whose file on the disk differs from the value."""
        return changed_nouns(self._on_disk, self.library)

    def save(self) -> None:
        """Write every changed file, all together or none.

        Raises:
            OutsideChange: a file changed on disk since it was read; nothing was written.
            FileProblem: the files can't be written; the work is still here.
        """
        nouns = self.unsaved()
        if nouns:
            self._settle(save_together(self._opened, nouns))
        self.saved.emit()

    def _settle(self, written: Mapping[Path, Fingerprint]) -> None:
        was_dirty = self.is_dirty
        self._on_disk = self.library
        self._saved_at = dt.datetime.now(tz=dt.UTC).astimezone()
        self._opened = evolve_opened(self._opened, self.library, written)
        if was_dirty:
            self.dirty_changed.emit(self.is_dirty)

    def reloaded(self, opened: OpenLibrary) -> None:
        """Take over the folder as it was read anew; edits before it can still be undone."""
        self._opened = opened
        self._on_disk = opened.library
        self._become(self._history.edited("", opened.library))
        self.dirty_changed.emit(self.is_dirty)


def evolve_opened(
    opened: OpenLibrary, library: Library, written: Mapping[Path, Fingerprint]
) -> OpenLibrary:
    """The folder after a save: new baselines, and paths of files that are new."""
    paths = dict(opened.paths)
    nouns: list[Card | Protocol] = [*library.cards.values(), *library.protocols.values()]
    for noun in nouns:
        paths.setdefault(noun.id, opened.folder / file_of(noun))
    baselines = {**opened.baselines, **written}
    return evolve(opened, library=library, baselines=baselines, paths=paths)
