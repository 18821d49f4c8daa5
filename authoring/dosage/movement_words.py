"""How fast and how far to move, in plain words."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.phrases import Phrases
from authoring.model.dose import RangeOfMovement, Tempo
from authoring.model.vocabulary import Extent


def tempo_sentences(phrases: Phrases, tempo: Tempo | None) -> Iterator[str]:
    """Seconds of each part of a repetition, a beat, a speed in a word."""
    if tempo is None:
        return
    parts = ("lifting_s", "pause_high_s", "lowering_s", "pause_low_s")
    for part in parts:
        seconds = getattr(tempo, part)
        if seconds:
            yield phrases.count(f"tempo.{part}", seconds)
    if tempo.beats_per_minute:
        yield phrases.count("tempo.beats", tempo.beats_per_minute)
    if tempo.speed:
        yield phrases.say(f"tempo.{tempo.speed}")


def range_sentences(phrases: Phrases, used: RangeOfMovement | None) -> Iterator[str]:
    """Limits by angle, and how much of the range is used."""
    if used is None:
        return
    for limit in used.limits:
        yield phrases.say(
            "range.angle_up_to" if limit.from_deg == 0 < limit.to_deg else "range.angle",
            joint=phrases.say(f"joint.{limit.joint}"),
            motion=phrases.say(f"motion.{limit.motion}"),
            low=phrases.number(limit.from_deg),
            high=phrases.number(limit.to_deg),
        )
    if not used.limits or used.extent not in (Extent.LIMITED, Extent.FULL):
        yield phrases.say(f"range.{used.extent}")
