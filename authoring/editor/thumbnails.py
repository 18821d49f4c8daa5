"""Pictures small enough for a plate: photos read from the disk, poses drawn on a thread."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import frozen
from PySide6.QtCore import QByteArray, QObject, QRectF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import QImage, QPainter, QPixmap
from PySide6.QtSvg import QSvgRenderer

from authoring.editor.document import Document
from authoring.editor.workers import LatestTask, Token
from authoring.figures.cache import stored_svg
from authoring.figures.wants import PoseError
from authoring.files.errors import FileProblem
from authoring.files.picture_store import picture_store
from authoring.model.card import Picture, Variant
from authoring.model.library import Library
from authoring.model.vocabulary import Phase

_AT_ONCE = 8
"""Poses drawn before the first of them are shown."""

_DENSITY = 2
"""Pixels of a picture for a pixel of the screen, so that it stays sharp on dense ones."""


@frozen
class _Wish:
    pose: str
    phase: Phase | None
    side: int


@frozen
class _Batch:
    library: Library
    wishes: tuple[_Wish, ...]


def shown_on_plate(variant: Variant | None) -> Picture | None:
    """The one picture that stands for a variant: a photo, else the last drawn moment.

    The last moment shows the movement: its arrow, and where it began.
    """
    if variant is None:
        return None
    photos = (picture for picture in variant.pictures if picture.image is not None)
    drawn = (picture for picture in reversed(variant.pictures) if picture.pose is not None)
    return next(photos, None) or next(drawn, None)


class Thumbnails(QObject):
    """Small pictures of a library; each is read or drawn once.

    Signals:
        drawn(): poses that were asked for before are there now.
    """

    drawn = Signal()

    def __init__(self, document: Document, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._poses = document.library.poses
        self._photos: dict[tuple[str, int], QPixmap | None] = {}
        self._drawings: dict[_Wish, QPixmap | None] = {}
        self._waiting: dict[_Wish, None] = {}
        self._task: LatestTask | None = None

    def of(self, picture: Picture | None, side: int) -> QPixmap | None:
        """A picture at most ``side`` logical pixels long.

        None where there is none, and for a pose that is still to be drawn: :attr:`drawn`
        tells when it is worth asking again.
        """
        if picture is None:
            return None
        if picture.image is not None:
            return self._photo(picture.image, side)
        return self._drawing(_Wish(picture.pose or "", picture.phase, side))

    # ---- photos ---------------------------------------------------------------

    def _photo(self, name: str, side: int) -> QPixmap | None:
        key = name, side
        if key not in self._photos:
            self._photos[key] = self._read(name, side)
        return self._photos[key]

    def _read(self, name: str, side: int) -> QPixmap | None:
        try:
            data = self._document.image_bytes(name)
        except FileProblem:
            return None
        picture = QImage.fromData(data or b"")
        if picture.isNull():
            return None
        size = QSize(side, side) * _DENSITY
        small = picture.scaled(
            size, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
        return _sharp(small)

    # ---- poses ----------------------------------------------------------------

    def _drawing(self, wish: _Wish) -> QPixmap | None:
        poses = self._document.library.poses
        if poses is not self._poses and poses != self._poses:
            self._drawings.clear()
        self._poses = poses
        if wish not in self._drawings and wish not in self._waiting:
            self._waiting[wish] = None
            if not self._worker().is_busy:
                self._worker().ask(self._next())
        return self._drawings.get(wish)

    def _worker(self) -> LatestTask:
        if self._task is None:
            self._task = LatestTask(_draw_all, delay_ms=0, parent=self)
            self._task.done.connect(self._take)
            self._task.failed.connect(lambda _error: self._take({}))
        return self._task

    def _next(self) -> _Batch:
        return _Batch(self._document.library, tuple(self._waiting)[:_AT_ONCE])

    def _take(self, made: dict[_Wish, QImage | None]) -> None:
        for wish in made or self._next().wishes:
            self._waiting.pop(wish, None)
            image = made.get(wish)
            self._drawings[wish] = None if image is None else _sharp(image)
        if self._waiting:
            self._worker().ask(self._next())
        self.drawn.emit()


def _sharp(image: QImage) -> QPixmap:
    made = QPixmap.fromImage(image)
    made.setDevicePixelRatio(_DENSITY)
    return made


def _draw_all(batch: _Batch, token: Token) -> dict[_Wish, QImage | None]:
    return dict(_each(batch, token))


def _each(batch: _Batch, token: Token) -> Iterable[tuple[_Wish, QImage | None]]:
    for wish in batch.wishes:
        token.check()
        yield wish, _draw(batch.library, wish)


def _draw(library: Library, wish: _Wish) -> QImage | None:
    """The picture without ground; None for a pose that is missing or can't be drawn."""
    pose = library.pose_called(wish.pose)
    if pose is None:
        return None
    try:
        svg = stored_svg(picture_store(), pose, wish.phase)
    except PoseError:
        return None
    renderer = QSvgRenderer(QByteArray(svg))
    natural = QSizeF(renderer.defaultSize())
    side = float(wish.side * _DENSITY)
    size = natural.scaled(side, side, Qt.AspectRatioMode.KeepAspectRatio)
    image = QImage(size.toSize(), QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    painter = QPainter(image)
    renderer.render(painter, QRectF(image.rect()))
    painter.end()
    return image
