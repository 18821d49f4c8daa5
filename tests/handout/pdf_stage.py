"""A whole stage as a clinic writes it: many exercises, four urgencies, blocks, notes.

Every word is invented to fill the page.
"""

from __future__ import annotations

from typing import Any

from attrs import evolve

from authoring.handout.document import (
    BlockHeading,
    Bullets,
    CareNote,
    Exercise,
    HandoutDocument,
    Notes,
    Option,
    Span,
    StopBox,
    StopGroup,
    StopNote,
    WeekDose,
)
from tests.handout.sample import (
    FACTS,
    PAIN,
    READY,
    SMALL_PRINT,
    STAIRS,
    STOP,
    diary,
    easy,
    exercise,
    glance,
    hurts,
    sample_document,
)

NAMES = (
    "Knee to wall",
    "Heel raise, both feet",
    "Foot turn with a band",
    "Stand on one leg",
    "Middle step up",
    "Sit to stand",
    "Steady bike",
    "Brisk walk, flat path",
)
SIGNS = (
    "Your foot is cold, white or blue.",
    "You can’t catch your breath.",
    "Your calf is hot, red and swollen.",
    "You can’t take 4 steps after a twist or fall.",
    "Your ankle is hot and you have a fever.",
    "Your foot tingles for more than 1 hour.",
    "Your ankle gives way 2 times in one week.",
    "Your ankle is more swollen, 2 mornings in a row.",
    "You have pain above 5 at rest for 2 days.",
    "You start to limp.",
)


def stage_exercise(number: int) -> Exercise:
    """An exercise whose parts and lengths depend on its number."""
    options = (
        Option("Hold still", "Stop halfway and hold.", "5 holds of 30 seconds"),
        Option("Or easier", "Sit and lift both heels.", "2 sets of 15 to 20"),
    )
    return exercise(
        number,
        NAMES[(number - 1) % len(NAMES)],
        ("3 sets of 10", "2 sets of 12 to 15", "12, then 10, then 8")[number % 3],
        why="Makes your calf strong.",
        details=("Rest 1 minute after each set.", "Do this 3 days a week."),
        needs="You need: chair." if number % 2 else "",
        start="Stand tall with your fingertips on a worktop.",
        steps=("Rise up on both feet for 2 seconds.", "Stay at the top.", "Come down slowly."),
        tips_heading="Good to remember",
        tips=("Press through big toes.", "Knees straight."),
        cares=(CareNote("Take care.", "Do not stand on a rug. Keep a wall in reach."),),
        stops=(StopNote("Stop the exercise if:", "you start to limp."),) if number % 3 else (),
        weeks=(WeekDose("Week 1", "2 sets of 12"), WeekDose("From week 2", "3 sets of 12"))
        if number % 4 == 0
        else (),
        changes=(
            hurts(*options[: 1 + number % 2]),
            *((easy("Reach with your other foot.", "2 sets of 8"),) if number % 3 else ()),
        ),
    )


def stop_box(first: int, second: int, third: int, fourth: int) -> StopBox:
    """The ten signs, so many of each urgency."""
    counts = (first, second, third, fourth)
    leads = (
        "Call 112 now if:",
        "Stop, and see a doctor today, if:",
        "Stop, and call us that day, if:",
        "Stop the exercise if:",
    )
    groups, used = [], 0
    for level, (lead, count) in enumerate(zip(leads, counts, strict=True)):
        if count:
            groups.append(StopGroup(level, lead, SIGNS[used : used + count]))
        used += count
    return evolve(STOP, groups=tuple(groups))


def note(heading: str, *lines: str, framed: bool = False) -> Notes:
    return Notes(heading, (Bullets(tuple((Span(line),) for line in lines)),), framed=framed)


def stage_document(count: int = 8, days: int = 5, **changes: Any) -> HandoutDocument:
    """A stage of ``count`` exercises in two blocks, done on ``days`` days of 3 weeks."""
    exercises = tuple(stage_exercise(number) for number in range(1, count + 1))
    parts = (
        STAIRS,
        glance(exercises),
        FACTS,
        PAIN,
        stop_box(2, 3, 5, 0),
        note("Not yet", "No running.", "No jumping or hopping.", framed=True),
        note(
            "Not for you if", *(f"{name}: you have a broken bone." for name in NAMES), framed=True
        ),
        BlockHeading("Warm up", ""),
        *exercises[:1],
        BlockHeading("Main part", "Leave a free day in between."),
        *exercises[1:],
        note("What to expect", *(f"{name}: a warm ache." for name in NAMES)),
        note("You can also", "Swim with gentle kicks.", "Drive when you can brake hard."),
        note("This is normal", "Your ankle swells a bit at night for up to 6 weeks."),
        note("Moving helps", "Early gentle moves help your ankle heal. Rest alone does not."),
        diary(exercises, weeks=3, days=days),
        READY,
        SMALL_PRINT,
    )
    return sample_document(parts=parts, lead="This stage makes your calf strong.", **changes)
