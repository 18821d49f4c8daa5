"""A clinician's decisions against the proposal: each gives a new plan, with every rule re-checked.

A decision is kept with who, why and when. One that sets a safety rule aside needs a reason,
and where the clinic asks for it a second clinician's sign before anything prints.
"""

from __future__ import annotations

import datetime as dt

from attrs import frozen

from authoring.dosage.placed_dose import dose_here
from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.clinic import Clinic
from authoring.model.dose import Dose
from authoring.model.library import Library, LibraryFile
from authoring.model.patient import Presentation
from authoring.model.plan import Countersign, LeftOut, Override, Plan, PlanItem, Reason
from authoring.model.text import Text
from authoring.model.vocabulary import OverrideKind, Side
from authoring.tailoring.candidates import exclusions
from authoring.tailoring.case import Case, case_of
from authoring.tailoring.cautioned import not_covered
from authoring.tailoring.embed import cards_by_id, terms_used
from authoring.tailoring.filled import place_of
from authoring.tailoring.propose import propose
from authoring.tailoring.reasons import NEEDS_WHY, hard, why
from authoring.tailoring.request import TEST_VALID_DAYS, Request, StageWish
from authoring.tailoring.select import pain_at
from authoring.tailoring.terms import Terms
from authoring.tailoring.whole import plan_reasons


class OverrideError(ValueError):
    """A decision that can't be made as it is; one sentence says how to mend it."""


@frozen(kw_only=True)
class Decision:
    """Who decides, why and when.

    Attributes:
        second_sign: whether the clinic asks for a second sign where a safety rule is set aside.
    """

    who: str
    date: dt.date
    why: str = ""
    second_sign: bool = False


def case_of_plan(plan: Plan, library: Library | None = None) -> Case:
    """The material of a plan, from what it embeds; cards and terms of a library beside it."""
    own = library.manifest.terms if library is not None else ()
    terms = {(term.kind, term.id): term for term in (*own, *plan.terms)}
    manifest = LibraryFile(
        id=plan.id, name="", language=plan.language, terms=tuple(terms.values())[:5000]
    )
    cards = {card.id: card for card in plan.cards}
    if library is not None:
        cards = {**library.cards, **cards}
    clinic = Clinic(language=plan.language, name=Text.plain("-"), pain=plan.pain)
    whole = Library(
        manifest=manifest,
        clinic=clinic,
        cards=cards,
        protocols={protocol.id: protocol for protocol in plan.protocols},
    )
    ask = Request(
        today=plan.created,
        protocols=tuple(protocol.id for protocol in plan.protocols),
        stages=tuple(_wish(each.protocol, each.stage, each.side) for each in plan.stages),
        most_exercises=plan.most_exercises,
        test_valid_days=TEST_VALID_DAYS,
    )
    return case_of(whole, plan.presentation or Presentation(id=plan.id), ask)


def _wish(protocol: str, stage: str, side: Side) -> StageWish:
    return StageWish(protocol, stage, Side.NONE if side is Side.BOTH else side)


def _item(plan: Plan, item_id: str) -> PlanItem:
    found = next((item for item in plan.items if item.id == item_id), None)
    if found is None:
        raise OverrideError(f"The plan has no exercise {item_id!r}; choose one that it has.")
    return found


def hard_reasons(plan: Plan, item: PlanItem, library: Library | None = None) -> tuple[Reason, ...]:
    """Hard rules that exclude an exercise as it stands in a plan; empty where none does."""
    return _hard(case_of_plan(plan, library), plan, item)


def _hard(case: Case, plan: Plan, item: PlanItem) -> tuple[Reason, ...]:
    place = place_of(case, item)
    card = case.library.cards.get(item.card)
    variant = card.variant(item.variant) if card is not None else None
    if place is None or card is None or variant is None:
        return ()
    rules = case.rules_for(item.side)
    ruled = evolve(place, card=card) if card.id != place.card.id else place
    return hard(exclusions(place, card, variant, item.dose, rules, pain_at(ruled, rules, case)))


# ---- decisions -----------------------------------------------------------------------------


def choose_variant(plan: Plan, item_id: str, variant_id: str, by: Decision) -> Plan:
    """Another variant of the same card: a harder or easier rung, a hold, another way.

    Its dose is the one that is written for it.

    Raises:
        OverrideError: no such exercise or variant, or a safety rule is set aside without why.
    """
    item = _item(plan, item_id)
    case = case_of_plan(plan)
    card, variant = _variant(case, item.card, variant_id)
    place = place_of(case, item)
    entry = place.entry if place is not None and place.card.id == card.id else None
    changed = evolve(
        item,
        variant=variant.id,
        proposed=item.proposed or item.variant,
        dose=dose_here(entry, variant),
    )
    return _decided(plan, case, changed, OverrideKind.VARIANT, by)


def choose_dose(plan: Plan, item_id: str, dose: Dose, by: Decision) -> Plan:
    """Another dose of the same variant."""
    changed = evolve(_item(plan, item_id), dose=dose)
    return _decided(plan, case_of_plan(plan), changed, OverrideKind.DOSE, by)


def choose_exercise(
    plan: Plan, item_id: str, card_id: str, variant_id: str, by: Decision, library: Library
) -> Plan:
    """Another card in place of an exercise."""
    item = _item(plan, item_id)
    case = case_of_plan(plan, library)
    card, variant = _variant(case, card_id, variant_id)
    changed = evolve(
        item,
        card=card.id,
        variant=variant.id,
        proposed=item.proposed or item.variant,
        dose=variant.dose,
        permitted=(),
    )
    return _decided(_with_card(plan, card, case.terms), case, changed, OverrideKind.EXERCISE, by)


def add(
    plan: Plan, left: LeftOut, variant_id: str, by: Decision, library: Library | None = None
) -> Plan:
    """An exercise that was left out, or (``LeftOut(card=…)``) any card of the library.

    Raises:
        OverrideError: no such card or variant, or a safety rule is set aside without why.
    """
    case = case_of_plan(plan, library)
    card, variant = _variant(case, left.card, variant_id)
    place = place_of(case, left)
    entry = place.entry if place is not None and place.card.id == card.id else None
    item = PlanItem(
        id=_fresh(plan, left.entry or card.slug),
        protocol=left.protocol,
        stage=left.stage,
        entry=left.entry,
        card=card.id,
        variant=variant.id,
        permitted=(),
        side=left.side,
        dose=dose_here(entry, variant),
        overrides=left.overrides,
    )
    kept = tuple(each for each in plan.left_out if each != left)
    wider = evolve(
        _with_card(plan, card, case.terms), left_out=kept, items=_in_order(plan, item, case)
    )
    return _decided(wider, case, item, OverrideKind.ADDED, by)


def remove(plan: Plan, item_id: str, by: Decision) -> Plan:
    """Take an exercise out; it stays in the plan as left out by the clinician."""
    item = _item(plan, item_id)
    left = LeftOut(
        protocol=item.protocol,
        stage=item.stage,
        entry=item.entry,
        card=item.card,
        side=item.side,
        later=True,
        reasons=(why("removed"),),
        overrides=(*item.overrides, _override(OverrideKind.REMOVED, by, ())),
    )
    items = tuple(each for each in plan.items if each.id != item_id)
    changed = evolve(plan, items=items, left_out=(*plan.left_out, left))
    return checked(changed, case_of_plan(changed))


def countersign(plan: Plan, item_id: str, who: str, date: dt.date) -> Plan:
    """A second clinician's sign under every override of an exercise.

    Raises:
        OverrideError: the second clinician is the one who decided.
    """
    item = _item(plan, item_id)
    if any(each.who.strip().casefold() == who.strip().casefold() for each in item.overrides):
        raise OverrideError("A second clinician signs, not the one who decided; ask another.")
    sign = Countersign(who=who, date=date)
    signed = tuple(evolve(each, countersign=sign) for each in item.overrides)
    changed = _with_item(plan, evolve(item, overrides=signed))
    waiting = any(_waits(each) for each in changed.items)
    reasons = changed.reasons
    if not waiting:
        reasons = tuple(each for each in reasons if each.code != "countersign-missing")
    return evolve(changed, reasons=reasons)


def seen_done(plan: Plan, item_id: str, date: dt.date | None) -> Plan:
    """Note that an exercise was seen done in the room on a day; None takes the note away."""
    return _with_item(plan, evolve(_item(plan, item_id), seen_done=date))


def move_side(library: Library, plan: Plan, wish: StageWish, ask: Request) -> Plan:
    """Another stage on one side; exercises of the other side alone stay as they are.

    Args:
        wish: the stage and the side.
        ask: as the plan was asked for; its stages are replaced by those of the plan.
    """
    case = case_of_plan(plan)
    kept = tuple(
        StageWish(each.protocol, each.stage, side)
        for each in plan.stages
        for side in (case.sides if each.side in (Side.BOTH, Side.NONE) else (each.side,))
        if (each.protocol, side) != (wish.protocol, wish.side)
    )
    presentation = plan.presentation or Presentation(id=plan.id)
    made = propose(library, presentation, evolve(ask, stages=(*kept, wish)))
    mine = {(i.protocol, i.entry, i.card): i for i in plan.items if _is_other(i, wish.side)}
    stay = [i for i in made.items if not _is_other(i, wish.side)]
    items = (*stay, *mine.values())
    cards = cards_by_id((*made.cards, *plan.cards))
    gone = tuple(left for left in made.left_out if not _is_other(left, wish.side))
    left_out = (*gone, *(left for left in plan.left_out if _is_other(left, wish.side)))
    changed = evolve(made, id=plan.id, items=named_once(items), cards=cards, left_out=left_out)
    return checked(changed, case_of_plan(changed, library))


def _is_other(item: PlanItem | LeftOut, side: Side) -> bool:
    """Whether an exercise is of the other side alone."""
    return item.side in (Side.LEFT, Side.RIGHT) and item.side is not side


# ---- how a decision is kept ----------------------------------------------------------------


def _decided(plan: Plan, case: Case, item: PlanItem, what: OverrideKind, by: Decision) -> Plan:
    """The plan with a changed exercise, the decision and every rule that it sets aside."""
    found = _hard(case, plan, item)
    codes = tuple(dict.fromkeys(reason.code for reason in found))
    grave = NEEDS_WHY.intersection(codes)
    if grave and not by.why.strip():
        texts = " ".join(reason.text for reason in found if reason.code in grave)
        raise OverrideError(f"This needs a reason, because it sets a rule aside: {texts[:300]}")
    made = _override(what, by, codes)
    kept = tuple(each for each in item.reasons if each not in hard(item.reasons))
    text = f"{by.who} decided it{': ' + by.why.strip() if by.why.strip() else '.'}"
    reasons = (why("overridden", text), *found, *(r for r in kept if r.code != "overridden"))
    changed = evolve(item, reasons=reasons[:60], overrides=(*item.overrides, made)[-40:])
    done = checked(_with_item(plan, changed), case)
    if by.second_sign and any(_waits(each) for each in done.items):
        return evolve(done, reasons=(why("countersign-missing"), *done.reasons)[:200])
    return done


def _override(what: OverrideKind, by: Decision, codes: tuple[str, ...]) -> Override:
    if not by.who.strip():
        raise OverrideError("Say who decides: an override is kept with a name.")
    return Override(what=what, who=by.who, why=by.why, date=by.date, rules=codes)


def _waits(item: PlanItem) -> bool:
    """Whether an override that sets a safety rule aside has no second sign."""
    return any(NEEDS_WHY.intersection(o.rules) and o.countersign is None for o in item.overrides)


def checked(plan: Plan, case: Case) -> Plan:
    """The plan with what must be known of it as a whole said anew."""
    facts = case.facts[case.sides[0]]
    uncovered = not_covered(facts, case.terms, case.protocols, plan.cards)
    waiting = any(_waits(item) for item in plan.items)
    signs = [each for each in plan.reasons if each.code == "countersign-missing" and waiting]
    reasons = plan_reasons(case, plan.items, plan.left_out, uncovered)
    return evolve(plan, reasons=(*signs, *reasons)[:200], not_covered=uncovered)


# ---- small helps -----------------------------------------------------------------------------


def _variant(case: Case, card_id: str, variant_id: str) -> tuple[Card, Variant]:
    card = case.library.cards.get(card_id)
    variant = card.variant(variant_id) if card is not None else None
    if card is None or variant is None:
        raise OverrideError("That card or variant is not there; choose another.")
    return card, variant


def _with_item(plan: Plan, item: PlanItem) -> Plan:
    items = tuple(item if each.id == item.id else each for each in plan.items)
    return evolve(plan, items=items)


def _with_card(plan: Plan, card: Card, terms: Terms) -> Plan:
    if any(each.id == card.id for each in plan.cards):
        return plan
    cards = (*plan.cards, card)
    known = {(term.kind, term.id): term for term in (*plan.terms, *terms_used((card,), terms))}
    return evolve(plan, cards=cards, terms=tuple(known[key] for key in sorted(known)))


def _fresh(plan: Plan, wanted: str) -> str:
    taken = {item.id for item in plan.items}
    number, name = 2, wanted[:76]
    while name in taken:
        name = f"{wanted[:76]}-{number}"
        number += 1
    return name


def _in_order(plan: Plan, item: PlanItem, case: Case) -> tuple[PlanItem, ...]:
    """The items with a new one where its protocol has it, else at the end."""
    protocol = next((each for each in case.protocols if each.id == item.protocol), None)
    order = [entry.id for entry in protocol.entries()] if protocol is not None else []
    if item.entry not in order:
        return (*plan.items, item)
    at = order.index(item.entry)
    later = [
        index
        for index, each in enumerate(plan.items)
        if each.protocol == item.protocol
        and each.entry in order
        and order.index(each.entry) > at
        and each.side is item.side
    ]
    place = min(later, default=len(plan.items))
    return (*plan.items[:place], item, *plan.items[place:])


def named_once(items: tuple[PlanItem, ...]) -> tuple[PlanItem, ...]:
    """The items with ids that no two of them share."""
    used: set[str] = set()
    named: list[PlanItem] = []
    for item in items:
        name, number = item.id, 2
        while name in used:
            name = f"{item.id[:76]}-{number}"
            number += 1
        used.add(name)
        named.append(evolve(item, id=name) if name != item.id else item)
    return tuple(named)
