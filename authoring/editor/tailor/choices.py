"""The clinician's decisions about one plan, kept so that they can be made again. No Qt here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from attrs import frozen

from authoring.model.dose import Dose
from authoring.model.library import Library
from authoring.model.plan import LeftOut, Plan
from authoring.model.vocabulary import OverrideKind
from authoring.tailoring.overrides import (
    Decision,
    OverrideError,
    add,
    choose_dose,
    choose_exercise,
    choose_variant,
    countersign,
    remove,
)


@frozen(kw_only=True)
class Choice:
    """One decision.

    Attributes:
        item: the exercise it is about; for an added one the id it got.
        variant, card, dose: what was chosen, as far as the kind needs it.
        left: what was left out and is added.
        signed_by, signed_on: the second clinician's sign, "" and None for none.
    """

    kind: OverrideKind
    by: Decision
    item: str = ""
    variant: str = ""
    card: str = ""
    dose: Dose | None = None
    left: LeftOut | None = None
    signed_by: str = ""
    signed_on: dt.date | None = None


def applied(plan: Plan, choice: Choice, library: Library) -> Plan:
    """The plan with a decision made on it.

    Raises:
        OverrideError: there is nothing to decide about, or a reason is missing.
    """
    done = _made(plan, choice, library)
    if choice.signed_by and choice.signed_on is not None:
        return countersign(done, choice.item, choice.signed_by, choice.signed_on)
    return done


def _made(plan: Plan, choice: Choice, library: Library) -> Plan:
    by = choice.by
    match choice.kind:
        case OverrideKind.VARIANT:
            return choose_variant(plan, choice.item, choice.variant, by)
        case OverrideKind.EXERCISE:
            return choose_exercise(plan, choice.item, choice.card, choice.variant, by, library)
        case OverrideKind.DOSE if choice.dose is not None:
            return choose_dose(plan, choice.item, choice.dose, by)
        case OverrideKind.ADDED if choice.left is not None:
            return add(plan, _still_out(plan, choice.left), choice.variant, by, library)
        case OverrideKind.REMOVED:
            return remove(plan, choice.item, by)
    raise OverrideError("This decision says too little; make it again.")


def _still_out(plan: Plan, left: LeftOut) -> LeftOut:
    """The same left-out exercise in a plan that was made anew.

    Raises:
        OverrideError: the plan has it by itself now.
    """
    key = (left.protocol, left.entry, left.card, left.side)
    if any((each.protocol, each.entry, each.card, each.side) == key for each in plan.items):
        raise OverrideError("The plan has the exercise you added by itself now.")
    return next(
        (
            each
            for each in plan.left_out
            if (each.protocol, each.entry, each.card, each.side) == key
        ),
        left,
    )


def choices_of(plan: Plan) -> tuple[Choice, ...]:
    """The decisions that a kept plan shows, so that they hold on a proposal made anew."""
    return tuple(_read(plan))


def _read(plan: Plan) -> Iterator[Choice]:
    # Whether the clinic asked for a second sign shows in the plan only while one is missing.
    waits = any(reason.code == "countersign-missing" for reason in plan.reasons)
    for item in plan.items:
        for each in item.overrides:
            sign = each.countersign
            yield Choice(
                kind=each.what,
                by=Decision(who=each.who, date=each.date, why=each.why, second_sign=waits),
                item=item.id,
                variant=item.variant,
                card=item.card,
                dose=item.dose,
                left=LeftOut(
                    protocol=item.protocol,
                    stage=item.stage,
                    entry=item.entry,
                    card=item.card,
                    side=item.side,
                ),
                signed_by=sign.who if sign is not None else "",
                signed_on=sign.date if sign is not None else None,
            )
    for left in plan.left_out:
        if any(reason.code == "removed" for reason in left.reasons) and left.overrides:
            last = left.overrides[-1]
            yield Choice(
                kind=OverrideKind.REMOVED,
                by=Decision(who=last.who, date=last.date, why=last.why),
                item=left.entry or "",
            )
