"""The clinic's logo: chosen, dropped or pasted, and its words for people who can't see it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from PySide6.QtCore import QBuffer, QIODevice, QMimeData
from PySide6.QtGui import (
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QImage,
    QKeyEvent,
    QKeySequence,
    QPixmap,
)
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.editor.clinic_room.logo_file import read_logo
from authoring.editor.clinic_room.plate import Plate
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FieldRow
from authoring.editor.parts.fields.base import ValueField
from authoring.editor.parts.fields.text_field import TextField
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme
from authoring.editor.workers import LatestTask, sentence_of
from authoring.editor.workshop.photos import Photo
from authoring.files.errors import FileProblem
from authoring.model.base import evolve
from authoring.model.clinic import Logo
from authoring.model.text import Text

AskPicture = Callable[[QWidget], Path | None]
"""Ask for a picture file; None where the user turns back."""


def ask_for_picture(parent: QWidget) -> Path | None:
    """Ask with the system's own dialog."""
    kinds = tr("Pictures (*.png *.jpg *.jpeg *.webp)")
    chosen, _ = QFileDialog.getOpenFileName(parent, tr("Choose the logo"), "", kinds)
    return Path(chosen) if chosen else None


class LogoField(ValueField):
    """A :class:`Logo` or None. The bytes go to the document, which writes them at Save."""

    def __init__(self, context: FormContext, first_words: Callable[[], Text]) -> None:
        """Args:
        context: the clinic's record, whose document keeps the bytes.
        first_words: words for a new logo: the clinic's name.
        """
        super().__init__()
        self._document, self._first_words = context.session.document, first_words
        self.ask: AskPicture = ask_for_picture
        self.edit_name = ""
        self.setAcceptDrops(True)
        self._task = LatestTask(read_logo, delay_ms=0, parent=self)
        self._task.done.connect(self._imported)
        self._task.failed.connect(lambda error: self.refuse(sentence_of(error)))
        self._build(context)

    def _build(self, context: FormContext) -> None:
        used = theme()
        self._plate = Plate()
        self.choose_button = self._button(tr("Choose a picture…"), self.choose)
        self.paste_button = self._button(tr("Paste"), self.paste)
        self.remove_button = self._button(tr("Remove"), self.remove)
        buttons = QHBoxLayout()
        buttons.setSpacing(used.px(8))
        for button in (self.choose_button, self.paste_button, self.remove_button):
            buttons.addWidget(button)
        buttons.addStretch(1)
        side = QVBoxLayout()
        side.setSpacing(used.px(4))
        side.addLayout(buttons)
        hint = tr("PNG, JPEG or WebP; drop it here, too. Place, camera and time are taken out.")
        side.addWidget(label(hint, Type.SMALL, soft=True, wrap=True))
        side.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(used.px(12))
        row.addWidget(self._plate)
        row.addLayout(side, 1)
        self.layout_.addLayout(row)
        self.alt = TextField(context.own, context.language)
        self.alt.mark_spelling(context.session)
        self.alt.edited.connect(self._take_alt)
        self.alt.ended.connect(self.ended)
        help_text = tr("A logo's words are mostly the clinic's name.")
        words = tr("Words for people who can't see it")
        self.alt_row = FieldRow(words, self.alt, help_text, show_help=True)
        self.layout_.addWidget(self.alt_row)
        self.setFocusProxy(self.choose_button)

    @staticmethod
    def _button(words: str, run: Callable[[], object]) -> QPushButton:
        button = QPushButton(words)
        button.clicked.connect(lambda _checked=False: run())
        return button

    # ---- the value ------------------------------------------------------------

    def show_value(self, value: Any) -> None:
        """Show a logo or None."""
        old, self.value = self.value, value
        self.remove_button.setEnabled(value is not None)
        self.alt_row.setVisible(value is not None)
        if value is None:
            self._plate.show_words(tr("No logo"))
            self._say("")
            return
        if self.alt.value != value.alt:
            self.alt.show_value(value.alt)
        self.alt_row.say("")
        if not isinstance(old, Logo) or old.image != value.image or self._plate.words:
            self._draw(value)

    def name_controls(self, name: str, description: str = "") -> None:
        """Name the buttons."""
        for button in (self.choose_button, self.paste_button, self.remove_button):
            button.setAccessibleName(f"{name}: {button.text().rstrip('…')}")
            button.setAccessibleDescription(description)

    def _draw(self, logo: Logo) -> None:
        try:
            data = self._document.image_bytes(logo.image)
        except FileProblem as problem:
            self.refuse(str(problem))
            return
        picture = QImage.fromData(data) if data else QImage()
        if picture.isNull():
            self._plate.show_words(tr("Missing"))
            self.refuse(tr("The file of the logo is missing; choose it again."))
            return
        self._say("")
        self._plate.show_picture(picture)

    def _take_alt(self, text: Text) -> None:
        if not isinstance(self.value, Logo):
            return
        if not text:
            self.alt_row.say(tr("Say in a few words what the logo shows."))
            return
        self.alt_row.say("")
        self.edit_key, self.edit_name = "alt", ""
        self.offer(evolve(self.value, alt=text))

    # ---- taking a picture -------------------------------------------------------

    @property
    def is_busy(self) -> bool:
        """Whether a picture is being read."""
        return self._task.is_busy

    def choose(self) -> None:
        """Ask for a file."""
        path = self.ask(self)
        if path is not None:
            self.take(path)

    def paste(self) -> None:
        """Take the picture that was copied."""
        if not self._take_mime(QGuiApplication.clipboard().mimeData()):
            self.refuse(tr("No picture has been copied."))

    def remove(self) -> None:
        """Take the logo off."""
        self.edit_key, self.edit_name = None, tr("Remove the logo")
        self.offer(None)
        self.show_value(None)

    def take(self, source: Path | bytes) -> None:
        """Read a picture away from the window and make it the logo."""
        self._say("")
        self._task.ask_now(source)

    def _imported(self, photo: Photo) -> None:
        name = self._document.add_image(photo.data, photo.ending)
        self.edit_key, self.edit_name = None, tr("Choose the logo")
        old = self.value
        if isinstance(old, Logo):
            made = evolve(old, image=name)
        else:
            made = Logo(image=name, alt=self._first_words())
        self.offer(made)
        self.value = old
        self.show_value(made)

    def _take_mime(self, data: QMimeData) -> bool:
        for url in data.urls():
            if url.isLocalFile():
                self.take(Path(url.toLocalFile()))
                return True
        picture = data.imageData() if data.hasImage() else None
        image = picture.toImage() if isinstance(picture, QPixmap) else picture
        if not isinstance(image, QImage) or image.isNull():
            return False
        buffer = QBuffer()
        buffer.open(QIODevice.OpenModeFlag.WriteOnly)
        image.save(buffer, "PNG")  # type: ignore[call-overload]  # the stubs want bytes here
        self.take(bytes(buffer.data().data()))
        return True

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Paste):
            self.paste()
        else:
            super().keyPressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        data = event.mimeData()
        if data.hasImage() or any(url.isLocalFile() for url in data.urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        if self._take_mime(event.mimeData()):
            event.acceptProposedAction()
