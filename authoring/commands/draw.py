"""``rungbook draw``: one pose, one picture."""

from __future__ import annotations

from pathlib import Path

from authoring.commands.outcome import CommandError, Exit
from authoring.figures.cache import size_of, stored_png, stored_svg
from authoring.figures.contacts import PoseError
from authoring.figures.drawing import Drawing
from authoring.figures.limits import warnings
from authoring.figures.mirror import for_side
from authoring.files.atomic import write_atomic
from authoring.files.documents import read_document
from authoring.files.errors import shown
from authoring.files.picture_store import picture_store
from authoring.files.poses import stock_poses
from authoring.model.pose import Pose
from authoring.model.vocabulary import Phase, Side

PRINT_WIDTH_MM = 86.7
"""Width of a PNG on paper: half a page and a little more, 1024 pixels at 300 to the inch."""


def find_pose(name: str) -> Pose:
    """The pose in a file, else the one of this name that comes with the program.

    Raises:
        FileProblem: the file can't be used.
        CommandError: there is neither such a file nor such a pose.
    """
    path = Path(name)
    stock = stock_poses().get(name)
    if stock is not None and not path.is_file():
        return stock
    if stock is None and not path.suffix:
        raise CommandError(
            f"There is no pose called {name!r}; name a .pose.json file or one of: "
            f"{', '.join(stock_poses())}.",
            Exit.UNUSABLE,
        )
    document = read_document(path, Pose).document
    if not isinstance(document, Pose):
        raise CommandError(f"{shown(path)}: this is no pose; name another file.", Exit.UNUSABLE)
    return document


def draw_pose(name: str, output: Path, phase: Phase | None, side: Side) -> tuple[str, ...]:
    """Write one picture, whole or not at all; warnings about its angles.

    Args:
        name: a pose file, or the name of a pose that comes with the program.
        output: file to write; .svg or .png.
        phase: moment; None means the last.
        side: side that works, where the pose has one.

    Raises:
        FileProblem: something can't be read, or the output not written.
        CommandError: the pose or the ending is none of ours, or it can't be drawn.
    """
    ending = output.suffix.lower()
    if ending not in (".svg", ".png"):
        raise CommandError(
            f"{shown(output)}: a picture is a .svg or .png file; name one that ends so.",
            Exit.UNUSABLE,
        )
    pose = for_side(find_pose(name), side)
    try:
        svg = stored_svg(picture_store(), pose, phase)
    except PoseError as error:
        raise CommandError(str(error), Exit.FOUND) from error
    if ending == ".png":
        drawing = Drawing(svg.decode(), *size_of(svg))
        svg = stored_png(picture_store(), drawing, PRINT_WIDTH_MM)
    write_atomic(output, svg)
    return tuple(warnings(pose))
