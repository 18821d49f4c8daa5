"""The room's three panes: the gallery, the drawing, and what is typed."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from authoring.editor.i18n import tr
from authoring.editor.parts.field_row import FaultLine
from authoring.editor.parts.flow import FlowLayout
from authoring.editor.parts.labels import ElidedLabel, label
from authoring.editor.parts.marks import Mark
from authoring.editor.parts.segmented import Segmented
from authoring.editor.pose_room.canvas import PoseCanvas
from authoring.editor.pose_room.gallery import Gallery
from authoring.editor.pose_room.moments import MomentsRow, small
from authoring.editor.pose_room.seeing import Seen
from authoring.editor.pose_room.side_panel import SidePanel
from authoring.editor.session import Session
from authoring.editor.theme import Type, theme
from authoring.model.pose import NearSide, Pose, View
from authoring.model.vocabulary import Side

_MOST_ODD = 2


class Bench(QWidget):
    """Draws one pose. The room connects its parts."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        used = theme()
        self.gallery = Gallery()
        self.new_button = QPushButton(tr("New pose"))
        self.copy_button = QPushButton(tr("Start from this"))
        self.remove_button = QPushButton(tr("Delete pose"))
        self.use_button = QPushButton(tr("Put into the card"))
        self.canvas = PoseCanvas()
        self.moments = MomentsRow()
        self.side = SidePanel(session)
        self.title_line = ElidedLabel(style=Type.HEADING)
        self.state = label(style=Type.SMALL, soft=True)
        self.view: Segmented[View] = Segmented(
            tr("View"),
            [
                (View.SIDE, tr("Side")),
                (View.FRONT, tr("Front")),
                (View.THREE_QUARTER, tr("Three-quarter")),
                (View.BACK, tr("Back")),
            ],
        )
        self.near: Segmented[NearSide] = Segmented(
            tr("Near side"), [(NearSide.LEFT, tr("Left")), (NearSide.RIGHT, tr("Right"))]
        )
        self.problem = FaultLine()
        self.odd = [FaultLine() for _ in range(_MOST_ODD)]
        self.alt = label(style=Type.SMALL, wrap=True)
        self.copy_alt = small(tr("Copy words"))
        self.alt_words = ""
        self.copy_alt.clicked.connect(self._copy_words)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(used.px(24), used.px(12), used.px(24), used.px(8))
        layout.setSpacing(used.px(16))
        self.left = self._left()
        layout.addWidget(self.left)
        layout.addWidget(self._middle(), 1)
        layout.addWidget(self.side)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        used, wide = theme(), self.width()
        self.left.setFixedWidth(min(used.px(250), int(wide * 0.21)))
        self.side.setFixedWidth(min(used.px(360), int(wide * 0.31)))

    def _left(self) -> QWidget:
        used = theme()
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(used.px(8))
        column.addWidget(self.gallery, 1)
        self.copy_button.setProperty("main", True)
        column.addWidget(self.copy_button)
        column.addWidget(self.use_button)
        row = QHBoxLayout()
        row.addWidget(self.new_button)
        self.remove_button.setProperty("quiet", True)
        row.addWidget(self.remove_button)
        column.addLayout(row)
        return left

    def _middle(self) -> QWidget:
        used = theme()
        middle = QFrame()
        middle.setProperty("pane", True)
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(used.px(8))
        head = QHBoxLayout()
        head.setSpacing(used.px(12))
        head.addWidget(self.title_line)
        head.addWidget(self.state)
        head.addStretch(1)
        column.addLayout(head)
        # Each in a row of its own where both don't fit.
        look = QWidget()
        flow = FlowLayout(look)
        flow.addWidget(_named(tr("View"), self.view))
        flow.addWidget(_named(tr("Near side"), self.near))
        column.addWidget(look)
        column.addWidget(self.canvas, 1)
        column.addWidget(self.moments)
        column.addWidget(self.problem)
        for each in self.odd:
            column.addWidget(each)
        words = QHBoxLayout()
        words.setSpacing(used.px(8))
        words.addWidget(self.alt, 1)
        words.addWidget(self.copy_alt, 0, Qt.AlignmentFlag.AlignTop)
        column.addLayout(words)
        return middle

    def _copy_words(self) -> None:
        QApplication.clipboard().setText(self.alt_words)

    # ---- showing ----------------------------------------------------------------

    def show_pose(self, pose: Pose, index: int, *, own: bool) -> None:
        """Show everything but the drawing, which comes from :meth:`show_seen`."""
        self.title_line.setText(pose.title.best(pose.language, pose.language) or pose.slug)
        note = tr("Comes with the program: start from it to change it.")
        self.state.setText("" if own else note)
        self.view.choose(pose.camera.view)
        self.near.choose(pose.camera.from_side)
        near = Side.LEFT if pose.camera.from_side is NearSide.LEFT else Side.RIGHT
        self.canvas.raise_side(near)
        for row in (self.view, self.near):
            row.setEnabled(own)
        self.copy_button.setText(tr("Copy this pose") if own else tr("Start from this"))
        self.remove_button.setEnabled(own)
        self.moments.show_pose(pose, index, locked=not own)
        self.side.show_pose(pose, index, locked=not own)

    def show_words(self, seen: Seen) -> None:
        """Show what is wrong, what is unusual, and the words for the picture."""
        self.problem.say(seen.problem, Mark.MUST)
        for at, row in enumerate(self.odd):
            row.say(seen.unusual[at] if at < len(seen.unusual) else "", Mark.MAY)
        self.alt_words = seen.alt
        self.alt.setText(tr("Words for the picture: {words}", words=seen.alt) if seen.alt else "")
        self.copy_alt.setVisible(bool(seen.alt))


def _named(words: str, control: QWidget) -> QWidget:
    """A control with its name before it."""
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(theme().px(8))
    row.addWidget(label(words, Type.SMALL, soft=True))
    row.addWidget(control)
    return made
