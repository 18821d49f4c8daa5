"""The light plate that a picture stands on in every theme, and pictures small enough for it."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPen, QPixmap

from authoring.editor.document import Document
from authoring.editor.theme import Type, theme
from authoring.files.errors import FileProblem


def paint_plate(painter: QPainter, at: QRect, picture: QPixmap | None, words: str) -> None:
    """Paint a plate with its picture, or an empty one that says so in words."""
    used = theme()
    painter.save()
    if picture is not None and not picture.isNull():
        painter.fillRect(at, used.colour("plate"))
        size = picture.deviceIndependentSize().toSize()
        size.scale(at.size(), Qt.AspectRatioMode.KeepAspectRatio)
        place = QRect(at.topLeft(), size)
        place.moveCenter(at.center())
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawPixmap(place, picture)
    else:
        painter.setPen(QPen(used.colour("edge"), 1, Qt.PenStyle.DashLine))
        painter.drawRect(at.adjusted(0, 0, -1, -1))
        painter.setPen(used.colour("soft"))
        painter.setFont(used.font(Type.SMALL))
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        painter.drawText(at.adjusted(1, 1, -1, -1), flags, words)
    painter.restore()


class Thumbnails:
    """Pictures of a library, small; each is read from the disk once."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._made: dict[tuple[str, int], QPixmap | None] = {}

    def of(self, name: str, side: int) -> QPixmap | None:
        """A picture at most ``side`` logical pixels long; None where there is none to read."""
        if not name:
            return None
        key = name, side
        if key not in self._made:
            self._made[key] = self._read(name, side)
        return self._made[key]

    def _read(self, name: str, side: int) -> QPixmap | None:
        try:
            data = self._document.image_bytes(name)
        except FileProblem:
            return None
        picture = QImage.fromData(data or b"")
        if picture.isNull():
            return None
        size = QSize(side, side) * 2
        small = picture.scaled(
            size, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
        made = QPixmap.fromImage(small)
        made.setDevicePixelRatio(2)
        return made
