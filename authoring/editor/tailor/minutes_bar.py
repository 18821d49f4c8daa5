"""The session as a bar: one piece for each exercise, as long as its minutes."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from authoring.editor.i18n import ltr, tr, tr_n
from authoring.editor.tailor.faces import PlanFace
from authoring.editor.theme import Type, theme


class MinutesBar(QWidget):
    """Numbers and minutes side by side; what is left of the time wanted is dashed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._parts: tuple[tuple[int, int], ...] = ()
        self._spare = 0
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_face(self, face: PlanFace) -> None:
        """Show a plan's minutes."""
        self._parts = tuple((item.number, item.minutes) for item in face.items)
        self._spare = max(0, (face.wanted or 0) - face.minutes)
        self.setAccessibleName(minutes_words(face))
        self.setVisible(bool(self._parts))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(theme().px(300), theme().px(26))

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        gap = used.px(2)
        pieces = len(self._parts) + bool(self._spare)
        whole = sum(minutes for _, minutes in self._parts) + self._spare
        room = self.width() - gap * max(pieces - 1, 0) - 1
        turned = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        x = 0.0
        for number, minutes in (*self._parts, *([(0, self._spare)] if self._spare else [])):
            wide = room * minutes / max(whole, 1)
            left = self.width() - 1 - x - wide if turned else x
            self._piece(painter, QRectF(left, 0, wide, self.height() - 1), number, minutes)
            x += wide + gap
        painter.end()

    def _piece(self, painter: QPainter, at: QRectF, number: int, minutes: int) -> None:
        used = theme()
        words = tr("{n} min", n=minutes) if number else tr("{n} to spare", n=minutes)
        if number:
            painter.fillRect(at, used.colour("gate"))
            thick = used.px(4)
            line = QRectF(at.left(), at.bottom() - thick, at.width(), thick)
            painter.fillRect(line, used.colour("accent"))
        else:
            painter.setPen(QPen(used.colour("edge"), 1, Qt.PenStyle.DashLine))
            painter.drawRect(at)
        painter.setFont(used.font(Type.SMALL))
        painter.setPen(used.colour("ink"))
        inside = at.adjusted(used.px(4), 0, -used.px(4), 0)
        long = ltr(f"{number}  {words}") if number else words
        fits = painter.fontMetrics().horizontalAdvance(long) <= inside.width()
        short = str(number) if number else str(minutes)
        flags = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeading
        painter.drawText(inside, int(flags), long if fits else short)


def minutes_words(face: PlanFace) -> str:
    """ "21 of 25 minutes", "About 21 minutes"."""
    if face.wanted is None:
        return tr_n("About {n} minute", "About {n} minutes", face.minutes)
    return tr("{n} of {wanted} minutes", n=face.minutes, wanted=face.wanted)
