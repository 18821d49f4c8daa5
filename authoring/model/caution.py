"""What can go wrong, in the four kinds that the trade keeps apart, and red flags."""

from __future__ import annotations

from authoring.model.base import ModelError, Node, fact, many, node, optional, slug, slugs
from authoring.model.sentence import say
from authoring.model.sources import Source
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, Urgency


@node
class Caution(Node):
    """A contraindication, precaution, stop sign or expected response.

    A stop sign has an urgency, which is also its destination; the other kinds have none.
    """

    id: str = slug("Id, unique in the file.")
    kind: CautionKind = fact("Which of the four kinds.")
    text: Text = fact("What to watch for, to avoid or to expect, in the patient's words.")
    how: Text | None = optional("What to do about it (precaution), in the patient's words.")
    urgency: Urgency | None = optional("Where a stop sign leads.")
    conditions: tuple[str, ...] = slugs(
        "Conditions it applies to; none means any.", term="condition"
    )
    demands: tuple[str, ...] = slugs("Demands it covers.", term="demand")
    stages: tuple[str, ...] = slugs(
        "Stages of the protocol it is for; empty means all.", points_to="stage"
    )
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)

    def __attrs_post_init__(self) -> None:
        if (self.kind is CautionKind.STOP_SIGN) != (self.urgency is not None):
            raise ModelError(
                "urgency", say("A stop sign has an urgency, and no other kind of caution has one.")
            )


@node
class RedFlag(Node):
    """A question that must be answered before a patient's exercises are printed."""

    id: str = slug("Id, unique in the file.")
    question: Text = fact("Question to be answered yes or no.")
    action: Text = fact("What to do if the answer is yes.")
    urgency: Urgency = fact("How soon.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)
