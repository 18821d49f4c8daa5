"""A place in a plan that an exercise may fill: an entry of a stage, or a single card."""

from __future__ import annotations

from attrs import field, frozen

from authoring.dosage.arithmetic.effective import often_of
from authoring.model.card import Card
from authoring.model.dose import Dose, Frequency
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.vocabulary import Side, Sides

_ONE_SIDED = frozenset({Sides.AFFECTED, Sides.OTHER, Sides.AFFECTED_THEN_OTHER})


@frozen(eq=False)
class Place:
    """One place.

    Attributes:
        number: order on the sheet, counted over the whole plan.
        protocol, stage, block, entry: where it comes from; all None for a single card.
        card: the card that is placed there.
        side: side of the patient that it is for.
        single_under: for a single card, the protocol of the plan whose silence on pain it shares.
    """

    number: int
    card: Card
    side: Side
    protocol: Protocol | None = None
    stage: Stage | None = None
    block: Block | None = None
    entry: Entry | None = None
    single_under: Protocol | None = field(default=None)

    @property
    def priority(self) -> int:
        """1 must be done, 2 should, 3 may be left out; a card that was asked for must."""
        return self.entry.priority if self.entry is not None else 1

    @property
    def choice(self) -> tuple[str, str, str, Side] | None:
        """The either/or choice it belongs to, None for none."""
        if self.entry is None or self.entry.choice is None or self.block is None:
            return None
        protocol = self.protocol.id if self.protocol is not None else ""
        return (protocol, self.block.id, self.entry.choice, self.side)

    def often(self, dose: Dose) -> Frequency | None:
        """How often a dose is done here."""
        return often_of(
            dose,
            self.block.frequency if self.block is not None else None,
            self.stage.frequency if self.stage is not None else None,
        )


def is_one_sided(entry: Entry) -> bool:
    """Whether an entry works one side at a time, so that the other side may be elsewhere."""
    sides = (entry.dose.sides if entry.dose is not None else None) or entry.sides
    return sides in _ONE_SIDED
