"""Exercises of a plan, back at the places that they come from."""

from __future__ import annotations

from authoring.dosage.pain import NO_DEFAULT
from authoring.model.plan import LeftOut, PlanItem
from authoring.model.protocol import Entry
from authoring.tailoring.case import Case
from authoring.tailoring.place import Place


def place_of(case: Case, item: PlanItem | LeftOut) -> Place | None:
    """The place of an exercise, or of one that was left out; None where its card is gone.

    The place has the card that the protocol puts there, not one that replaced it.
    """
    protocol = next((each for each in case.protocols if each.id == item.protocol), None)
    for stage in protocol.stages if protocol is not None else ():
        for block in stage.blocks:
            for entry in block.entries:
                if entry.id == item.entry:
                    card = case.library.cards.get(entry.card) or case.library.cards.get(item.card)
                    if card is None:
                        return None
                    return Place(1, card, item.side, protocol, stage, block, entry)
    card = case.library.cards.get(item.card)
    if card is None:
        return None
    under = next((each for each in case.protocols if each.pathway in NO_DEFAULT), None)
    return Place(1, card, item.side, single_under=under)


def entry_of(case: Case, item: PlanItem) -> Entry | None:
    """The entry that an exercise comes from, None for a single card."""
    protocol = next((each for each in case.protocols if each.id == item.protocol), None)
    entries = protocol.entries() if protocol is not None else iter(())
    return next((entry for entry in entries if entry.id == item.entry), None)
