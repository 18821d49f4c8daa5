"""The exercises of a protocol with their places, cards and variants looked up."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import frozen

from authoring.checks.context import Context
from authoring.checks.naming import named, quoted
from authoring.model.card import Card, Variant
from authoring.model.dose import Dose
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.sentence import Sentence, say


@frozen
class Placed:
    """An entry where it stands.

    Attributes:
        stage_index: 0 for the first stage.
        stage_path, path: places of the stage and of the entry.
        number: as printed.
        card, start: None where the file names one that there isn't.
        name: how a sentence that opens with it names it, its stage included.
        inside: the same within a sentence.
    """

    stage: Stage
    stage_index: int
    stage_path: str
    block: Block
    entry: Entry
    path: str
    number: int
    card: Card | None
    start: Variant | None
    name: Sentence
    inside: Sentence

    @property
    def allowed(self) -> tuple[Variant, ...]:
        """Variants the entry allows by movement: those it lists, or all where it lists none."""
        if self.card is None:
            return ()
        if not self.entry.allowed:
            return self.card.variants
        return self.pick(self.entry.allowed)

    @property
    def done(self) -> tuple[Variant, ...]:
        """Variants done as written: the start, those side by side with it, those of its weeks."""
        return self.pick(dict.fromkeys((self.entry.start, *self.entry.together, *self.by_week)))

    @property
    def by_week(self) -> tuple[str, ...]:
        """Ids of the variants that the entry's dose changes to in some weeks."""
        return self.entry.dose.week_variants() if self.entry.dose is not None else ()

    @property
    def used(self) -> tuple[Variant, ...]:
        """Every variant a patient may be given here, in the order of the card."""
        if self.card is None:
            return ()
        if not self.entry.allowed:
            return self.card.variants
        entry = self.entry
        wanted = {
            *(entry.start, *entry.together, *entry.allowed, *entry.may_hold),
            *self.by_week,
        }
        return tuple(variant for variant in self.card.variants if variant.id in wanted)

    @property
    def dose(self) -> Dose | None:
        """The dose of the start variant here: the entry's, else the variant's own."""
        if self.entry.dose is not None:
            return self.entry.dose
        return self.start.dose if self.start is not None else None

    @property
    def dose_path(self) -> str:
        """Where the dose stands, or should."""
        return f"{self.path}.dose"

    def pick(self, ids: Iterable[str]) -> tuple[Variant, ...]:
        """The card's variants with these ids, in this order; unknown ids are passed over."""
        if self.card is None:
            return ()
        found = (self.card.variant(variant_id) for variant_id in ids)
        return tuple(variant for variant in found if variant is not None)


def placed(protocol: Protocol, context: Context) -> tuple[Placed, ...]:
    """The entries of a protocol in order, looked up once for all checks of it."""
    return context.once("placed", protocol, lambda: _placed(protocol, context))


def _placed(protocol: Protocol, context: Context) -> tuple[Placed, ...]:
    numbers = protocol.numbers()
    found = []
    for stage_index, stage in enumerate(protocol.stages):
        for block_index, block in enumerate(stage.blocks):
            for index, entry in enumerate(block.entries):
                path = f"stages[{stage_index}].blocks[{block_index}].entries[{index}]"
                card = context.card(entry.card)
                title = named(card.title, card.language, entry.id) if card else quoted(entry.id)
                number = numbers[entry.id]
                words = {"number": number, "title": title, "stage": stage_index + 1}
                found.append(
                    Placed(
                        stage,
                        stage_index,
                        f"stages[{stage_index}]",
                        block,
                        entry,
                        path,
                        number,
                        card,
                        card.variant(entry.start) if card else None,
                        say("Exercise {number} ({title}, stage {stage})", **words),
                        say("exercise {number} ({title}, stage {stage})", **words),
                    )
                )
    return tuple(found)


def stage_name(protocol: Protocol, index: int) -> Sentence:
    """How a sentence names a stage."""
    stage = protocol.stages[index]
    return say(
        "Stage {number} ({name})",
        number=index + 1,
        name=named(stage.name, protocol.language, stage.id),
    )


def variant_name(card: Card, variant: Variant) -> Sentence:
    """How a sentence names a variant."""
    return named(variant.name, card.language, variant.id)


def card_name(card: Card) -> Sentence:
    """How a sentence names a card."""
    return named(card.title, card.language, card.slug)
