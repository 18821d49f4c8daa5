"""A layout that goes on in the next line, from the side where reading begins."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget

from authoring.editor.theme import theme


class FlowLayout(QLayout):
    """Items beside each other, as many as fit in each line."""

    def __init__(self, parent: QWidget | None = None, gap: int = 8) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self.setContentsMargins(0, 0, 0, 0)
        self.setSpacing(theme().px(gap))

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._lay(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._lay(rect, move=True)

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def minimumSize(self) -> QSize:
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        return size

    def _lay(self, rect: QRect, *, move: bool) -> int:
        parent = self.parentWidget()
        turned = parent is not None and parent.layoutDirection() == Qt.LayoutDirection.RightToLeft
        x, y, height = rect.left(), rect.top(), 0
        for item in self._items:
            if item.isEmpty():
                continue
            size = item.sizeHint()
            if x + size.width() > rect.right() + 1 and height:
                x, y, height = rect.left(), y + height + self.spacing(), 0
            if move:
                left = rect.left() + rect.right() + 1 - x - size.width() if turned else x
                item.setGeometry(QRect(QPoint(left, y), size))
            x += size.width() + self.spacing()
            height = max(height, size.height())
        return y + height - rect.top()
