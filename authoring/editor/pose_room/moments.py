"""The moments of a movement in a row: choose, copy, order, take out."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from authoring.editor.i18n import tr
from authoring.editor.parts.labels import label
from authoring.editor.parts.segmented import Segmented
from authoring.editor.pose_room.edits import free_phase
from authoring.editor.theme import Type, theme
from authoring.editor.vocabulary_words import words_of
from authoring.model.pose import Pose


def small(words: str, name: str = "") -> QPushButton:
    """A small quiet button; ``name`` is what it says to screen readers."""
    button = QPushButton(words)
    button.setProperty("quiet", True)
    button.setProperty("small", True)
    if name:
        button.setAccessibleName(name)
        button.setToolTip(name)
    return button


class MomentsRow(QWidget):
    """Signals:
    chosen(index), copy_wanted(), remove_wanted(), move_wanted(by), hold_wanted(on)
    """

    chosen = Signal(object)
    copy_wanted = Signal()
    remove_wanted = Signal()
    move_wanted = Signal(int)
    hold_wanted = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        used = theme()
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(used.px(4))
        self._row.addWidget(label(tr("Moment"), Type.SMALL, soft=True))
        self.segments: Segmented[int] | None = None
        self._names: tuple[str, ...] = ()
        self.add = small(tr("Add a moment"))
        self.earlier = small("←", tr("Put the moment earlier"))
        self.later = small("→", tr("Put the moment later"))
        self.remove = small("×", tr("Remove the moment"))
        self.hold = QPushButton(tr("Held still"))
        self.hold.setProperty("quiet", True)
        self.hold.setProperty("small", True)
        self.hold.setCheckable(True)
        self.hold.setToolTip(tr("The picture shows a mark for a hold."))
        for button in (self.add, self.earlier, self.later, self.remove, self.hold):
            self._row.addWidget(button)
        self._row.addStretch(1)
        self.add.clicked.connect(self.copy_wanted)
        self.remove.clicked.connect(self.remove_wanted)
        self.earlier.clicked.connect(lambda: self.move_wanted.emit(-1))
        self.later.clicked.connect(lambda: self.move_wanted.emit(1))
        self.hold.clicked.connect(self.hold_wanted)

    def show_pose(self, pose: Pose, index: int, *, locked: bool) -> None:
        """Show the moments of a pose, one of them chosen."""
        names = tuple(words_of(each.phase) for each in pose.phases)
        if names != self._names or self.segments is None:
            self._names = names
            self._rebuild(names)
        if self.segments is not None:
            self.segments.choose(index)
        self.hold.setChecked(pose.phases[index].hold)
        self.hold.setText(tr("✓ Held still") if self.hold.isChecked() else tr("Held still"))
        self.add.setEnabled(not locked and free_phase(pose) is not None)
        self.remove.setEnabled(not locked and len(names) > 1)
        self.earlier.setEnabled(not locked and index > 0)
        self.later.setEnabled(not locked and index < len(names) - 1)
        self.hold.setEnabled(not locked)

    def _rebuild(self, names: tuple[str, ...]) -> None:
        if self.segments is not None:
            self.segments.hide()
            self._row.removeWidget(self.segments)
            self.segments.deleteLater()
        self.segments = Segmented(tr("Moment"), list(enumerate(names)))
        self.segments.chosen.connect(self.chosen)
        self._row.insertWidget(1, self.segments)
