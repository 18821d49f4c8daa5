"""Ways in for photos: chosen from the disk, dropped, pasted."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from authoring.editor.i18n import tr
from authoring.editor.session import Session
from authoring.editor.workshop.ladder_actions import Chosen
from authoring.editor.workshop.photo_intake import PhotoIntake, Source, sources_of


class PhotoActions(QObject):
    """Adds photos to the variant that is written."""

    def __init__(self, session: Session, chosen: Chosen, window: QWidget) -> None:
        super().__init__(window)
        self._session, self._chosen, self._window = session, chosen, window
        self.intake = PhotoIntake(session, self)
        self.dialog: QFileDialog | None = None

    def choose(self) -> None:
        """Choose files from the disk."""
        dialog = QFileDialog(self._window, tr("Add photos"))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.setNameFilter(tr("Pictures (*.png *.jpg *.jpeg *.webp)"))
        dialog.filesSelected.connect(lambda names: self.take([Path(name) for name in names]))
        dialog.finished.connect(dialog.deleteLater)
        self.dialog = dialog
        dialog.open()

    def paste(self) -> None:
        """Add the photo that the clipboard holds."""
        sources = sources_of(QApplication.clipboard().mimeData())
        if sources:
            self.take(sources)
        else:
            self._session.tell(tr("The clipboard holds no picture."))

    def take(self, sources: Sequence[Source]) -> None:
        """Add photos."""
        found = self._chosen()
        if found is None or found[1] is None:
            self._session.tell(tr("Add a variant first: pictures belong to one."))
            return
        self.intake.take(found[0].id, found[1].id, sources)
