"""The page of a plan whose exercises are withheld: what to do about each red flag."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.handout.context import Context
from authoring.handout.document import Notes, Part
from authoring.handout.ending import small_print
from authoring.handout.front import stop_box, stop_lead
from authoring.handout.markdown import rich
from authoring.handout.sheet import Sheet
from authoring.tailoring.release import Release


def raised_parts(freed: Release, sheet: Sheet, context: Context) -> Iterator[Part | None]:
    """Each raised flag's action under where it leads, whom to call, the small print."""
    for raised in freed.raised:
        action = context.text(raised.flag.action, raised.protocol.language)
        yield Notes(stop_lead(raised.flag.urgency, context), rich(action), framed=True)
    yield stop_box(sheet, context)
    yield small_print(sheet, context)
