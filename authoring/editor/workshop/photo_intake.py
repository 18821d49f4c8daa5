"""Takes photos from files, drops and the clipboard into a variant, away from the window."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from attrs import frozen
from PySide6.QtCore import QBuffer, QIODevice, QMimeData, QObject, Signal
from PySide6.QtGui import QImage

from authoring.editor.i18n import tr, tr_n
from authoring.editor.session import Session
from authoring.editor.workers import LatestTask, Token, sentence_of
from authoring.editor.workshop.photos import Photo, PhotoProblem, prepared
from authoring.model.card import Card, Picture
from authoring.model.edits.variants import add_picture
from authoring.model.text import Text

Source = Path | QImage
"""A file, or what the clipboard or another program hands over as pixels."""


@frozen
class Wish:
    """Photos that are to go into a variant."""

    card: str
    variant: str
    sources: tuple[Source, ...]


def sources_of(mime: QMimeData | None) -> tuple[Source, ...]:
    """The photos in what was dropped or pasted: files first, else pixels."""
    if mime is None:
        return ()
    files = tuple(Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile())
    if files:
        return files
    picture = mime.imageData() if mime.hasImage() else None
    return (picture,) if isinstance(picture, QImage) and not picture.isNull() else ()


class PhotoIntake(QObject):
    """Reads and cleans photos on a thread, then adds them in one step of undo.

    Signals:
        added(variant id): its last picture is new.
    """

    added = Signal(str)

    def __init__(self, session: Session, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._wishes: tuple[Wish, ...] = ()
        self.task = LatestTask(_work, delay_ms=0, parent=self)
        self.task.done.connect(self._take)
        self.task.failed.connect(self._fail)

    def take(self, card: str, variant: str, sources: Sequence[Source]) -> None:
        """Add photos to a variant as soon as they are read."""
        if sources:
            # Asking again drops the wish before, so the new one holds that one too.
            self._wishes = (*self._wishes, Wish(card, variant, tuple(sources)))
            self.task.ask_now(self._wishes)

    def _take(self, results: Sequence[tuple[Wish, list[Photo], list[str]]]) -> None:
        self._wishes = ()
        for wish, photos, problems in results:
            if photos:
                self._add(wish, photos)
            for sentence in problems:
                self._session.tell(sentence)

    def _add(self, wish: Wish, photos: Sequence[Photo]) -> None:
        document = self._session.document
        names = [document.add_image(photo.data, photo.ending) for photo in photos]
        pictures = [Picture(image=name, alt=Text.plain("")) for name in names]

        def change(card: Card) -> Card:
            for picture in pictures:
                card = add_picture(card, variant=wish.variant, picture=picture).value
            return card

        name = tr_n("Add a picture", "Add {n} pictures", len(pictures))
        if wish.card in document.library.cards and document.edit_card(name, wish.card, change):
            self.added.emit(wish.variant)

    def _fail(self, error: Exception) -> None:
        self._wishes = ()
        self._session.tell(sentence_of(error))


def _work(wishes: Sequence[Wish], token: Token) -> list[tuple[Wish, list[Photo], list[str]]]:
    return [(wish, *_read(wish.sources, token)) for wish in wishes]


def _read(sources: Sequence[Source], token: Token) -> tuple[list[Photo], list[str]]:
    photos: list[Photo] = []
    problems: list[str] = []
    for index, source in enumerate(sources):
        token.step(index, len(sources))
        try:
            photos.append(prepared(*_bytes_of(source)))
        except PhotoProblem as problem:
            problems.append(problem.sentence)
    return photos, problems


def _bytes_of(source: Source) -> tuple[bytes, str]:
    if isinstance(source, QImage):
        buffer = QBuffer()
        buffer.open(QIODevice.OpenModeFlag.WriteOnly)
        source.save(buffer, "PNG")  # type: ignore[call-overload]  # stubs want bytes
        return bytes(buffer.data().data()), tr("The pasted picture")
    try:
        return source.read_bytes(), source.name
    except OSError as error:
        reason = error.strerror or str(error)
        raise PhotoProblem(
            tr("{name} can't be read: {reason}.", name=source.name, reason=reason)
        ) from error
