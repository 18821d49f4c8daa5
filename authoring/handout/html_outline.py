"""Where each part of a handout stands in the page: heading level, anchor, new sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from attrs import field, frozen

from authoring.handout.document import (
    BlockHeading,
    Diary,
    Exercise,
    ExtraSheet,
    Facts,
    Glance,
    Notes,
    PainGuide,
    Part,
    Ready,
    SmallPrint,
    StageHeading,
    Stairs,
    StopBox,
)

KINDS: Mapping[type[Part], str] = {
    BlockHeading: "block_heading",
    Diary: "diary",
    Exercise: "exercise",
    ExtraSheet: "extra_sheet",
    Facts: "facts",
    Glance: "glance",
    Notes: "notes",
    PainGuide: "pain_guide",
    Ready: "ready",
    SmallPrint: "small_print",
    StageHeading: "stage_heading",
    Stairs: "stairs",
    StopBox: "stop_box",
}


@frozen
class Placed:
    """A part and its place.

    Attributes:
        kind: name of the template macro that draws it.
        level: level of its heading, 2 to 4; the title is the only level 1.
        id: anchor, unique in the page.
        named_by: anchors of the headings that name it: its stage's, then its own, so
            that the diaries of two stages are told apart.
        opens_page: whether it starts a new sheet of paper.
        links: for a :class:`Glance`, the anchor of each item's exercise, or "".
    """

    part: Part
    kind: str
    level: int
    id: str
    named_by: str
    opens_page: bool
    links: tuple[str, ...] = field(default=())


def outline(parts: tuple[Part, ...]) -> tuple[Placed, ...]:
    """The parts in order, with levels that never skip one.

    Exercises stand below the block that opens them, a block below its stage;
    the small print closes every stage. A stage and a diary start a new sheet
    where something stands before them; the rest flows, so that a plan that
    runs over by a few lines does not leave a sheet nearly empty.
    """
    anchors = tuple(
        (part, f"part-{index}") for index, part in enumerate(parts, 1) if isinstance(part, Exercise)
    )
    placed = []
    stage, in_block = "", False
    for index, part in enumerate(parts, 1):
        if isinstance(part, StageHeading | SmallPrint | ExtraSheet):
            stage = ""
        if not isinstance(part, Exercise):
            in_block = False
        level = 2 + bool(stage) + (in_block and isinstance(part, Exercise))
        placed.append(
            Placed(
                part=part,
                kind=KINDS[type(part)],
                level=level,
                id=f"part-{index}",
                named_by=f"{stage} part-{index}".strip(),
                opens_page=index > 1 and isinstance(part, Diary | ExtraSheet | StageHeading),
                links=_links(part, anchors),
            )
        )
        if isinstance(part, StageHeading) and part.name.strip():
            stage = f"part-{index}"
        in_block = in_block or isinstance(part, BlockHeading)
    return tuple(placed)


def _links(part: Part, anchors: Sequence[tuple[Exercise, str]]) -> tuple[str, ...]:
    """Where each exercise of the overview stands; its name there may begin with "or"."""
    if not isinstance(part, Glance):
        return ()
    return tuple(
        next(
            (
                anchor
                for exercise, anchor in anchors
                if exercise.number == item.number and item.name.endswith(exercise.name)
            ),
            "",
        )
        for item in part.items
    )
