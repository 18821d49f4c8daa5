"""What doses, criteria and pain rules rest on."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, quoted
from authoring.checks.placed import card_name, placed, variant_name
from authoring.checks.result import Strength, Subject
from authoring.checks.walk import at
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, Measured, TimePassed
from authoring.model.dose import LeftOpen
from authoring.model.pain import PainRule
from authoring.model.protocol import Protocol
from authoring.model.sentence import say, say_n
from authoring.model.sources import Source
from authoring.model.vocabulary import Basis

CARD, PROTOCOL, CLINIC = Subject.CARD, Subject.PROTOCOL, Subject.CLINIC
WHY = (
    "TIDieR item 2: every fact that decides something says what it rests on, if only common "
    "practice."
)
MEND = say("Name the publication, or say that it is common practice or a local protocol.")


@check(
    "dose-without-source",
    Strength.SHOULD,
    PROTOCOL,
    says="Doses of exercises say nowhere what they rest on.",
    why=WHY,
)
def unsourced_doses(protocol: Protocol, context: Context) -> Iterator[Spot]:
    lacking = []
    for place in placed(protocol, context):
        dose = place.dose
        if dose is None or isinstance(dose.work, LeftOpen):
            continue
        behind = place.start.sources if place.start and not place.entry.dose else ()
        if not (dose.sources or place.entry.sources or behind):
            lacking.append(place)
    if lacking:
        numbers = [str(place.number) for place in lacking]
        yield Spot(
            lacking[0].dose_path,
            say_n(
                "{n} dose has no source: exercise {numbers}.",
                "{n} doses have no source: exercise {numbers}.",
                len(lacking),
                numbers=listed(numbers),
            ),
            MEND,
        )


@check(
    "variant-dose-without-source",
    Strength.SHOULD,
    CARD,
    says="Doses on a card say nowhere what they rest on.",
    why=WHY,
)
def unsourced_variants(card: Card, _: Context) -> Iterator[Spot]:
    lacking = [
        (index, variant)
        for index, variant in enumerate(card.variants)
        if variant.dose is not None
        and not isinstance(variant.dose.work, LeftOpen)
        and not (variant.dose.sources or variant.sources)
    ]
    if lacking:
        names = [variant_name(card, variant) for _, variant in lacking]
        yield Spot(
            f"variants[{lacking[0][0]}].dose.sources",
            say_n(
                "{card} has {n} dose without a source: {names}.",
                "{card} has {n} doses without a source: {names}.",
                len(lacking),
                card=card_name(card),
                names=listed(names),
            ),
            MEND,
        )


def _bare(criterion: Criterion) -> Iterator[Measured | InWords | TimePassed]:
    """Parts of a criterion that neither they nor what holds them gives a source for."""
    if criterion.sources:
        return
    if isinstance(criterion, AllOf | AnyOf):
        for part in criterion.parts:
            yield from _bare(part)
    else:
        yield criterion


@check(
    "criterion-without-source",
    Strength.SHOULD,
    PROTOCOL,
    says="Criteria say nowhere what they rest on.",
    why=WHY,
)
def unsourced_criteria(protocol: Protocol, _: Context) -> Iterator[Spot]:
    lacking: list[tuple[str, str]] = []
    for index, stage in enumerate(protocol.stages):
        if stage.sources:
            continue
        for name in ("entry", "move_on", "step_back"):
            for place, criterion in enumerate(getattr(stage, name)):
                path = f"stages[{index}].{name}[{place}].sources"
                lacking += [(path, quoted(each.id)) for each in _bare(criterion)]
    if lacking:
        yield Spot(
            lacking[0][0],
            say_n(
                "{n} criterion has no source: {names}.",
                "{n} criteria have no source: {names}.",
                len(lacking),
                names=listed([name for _, name in lacking]),
            ),
            MEND,
        )


@check(
    "pain-rule-without-source",
    Strength.SHOULD,
    PROTOCOL,
    CLINIC,
    says="A pain rule does not say what it rests on.",
    why=WHY,
)
def unsourced_rules(value: Node, context: Context) -> Iterator[Spot]:
    for path, rule in context.walk(value).nodes(PainRule):
        if not rule.sources:
            yield Spot(at(path, "sources"), say("A pain rule has no source."), MEND)


@check(
    "source-without-publication",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="Sources are called published, and name no publication.",
    why=WHY,
)
def unnamed_publications(value: Node, context: Context) -> Iterator[Spot]:
    lacking = [
        path
        for path, source in context.walk(value).nodes(Source)
        if source.basis is Basis.PUBLISHED and source.reference is None
    ]
    if lacking:
        yield Spot(
            f"{lacking[0]}.reference",
            say_n(
                "{n} source has the basis “published” and no publication.",
                "{n} sources have the basis “published” and no publication.",
                len(lacking),
            ),
            say("Name one of the references, or choose another basis."),
        )


@check(
    "reference-unused",
    Strength.MAY,
    CARD,
    PROTOCOL,
    says="Publications are listed that no source names.",
    why="A list longer than what is used can't be checked. Common practice, no source.",
)
def unused_references(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    used = {source.reference for _, source in context.walk(value).nodes(Source)}
    idle = [(index, each.id) for index, each in enumerate(value.references) if each.id not in used]
    if idle:
        yield Spot(
            f"references[{idle[0][0]}]",
            say_n(
                "No source names {n} publication of the list: {names}.",
                "No source names {n} publications of the list: {names}.",
                len(idle),
                names=listed([quoted(name) for _, name in idle]),
            ),
            say("Name them where they are used, or take them out."),
        )
