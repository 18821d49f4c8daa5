"""A line of words that is pressed like a button, and goes on in the next line."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from authoring.editor.theme import Type, theme

_LEAST_HEIGHT = 24


class LinkLine(QAbstractButton):
    """Words underlined while the mouse is over them."""

    def __init__(
        self, words: str, name: str, style: Type = Type.STRONG, parent: QWidget | None = None
    ) -> None:
        """Args:
        name: what a screen reader says.
        """
        super().__init__(parent)
        self._style = style
        self.setText(words)
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def _flags(self) -> int:
        rtl = self.layoutDirection() == Qt.LayoutDirection.RightToLeft
        side = Qt.AlignmentFlag.AlignRight if rtl else Qt.AlignmentFlag.AlignLeft
        whole = side | Qt.AlignmentFlag.AlignAbsolute | Qt.AlignmentFlag.AlignVCenter
        return whole.value | Qt.TextFlag.TextWordWrap.value

    def _height(self, width: int) -> int:
        metrics = QFontMetrics(theme().font(self._style))
        room = QRect(0, 0, max(width, 1), 10_000)
        return max(metrics.boundingRect(room, self._flags(), self.text()).height(), self._least())

    def _least(self) -> int:
        return theme().px(_LEAST_HEIGHT)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._height(width)

    def sizeHint(self) -> QSize:
        metrics = QFontMetrics(theme().font(self._style))
        return QSize(metrics.horizontalAdvance(self.text()) + theme().px(2), self._least())

    def minimumSizeHint(self) -> QSize:
        return QSize(theme().px(60), self._least())

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        font = used.font(self._style)
        font.setUnderline(self.underMouse())
        painter = QPainter(self)
        painter.setFont(font)
        painter.setPen(used.colour("soft" if self._style is Type.SMALL else "ink"))
        painter.drawText(self.rect(), self._flags(), self.text())
        painter.end()
