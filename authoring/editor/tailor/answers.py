"""Pure edits of a presentation, and what a protocol lets a clinician ask. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import frozen

from authoring.dosage.pain import rule_in_force
from authoring.model.base import evolve
from authoring.model.card import Variant
from authoring.model.caution import RedFlag
from authoring.model.library import Library
from authoring.model.load import WeightLoad
from authoring.model.pain import PainRule
from authoring.model.patient import ExercisePain, FlagAnswer, OwnedKit, Presentation
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Answer, PainAction, Side, Unit

_FINE = frozenset({PainAction.CARRY_ON, PainAction.STAY})


@frozen
class Asked:
    """A red flag of a protocol."""

    protocol: Protocol
    flag: RedFlag


def flags_of(protocols: Iterable[Protocol]) -> tuple[Asked, ...]:
    """Every red flag to be asked, in the protocols' order."""
    return tuple(Asked(each, flag) for each in protocols for flag in each.red_flags)


def answer_of(presentation: Presentation, asked: Asked) -> Answer:
    """The answer to a red flag; not asked where there is none."""
    key = (asked.protocol.id, asked.flag.id)
    found = [a.answer for a in presentation.red_flags if (a.protocol, a.flag) == key]
    return found[-1] if found else Answer.NOT_ASKED


def with_answer(presentation: Presentation, asked: Asked, answer: Answer) -> Presentation:
    """The presentation with one red flag answered."""
    key = (asked.protocol.id, asked.flag.id)
    kept = tuple(a for a in presentation.red_flags if (a.protocol, a.flag) != key)
    new = FlagAnswer(protocol=asked.protocol.id, flag=asked.flag.id, answer=answer)
    return evolve(presentation, red_flags=(*kept, new))


def pain_with(presentation: Presentation, card: str, side: Side = Side.NONE) -> ExercisePain | None:
    """The pain scored with a card on a side."""
    return next((p for p in presentation.pains if p.card == card and p.side is side), None)


def with_during(presentation: Presentation, card: str, during: float | None) -> Presentation:
    """The presentation with the pain during one exercise scored, on no side in particular.

    Args:
        during: 0 to 10, None for not scored.
    """
    before = pain_with(presentation, card)
    kept = tuple(p for p in presentation.pains if p is not before)
    new = evolve(before or ExercisePain(card=card), during=during)
    if new.during is None and new.next_morning is None:
        return evolve(presentation, pains=kept)
    return evolve(presentation, pains=(*kept, new))


@frozen
class KitAsked:
    """A piece of kit that the exercises ask for.

    Attributes:
        unit: unit of its sizes, None where no size matters.
        count: most of it that one exercise needs.
    """

    kit: str
    name: str
    unit: Unit | None
    count: int


def with_kit(
    presentation: Presentation,
    asked: KitAsked,
    sizes: tuple[float, ...] | None,
    count: int = 1,
) -> Presentation:
    """The presentation with a piece of kit at hand.

    Args:
        sizes: in the unit asked; empty where nobody measured it, None where it is not at hand.
        count: how many of each.
    """
    others = tuple(each for each in presentation.kit if each.kit != asked.kit)
    if sizes is None:
        return evolve(presentation, kit=others)
    new = OwnedKit(kit=asked.kit, sizes=sizes, unit=asked.unit if sizes else None, count=count)
    return evolve(presentation, kit=(*others, new))


def owned(presentation: Presentation, kit: str) -> OwnedKit | None:
    """A piece of kit as the patient has it, None where it is not at hand."""
    return next((each for each in presentation.kit if each.kit == kit), None)


def kit_of(library: Library, cards: Iterable[str], language: str) -> tuple[KitAsked, ...]:
    """Kit that any variant of these cards needs, by name."""
    names = {
        term.id: term.name.best(language, library.manifest.language)
        for term in library.manifest.terms
        if term.kind.value == "kit"
    }
    needs = [
        (need, _is_weighted(variant))
        for card in cards
        if card in library.cards
        for variant in library.cards[card].variants
        for need in variant.equipment
    ]
    found = []
    for kit in dict.fromkeys(need.kit for need, _ in needs):
        mine = [(need, weighted) for need, weighted in needs if need.kit == kit]
        units = [one for need, _ in mine for one in Unit if one.value == need.unit]
        # Kit that is nowhere used without a weight is the weight.
        units += [Unit.KILOGRAMS] if all(weighted for _, weighted in mine) else []
        count = max(need.count for need, _ in mine)
        found.append(KitAsked(kit, names.get(kit, kit), next(iter(units), None), count))
    return tuple(sorted(found, key=lambda each: each.name.casefold()))


def _is_weighted(variant: Variant) -> bool:
    loads = variant.dose.loads if variant.dose is not None else ()
    return any(isinstance(load, WeightLoad) for load in loads)


def most_allowed(rule: PainRule | None) -> float | None:
    """The most pain that a rule lets an exercise go on with; None where no rule is in force."""
    if rule is None:
        return None
    fine = [band.up_to for band in rule.during if band.action in _FINE]
    return max(fine, default=None)


def limit_of(library: Library, protocols: Iterable[Protocol]) -> float | None:
    """The lowest pain limit of the protocols, as whole protocols set it."""
    clinic = library.clinic.pain if library.clinic is not None else None
    found = [most_allowed(rule_in_force(each, None, None, clinic)) for each in protocols]
    known = [each for each in found if each is not None]
    return min(known, default=None)


def cards_used(library: Library, protocols: Iterable[str], cards: Iterable[str]) -> tuple[str, ...]:
    """Ids of the cards that a plan of these could use, in order."""
    own = [
        entry.card
        for each in protocols
        if each in library.protocols
        for entry in library.protocols[each].entries()
    ]
    return tuple(dict.fromkeys((*own, *cards)))


def sizes_of(words: str) -> tuple[float, ...] | None:
    """Sizes as people type them ("2, 4; 6.5"); None where that is no list of numbers."""
    parts = [part for part in words.replace(";", " ").replace(", ", " ").split() if part]
    try:
        found = tuple(float(part.replace(",", ".")) for part in parts)
    except ValueError:
        return None
    return found if all(0 < size < 1000 for size in found) else None
