"""How much pain is acceptable, and what to do when it is more."""

from __future__ import annotations

from authoring.model.base import ModelError, Node, fact, many, node, optional
from authoring.model.sentence import say
from authoring.model.sources import Source
from authoring.model.text import Text
from authoring.model.vocabulary import PainAction


@node
class PainBand(Node):
    """A band of the 0-10 scale; it starts above the band before it."""

    up_to: float = fact("Highest pain in the band, from 0 to 10.", low=0, high=10)
    action: PainAction = fact("What to do.")
    words: Text | None = optional("What to do, in the clinic's own words.")


@node
class NextMorning(Node):
    """What must be true by the next morning."""

    settles_within_h: int = fact(
        "Hours within which pain is back to its usual level.", default=24, low=1, high=96
    )
    most: float | None = optional("Most pain on the next morning, from 0 to 10.", low=0, high=10)
    action: PainAction = fact("What to do if it is not.", default=PainAction.GO_EASIER)
    words: Text | None = optional("The same in the clinic's own words.")


def _check_bands(name: str, bands: tuple[PainBand, ...]) -> None:
    tops = [band.up_to for band in bands]
    if tops != sorted(set(tops)) or (tops and tops[-1] != 10):
        raise ModelError(name, say("{name} must rise from band to band and end at 10.", name=name))


@node
class PainRule(Node):
    """Bands of pain during and after exercise, and the next-morning rule."""

    during: tuple[PainBand, ...] = fact("Bands during exercise, ending at 10.", fewest=1, longest=6)
    after: tuple[PainBand, ...] = many("Bands after exercise, where they differ.", longest=6)
    next_morning: NextMorning | None = optional("The next-morning rule.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)

    def __attrs_post_init__(self) -> None:
        _check_bands("during", self.during)
        _check_bands("after", self.after)
