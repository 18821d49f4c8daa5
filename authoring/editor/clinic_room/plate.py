"""Where a picture stands: on a light plate in every theme, as on paper."""

from __future__ import annotations

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from authoring.editor.theme import Type, theme


class Plate(QWidget):
    """A picture, or words in a dashed outline where there is none."""

    def __init__(self) -> None:
        super().__init__()
        self.words = ""
        self._picture = QImage()
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(theme().px(160), theme().px(88))

    def show_words(self, words: str) -> None:
        """Show words in place of a picture."""
        self.words, self._picture = words, QImage()
        self.setAccessibleName(words)
        self.update()

    def show_picture(self, picture: QImage) -> None:
        """Show a picture."""
        self.words, self._picture = "", picture
        self.setAccessibleName("")
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        at = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter = QPainter(self)
        if self._picture.isNull():
            painter.setPen(QPen(used.colour("edge"), 1, Qt.PenStyle.DashLine))
            painter.drawRect(at)
            painter.setPen(used.colour("soft"))
            painter.setFont(used.font(Type.SMALL))
            painter.drawText(at, int(Qt.AlignmentFlag.AlignCenter), self.words)
        else:
            painter.fillRect(at, used.colour("plate"))
            painter.setPen(QPen(used.colour("rule"), 1))
            painter.drawRect(at)
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.drawImage(self._place(), self._picture)
        painter.end()

    def _place(self) -> QRect:
        margin = theme().px(8)
        room = self.rect().adjusted(margin, margin, -margin, -margin)
        size = self._picture.size().scaled(room.size(), Qt.AspectRatioMode.KeepAspectRatio)
        found = QRect(room.topLeft(), size)
        found.moveCenter(room.center())
        return found
