"""A card's ladder against the estimated load of its pictures."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.placed import card_name, variant_name
from authoring.checks.result import Strength, Subject
from authoring.model.card import Card
from authoring.model.sentence import say


@check(
    "ladder-load-order",
    Strength.MAY,
    Subject.CARD,
    says="By its pictures a variant loads the body less than one that stands on a lower rung, by "
    "more than the error of the estimate.",
    why="Harder should stand higher; load is one side of that, balance, range and speed are "
    "others. Static model with the segment masses of de Leva 1996; rungs within its error are "
    "never ordered.",
)
def load_order(card: Card, context: Context) -> Iterator[Spot]:
    names = {p.pose for variant in card.variants for p in variant.pictures if p.pose is not None}
    poses = {name: pose for name in sorted(names) if (pose := context.pose(name)) is not None}
    if not poses:
        return
    from authoring.mechanics.ladder import ladder_load  # noqa: PLC0415 - late: few cards need it

    places = {variant.id: index for index, variant in enumerate(card.variants)}
    for each in ladder_load(card, poses).disorders:
        lower, higher = (card.variants[places[key]] for key in (each.easier, each.harder))
        yield Spot(
            f"variants[{places[each.harder]}].rung",
            say(
                "By its picture {higher} of {card} loads the body less than {lower}, which stands "
                "on a lower rung.",
                higher=variant_name(card, higher),
                card=card_name(card),
                lower=variant_name(card, lower),
            ),
            say("Exchange their rungs, or keep them where something else makes it harder."),
        )
