"""Copying variants to the clipboard, pictures included, and pasting them into any card."""

from __future__ import annotations

import base64
import json

from PySide6.QtCore import QMimeData, QObject, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from authoring.dosage.clip_text import as_text
from authoring.editor.i18n import tr, tr_n
from authoring.editor.session import Session
from authoring.editor.stage_map.clipboard import clip_data, clip_of
from authoring.editor.workshop.ladder_actions import Chosen
from authoring.editor.workshop.photo_actions import PhotoActions
from authoring.editor.workshop.photo_intake import sources_of
from authoring.editor.workshop.photos import PhotoProblem, prepared
from authoring.editor.workshop.words import variant_name
from authoring.files.errors import FileProblem
from authoring.handout.catalogue import load_phrases
from authoring.model.edits.clip import Clip, clip_variants, images_in
from authoring.model.edits.copying import paste_variants
from authoring.model.library import Library

IMAGES_MIME = "application/x-rungbook-images+json"


class ClipActions(QObject):
    """Copy and paste on the ladder.

    Signals:
        pasted(variant id): the last of the variants that came.
    """

    pasted = Signal(str)

    def __init__(
        self, session: Session, chosen: Chosen, photos: PhotoActions, window: QWidget
    ) -> None:
        super().__init__(window)
        self._session, self._chosen, self._photos = session, chosen, photos

    def copy(self) -> None:
        """Put the chosen variant on the clipboard, for us and as words for other programs."""
        found = self._chosen()
        if found is None or found[1] is None:
            return
        card, variant = found[0], found[1]
        clip = clip_variants(self._session.library, card=card.id, variants=[variant.id])
        data = clip_data(clip, as_text(clip, load_phrases("en")))
        data.setData(IMAGES_MIME, self._images(clip))
        QGuiApplication.clipboard().setMimeData(data)
        name = variant_name(card, variant, self._session.text_language)
        self._session.tell(tr("“{name}” is copied.", name=name))

    def _images(self, clip: Clip) -> bytes:
        found: dict[str, str] = {}
        for name in sorted(images_in(clip)):
            try:
                data = self._session.document.image_bytes(name)
            except FileProblem:
                data = None
            if data is not None:
                found[name] = base64.b64encode(data).decode("ascii")
        return json.dumps(found).encode("ascii")

    def paste(self) -> None:
        """Add the variants on the clipboard to the card, or a picture to the variant."""
        mime = QGuiApplication.clipboard().mimeData()
        clip = clip_of(mime)
        if clip is not None and clip.variants:
            self._paste(clip, mime)
        elif sources_of(mime):
            self._photos.paste()
        else:
            self._session.tell(tr("There is nothing on the clipboard that fits here."))

    def _paste(self, clip: Clip, mime: QMimeData) -> None:
        found = self._chosen()
        if found is None:
            return
        card, made = found[0], list[str]()
        document = self._session.document
        for data, ending in _pictures(mime, images_in(clip) - self._session.library.images):
            document.add_image(data, ending)

        def change(library: Library) -> Library:
            edited = paste_variants(library, clip, card=card.id)
            made.extend(edited.select)
            return edited.value

        name = tr_n("Paste a variant", "Paste {n} variants", len(clip.variants))
        if document.edit(name, change):
            self.pasted.emit(made[-1])


def _pictures(mime: QMimeData, wanted: frozenset[str]) -> list[tuple[bytes, str]]:
    """Pictures that came along and are really pictures, each with its ending."""
    try:
        sent = json.loads(bytes(mime.data(IMAGES_MIME).data()) or b"{}")
        decoded = {name: base64.b64decode(sent[name]) for name in wanted if name in sent}
    except (ValueError, TypeError, AttributeError):
        return []
    found = []
    for name, data in decoded.items():
        try:
            prepared(data, name)
        except PhotoProblem:
            continue
        found.append((data, name.rpartition(".")[2]))
    return found
