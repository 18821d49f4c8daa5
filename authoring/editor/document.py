"""An open library and its edits: one value and one undo stack.

Views draw :attr:`Document.library` and call :meth:`Document.edit`; nothing else
changes anything. What the disk holds is the business of
:class:`authoring.editor.storage.Storage`.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from authoring.editor.edit_words import refusal
from authoring.editor.history import History
from authoring.editor.i18n import tr
from authoring.editor.library_edits import (
    with_card,
    with_images,
    with_protocol,
    with_reopened,
)
from authoring.files.library import OpenLibrary, read_images
from authoring.files.saving import SaveJob
from authoring.model.base import ModelError
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.protocol import Protocol

Edit = Callable[[Library], Library]


class Document(QObject):
    """An open library.

    Signals:
        changed(before, after): the value changed, by an edit, undo, redo or reload.
        dirty_changed(bool): whether there is unsaved work.
        history_changed(): what undo and redo would do.
        refused(str): an edit could not be made; one sentence for the user.
        reopened(id): an approved protocol was changed, and is a draft now.
    """

    changed = Signal(object, object)
    dirty_changed = Signal(bool)
    history_changed = Signal()
    refused = Signal(str)
    reopened = Signal(str)

    def __init__(self, opened: OpenLibrary, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self._on_disk = opened.library
        self._history: History[Library] = History(opened.library)
        self._images: dict[str, bytes] = {}
        self._doubted: frozenset[str] = frozenset()
        self._was_dirty = False

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
    def on_disk(self) -> Library:
        """What the files hold."""
        return self._on_disk

    @property
    def is_dirty(self) -> bool:
        """Whether there is unsaved work."""
        if self._doubted:
            return True
        return self.library is not self._on_disk and self.library != self._on_disk

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
            self.refused.emit(refusal(error))
            return False
        if not self._images.keys() <= after.images:
            after = with_images(after, self._images)
        after, drafts = with_reopened(self.library, after)
        self._become(self._history.edited(name, after, merge_key))
        for draft in drafts:
            self.reopened.emit(draft.id)
        return True

    def edit_card(
        self, name: str, card_id: str, change: Callable[[Card], Card], *, merge_key: str = ""
    ) -> bool:
        """Make one named edit of one card."""
        if card_id not in self.library.cards:
            self.refused.emit(tr("This card is not in the library any more."))
            return False
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
        if protocol_id not in self.library.protocols:
            self.refused.emit(tr("This protocol is not in the library any more."))
            return False
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
        before = self.library
        self._history = history
        if history.value is not before and history.value != before:
            self.changed.emit(before, history.value)
        self.history_changed.emit()
        self._tell_dirty()

    def _tell_dirty(self) -> None:
        if self.is_dirty != self._was_dirty:
            self._was_dirty = self.is_dirty
            self.dirty_changed.emit(self._was_dirty)

    # ---- pictures -------------------------------------------------------------

    def add_image(self, data: bytes, ending: str) -> str:
        """Keep the bytes of a picture for the next save; its name in the images folder.

        The next edit makes the name known to the library.

        Args:
            ending: "png" or "jpg".
        """
        name = f"{hashlib.sha256(data).hexdigest()}.{ending}"
        self._images[name] = data
        return name

    def image_bytes(self, name: str) -> bytes | None:
        """Bytes of a picture, kept or in the folder; None where there is none.

        Raises:
            FileProblem: the file is there and can't be read.
        """
        return self._images.get(name) or read_images(self.folder, [name]).get(name)

    def keep_images(self, images: Mapping[str, bytes]) -> None:
        """Keep pictures that a recovery file held."""
        self._images.update(images)

    # ---- the disk ---------------------------------------------------------------

    def snapshot(self) -> SaveJob:
        """What a save would write, as it stands now."""
        return SaveJob(self._opened, self._on_disk, self.library, dict(self._images), self._doubted)

    def doubt(self, keys: frozenset[str]) -> None:
        """Say which nouns the disk did not confirm: they count as unsaved; none after a save."""
        self._doubted = keys

    def settle(self, opened: OpenLibrary, written: Library) -> None:
        """Take over what the disk holds after a save or a look at it; the value stays."""
        self._opened, self._on_disk = opened, written
        self._tell_dirty()

    def take_over(self, name: str, opened: OpenLibrary, on_disk: Library, value: Library) -> None:
        """Take over what the disk holds and a value with it, as one step that can be undone."""
        self._opened, self._on_disk = opened, on_disk
        self._become(self._history.sealed().edited(name, value))
