"""What goes on a handout, before it has words: stages, groups and exercises in order.

A protocol, a plan and a card each become a :class:`Sheet`, and ``compose`` words it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from attrs import field, frozen

from authoring.dosage.placed_dose import dose_here
from authoring.handout.errors import HandoutError
from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.dose import Dose
from authoring.model.plan import ChosenStage, Plan, PlanItem
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.vocabulary import Side, Sides, Weekday
from authoring.tailoring.overrides import case_of_plan
from authoring.tailoring.whole import session_s


@frozen
class Item:
    """One exercise on the sheet.

    Attributes:
        dose: of this variant here; None where nobody gave one.
        entry: its place in the protocol, None on a single card.
        side: the affected side, where it is known.
        days: days of the week on which alone it is done; empty means every day of the plan.
    """

    number: int
    card: Card
    variant: Variant
    dose: Dose | None
    entry: Entry | None = None
    side: Side = Side.NONE
    days: tuple[Weekday, ...] = ()

    @property
    def sides(self) -> Sides | None:
        """Which side works."""
        return (self.dose and self.dose.sides) or (self.entry.sides if self.entry else None)

    def allowed(self) -> tuple[Variant, ...]:
        """Variants that may stand in for this one here, in the card's order."""
        names = self.entry.allowed if self.entry else ()
        return tuple(v for v in self.card.variants if not names or v.id in names)

    def dose_of(self, variant: Variant) -> Dose | None:
        """The dose of another variant here: the entry's where it fits, else its own."""
        return dose_here(self.entry, variant)


@frozen
class Group:
    """A block of the stage, or the only group of a card or plan (``block`` None)."""

    block: Block | None
    items: tuple[Item, ...]


@frozen
class StageSheet:
    """One stage of the sheet; ``stage`` is None for a card, or a plan without a protocol.

    Attributes:
        protocol: the one whose stage it is.
        days: days of the week of a patient's plan, empty where it has none.
        minutes: of a session of a patient's plan, None where it has none.
    """

    stage: Stage | None
    number: int
    groups: tuple[Group, ...]
    protocol: Protocol | None = None
    days: tuple[Weekday, ...] = ()
    minutes: int | None = None

    def items(self) -> Iterator[Item]:
        """The exercises in order."""
        for group in self.groups:
            yield from group.items


@frozen
class Sheet:
    """A whole handout before it has words.

    Attributes:
        own: language of plain strings of the protocol, plan or card.
        protocols: what it follows: one, several for some plans, none for a card.
        whole: whether every stage of the protocol is on it.
        label: the plan's label, "" otherwise.
    """

    own: str
    stages: tuple[StageSheet, ...]
    protocols: tuple[Protocol, ...] = ()
    card: Card | None = None
    plan: Plan | None = None
    whole: bool = False
    label: str = ""
    numbers_kept: bool = field(default=True)

    @property
    def protocol(self) -> Protocol | None:
        """The protocol, where it is one alone."""
        return self.protocols[0] if len(self.protocols) == 1 else None

    @property
    def sources(self) -> tuple[Protocol | Card, ...]:
        """The protocols, or the single card, that the sheet is made from."""
        return self.protocols or ((self.card,) if self.card is not None else ())

    @property
    def person(self) -> str:
        """Id that decides who its drawings show.

        One person does all the exercises of a handout, and of every later one from the same
        protocol: a face that changes from picture to picture draws the eye from the movement
        (design choice).
        """
        made_from = (*self.sources, *((self.plan,) if self.plan is not None else ()))
        return made_from[0].id if made_from else ""

    def items(self) -> Iterator[Item]:
        """Every exercise, in order."""
        for stage in self.stages:
            yield from stage.items()


def sheet_of_protocol(
    protocol: Protocol, cards: Mapping[str, Card], stages: Sequence[int] = ()
) -> Sheet:
    """The sheet of a protocol.

    Args:
        protocol: the protocol.
        cards: cards by id.
        stages: numbers of the stages wanted, counted from 1; none means all.

    Raises:
        HandoutError: no such stage, or a card or variant is missing.
    """
    if not protocol.stages:
        raise HandoutError("This protocol has no stage yet; add a stage with an exercise.")
    wanted = sorted(set(stages)) or list(range(1, len(protocol.stages) + 1))
    for number in wanted:
        if not 1 <= number <= len(protocol.stages):
            raise HandoutError(
                f"There is no stage {number}; this protocol has stages 1 to {len(protocol.stages)}."
            )
    numbers = protocol.numbers()
    chosen = tuple(
        StageSheet(
            stage,
            number,
            tuple(
                Group(
                    block, tuple(_item(entry, numbers[entry.id], cards) for entry in block.entries)
                )
                for block in stage.blocks
                if block.entries
            ),
            protocol,
        )
        for number, stage in enumerate(protocol.stages, 1)
        if number in wanted
    )
    whole = len(wanted) == len(protocol.stages)
    return Sheet(protocol.language, chosen, protocols=(protocol,), whole=whole)


def _item(entry: Entry, number: int, cards: Mapping[str, Card]) -> Item:
    card = cards.get(entry.card)
    if card is None:
        raise HandoutError(
            f"Exercise {number} uses a card that is not in the library or can't be read "
            f"({entry.card}); mend that card, or take the exercise out."
        )
    variant = card.variant(entry.start)
    if variant is None:
        raise HandoutError(
            f"Exercise {number} starts with the variant {entry.start!r}, which the card "
            f"{card.slug!r} does not have; choose another."
        )
    return Item(number, card, variant, dose_here(entry, variant), entry)


def sheet_of_card(card: Card) -> Sheet:
    """The sheet of one card: the variant it is named after.

    Raises:
        HandoutError: the card has no variant.
    """
    if not card.variants:
        raise HandoutError(f"The card {card.slug!r} has no variant yet; add one.")
    variant = min(card.variants, key=lambda v: (abs(v.rung), v.rung))
    item = Item(1, card, variant, variant.dose)
    only = StageSheet(None, 1, (Group(None, (item,)),))
    return Sheet(card.language, (only,), card=card)


def sheet_of_plan(plan: Plan, *, keep_numbers: bool = False) -> Sheet:
    """The sheet of a patient's plan, from what the plan embeds.

    Args:
        plan: the plan.
        keep_numbers: print the protocol's numbers instead of 1 to n.

    Raises:
        HandoutError: the plan is empty, or does not embed what it names.
    """
    if not plan.items:
        raise HandoutError("This plan has no exercise; add one.")
    cards = {card.id: card for card in plan.cards}
    protocols = {protocol.id: protocol for protocol in plan.protocols}
    sheets: list[StageSheet] = []
    printed = 0
    for chosen, items in _by_stage(plan, protocols):
        protocol = protocols.get(chosen.protocol) if chosen is not None else None
        stage, number = _stage(protocol, chosen)
        made = tuple(
            _plan_item(printed + index, item, cards, protocols, keep_numbers)
            for index, item in enumerate(items, 1)
        )
        printed += len(made)
        groups = _groups(made, stage, plan.days)
        sheets.append(StageSheet(stage, number, groups, protocol, plan.days, _minutes(plan, items)))
    return Sheet(
        plan.language,
        tuple(sheets),
        protocols=plan.protocols,
        plan=plan,
        label=plan.label,
        numbers_kept=keep_numbers,
    )


def _by_stage(
    plan: Plan, protocols: Mapping[str, Protocol]
) -> Iterator[tuple[ChosenStage | None, list[PlanItem]]]:
    """The exercises of each stage followed, in order; those of no stage come last.

    A single stage takes single cards along, so that the sheet stays one piece; never an
    exercise of another protocol, whose pain rule may be stricter.
    """
    followed = {None, *(chosen.protocol for chosen in plan.stages)}
    if len(plan.stages) == 1 and {item.protocol for item in plan.items} <= followed:
        yield plan.stages[0], list(plan.items)
        return
    places = [_place_of(item, plan, protocols) for item in plan.items]
    for place, chosen in enumerate((*plan.stages, None)):
        where = None if chosen is None else place
        mine = [item for item, its in zip(plan.items, places, strict=True) if its == where]
        if mine:
            yield chosen, mine


def _minutes(plan: Plan, items: Sequence[PlanItem]) -> int | None:
    """Minutes of a session, rounded up; None on the sheet of a plan that was not fitted to any."""
    if plan.presentation is None or plan.presentation.minutes is None:
        return None
    usual, _ = session_s(case_of_plan(plan), items)
    return max(1, -(-usual // 60))


def _groups(
    items: Sequence[Item], stage: Stage | None, days: Sequence[Weekday]
) -> tuple[Group, ...]:
    """The exercises under the blocks of the stage that they come from, in their own order.

    A block does not say more days or other minutes than the patient's plan.
    """
    block_of = {
        entry.id: _within(block, days)
        for block in (stage.blocks if stage else ())
        for entry in block.entries
    }

    def block(item: Item) -> Block | None:
        return block_of.get(item.entry.id) if item.entry is not None else None

    return tuple(Group(key, tuple(found)) for key, found in groupby(items, key=block))


def _within(block: Block, days: Sequence[Weekday]) -> Block:
    often = block.frequency.days_per_week if block.frequency is not None else None
    if not days or often is None or often.low <= len(days):
        return block
    return evolve(block, frequency=None, minutes=None)


def _place_of(item: PlanItem, plan: Plan, protocols: Mapping[str, Protocol]) -> int | None:
    """Index of the stage followed that an exercise belongs to: its own, else its protocol's.

    Where the sides follow stages of their own, the side counts too.
    """
    same = [i for i, chosen in enumerate(plan.stages) if chosen.protocol == item.protocol]
    sided = [i for i in same if plan.stages[i].side is item.side]
    for index in (*sided, *same):
        if item.stage is not None:
            if plan.stages[index].stage == item.stage:
                return index
            continue
        chosen = plan.stages[index]
        protocol = protocols.get(chosen.protocol)
        stages = protocol.stages if protocol is not None else ()
        stage = next((stage for stage in stages if stage.id == chosen.stage), None)
        if stage is not None and any(entry.id == item.entry for entry in stage.entries()):
            return index
    return same[0] if same else None


def _stage(protocol: Protocol | None, chosen: ChosenStage | None) -> tuple[Stage | None, int]:
    if chosen is None:
        return None, 1
    for number, stage in enumerate(protocol.stages if protocol else (), 1):
        if stage.id == chosen.stage:
            return stage, number
    raise HandoutError(
        f"The plan follows the stage {chosen.stage!r}, which no protocol in it has; make the "
        "plan again."
    )


def _plan_item(
    index: int,
    item: PlanItem,
    cards: Mapping[str, Card],
    protocols: Mapping[str, Protocol],
    keep_numbers: bool,
) -> Item:
    card = cards.get(item.card)
    variant = card.variant(item.variant) if card else None
    if card is None or variant is None:
        raise HandoutError(
            f"Exercise {index} of the plan names a card or variant that the plan does not hold; "
            "make the plan again."
        )
    protocol = protocols.get(item.protocol or "")
    entry = next((e for e in protocol.entries() if e.id == item.entry), None) if protocol else None
    number = index
    if keep_numbers and protocol is not None and entry is not None:
        number = protocol.numbers()[entry.id]
    dose = item.dose or dose_here(entry if entry and entry.card == card.id else None, variant)
    mine = _for_patient(entry, item) if entry is not None else None
    return Item(number, card, variant, dose, mine, item.side, item.days)


def _for_patient(entry: Entry, item: PlanItem) -> Entry:
    """The entry without what this patient may not use; its choice has been made.

    Another card in its place keeps its pain rule and its note, and none of its variants.
    """
    if entry.card != item.card:
        none: tuple[str, ...] = ()
        return evolve(
            entry,
            card=item.card,
            start=item.variant,
            allowed=(item.variant,),
            may_hold=none,
            together=none,
            dose=None,
            hold_dose=None,
            dose_fits=none,
            choice=None,
        )
    if item.permitted is None:
        return entry
    permitted = {*item.permitted, item.variant}
    return evolve(
        entry,
        allowed=tuple(name for name in (entry.allowed or item.permitted) if name in permitted)
        or (item.variant,),
        may_hold=tuple(name for name in entry.may_hold if name in permitted),
        together=tuple(name for name in entry.together if name in permitted),
        choice=None,
    )
