"""One patient's work as an immutable value: answers, decisions, and the plan they give. No Qt."""

from __future__ import annotations

import datetime as dt

from attrs import frozen

from authoring.editor.i18n import tr
from authoring.editor.ids import new_file_id
from authoring.editor.tailor.choices import Choice, applied, choices_of
from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.patient import Presentation
from authoring.model.plan import Plan
from authoring.model.vocabulary import Side
from authoring.tailoring.overrides import OverrideError, countersign, seen_done
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish

_BY_HAND = frozenset({"stage-asked", "stage-moved-on", "stage-moved-back"})
"""Reasons of a stage that a clinician chose or a review led to; criteria do not choose it anew."""


@frozen(eq=False)
class Work:
    """What stands in the room.

    Attributes:
        protocols, cards: ids of what the plan is made of, in order of weight.
        stages: stages that the clinician asked for.
        choices: the clinician's decisions, oldest first; they are made again on every
            new proposal.
        seen: exercises seen done in the room, with the day.
        kept: the plan as it was opened; its protocols and cards come before the library's.
        lost: what was decided before and can't be kept, one sentence each.
    """

    plan_id: str
    presentation: Presentation
    protocols: tuple[str, ...] = ()
    cards: tuple[str, ...] = ()
    stages: tuple[StageWish, ...] = ()
    choices: tuple[Choice, ...] = ()
    seen: tuple[tuple[str, dt.date], ...] = ()
    kept: Plan | None = None
    plan: Plan | None = None
    lost: tuple[str, ...] = ()

    def request(self, clinician: str, today: dt.date) -> Request:
        """What is asked of the tailoring."""
        return Request(
            today=today,
            protocols=self.protocols,
            cards=self.cards,
            stages=self.stages,
            clinician=clinician,
            plan_id=self.plan_id,
        )

    @property
    def is_bare(self) -> bool:
        """Whether nothing is chosen to make a plan of."""
        return not (self.protocols or self.cards)


def fresh(protocols: tuple[str, ...] = ()) -> Work:
    """The work on a new patient."""
    return Work(new_file_id(), Presentation(id=new_file_id()), protocols)


def opened(plan: Plan) -> Work:
    """A plan that was kept, as it was kept."""
    used = {item.card for item in plan.items if item.protocol is None}
    used |= {left.card for left in plan.left_out if left.protocol is None}
    return Work(
        plan_id=plan.id,
        presentation=plan.presentation or Presentation(id=new_file_id(), label=plan.label),
        protocols=tuple(each.id for each in plan.protocols),
        cards=tuple(card.id for card in plan.cards if card.id in used),
        stages=tuple(
            StageWish(each.protocol, each.stage, Side.NONE if each.side is Side.BOTH else each.side)
            for each in plan.stages
            if any(reason.code in _BY_HAND for reason in each.reasons)
        ),
        choices=choices_of(plan),
        seen=tuple((item.id, item.seen_done) for item in plan.items if item.seen_done),
        kept=plan,
        plan=plan,
    )


def library_of(work: Work, library: Library) -> Library:
    """The library as the work sees it: what an opened plan embeds comes before its own."""
    if work.kept is None:
        return library
    return evolve(
        library,
        protocols={**library.protocols, **{each.id: each for each in work.kept.protocols}},
        cards={**library.cards, **{each.id: each for each in work.kept.cards}},
    )


def proposed(work: Work, library: Library, clinician: str, today: dt.date) -> Work:
    """The work with its plan made anew, every decision on top of it.

    A decision that has nothing to hold on to any more goes, and is told.
    """
    if work.is_bare:
        return evolve(work, plan=None, lost=())
    whole = library_of(work, library)
    plan = propose(whole, work.presentation, work.request(clinician, today))
    plan = evolve(plan, review_on=work.kept.review_on if work.kept is not None else None)
    held: list[Choice] = []
    lost: list[str] = []
    for choice in work.choices:
        try:
            plan = applied(plan, choice, whole)
        except OverrideError as error:
            lost.append(tr("A choice of yours was let go: {why}", why=error))
        else:
            held.append(choice)
    there = {item.id for item in plan.items}
    seen = tuple(one for one in work.seen if one[0] in there)
    for item, day in seen:
        plan = seen_done(plan, item, day)
    return evolve(work, plan=plan, choices=tuple(held), seen=seen, lost=tuple(lost))


def decided(work: Work, library: Library, choice: Choice) -> Work:
    """The work with one more decision.

    Raises:
        OverrideError: it can't be made as it is; one sentence says why.
    """
    if work.plan is None:
        return work
    plan = applied(work.plan, choice, library_of(work, library))
    return evolve(work, plan=plan, choices=(*work.choices, choice), lost=())


def signed(work: Work, item: str, who: str, day: dt.date) -> Work:
    """The work with a second clinician's sign under the decisions about an exercise.

    Raises:
        OverrideError: the second clinician is the one who decided.
    """
    if work.plan is None:
        return work
    plan = countersign(work.plan, item, who, day)
    choices = tuple(
        evolve(each, signed_by=who, signed_on=day) if each.item == item else each
        for each in work.choices
    )
    return evolve(work, plan=plan, choices=choices)


def seen(work: Work, item: str, day: dt.date | None) -> Work:
    """The work with an exercise seen done in the room on a day, or not (None)."""
    if work.plan is None:
        return work
    others = tuple(one for one in work.seen if one[0] != item)
    now = others if day is None else (*others, (item, day))
    return evolve(work, plan=seen_done(work.plan, item, day), seen=now)
