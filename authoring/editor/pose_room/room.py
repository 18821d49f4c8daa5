"""The room "Poses": pull the body on the drawing, or type, and see it at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from authoring.editor.i18n import tr
from authoring.editor.pose_room import edits
from authoring.editor.pose_room.bench import Bench
from authoring.editor.pose_room.canvas import HandleDot
from authoring.editor.pose_room.pulling import Pull
from authoring.editor.pose_room.pulls import Pulls
from authoring.editor.pose_room.seeing import Seen, Wanted, see, spots_of
from authoring.editor.pose_room.starting import plain_pose
from authoring.editor.pose_room.to_card import put_into_card
from authoring.editor.room import KeyHint, Room
from authoring.editor.session import Session
from authoring.editor.vocabulary_words import words_of
from authoring.editor.workers import LatestTask, sentence_of
from authoring.figures.angles import Key
from authoring.figures.dragging import HANDLES
from authoring.figures.drawing import eye_of
from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.pose import NearSide, Pose, View

Change = Callable[[Pose], Pose]


class PoseRoom(Room):
    """It knows the session, and its parts draw."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(session, parent)
        self.index = 0
        self.bench = Bench(session)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.bench)
        self.pulls = Pulls(self)
        self._seen: Seen | None = None
        self.drawing = LatestTask(see, delay_ms=0, parent=self)
        self.drawing.done.connect(self._take_seen)
        self.drawing.failed.connect(lambda error: session.tell(sentence_of(error)))
        self.add_command(tr("New pose"), self.begin)
        self.add_command(tr("Copy this pose"), self.copy, keys="Ctrl+D")
        self.add_command(tr("Add a moment"), self.add_moment, keys="Ctrl+Shift+N")
        self.add_command(
            tr("Next moment"), lambda: self.choose_moment(self.index + 1), keys="Ctrl+PgDown"
        )
        self.add_command(
            tr("Moment before"), lambda: self.choose_moment(self.index - 1), keys="Ctrl+PgUp"
        )
        self._listing = QTimer(self, singleShot=True, interval=0)
        self._listing.timeout.connect(
            lambda: self.bench.gallery.show_library(session.library, session.pose_id)
        )
        self._connect()

    def _connect(self) -> None:
        bench, session = self.bench, self.session
        bench.gallery.chosen.connect(self.session.choose_pose)
        bench.new_button.clicked.connect(self.begin)
        bench.copy_button.clicked.connect(lambda _on=False: self.copy())
        bench.remove_button.clicked.connect(self.remove)
        bench.use_button.clicked.connect(lambda: self.pose and put_into_card(session, self.pose))
        bench.view.chosen.connect(lambda view: self._look(view=view))
        bench.near.chosen.connect(lambda near: self._look(near=near))
        bench.moments.chosen.connect(self.choose_moment)
        bench.moments.copy_wanted.connect(self.add_moment)
        bench.moments.remove_wanted.connect(self._remove_moment)
        bench.moments.move_wanted.connect(self._move_moment)
        bench.moments.hold_wanted.connect(self._hold)
        bench.side.angle_typed.connect(self._type_angle)
        bench.side.edited.connect(self.edit)
        bench.side.ended.connect(self.session.document.seal)
        canvas, pulls = bench.canvas, self.pulls
        canvas.pull_began.connect(pulls.begin)
        canvas.pulled.connect(pulls.go_on)
        canvas.dropped.connect(pulls.end)
        canvas.pushed.connect(pulls.push)
        canvas.left.connect(self.session.document.seal)
        canvas.freed.connect(pulls.let_go)
        pulls.moved.connect(self._show_pull)
        self.session.pose_chosen.connect(self._on_chosen)

    # ---- what is shown --------------------------------------------------------

    @property
    def own(self) -> bool:
        """Whether the pose is the library's, to be changed."""
        return self.session.pose_id in self.session.library.poses

    @property
    def pose(self) -> Pose | None:
        """The pose that is shown."""
        library, wanted = self.session.library, self.session.pose_id
        found = library.poses.get(wanted)
        if found is not None:
            return found
        return next((one for one in library.stock_poses.values() if one.id == wanted), None)

    def title(self) -> str:
        """The pose's title."""
        pose = self.pose
        return "" if pose is None else pose.title.best(pose.language, pose.language)

    def refresh(self, before: Library, after: Library) -> None:
        """Draw the pose as it is now."""
        if self.pose is None:
            first = next(iter(after.poses.values()), None)
            first = first or next(iter(after.stock_poses.values()), None)
            if first is not None:
                self.session.choose_pose(first.id)
        self._draw()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._draw()

    def _on_chosen(self, _pose_id: str) -> None:
        self.index = max(0, len(self.pose.phases) - 1) if self.pose is not None else 0
        self._draw()

    def _draw(self) -> None:
        pose = self.pose
        if pose is None or not self.isVisible():
            return
        self.index = min(self.index, len(pose.phases) - 1)
        self._listing.start()  # a list of hundreds, after the drawing
        self.bench.show_pose(pose, self.index, own=self.own)
        self.drawing.ask_now(Wanted(pose, self.index))

    def _take_seen(self, seen: Seen) -> None:
        if seen.body is not None and not self.pulls.goes_on:
            self._seen = seen
            self.bench.side.angles.show_angles(seen.body.angles)
        pose = seen.wanted.pose
        resting = frozenset(h for h in HANDLES if edits.holds(pose, seen.wanted.index, h))
        self.bench.canvas.show_seen(seen, can_pull=self.own, resting=resting)
        self.bench.show_words(seen)

    def key_hints(self) -> Sequence[KeyHint]:
        """Keys for a handle, or for the lists."""
        if isinstance(QApplication.focusWidget(), HandleDot):
            return (
                KeyHint("← ↑ → ↓", tr("move 1 cm")),
                KeyHint("Shift ← →", tr("move 5 cm")),
                KeyHint("Tab", tr("next handle")),
                KeyHint(tr("Del"), tr("let go of what it rests on")),
            )
        return (
            KeyHint("↑ ↓", tr("choose")),
            KeyHint("Ctrl D", tr("copy the pose")),
            KeyHint("Ctrl PgDn", tr("next moment")),
        )

    def focus_first(self) -> None:
        """Put the focus on the list of poses."""
        self.bench.gallery.list.setFocus()

    # ---- poses ----------------------------------------------------------------

    def begin(self) -> None:
        """Begin with somebody who stands."""
        self.copy(plain_pose(self.session.library.manifest.language), tr("New pose"))

    def copy(self, pose: Pose | None = None, name: str = "") -> None:
        """Make the library's own copy of a pose, else of the one that is shown."""
        pose = pose or self.pose
        if pose is None:
            return
        started = edits.copied(self.session.library, pose)
        if self.session.document.edit(name or tr("Copy a pose"), lambda _old: started.library):
            self.session.choose_pose(started.pose_id)

    def remove(self) -> None:
        """Take the pose out of the library."""
        pose = self.pose
        if pose is None or not self.own:
            return
        others = [each for each in self.session.library.poses.values() if each.id != pose.id]
        stock = self.session.library.stock_poses
        goal = others[0] if others else stock.get(pose.slug) or next(iter(stock.values()), None)
        name = tr("Delete pose")
        self.session.document.edit(name, lambda library: edits.without_pose(library, pose.id))
        self.session.choose_pose(goal.id if goal is not None else "")
        words = tr("“{name}” is deleted.", name=pose.title.best(pose.language, pose.language))
        self.session.tell(words, tr("Undo"), self.session.document.undo)

    def edit(self, change: Change, name: str, merge_key: str = "") -> bool:
        """Make one named edit of the pose."""
        pose_id = self.session.pose_id
        if not self.own:
            self.session.tell(tr("This pose comes with the program. Start from it to change it."))
            return False
        key = f"{pose_id}/{self.index}/{merge_key}" if merge_key else ""
        return self.session.document.edit(
            name, lambda library: edits.edited(library, pose_id, change), merge_key=key
        )

    # ---- moments and view -----------------------------------------------------

    def choose_moment(self, index: int) -> None:
        """Show another moment."""
        pose = self.pose
        if pose is not None and 0 <= index < len(pose.phases):
            self.session.document.seal()
            self.index = index
            self._draw()

    def add_moment(self) -> None:
        """Add a copy of this moment after it, to be changed from there."""
        index = self.index
        if self.edit(lambda pose: edits.with_copied_moment(pose, index), tr("Add a moment")):
            self.choose_moment(index + 1)

    def _remove_moment(self) -> None:
        index = self.index
        self.edit(lambda pose: edits.without_moment(pose, index), tr("Remove the moment"))

    def _move_moment(self, by: int) -> None:
        index = self.index
        done = self.edit(
            lambda pose: edits.with_moment_moved(pose, index, by), tr("Move the moment")
        )
        if done:
            self.choose_moment(index + by)

    def _hold(self, on: bool) -> None:
        index = self.index
        self.edit(
            lambda pose: edits.with_moment(pose, index, evolve(pose.phases[index], hold=on)),
            tr("Hold still") if on else tr("Hold no more"),
        )

    def _look(self, **how: View | NearSide) -> None:
        self.edit(
            lambda pose: evolve(pose, camera=edits.turned(pose.camera, **how)),  # type: ignore[arg-type]  # by name
            tr("Change the view"),
        )

    # ---- angles and pulls -------------------------------------------------------

    def seen_now(self) -> Seen | None:
        """The pose as it is drawn, where it is the library's own; None where it can't be had."""
        pose, seen = self.pose, self._seen
        if pose is None or not self.own:
            return None
        if seen is None or seen.wanted.pose is not pose or seen.wanted.index != self.index:
            seen = see(Wanted(pose, self.index))
        return seen if seen.body is not None else None

    def _show_pull(self, pull: Pull | None) -> None:
        if pull is None:
            self._draw()
            return
        self.bench.canvas.show_spots(spots_of(pull.now, eye_of(pull.pose.camera)))
        self.bench.side.angles.show_angles(pull.now.angles)
        self.drawing.ask_now(Wanted(pull.made, pull.index))

    def _type_angle(self, key: Key, degrees: float) -> None:
        index = self.index
        name = tr("Change {joint}", joint=words_of(key[0]).lower())
        merge = "angle:" + ":".join(str(part) for part in key)
        self.edit(lambda pose: edits.with_angles(pose, index, {key: degrees}), name, merge)
