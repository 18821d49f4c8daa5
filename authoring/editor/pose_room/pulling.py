"""A pull from its start to its end: what is shown meanwhile, and the one edit it becomes."""

from __future__ import annotations

from attrs import frozen

from authoring.editor.pose_room.edits import with_pulled
from authoring.figures.dragging import Handle, pulled
from authoring.figures.drawing import eye_of
from authoring.figures.solver import Settled
from authoring.figures.space import along
from authoring.model.pose import Pose


@frozen
class Pull:
    """A pull that goes on.

    Attributes:
        pose, index: the pose without the pull, and its moment.
        handle: what is pulled.
        start: the moment without the pull.
        now: the moment as the pull has it.
    """

    pose: Pose
    index: int
    handle: Handle
    start: Settled
    now: Settled

    def to(self, right_cm: float, up_cm: float) -> Pull:
        """The pull with its place wanted so far from where it began, on paper."""
        eye = eye_of(self.pose.camera)
        goal = along(self.start.body.points[self.handle.spot], eye.right, right_cm)
        goal = along(goal, eye.up, up_cm)
        moment = self.pose.phases[self.index]
        now = pulled(self.pose, moment, self.now, self.handle, goal, eye)
        return Pull(self.pose, self.index, self.handle, self.start, now)

    @property
    def made(self) -> Pose:
        """The pose that the pull makes."""
        return with_pulled(self.pose, self.index, self.start, self.now, self.handle)
