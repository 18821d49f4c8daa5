"""A field with its name above it, and what is wrong with it below it."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from authoring.editor.parts.fields.base import ValueField, focus_target
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark, MarkView
from authoring.editor.theme import Type, theme


class FaultLine(QWidget):
    """A mark and one sentence, under the field that it is about; hidden while empty."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(8))
        self._mark = MarkView(Mark.MUST, size=14)
        self._words = label(style=Type.SMALL, wrap=True)
        self._words.setProperty("faultline", True)
        layout.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(self._words, 1)
        self.hide()

    @property
    def sentence(self) -> str:
        """What it says, "" while hidden."""
        return self._words.text()

    def say(self, sentence: str, mark: Mark = Mark.MUST) -> None:
        """Say a sentence, or hide for ""."""
        self._words.setText(sentence)
        self._mark.show_mark(mark)
        self.setVisible(bool(sentence))


class FieldRow(QWidget):
    """Label above, control, help in second text, fault line below.

    The label names the control for screen readers; the help and the fault become its
    accessible description.
    """

    def __init__(
        self,
        name: str,
        control: QWidget,
        help_text: str = "",
        *,
        show_help: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        """Args:
        help_text: one sentence about the field; always in its description and tool tip.
        show_help: whether it also stands beside the label.
        """
        super().__init__(parent)
        self.name = name
        self.control = control
        self._help = help_text
        self.label = label(name, Type.SMALL, soft=not show_help, buddy=control)
        self.label.setProperty("strong", show_help)
        head = QHBoxLayout()
        head.setSpacing(theme().px(8))
        head.addWidget(self.label)
        beside = _beyond(name, help_text) if show_help else ""
        if beside:
            head.addWidget(label(beside, Type.SMALL, soft=True, wrap=True), 1)
        else:
            head.addStretch(1)
        self._fault = FaultLine()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(theme().px(4))
        layout.addLayout(head)
        layout.addWidget(control)
        layout.addWidget(self._fault)
        control.setToolTip(help_text)
        self._describe()

    @property
    def fault(self) -> str:
        """The sentence under the field, "" for none."""
        return self._fault.sentence

    def say(self, sentence: str, mark: Mark = Mark.MUST) -> None:
        """Put a sentence under the field, or take it away with ""."""
        if (sentence, mark) == (self._fault.sentence, self._fault._mark.mark):
            return
        self._fault.say(sentence, mark)
        must = bool(sentence) and mark in (Mark.MUST, Mark.STOP)
        target = focus_target(self.control)
        if bool(target.property("fault")) != must:
            target.setProperty("fault", must)
            target.style().unpolish(target)
            target.style().polish(target)
        self._describe()

    def _describe(self) -> None:
        words = " ".join(part for part in (self.fault, self._help) if part)
        if isinstance(self.control, ValueField):
            self.control.name_controls(self.name, words)
        else:
            self.control.setAccessibleName(self.name)
            self.control.setAccessibleDescription(words)


_LITTLE = 12
"""Letters that a help may have beyond its label without saying more."""


def _beyond(name: str, help_text: str) -> str:
    """What a help says beyond its label, "" for nothing."""
    words, known = help_text.rstrip("."), name.casefold()
    if known in words.casefold() and len(words) - len(name) < _LITTLE:
        return ""
    rest = help_text[len(name) :]
    if help_text.casefold().startswith(known) and rest[:1] in (";", ","):
        rest = rest[1:].strip()
        return rest[:1].upper() + rest[1:]
    return help_text
