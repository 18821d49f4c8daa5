"""Pages of a PDF as pictures, drawn on a thread of Qt's own."""

from __future__ import annotations

from PySide6.QtCore import QBuffer, QIODevice, QObject, QSize, Signal
from PySide6.QtGui import QImage
from PySide6.QtPdf import QPdfDocument, QPdfPageRenderer

from authoring.editor.page.spread import Size

_MOST_KEPT = 12
"""Pictures that are kept; a page in sight takes some five megabytes."""


class PageImages(QObject):
    """Draws pages of one PDF after the other; a page that is not drawn yet has its last picture.

    Signals:
        drawn(int): the picture of a page, by index from 0, is new.
    """

    drawn = Signal(int)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pdf = QPdfDocument(self)
        self._buffer = QBuffer(self)
        self._renderer = QPdfPageRenderer(self)
        self._renderer.setDocument(self._pdf)
        self._renderer.setRenderMode(QPdfPageRenderer.RenderMode.MultiThreaded)
        self._renderer.pageRendered.connect(self._take)
        self._images: dict[int, QImage] = {}
        self._asked: dict[int, tuple[int, QSize]] = {}
        self._fresh: set[int] = set()

    def load(self, data: bytes) -> None:
        """Draw this PDF from now on."""
        buffer = QBuffer(self)
        # The bytes must outlive the reading: a buffer over a passing array would not.
        buffer.setData(data)
        buffer.open(QIODevice.OpenModeFlag.ReadOnly)
        self._pdf.load(buffer)
        self._buffer.deleteLater()
        self._buffer = buffer
        self._asked.clear()
        self._fresh.clear()
        for index in [index for index in self._images if index >= self.count]:
            del self._images[index]

    @property
    def count(self) -> int:
        """Pages there are."""
        return self._pdf.pageCount()

    def sizes(self) -> list[Size]:
        """Size of each page in points."""
        found = [self._pdf.pagePointSize(index) for index in range(self.count)]
        return [(size.width(), size.height()) for size in found]

    def words(self, index: int) -> str:
        """The words of a page, in reading order."""
        return self._pdf.getAllText(index).text() if index < self.count else ""

    def image(self, index: int, size: QSize) -> QImage | None:
        """The newest picture of a page; one of ``size`` (in device pixels) is asked for."""
        image = self._images.get(index)
        if index not in self._fresh or image is None or image.size() != size:
            asked = self._asked.get(index)
            if asked is None or asked[1] != size:
                number = self._renderer.requestPage(index, size)
                self._asked[index] = (number, size)
        return image

    def _take(self, index: int, _size: QSize, image: QImage, _options: object, number: int) -> None:
        asked = self._asked.get(index)
        if asked is None or asked[0] != number or image.isNull():
            return
        self._images[index] = image
        self._fresh.add(index)
        for far in sorted(self._images, key=lambda kept: abs(kept - index))[_MOST_KEPT:]:
            del self._images[far]
            self._asked.pop(far, None)
        self.drawn.emit(index)
