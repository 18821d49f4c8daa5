"""Questions about work that might be lost. Each is one dialog with plain verbs."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.theme import Type, theme

_MOST_NAMES = 12


class Question(QDialog):
    """A sentence, what it is about, and a button for each answer; the first is the main one."""

    def __init__(
        self,
        title: str,
        sentence: str,
        lines: Sequence[str] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setMinimumWidth(theme().px(460))
        layout = QVBoxLayout(self)
        gap = theme().px(24)
        layout.setContentsMargins(gap, gap, gap, theme().px(16))
        layout.setSpacing(theme().px(12))
        layout.addWidget(label(title, Type.HEADING, wrap=True))
        self.sentence = label(sentence, wrap=True)
        layout.addWidget(self.sentence)
        shown = [*lines[:_MOST_NAMES]]
        if len(lines) > _MOST_NAMES:
            shown.append(tr("and {n} more", n=len(lines) - _MOST_NAMES))
        self.lines = shown
        for line in shown:
            layout.addWidget(label(line, Type.SMALL, soft=True, wrap=True))
        self._buttons = QHBoxLayout()
        self._buttons.setSpacing(theme().px(8))
        layout.addSpacing(theme().px(8))
        layout.addLayout(self._buttons)
        self._buttons.addStretch(1)
        self.answers: dict[str, QPushButton] = {}
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)

    def answer(self, words: str, then: Callable[[], object] | None = None) -> None:
        """Add an answer; ``then`` is done after the dialog is gone."""
        button = QPushButton(words)
        if not self.answers:
            button.setProperty("main", True)
            button.setDefault(True)
        else:
            button.setAutoDefault(False)
        button.clicked.connect(self.accept)
        if then is not None:
            button.clicked.connect(lambda _checked=False: then())
        self._buttons.addWidget(button)
        self.answers[words] = button


def what_words(what: str) -> str:
    """What happened to a file, in a word."""
    return {
        "changed": tr("changed"),
        "new": tr("new"),
        "removed": tr("removed"),
        "deleted": tr("deleted or moved"),
        "unreadable": tr("can't be read"),
    }[what]


def file_lines(files: Sequence[tuple[str, str]]) -> list[str]:
    """Names with what happened to each."""
    return [tr("{name}: {what}", name=name, what=what_words(what)) for name, what in files]
