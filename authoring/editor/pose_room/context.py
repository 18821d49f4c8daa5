"""What forms of a pose need to know: its language, its ids, its supports."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import frozen

from authoring.checks.result import Subject
from authoring.editor.form_context import FormContext
from authoring.editor.i18n import tr
from authoring.editor.ids import ids_in
from authoring.editor.parts.fields.picks import Option
from authoring.editor.pose_room.words import line_of
from authoring.editor.session import Session
from authoring.editor.shapes import shapes_of
from authoring.model.base import Fact
from authoring.model.pose import FLOOR, Contact, PlaceAnchor, Pose

_SUPPORTS = tuple(
    shape.known for cls in (Contact, PlaceAnchor) for shape in shapes_of(cls) if shape.name == "on"
)
"""Fields that name a support of the pose."""


@frozen
class PoseContext(FormContext):
    """The pose that is being worked on."""

    @classmethod
    def of_pose(cls, session: Session) -> PoseContext:
        """For the session's pose and everything in it."""
        return cls(session, Subject.LIBRARY)

    @property
    def pose(self) -> Pose | None:
        """The pose as it stands, where it is the library's own."""
        return self.library.poses.get(self.session.pose_id)

    @property
    def own(self) -> str:
        """Language of the pose's plain strings."""
        return self.pose.language if self.pose is not None else self.library.manifest.language

    def taken(self) -> frozenset[str]:
        """Inner ids that are taken in the pose."""
        return ids_in(self.pose)

    def picks(self, known: Fact) -> bool:
        """Whether a string field is picked from what the pose or the library holds."""
        return known in _SUPPORTS or FormContext.picks(self, known)

    def options(self, known: Fact, draft: Mapping[str, Any]) -> tuple[Option, ...]:
        """What can be picked: the floor and the pose's supports, beside what all files have."""
        if known not in _SUPPORTS:
            return FormContext.options(self, known, draft)
        props = self.pose.supports if self.pose is not None else ()
        return (
            Option(FLOOR, tr("The floor")),
            *(Option(prop.id, f"{prop.id} ({line_of(prop)})") for prop in props),
        )
