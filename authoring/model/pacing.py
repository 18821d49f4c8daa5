"""How a stage is paced: how much of something at most, and how to resume after a break."""

from __future__ import annotations

from authoring.model.base import Node, fact, many, node, optional
from authoring.model.sources import Source
from authoring.model.text import Text
from authoring.model.vocabulary import CapOf, PauseAction, Period


@node
class PauseRule(Node):
    """What to do after a break; the rule with the most days that were missed counts."""

    after_days: int = fact("Days missed.", low=1, high=365)
    action: PauseAction = fact("What to do when resuming.", default=PauseAction.GO_EASIER)
    words: Text | None = optional("The same in the patient's words.")


@node
class Cap(Node):
    """The most of one thing in a session, a day or a week, over all exercises of a stage."""

    of: CapOf = fact("What is counted.")
    most: int = fact("Most of it.", low=1, high=100_000)
    per: Period = fact("In what time.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)
