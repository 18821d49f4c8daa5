"""What a clinician asks for when a plan is to be made."""

from __future__ import annotations

import datetime as dt

from attrs import field, frozen

from authoring.model.vocabulary import Side

TEST_VALID_DAYS = 28
"""Days for which a test result counts (common practice, no source)."""


@frozen
class StageWish:
    """A stage that the clinician wants, on one side or on all (``Side.NONE``)."""

    protocol: str
    stage: str
    side: Side = Side.NONE


@frozen(kw_only=True)
class Request:
    """Protocols, single cards, or both; with neither the plan is empty.

    Attributes:
        today: day that dates are counted to.
        protocols: ids of protocols, in order of weight.
        cards: ids of single cards.
        stages: stages wanted; for the other protocols one is proposed.
        most_exercises: at most so many; None means the clinic's setting.
        clinician: who decides.
        plan_id: id of the plan; None means one that follows from all the rest.
        test_valid_days: days for which a test result counts.
    """

    today: dt.date
    protocols: tuple[str, ...] = ()
    cards: tuple[str, ...] = ()
    stages: tuple[StageWish, ...] = ()
    most_exercises: int | None = None
    clinician: str = ""
    plan_id: str | None = None
    test_valid_days: int = field(default=TEST_VALID_DAYS)

    def stage_for(self, protocol: str, side: Side) -> str | None:
        """The stage wanted of a protocol on a side, or None."""
        mine = [wish for wish in self.stages if wish.protocol == protocol]
        exact = [wish.stage for wish in mine if wish.side is side]
        general = [wish.stage for wish in mine if wish.side is Side.NONE]
        return next(iter((*exact, *general)), None)
