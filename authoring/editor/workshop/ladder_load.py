"""The ladder by estimated load: each rung against rung 0, with its error. No widgets here.

Shown to the author and nothing more: no rung is placed, chosen or moved on by it.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from authoring.editor.i18n import decimal_sign, ltr, mark, tr, tr_n
from authoring.editor.parts.gauge import rung_sign
from authoring.editor.workshop.words import variant_name
from authoring.mechanics.estimate import Estimate, What
from authoring.mechanics.ladder import LadderLoad, Rung, ladder_load
from authoring.model.card import Card
from authoring.model.library import Library

_WHAT = {
    What.HANDS: mark("Load on the hands, against the first way on rung 0 (estimate)"),
    What.SHOULDER: mark("Load at the shoulder, against the first way on rung 0 (estimate)"),
    What.ELBOW: mark("Load at the elbow, against the first way on rung 0 (estimate)"),
    What.WRIST: mark("Load at the wrist, against the first way on rung 0 (estimate)"),
    What.LOWER_BACK: mark("Load at the lower back, against the first way on rung 0 (estimate)"),
    What.HIP: mark("Load at the hip, against the first way on rung 0 (estimate)"),
    What.KNEE: mark("Load at the knee, against the first way on rung 0 (estimate)"),
    What.ANKLE: mark("Load at the ankle, against the first way on rung 0 (estimate)"),
}


@frozen
class Weighed:
    """A card and its ladder by load."""

    card: Card
    ladder: LadderLoad


def weigh(library: Library, card: Card) -> Weighed:
    """The load of a card's ladder, by the poses of its library."""
    names = {p.pose for variant in card.variants for p in variant.pictures if p.pose is not None}
    own = {pose.slug: pose for pose in library.poses.values() if pose.slug in names}
    stock = {name: library.stock_poses[name] for name in names if name in library.stock_poses}
    return Weighed(card, ladder_load(card, {**stock, **own}))


def load_words(weighed: Weighed, language: str) -> str:
    """What the ladder says about load, "" where nothing can be compared.

    A rung has one line, of its first way with an estimate, so that the ladder keeps its room.
    """
    ladder, card = weighed.ladder, weighed.card
    pairs = list(zip(card.variants, ladder.rungs, strict=True))
    known = [(variant, rung) for variant, rung in pairs if isinstance(rung.ratio, Estimate)]
    if len(known) < 2 or ladder.measure is None:
        return ""
    lines = [tr(_WHAT[ladder.measure])] if ladder.measure in _WHAT else []
    first = {variant.rung: (variant, rung) for variant, rung in reversed(known)}
    for variant, rung in sorted(first.values(), key=lambda pair: -pair[0].rung):
        sign, name = ltr(rung_sign(variant.rung)), variant_name(card, variant, language)
        lines.append(f"{sign}  {name}: {', '.join(_said(rung))}")
    left = len(pairs) - len(known)
    if left:
        lines.append(tr_n("{n} way is not estimated.", "{n} ways are not estimated.", left))
    return "\n".join(lines)


def _said(rung: Rung) -> Iterator[str]:
    """A ratio with its band, and whether it is too near a neighbour's."""
    ratio = rung.ratio
    assert isinstance(ratio, Estimate)  # noqa: S101 - narrows the type
    if ratio.low == ratio.high:
        yield ltr("1")
    else:
        band = f"{_figure(ratio.value)} ({_figure(ratio.low)}–{_figure(ratio.high)})"
        yield ltr(band)
    if rung.close:
        yield tr("too close to its neighbour to order")


def _figure(value: float) -> str:
    return f"{value:.1f}".replace(".", decimal_sign())
