"""Projections of the exercises of a protocol, a plan and a card."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from authoring.dosage.arithmetic.figure import Figure, exactly, of_range
from authoring.dosage.placed_dose import dose_here
from authoring.dosage.progression.project import Projection, Setting, project
from authoring.dosage.progression.told import Told
from authoring.dosage.volume import Trained
from authoring.model.card import Card, Variant
from authoring.model.dose import Distance, Dose, Duration, Frequency, Holds, Intervals, Repetitions
from authoring.model.load import IntRange
from authoring.model.patient import OwnedKit
from authoring.model.plan import Plan, PlanItem
from authoring.model.protocol import Block, Entry, Progression, Protocol, Stage
from authoring.model.vocabulary import ProgressionMethod, Sides

ONCE = exactly(1)
NO_DOSE = Told("no-dose", "There is no dose, so that nothing is computed.")
NO_CARD = Told("no-card", "The card is not there, so that its ladder is not known.")


@frozen(kw_only=True)
class Line:
    """One exercise and its weeks ahead.

    Attributes:
        card: None where it could not be found.
        protocol, stage, entry: where it stands, where it does.
        number: its number in the protocol or plan, or None.
        sides: side that works, where the dose does not say.
        often: how often, where the dose does not say; the first given counts.
        rounds: rounds of its circuit; one elsewhere.
        chosen: False where it is one of several to choose from.
        projection: None where there is no dose.
        told: why there is none.
    """

    card: Card | None
    protocol: Protocol | None = None
    stage: Stage | None = None
    entry: Entry | None = None
    number: int | None = None
    sides: Sides | None = None
    often: tuple[Frequency | None, ...] = ()
    rounds: Figure = ONCE
    chosen: bool = True
    projection: Projection | None = None
    told: tuple[Told, ...] = ()

    def trained(self, week: int) -> Trained:
        """The exercise in one of its weeks, counted from 1, as volume is added up from it."""
        weeks = self.projection.weeks if self.projection is not None else ()
        dose = weeks[min(week, len(weeks)) - 1].dose if weeks else None
        return Trained(
            dose=dose,
            sides=self.sides,
            often=self.often,
            rounds=self.rounds,
            chosen=self.chosen,
            regions=self.card.regions if self.card is not None else (),
            movements=self.card.movements if self.card is not None else (),
        )


def allowed(entry: Entry, card: Card) -> tuple[Variant, ...]:
    """The variants that an entry allows, all of the card where it names none; a hold that may
    replace movement is no step up.
    """
    kept = entry.allowed or tuple(each.id for each in card.variants)
    wanted = {*kept, entry.start} - ({*entry.may_hold} - {entry.start})
    return tuple(each for each in card.variants if each.id in wanted)


def rounds_of(block: Block | None) -> Figure:
    """Rounds of a block; one where it is no circuit."""
    return of_range(block.rounds) if block is not None and block.rounds is not None else ONCE


def is_sure(entry: Entry, block: Block) -> bool:
    """Whether an entry is done in any case: it belongs to no choice, or all of it is picked."""
    if entry.choice is None:
        return True
    pick = next((choice.pick for choice in block.choices if choice.id == entry.choice), 1)
    return pick >= sum(other.choice == entry.choice for other in block.entries)


def _setting(
    place: tuple[Stage, Block, Entry] | None,
    ladder: Sequence[Variant],
    variant: Variant,
    owned: Sequence[OwnedKit],
    days: Frequency | None = None,
) -> Setting:
    if place is None:
        return Setting(variant=variant, ladder=tuple(ladder), often=(days,), owned=owned)
    stage, block, entry = place
    return Setting(
        variant=variant,
        ladder=tuple(ladder),
        often=(days, block.frequency, stage.frequency),
        owned=owned,
        cap_percent=stage.weekly_cap_percent,
        caps=stage.caps,
        sides=entry.sides,
        rounds=rounds_of(block),
    )


def protocol_lines(
    protocol: Protocol,
    cards: Mapping[str, Card],
    weeks: int,
    owned: Sequence[OwnedKit] = (),
    card: str | None = None,
) -> Iterator[Line]:
    """Every entry of a protocol, in order; only those of one card where it is named."""
    numbers = protocol.numbers()
    for stage in protocol.stages:
        for block in stage.blocks:
            for entry in block.entries:
                if card is not None and entry.card != card:
                    continue
                yield _of_entry(
                    protocol,
                    stage,
                    block,
                    entry,
                    cards.get(entry.card),
                    weeks,
                    owned,
                    numbers[entry.id],
                )


def _of_entry(
    protocol: Protocol,
    stage: Stage,
    block: Block,
    entry: Entry,
    card: Card | None,
    weeks: int,
    owned: Sequence[OwnedKit],
    number: int,
) -> Line:
    variant = card.variant(entry.start) if card is not None else None
    if card is None or variant is None:
        return Line(
            card=card, protocol=protocol, stage=stage, entry=entry, number=number, told=(NO_CARD,)
        )
    dose = dose_here(entry, variant)
    setting = _setting((stage, block, entry), allowed(entry, card), variant, owned)
    return Line(
        card=card,
        protocol=protocol,
        stage=stage,
        entry=entry,
        number=number,
        sides=entry.sides,
        often=setting.often,
        rounds=rounds_of(block),
        chosen=is_sure(entry, block),
        projection=None if dose is None else project(dose, entry.progression, weeks, setting),
        told=(NO_DOSE,) if dose is None else (),
    )


def plan_lines(plan: Plan, weeks: int, owned: Sequence[OwnedKit] = ()) -> Iterator[Line]:
    """Every exercise of a plan, with the patient's own kit unless other kit is given."""
    cards = {card.id: card for card in plan.cards}
    kit = owned or (plan.presentation.kit if plan.presentation is not None else ())
    for number, item in enumerate(plan.items, 1):
        yield _of_item(plan, item, cards.get(item.card), weeks, kit, number)


def place_of(plan: Plan, item: PlanItem) -> tuple[Protocol, Stage, Block, Entry] | None:
    """Where the entry of a plan's exercise stands, or None for a single card."""
    for protocol in plan.protocols:
        for stage in protocol.stages:
            for block in stage.blocks:
                for entry in block.entries:
                    if (protocol.id, entry.id) == (item.protocol, item.entry):
                        return protocol, stage, block, entry
    return None


def days_of(plan: Plan, item: PlanItem) -> Frequency | None:
    """How often a plan does an exercise, where it names days."""
    days = item.days or plan.days
    return Frequency(days_per_week=IntRange(low=len(days))) if days else None


def _of_item(
    plan: Plan,
    item: PlanItem,
    card: Card | None,
    weeks: int,
    owned: Sequence[OwnedKit],
    number: int,
) -> Line:
    place = place_of(plan, item)
    protocol, stage, block, entry = place if place is not None else (None, None, None, None)
    variant = card.variant(item.variant) if card is not None else None
    if card is None or variant is None:
        return Line(
            card=card, protocol=protocol, stage=stage, entry=entry, number=number, told=(NO_CARD,)
        )
    dose = item.dose if item.dose is not None else dose_here(entry, variant)
    ladder = allowed(entry, card) if entry is not None else card.variants
    setting = _setting(
        None if place is None else place[1:], ladder, variant, owned, days_of(plan, item)
    )
    rule = entry.progression if entry is not None else None
    return Line(
        card=card,
        protocol=protocol,
        stage=stage,
        entry=entry,
        number=number,
        sides=entry.sides if entry is not None else None,
        often=setting.often,
        rounds=rounds_of(block),
        projection=None if dose is None else project(dose, rule, weeks, setting),
        told=(NO_DOSE,) if dose is None else (),
    )


# ---- a card on its own ----------------------------------------------------------------


def usual_rule(dose: Dose) -> Progression:
    """The rule that is assumed for a card on its own, by its kind of work."""
    method = ProgressionMethod.CLINICIAN
    match dose.work:
        case Repetitions():
            method = ProgressionMethod.REPS_THEN_LOAD
        case Holds():
            method = ProgressionMethod.HOLD_TIME
        case Duration() | Distance():
            method = ProgressionMethod.DURATION
        case Intervals():
            method = ProgressionMethod.INTERVALS
    return Progression(method=method)


def card_lines(
    card: Card, weeks: int, owned: Sequence[OwnedKit] = (), rule: Progression | None = None
) -> Iterator[Line]:
    """The first variant as the card is named that has a dose, by a rule given or assumed."""
    ladder = sorted(card.variants, key=lambda each: (abs(each.rung), each.rung))
    variant = next((each for each in ladder if each.dose is not None), None)
    if variant is None or variant.dose is None:
        yield Line(card=card, told=(NO_DOSE,))
        return
    setting = _setting(None, card.variants, variant, owned)
    chosen = rule if rule is not None else usual_rule(variant.dose)
    told = Told("rule-assumed", "No protocol places this card: the usual rule is assumed.")
    yield Line(
        card=card,
        projection=project(variant.dose, chosen, weeks, setting),
        told=() if rule is not None else (told,),
    )
