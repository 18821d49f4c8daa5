"""What a limb is allowed for now, and for how long, as a patient reads it."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.movement_words import range_sentences
from authoring.handout.context import Context
from authoring.model.dose import RangeOfMovement
from authoring.model.limits import LimbLimit
from authoring.model.vocabulary import Extent


def limit_sentences(limb: LimbLimit | None, context: Context) -> Iterator[str]:
    """Range, whether the limb may move by itself, and how much weight it takes."""
    if limb is None:
        return
    if limb.angles:
        used = RangeOfMovement(extent=Extent.LIMITED, limits=limb.angles)
        yield from range_sentences(context.phrases, used)
    if limb.passive_only:
        yield context.say("limit.passive")
    if limb.weight_bearing is not None:
        yield context.say(f"limit.weight.{limb.weight_bearing}")
    if limb.most_weight_kg is not None:
        most = context.phrases.number(limb.most_weight_kg)
        yield context.say("limit.most_kg", n=most)
    if limb.most_body_weight_percent is not None:
        most = context.phrases.number(limb.most_body_weight_percent)
        yield context.say("limit.most_percent", n=most)


def until_week(week: int | None, context: Context) -> Iterator[str]:
    """The last week for which something holds."""
    if week is not None:
        yield context.say("notes.until_week", n=week)
