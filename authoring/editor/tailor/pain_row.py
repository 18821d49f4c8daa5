"""Pain from 0 to 10 in one row; a heavy line stands after the most that the protocol allows."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleValueChangeEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from authoring.editor.i18n import tr
from authoring.editor.theme import Type, theme

_MOST = 10


class PainRow(QWidget):
    """Eleven cells, one chosen or none. A digit chooses; 1 and then 0 is ten; Delete clears.

    Signals:
        chosen(int or None)
    """

    chosen = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._name = name
        self.value: float | None = None
        self.limit: float | None = None
        self._one = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.show_pain(None, None)

    def show_pain(self, value: float | None, limit: float | None) -> None:
        """Show a pain and the protocol's limit; None for not scored, and for no limit."""
        self.value, self.limit = value, limit
        chosen = tr("not scored") if value is None else f"{value:g}"
        name = tr("{name}: {value}", name=self._name, value=chosen)
        if limit is not None:
            name = tr("{name}; up to {limit} is allowed", name=name, limit=f"{limit:g}")
        if name != self.accessibleName():
            self.setAccessibleName(name)
            QAccessible.updateAccessibility(QAccessibleValueChangeEvent(self, chosen))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(theme().px(11 * 24), theme().px(27))

    def minimumSizeHint(self) -> QSize:
        return QSize(theme().px(11 * 20), theme().px(27))

    # ---- keys and mouse -----------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        words = event.text()
        steps = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}
        if len(words) == 1 and words.isdecimal():
            digit = int(words)
            ten = self._one and digit == 0
            self._one = digit == 1
            self._choose(_MOST if ten else digit)
        elif event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self._choose(None)
        elif Qt.Key(event.key()) in steps:
            step = steps[Qt.Key(event.key())]
            step = -step if self._turned else step
            now = -1 if self.value is None else round(self.value)
            self._choose(min(max(now + step, 0), _MOST))
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        for number in range(_MOST + 1):
            if self.cell(number).contains(event.position().toPoint()):
                self._choose(None if number == self.value else number)
                return

    def _choose(self, value: int | None) -> None:
        if value != self.value:
            self.show_pain(value, self.limit)
            self.chosen.emit(value)

    # ---- painting -----------------------------------------------------------------

    @property
    def _turned(self) -> bool:
        return self.layoutDirection() == Qt.LayoutDirection.RightToLeft

    def cell(self, number: int) -> QRect:
        """The cell of a number."""
        at = _MOST - number if self._turned else number
        left = round(at * (self.width() - 1) / (_MOST + 1))
        right = round((at + 1) * (self.width() - 1) / (_MOST + 1))
        return QRect(left, 0, right - left, self.height() - 1)

    def paintEvent(self, _event: QPaintEvent) -> None:
        used = theme()
        painter = QPainter(self)
        for number in range(_MOST + 1):
            at = self.cell(number)
            on = number == self.value
            painter.setPen(QPen(used.colour("edge"), 1))
            painter.setBrush(used.colour("fill" if on else "sheet"))
            painter.drawRect(at)
            painter.setPen(used.colour("on-accent" if on else "ink"))
            painter.setFont(used.font(Type.STRONG if on else Type.ENTRY))
            painter.drawText(QRectF(at), Qt.AlignmentFlag.AlignCenter, str(number))
        self._paint_limit(painter)
        painter.end()

    def _paint_limit(self, painter: QPainter) -> None:
        if self.limit is None or self.limit >= _MOST:
            return
        used = theme()
        at = self.cell(int(self.limit))
        x = at.left() if self._turned else at.right() + 1
        painter.setPen(QPen(used.colour("ink"), used.px(3)))
        painter.drawLine(QPointF(x, 0), QPointF(x, self.height()))
