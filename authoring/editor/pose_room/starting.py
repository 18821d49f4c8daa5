"""What a new pose begins with: somebody who stands on both feet. No Qt here."""

from __future__ import annotations

from authoring.editor.i18n import tr
from authoring.editor.ids import new_file_id
from authoring.model.pose import (
    ApartBy,
    BodyPoint,
    Contact,
    JointAngle,
    Pose,
    PosePhase,
    Width,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase


def plain_pose(language: str) -> Pose:
    """Somebody who stands upright, feet hip-width apart, arms at ease."""
    return Pose(
        id=new_file_id(),
        slug="new-pose",
        language=language,
        title=Text.plain(tr("New pose")),
        angles=(
            JointAngle(joint=Joint.ELBOW, motion=Motion.FLEXION, degrees=12),
            JointAngle(joint=Joint.SHOULDER, motion=Motion.ABDUCTION, degrees=8),
        ),
        contacts=(
            Contact(point=BodyPoint.HEEL, forward_cm=-6),
            Contact(point=BodyPoint.BALL),
        ),
        rules=(ApartBy(point=BodyPoint.HEEL, width=Width.HIP),),
        phases=(PosePhase(phase=Phase.START),),
    )
