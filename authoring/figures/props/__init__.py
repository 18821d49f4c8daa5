"""Things of a pose as parts of a picture: supports, things held or worn, lines that pull."""

from authoring.figures.props.furniture import corners_of, prop_depth, prop_parts
from authoring.figures.props.lines import anchors_of, line_parts
from authoring.figures.props.things import ends_of, gripping, in_hands, thing_parts
from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector
from authoring.model.pose import Pose


def reach_of(pose: Pose, body: Skeleton) -> list[Vector]:
    """Places that a picture must show besides the body and its supports, cm."""
    return [*anchors_of(pose, body), *ends_of(pose, body)]


__all__ = [
    "corners_of",
    "gripping",
    "in_hands",
    "line_parts",
    "prop_depth",
    "prop_parts",
    "reach_of",
    "thing_parts",
]
