"""What a room says while there is nothing to show in it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from authoring.editor.parts.icons import Icon, IconView
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme

_TOP, _WORDS, _MARK = 64, 560, 40


class EmptyPage(QWidget):
    """A title, what will stand here, and the one button that begins it, in the middle.

    Args:
        title: what is not there yet.
        words: one or two sentences that teach.
        button: begins it; None where nothing can.
    """

    def __init__(
        self, title: str, words: str, button: QPushButton | None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        used = theme()
        block = QWidget()
        block.setFixedWidth(used.px(_WORDS))
        inside = QVBoxLayout(block)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.setSpacing(used.px(12))
        inside.addWidget(IconView(Icon.LADDER, "", size=_MARK), 0, Qt.AlignmentFlag.AlignLeading)
        inside.addWidget(label(title, Type.TITLE, wrap=True))
        inside.addWidget(label(words, soft=True, wrap=True))
        if button is not None:
            button.setProperty("main", True)
            inside.addSpacing(used.px(4))
            inside.addWidget(button, 0, Qt.AlignmentFlag.AlignLeading)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(used.px(24), used.px(_TOP), used.px(24), used.px(24))
        layout.addWidget(block, 0, Qt.AlignmentFlag.AlignHCenter)
        layout.addStretch(1)
