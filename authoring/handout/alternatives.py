"""Which other ways to do an exercise its page offers, beside the one it starts with."""

from __future__ import annotations

from collections.abc import Iterable

from authoring.handout.sheet import Item
from authoring.model.card import Variant
from authoring.model.vocabulary import Mode

_MOST_OTHER_WAYS = 2
"""Other set-ups printed under an exercise; more would bury the exercise itself."""


def hold_instead(item: Item) -> Variant | None:
    """The hold that may replace movement in this stage; one that stands in for it goes first."""
    names = item.entry.may_hold if item.entry is not None else ()
    holds = [v for v in item.card.variants if v.id in names and v.id != item.variant.id]
    fitting = [v for v in holds if v.hold is not None and item.variant.id in v.hold.stands_in_for]
    return next(iter((*fitting, *holds)), None)


def easier(item: Item) -> Variant | None:
    """The nearest rung down that moves."""
    hold = hold_instead(item)
    lower = [v for v in _moving(item) if v.rung < item.variant.rung and v is not hold]
    return max(lower, key=lambda variant: variant.rung, default=None)


def harder(item: Item) -> Variant | None:
    """The next rung up, only where the clinician lets the patient step up alone."""
    rule = item.entry.progression if item.entry is not None else None
    if rule is None or not rule.patient_may_step_up or rule.easy_sessions is None:
        return None
    higher = [v for v in _moving(item) if v.rung > item.variant.rung]
    return min(higher, key=lambda variant: variant.rung, default=None)


def together(item: Item) -> tuple[Variant, ...]:
    """What is done side by side with it in the same session."""
    names = item.entry.together if item.entry is not None else ()
    found = (item.card.variant(name) for name in names)
    return tuple(variant for variant in found if variant is not None)


def other_ways(item: Item) -> tuple[Variant, ...]:
    """Set-ups of the same rung for other kit or positions, on the sheet of a card alone."""
    if item.entry is not None:
        return ()
    same = (v for v in _moving(item) if v.rung == item.variant.rung and v is not item.variant)
    return tuple(same)[:_MOST_OTHER_WAYS]


def alternatives(item: Item) -> tuple[Variant, ...]:
    """Every other way that the page offers, each once."""
    offered = (hold_instead(item), easier(item), harder(item), *together(item), *other_ways(item))
    return tuple({variant.id: variant for variant in offered if variant is not None}.values())


def _moving(item: Item) -> Iterable[Variant]:
    """Variants allowed here that do not hold still, or any where the exercise itself is a hold."""
    holding = item.variant.mode is Mode.ISOMETRIC
    return (v for v in item.allowed() if holding or v.mode is not Mode.ISOMETRIC)
