"""The first page: nothing is open yet, and this says how to begin."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QMainWindow, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.messages import Message
from authoring.editor.parts.icons import Icon, IconView
from authoring.editor.parts.labels import label, line
from authoring.editor.settings import Settings
from authoring.editor.theme import Type, theme
from authoring.editor.toast import Toast


class FirstRun(QMainWindow):
    """Offers the example clinic, an empty library, or a folder that is there already.

    Signals:
        example_wanted(), empty_wanted(), folder_wanted(), library_wanted(Path)
    """

    example_wanted = Signal()
    empty_wanted = Signal()
    folder_wanted = Signal()
    library_wanted = Signal(object)

    def __init__(self, settings: Settings) -> None:
        super().__init__()
        self.setWindowTitle(tr("Rungbook"))
        used = theme()
        ground = QWidget()
        ground.setObjectName("ground")
        layout = QVBoxLayout(ground)
        layout.setContentsMargins(used.px(96), used.px(64), used.px(96), used.px(48))
        layout.setSpacing(used.px(12))
        layout.addWidget(IconView(Icon.LADDER, tr("Rungbook's mark"), size=48))
        layout.addWidget(label(tr("Begin with a library"), Type.DISPLAY))
        layout.addWidget(
            label(
                tr(
                    "A library is a folder of exercise cards and protocols. "
                    "It can lie on this computer or on the clinic's shared drive."
                ),
                soft=True,
                wrap=True,
            )
        )
        layout.addSpacing(used.px(12))
        self.example = self._offer(
            layout,
            tr("Look around the example clinic"),
            tr("Copies an invented clinic to a folder of yours. Change anything in it."),
            main=True,
        )
        self.empty = self._offer(
            layout,
            tr("Begin an empty library"),
            tr("Common positions, kit and movements are there; cards and protocols are yours."),
        )
        self.open = self._offer(
            layout, tr("Open a library folder"), tr("One that you or a colleague made before.")
        )
        self.example.clicked.connect(self.example_wanted)
        self.empty.clicked.connect(self.empty_wanted)
        self.open.clicked.connect(self.folder_wanted)
        self._recent(layout, settings.recent)
        layout.addStretch(1)
        self.setCentralWidget(ground)
        self.toast = Toast(self)
        self.resize(used.px(820), used.px(640))

    def warn(self, sentence: str) -> None:
        """Say why something could not be opened or begun."""
        self.toast.show_message(Message(sentence, is_problem=True))

    @staticmethod
    def _offer(layout: QVBoxLayout, name: str, words: str, *, main: bool = False) -> QPushButton:
        button = QPushButton(name)
        button.setAccessibleDescription(words)
        if main:
            button.setProperty("main", True)
            button.setDefault(True)
        layout.addWidget(button, 0, Qt.AlignmentFlag.AlignLeading)
        layout.addWidget(label(words, Type.SMALL, soft=True, wrap=True))
        layout.addSpacing(theme().px(8))
        return button

    def _recent(self, layout: QVBoxLayout, recent: Sequence[Path]) -> None:
        if not recent:
            return
        layout.addWidget(line())
        layout.addWidget(label(tr("Opened before"), Type.STRONG))
        for folder in recent[:4]:
            button = QPushButton(str(folder))
            button.setProperty("link", True)
            button.clicked.connect(lambda _=False, path=folder: self.library_wanted.emit(path))
            layout.addWidget(button, 0, Qt.AlignmentFlag.AlignLeading)
