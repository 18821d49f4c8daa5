"""Edits of a card's ladder and of what stands in its variants."""

from __future__ import annotations

from typing import Any

from authoring.model.base import evolve
from authoring.model.card import Card, HoldDetail, Picture, Variant
from authoring.model.caution import Caution
from authoring.model.edits.ladder import variant_of
from authoring.model.edits.naming import (
    fresh_id,
    ids_in,
    renewed,
    slug_of_text,
    with_fresh_ids,
)
from authoring.model.edits.outcome import Edited, Note, note, refuse
from authoring.model.edits.parts import remove_part, set_part
from authoring.model.edits.tree import (
    Path,
    insert_item,
    move_item,
    remove_item,
    set_fields,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Mode


def place_of(card: Card, variant: str) -> int:
    """Index of a variant in its card's list; refused where there is none."""
    return card.variants.index(variant_of(card, variant))


def _with(card: Card, index: int, *variants: Variant) -> Card:
    kept = card.variants
    return evolve(card, variants=(*kept[:index], *variants, *kept[index + 1 :]))


# ---- the ladder -----------------------------------------------------------------------


def add_variant(card: Card, *, rung: int, mode: Mode, name: Text) -> Edited[Card]:
    """Add a variant with nothing but a name, after the others of its rung."""
    taken = ids_in(card)
    new = Variant(
        id=fresh_id(slug_of_text(name, otherwise="variant"), taken=taken),
        rung=rung,
        mode=mode,
        name=name,
    )
    return _placed(card, new)


def _placed(card: Card, new: Variant) -> Edited[Card]:
    """Put after the last variant on the same rung, or the last one below."""
    below = [index for index, each in enumerate(card.variants) if each.rung <= new.rung]
    return Edited(insert_item(card, ("variants",), new, index=_after(below)), (new.id,))


def _after(indexes: list[int]) -> int:
    return max(indexes) + 1 if indexes else 0


def derive_variant(
    card: Card,
    *,
    source: str,
    rung: int,
    name: Text,
    mode: Mode | None = None,
    **differences: Any,
) -> Edited[Card]:
    """Make a variant of another that differs only in what is given.

    Its id and those of its cautions are fresh. A hold that is made of a moving variant stands
    in for it, and takes no dose from it; nor does a moving variant from a hold. "In short" is
    left out: it says the change from a neighbour, and the neighbour is another one.

    Raises:
        EditError: no such variant, or a field that is not one.
        ModelError: a value is outside the limits of its field.
    """
    old = variant_of(card, source)
    new_mode = mode or old.mode
    taken = ids_in(card)
    renamed = evolve(old, id=slug_of_text(name, otherwise="variant"))
    (copy,), _ = renewed((renamed,), taken=taken, points=())
    changes: dict[str, Any] = {"rung": rung, "name": name, "mode": new_mode, "in_short": None}
    held, was_held = new_mode is Mode.ISOMETRIC, old.mode is Mode.ISOMETRIC
    if held != was_held:
        changes["dose"] = None
        changes["hold"] = HoldDetail(stands_in_for=(old.id,)) if held else None
    return _placed(card, set_fields(copy, (), **{**changes, **differences}))


def move_to_rung(card: Card, *, variant: str, rung: int, shift: bool = False) -> Edited[Card]:
    """Put a variant on another rung.

    Args:
        shift: variants of the new rung and beyond move one further away from the old rung,
            as long as they have no free rung between; the moved one stands alone there.
    """
    index = place_of(card, variant)
    old = card.variants[index]
    if rung == old.rung:
        return Edited(card, (variant,))
    changed = _with(card, index, evolve(old, rung=rung))
    if not shift:
        return Edited(changed, (variant,))
    by = 1 if rung > old.rung else -1
    others = {each.rung for each in changed.variants if each.id != variant}
    end = rung
    while end in others:
        end += by
    pushed = set(range(rung, end, by))
    variants = tuple(
        evolve(each, rung=each.rung + by) if each.id != variant and each.rung in pushed else each
        for each in changed.variants
    )
    notes = _pushed_notes(card, tuple(v for v in card.variants if v.id != variant), pushed, by)
    return Edited(evolve(changed, variants=variants), (variant,), notes)


def _pushed_notes(
    card: Card, others: tuple[Variant, ...], pushed: set[int], by: int
) -> tuple[Note, ...]:
    return tuple(
        note(
            "“{name}” is on rung {rung} now.",
            about=each.id,
            name=each.name.best(card.language, card.language),
            rung=each.rung + by,
        )
        for each in others
        if each.rung in pushed
    )


def insert_rung(card: Card, *, rung: int) -> Edited[Card]:
    """Make room for a new rung: the variants on it and further from 0 move one further.

    On rung 0 those above 0 move, so that the card's own rung stays.
    """
    up = rung >= 0
    first = max(rung, 1) if up else rung
    variants = tuple(
        evolve(each, rung=each.rung + (1 if up else -1))
        if (each.rung >= first if up else each.rung <= first)
        else each
        for each in card.variants
    )
    return Edited(evolve(card, variants=variants))


def reorder_on_rung(card: Card, *, variant: str, by: int) -> Edited[Card]:
    """Move a variant one place forward (-1) or back (1) among the alternatives of its rung.

    Raises:
        EditError: it is the first (or last) of its rung.
    """
    index = place_of(card, variant)
    rung = card.variants[index].rung
    beside = [i for i, each in enumerate(card.variants) if each.rung == rung]
    place = beside.index(index) + by
    if place < 0:
        raise refuse("This variant is the first of its rung.")
    if place >= len(beside):
        raise refuse("This variant is the last of its rung.")
    other = beside[place]
    swapped = list(card.variants)
    swapped[index], swapped[other] = swapped[other], swapped[index]
    return Edited(evolve(card, variants=tuple(swapped)), (variant,))


def remove_variant(card: Card, *, variant: str) -> Edited[Card]:
    """Take a variant out of a card; holds no longer stand in for it, nor week tables name it.

    Whether protocols use it is for :func:`authoring.model.edits.uses.uses` to say, and for
    :func:`authoring.model.edits.library.remove_variant` to mind.
    """
    without = _with(card, place_of(card, variant))
    variants = tuple(unnamed(each, variant) for each in without.variants)
    lost = [
        new
        for new, old in zip(variants, without.variants, strict=True)
        if new.hold is not None and old.hold is not None
        if old.hold.stands_in_for and not new.hold.stands_in_for
    ]
    notes = tuple(
        note(
            "“{name}” stands in for no variant now.",
            about=each.id,
            name=each.name.best(card.language, card.language),
        )
        for each in lost
    )
    return Edited(evolve(without, variants=variants), (), notes)


def unnamed(each: Variant, gone: str) -> Variant:
    """A variant that no longer stands in for another, nor leads to it in its week table."""
    hold, dose = each.hold, each.dose
    if hold is not None and gone in hold.stands_in_for:
        left = tuple(other for other in hold.stands_in_for if other != gone)
        hold = evolve(hold, stands_in_for=left)
    if dose is not None and gone in dose.week_variants():
        dose = dose.without_variant(gone)
    return each if (hold, dose) == (each.hold, each.dose) else evolve(each, hold=hold, dose=dose)


def set_variant(card: Card, *, variant: str, **changes: Any) -> Edited[Card]:
    """Change fields of a variant.

    Raises:
        EditError: no such variant or field, or one with an edit of its own (id, rung).
        ModelError: a value is outside the limits of its field.
    """
    for name in ("id", "rung"):
        if name in changes:
            raise refuse("{field} has an edit of its own.", field=name)
    index = place_of(card, variant)
    return Edited(_with(card, index, set_fields(card.variants[index], (), **changes)), (variant,))


# ---- what stands in a variant --------------------------------------------------------------


def _list_path(card: Card, variant: str, name: str) -> Path:
    return ("variants", place_of(card, variant), name)


def add_step(card: Card, *, variant: str, text: Text, index: int | None = None) -> Edited[Card]:
    """Add a step, at the end unless ``index`` is given."""
    path = _list_path(card, variant, "steps")
    return Edited(insert_item(card, path, text, index=index), (variant,))


def move_step(card: Card, *, variant: str, index: int, to: int) -> Edited[Card]:
    """Move a step so that it is the one at index ``to``."""
    path = _list_path(card, variant, "steps")
    return Edited(move_item(card, path, index=index, to=to), (variant,))


def remove_step(card: Card, *, variant: str, index: int) -> Edited[Card]:
    """Take a step out."""
    path = _list_path(card, variant, "steps")
    return Edited(remove_item(card, path, index=index), (variant,))


def add_picture(
    card: Card, *, variant: str, picture: Picture, index: int | None = None
) -> Edited[Card]:
    """Add a picture, at the end unless ``index`` is given."""
    path = _list_path(card, variant, "pictures")
    return Edited(insert_item(card, path, picture, index=index), (variant,))


def move_picture(card: Card, *, variant: str, index: int, to: int) -> Edited[Card]:
    """Move a picture so that it is the one at index ``to``."""
    path = _list_path(card, variant, "pictures")
    return Edited(move_item(card, path, index=index, to=to), (variant,))


def remove_picture(card: Card, *, variant: str, index: int) -> Edited[Card]:
    """Take a picture out; the image stays in the library."""
    path = _list_path(card, variant, "pictures")
    return Edited(remove_item(card, path, index=index), (variant,))


# ---- cautions, of the card or of one variant --------------------------------------------------


def add_caution(
    card: Card, *, caution: Caution, variant: str | None = None, index: int | None = None
) -> Edited[Card]:
    """Add a caution to a variant, or to the whole card; its id is made fresh if taken."""
    path: Path = ("cautions",) if variant is None else _list_path(card, variant, "cautions")
    new = with_fresh_ids(card, caution)
    return Edited(insert_item(card, path, new, index=index), (new.id,))


def set_caution(card: Card, *, caution: str, **changes: Any) -> Edited[Card]:
    """Change fields of a caution, wherever on the card it stands.

    A caution that becomes a stop sign and is given no urgency says to stop the exercise; one
    that is a stop sign no more loses its urgency.
    """
    return set_part(card, part=caution_of(card, caution).id, **changes)


def caution_of(card: Card, caution: str) -> Caution:
    """The caution with this id; refused where there is none."""
    every = (*card.cautions, *(c for v in card.variants for c in v.cautions))
    for each in every:
        if each.id == caution:
            return each
    raise refuse("There is nothing here with the id “{id}”.", id=caution)


def move_caution(card: Card, *, caution: str, variant: str | None) -> Edited[Card]:
    """Move a caution to a variant, or to the whole card (``variant=None``)."""
    old = caution_of(card, caution)
    without = remove_caution(card, caution=caution).value
    return add_caution(without, caution=old, variant=variant)


def remove_caution(card: Card, *, caution: str) -> Edited[Card]:
    """Take a caution out."""
    return remove_part(card, part=caution_of(card, caution).id)
