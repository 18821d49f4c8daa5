"""All that one proposal is made from, looked up once: terms, sides, stages, places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from authoring.dosage.pain import NO_DEFAULT
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.pacing import Cap
from authoring.model.pain import PainRule
from authoring.model.patient import Presentation
from authoring.model.plan import ChosenStage
from authoring.model.protocol import Protocol, Stage
from authoring.model.vocabulary import Side
from authoring.tailoring.facts import Facts, facts_of, sides_of
from authoring.tailoring.place import Place, is_one_sided
from authoring.tailoring.request import Request
from authoring.tailoring.rules import Followed, Rules
from authoring.tailoring.stages import branches_met, choose_stage, entries_left_out, known_for
from authoring.tailoring.terms import Terms


@frozen(eq=False)
class Case:
    """One proposal's material.

    Attributes:
        sides: sides looked at one by one.
        facts: by side.
        stages: stages followed; with both sides in one stage it stands once.
        rules: hard rules by side.
        barred: entries that a finding leaves out, by protocol, entry and side.
    """

    library: Library
    presentation: Presentation
    ask: Request
    terms: Terms
    protocols: tuple[Protocol, ...]
    cards: tuple[Card, ...]
    sides: tuple[Side, ...]
    facts: Mapping[Side, Facts]
    stages: tuple[ChosenStage, ...]
    rules: Mapping[Side, Rules]
    barred: frozenset[tuple[str, str, Side]]

    @property
    def clinic_rule(self) -> PainRule | None:
        """The clinic's pain rule."""
        return self.library.clinic.pain if self.library.clinic is not None else None

    @property
    def most_exercises(self) -> int | None:
        """The most exercises: asked for, else the clinic's setting."""
        clinic = self.library.clinic
        return self.ask.most_exercises or (clinic.most_exercises if clinic is not None else None)

    def rules_for(self, side: Side) -> tuple[Rules, ...]:
        """The rules that hold for a side; with both sides those of each."""
        found = self.rules.get(side)
        return (found,) if found is not None else tuple(self.rules[each] for each in self.sides)

    def followed(self) -> Iterator[tuple[Protocol, Stage, Side]]:
        """Stages followed, as values, with the side that each is for."""
        for chosen in self.stages:
            protocol, stage = _found(chosen, self.protocols)
            yield protocol, stage, chosen.side

    def caps(self) -> tuple[Cap, ...]:
        """What the stages followed count at most, each once."""
        return tuple(dict.fromkeys(cap for _, stage, _ in self.followed() for cap in stage.caps))


def _found(chosen: ChosenStage, protocols: Sequence[Protocol]) -> tuple[Protocol, Stage]:
    protocol = next(each for each in protocols if each.id == chosen.protocol)
    return protocol, next(each for each in protocol.stages if each.id == chosen.stage)


def case_of(library: Library, presentation: Presentation, ask: Request) -> Case:
    """Look up what was asked for; ids that the library does not have are left out."""
    terms = Terms.of(library.manifest.terms)
    wanted = dict.fromkeys(ask.protocols)
    protocols = tuple(library.protocols[i] for i in wanted if i in library.protocols)
    cards = tuple(library.cards[i] for i in dict.fromkeys(ask.cards) if i in library.cards)
    sides = sides_of(presentation)
    facts = {side: facts_of(presentation, side, terms, protocols, ask.today) for side in sides}
    chosen = [
        (side, stage)
        for protocol in protocols
        for side in sides
        if (stage := choose_stage(protocol, facts[side].presentation, side, ask, terms))
    ]
    rules = {
        side: Rules.of(facts[side], terms, _followed_by(side, chosen, protocols), ask.today)
        for side in sides
    }
    barred = {
        (protocol.id, entry, side)
        for side in sides
        for protocol in protocols
        for entry in _left_out_by_findings(protocol, side, chosen, facts[side], ask)
    }
    return Case(
        library=library,
        presentation=presentation,
        ask=ask,
        terms=terms,
        protocols=protocols,
        cards=cards,
        sides=sides,
        facts=facts,
        stages=_once(chosen, presentation),
        rules=rules,
        barred=frozenset(barred),
    )


def _followed_by(
    side: Side, chosen: Sequence[tuple[Side, ChosenStage]], protocols: Sequence[Protocol]
) -> list[Followed]:
    return [Followed(*_found(stage, protocols)) for own, stage in chosen if own is side]


def _left_out_by_findings(
    protocol: Protocol,
    side: Side,
    chosen: Sequence[tuple[Side, ChosenStage]],
    facts: Facts,
    ask: Request,
) -> frozenset[str]:
    known = known_for(facts.presentation, protocol, side, ask)
    mine = [stage for own, stage in chosen if own is side and stage.protocol == protocol.id]
    return entries_left_out(
        branch for each in mine for branch in branches_met(_found(each, (protocol,))[1], known)
    )


def _once(
    chosen: Sequence[tuple[Side, ChosenStage]], presentation: Presentation
) -> tuple[ChosenStage, ...]:
    """The stages, two sides in the same one put together."""
    found: dict[tuple[str, str], ChosenStage] = {}
    for _, stage in chosen:
        key = (stage.protocol, stage.stage)
        before = found.get(key)
        if before is None:
            found[key] = stage
            continue
        reasons = tuple(dict.fromkeys((*before.reasons, *stage.reasons)))[:60]
        found[key] = ChosenStage(
            protocol=stage.protocol,
            version=stage.version,
            stage=stage.stage,
            side=presentation.side,
            reasons=reasons,
        )
    return tuple(found.values())


# ---- places ------------------------------------------------------------------------------


@frozen(eq=False)
class Places:
    """Places to fill.

    Attributes:
        open: places in order.
        behind: places of both sides at a stage that only the better side has reached.
        missing: protocol, stage and entry of places whose card or variant is not there.
    """

    open: tuple[Place, ...]
    behind: tuple[Place, ...]
    missing: tuple[tuple[str, str, str, str], ...]


def places_of(case: Case) -> Places:
    """Every place that the stages followed and the single cards give.

    Where the sides are at different stages, an entry that works both at once comes from the
    earlier stage alone.
    """
    open_places: list[Place] = []
    behind: list[Place] = []
    missing: list[tuple[str, str, str, str]] = []
    for protocol, stage, side in case.followed():
        split = [each for owner, each, _ in case.followed() if owner is protocol]
        first = min(split, key=protocol.stages.index)
        for block in stage.blocks:
            for entry in block.entries:
                card = case.library.cards.get(entry.card)
                if card is None or card.variant(entry.start) is None:
                    missing.append((protocol.id, stage.id, entry.id, entry.card))
                    continue
                for own in _sides_here(case, side, one_sided=is_one_sided(entry)):
                    number = len(open_places) + len(behind) + 1
                    place = Place(number, card, own, protocol, stage, block, entry)
                    late = len(split) > 1 and own is Side.BOTH and stage is not first
                    (behind if late else open_places).append(place)
    under = next((each for each in case.protocols if each.pathway in NO_DEFAULT), None)
    for card in case.cards:
        if not card.variants:
            missing.append(("", "", "", card.id))
            continue
        number = len(open_places) + len(behind) + 1
        open_places.append(Place(number, card, case.presentation.side, single_under=under))
    return Places(tuple(open_places), tuple(behind), tuple(missing))


def _sides_here(case: Case, stage_side: Side, *, one_sided: bool) -> tuple[Side, ...]:
    """The sides for which an entry is looked at: each alone where it works one at a time."""
    if len(case.sides) == 1:
        return case.sides
    if not one_sided:
        return (Side.BOTH,)
    return (stage_side,) if stage_side in (Side.LEFT, Side.RIGHT) else case.sides
