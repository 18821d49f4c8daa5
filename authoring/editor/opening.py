"""What stands on the screen while the program and a library are being loaded."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from authoring.editor.i18n import tr
from authoring.editor.theme import Type, theme


class Opening(QWidget):
    """The window's ground with our name and one sentence; gone once a window is there."""

    def __init__(self, geometry: QByteArray) -> None:
        super().__init__()
        self.setObjectName("ground")
        self.setWindowTitle(tr("Rungbook"))
        self._sentence = tr("Opening the library…")
        self.setAccessibleName(self._sentence)
        self.resize(1366, 768)
        if not geometry.isEmpty():
            self.restoreGeometry(geometry)

    @property
    def sentence(self) -> str:
        """What it says."""
        return self._sentence

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        painter.fillRect(self.rect(), used.colour("ground"))
        high = used.px(76)
        painter.fillRect(0, 0, self.width(), high, used.colour("sheet"))
        painter.fillRect(0, high - 1, self.width(), 1, used.colour("rule"))
        painter.setPen(used.colour("ink"))
        painter.setFont(used.font(Type.STRONG))
        side = used.px(24)
        line = QRectF(side, used.px(28), self.width() - 2 * side, used.px(48))
        align = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeading
        painter.drawText(line, int(align), tr("Rungbook"))
        painter.setPen(used.colour("soft"))
        painter.setFont(used.font(Type.BODY))
        line.moveTop(high + used.px(12))
        painter.drawText(line, int(align), self._sentence)
        painter.end()
