"""One exercise that was left out, with why, and a button that puts it back."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.labels import label
from authoring.editor.parts.marks import Mark, MarkView
from authoring.editor.tailor.faces import LeftFace
from authoring.editor.theme import Type, theme


class LeftView(QWidget):
    """Signals:
    add_wanted(), reason_given(words)
    """

    add_wanted = Signal()
    reason_given = Signal(str)

    def __init__(self, face: LeftFace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.face = face
        side = f", {face.side}" if face.side else ""
        name = f"{face.name}{side}"
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, theme().px(8))
        rows.setSpacing(theme().px(4))
        head = QHBoxLayout()
        head.setSpacing(theme().px(8))
        head.addWidget(MarkView(Mark.NOTE if face.later else Mark.STOP, size=14))
        head.addWidget(label(name, Type.STRONG, wrap=True), 1)
        if face.later:
            head.addWidget(label(tr("later"), Type.SMALL, soft=True))
        self.add = QPushButton(tr("Put back"))
        self.add.setProperty("quiet", True)
        self.add.setProperty("small", True)
        self.add.setAccessibleName(tr("Put back {exercise}", exercise=name))
        self.add.setEnabled(face.add is not None)
        self.add.clicked.connect(self.add_wanted)
        head.addWidget(self.add, 0, Qt.AlignmentFlag.AlignTop)
        rows.addLayout(head)
        for words in face.reasons:
            rows.addWidget(label(words, Type.SMALL, wrap=True))
        self.fault = FaultLine()
        self.why = QLineEdit()
        self.why.setAccessibleName(tr("Reason"))
        self.why.setPlaceholderText(tr("Reason"))
        self.why.returnPressed.connect(self._give)
        self.why.hide()
        rows.addWidget(self.fault)
        rows.addWidget(self.why)

    def ask_why(self, sentence: str) -> None:
        """Say what stands against it and ask for a reason."""
        self.fault.say(sentence, Mark.STOP)
        self.why.setVisible(bool(sentence))
        self.why.setAccessibleDescription(sentence)
        self.why.setFocus()

    def _give(self) -> None:
        if self.why.text().strip():
            self.reason_given.emit(self.why.text().strip())
