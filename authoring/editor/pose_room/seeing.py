"""One moment of a pose as the room shows it: drawing, handles, words. No Qt here."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from attrs import frozen

from authoring.editor.workers import Token
from authoring.figures.alt_text import suggested_alt
from authoring.figures.dragging import HANDLES, Handle
from authoring.figures.drawing import draw, eye_of
from authoring.figures.limits import warnings
from authoring.figures.outline import Eye
from authoring.figures.solver import Settled, settle
from authoring.figures.wants import PoseError
from authoring.model.pose import Pose

_BOX: Final = re.compile(r'viewBox="(-?\d+) (-?\d+) (\d+) (\d+)"')


@frozen
class Wanted:
    """What to show.

    Attributes:
        pose: the pose.
        index: number of its moment.
        number: counts wishes, so that an answer is known again.
    """

    pose: Pose
    index: int
    number: int = 0


@frozen
class Seen:
    """One moment drawn.

    Attributes:
        wanted: what was asked for.
        svg: the drawing, b"" where there is none.
        box: left, top, width and height of the drawing in its units.
        spots: where each handle is, in those units.
        body: the settled moment, None where it can't be had.
        problem: why there is no drawing, "" where there is one.
        unusual: sentences about angles beyond the usual.
        alt: words suggested for the picture.
    """

    wanted: Wanted
    svg: bytes = b""
    box: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 1.0)
    spots: Mapping[Handle, tuple[float, float]] = {}
    body: Settled | None = None
    problem: str = ""
    unusual: tuple[str, ...] = ()
    alt: str = ""


def see(wanted: Wanted, token: Token | None = None) -> Seen:
    """Draw a moment, or say why it can't be drawn."""
    pose = wanted.pose
    moment = pose.phases[wanted.index]
    try:
        body = settle(pose, moment)
        made = draw(pose, moment.phase)
    except PoseError as error:
        return Seen(wanted, problem=str(error))
    if token is not None:
        token.check()
    return Seen(
        wanted,
        made.svg.encode(),
        box_of(made.svg),
        spots_of(body, eye_of(pose.camera)),
        body,
        unusual=tuple(dict.fromkeys(warnings(pose))),
        alt=suggested_alt(pose),
    )


def box_of(svg: str) -> tuple[float, float, float, float]:
    """Left, top, width and height of a drawing, in its units."""
    found = _BOX.search(svg)
    if found is None:
        raise ValueError("a drawing says where its paper is")
    left, top, width, height = map(float, found.groups())
    return (left, top, width, height)


def spots_of(body: Settled, eye: Eye) -> dict[Handle, tuple[float, float]]:
    """Where each handle is on paper."""
    return {handle: eye.see(body.body.points[handle.spot]) for handle in HANDLES}
