"""Poses for tests: those that come with the program, and any that a file could hold."""

from __future__ import annotations

from hypothesis import strategies as st

from authoring.files.poses import stock_poses
from authoring.model.pose import (
    FLOOR,
    Arrow,
    Base,
    BasePosition,
    BodyPoint,
    Camera,
    Contact,
    Focus,
    Held,
    HeldKind,
    JointAngle,
    NearSide,
    Pose,
    PosePhase,
    Prop,
    PropKind,
    View,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Side

STOCK = sorted(stock_poses().values(), key=lambda pose: pose.slug)
MOMENTS = [(pose, each.phase) for pose in STOCK for each in pose.phases]


def named(value: object) -> str:
    return value.slug if isinstance(value, Pose) else str(value)


_LENGTHS = st.floats(-300, 300)
ANGLES = st.builds(
    JointAngle,
    joint=st.sampled_from(Joint),
    motion=st.sampled_from(Motion),
    side=st.sampled_from(Side),
    degrees=st.floats(-180, 180),
)
BASES = st.builds(
    Base,
    position=st.sampled_from(BasePosition),
    lean_deg=st.floats(-180, 180),
    forward_cm=_LENGTHS,
    up_cm=st.floats(-50, 300),
)
PROPS = st.builds(
    Prop,
    id=st.sampled_from(["a", "b"]),
    kind=st.sampled_from(PropKind),
    forward_cm=_LENGTHS,
    across_cm=_LENGTHS,
    length_cm=st.floats(1, 300),
    width_cm=st.floats(1, 300),
    height_cm=st.floats(0.5, 250),
    faces_back=st.booleans(),
)
CONTACTS = st.builds(
    Contact,
    point=st.sampled_from(BodyPoint),
    side=st.sampled_from(Side),
    on=st.sampled_from([FLOOR, FLOOR, "a", "b"]),
    forward_cm=st.none() | _LENGTHS,
    up_cm=st.none() | st.floats(0, 250),
)
PHASES = st.builds(
    PosePhase,
    phase=st.sampled_from(Phase),
    base=st.none() | BASES,
    angles=st.lists(ANGLES, max_size=8).map(tuple),
    contacts=st.lists(CONTACTS, max_size=6).map(tuple),
    airborne=st.booleans(),
)
CAMERAS = st.builds(
    Camera,
    view=st.sampled_from(View),
    from_side=st.sampled_from(NearSide),
    turn_deg=st.floats(-80, 80),
    tilt_deg=st.floats(0, 80),
    focus=st.none()
    | st.builds(
        Focus,
        point=st.sampled_from(BodyPoint),
        side=st.sampled_from(Side),
        height_cm=st.floats(20, 250),
    ),
)
ARROWS = st.builds(
    Arrow,
    point=st.sampled_from(BodyPoint),
    side=st.sampled_from(Side),
    forward_cm=st.floats(-150, 150),
    both_ways=st.booleans(),
)
POSES = st.builds(
    Pose,
    id=st.just("00000000-0000-4000-8000-000000000999"),
    slug=st.just("any"),
    language=st.just("en"),
    title=st.just(Text.plain("Any")),
    side=st.sampled_from(Side),
    camera=CAMERAS,
    base=BASES,
    supports=st.lists(PROPS, max_size=3).map(tuple),
    angles=st.lists(ANGLES, max_size=12).map(tuple),
    contacts=st.lists(CONTACTS, max_size=5).map(tuple),
    held=st.lists(
        st.builds(Held, kind=st.sampled_from(HeldKind), side=st.sampled_from(Side)), max_size=2
    ).map(tuple),
    phases=st.lists(PHASES, min_size=1, max_size=3).map(tuple),
    ghost=st.booleans(),
    arrows=st.lists(ARROWS, max_size=2).map(tuple),
)
