"""Quiet lines above the pages: why they are a draft, why there are none, what is going on."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QProgressBar, QPushButton, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark, MarkView
from authoring.editor.theme import theme


class Notice(QFrame):
    """A mark, a sentence, and at most one thing to do about it; hidden while empty."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        layout = QHBoxLayout(self)
        gap = theme().px(12)
        layout.setContentsMargins(gap, theme().px(4), theme().px(4), theme().px(4))
        layout.setSpacing(gap)
        self._mark = MarkView(Mark.MUST)
        self._words = label(wrap=True)
        self.button = QPushButton()
        self.button.setProperty("quiet", True)
        self.button.clicked.connect(self._act)
        self._action: Callable[[], object] | None = None
        layout.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignVCenter)
        layout.addWidget(self._words, 1)
        layout.addWidget(self.button, 0, Qt.AlignmentFlag.AlignVCenter)
        self.setMinimumHeight(theme().px(40))
        self.hide()

    @property
    def sentence(self) -> str:
        """What it says, "" while hidden."""
        return self._words.text()

    def say(
        self,
        sentence: str,
        mark: Mark = Mark.MUST,
        action_name: str = "",
        action: Callable[[], object] | None = None,
    ) -> None:
        """Say a sentence, or hide for ""."""
        self._words.setText(sentence)
        self._mark.show_mark(mark)
        self._action = action
        self.button.setText(action_name)
        self.button.setVisible(action is not None)
        self.setAccessibleName(sentence)
        self.setVisible(bool(sentence))

    def _act(self) -> None:
        if self._action is not None:
            self._action()


class WorkLine(QFrame):
    """What is being done and how far it is, with a way to stop it.

    Signals:
        stop_wanted(): the user wants it stopped.
    """

    stop_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("panel", True)
        layout = QHBoxLayout(self)
        gap = theme().px(12)
        layout.setContentsMargins(gap, theme().px(4), theme().px(4), theme().px(4))
        layout.setSpacing(gap)
        self._words = label()
        self._bar = QProgressBar()
        self._bar.setTextVisible(False)
        self._bar.setMaximumHeight(theme().px(12))
        stop = QPushButton(tr("Stop"))
        stop.setProperty("quiet", True)
        stop.clicked.connect(self.stop_wanted)
        layout.addWidget(self._words)
        layout.addWidget(self._bar, 1)
        layout.addWidget(stop)
        self.hide()

    def begin(self, words: str) -> None:
        """Say what is being done; "" for nothing any more. Shown once it turns out slow."""
        self._words.setText(words)
        self._bar.setAccessibleName(words)
        self._bar.setRange(0, 0)
        if not words:
            self.hide()

    def show_progress(self, done: int, of: int) -> None:
        """Say how far it is."""
        self._bar.setRange(0, of)
        self._bar.setValue(done)
