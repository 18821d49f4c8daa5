"""The ladder by estimated load: each rung against rung 0, with its error. No widgets here.

Shown to the author and nothing more: no rung is placed, chosen or moved on by it.
"""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from authoring.editor.i18n import decimal_sign, ltr, mark, tr, tr_n
from authoring.editor.parts.gauge import rung_sign
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


@frozen
class RungLoad:
    """What the plate of a rung says of load: "3.8 ×", its band, whether neighbours are near."""

    ratio: str
    band: str
    close: bool


@frozen
class LoadFace:
    """What a ladder says of load, by rung, and a note under it; "" where it says nothing.

    A rung speaks for its first way with an estimate.
    """

    rungs: Mapping[int, RungLoad]
    note: str


NO_LOAD = LoadFace({}, "")


def load_face(weighed: Weighed) -> LoadFace:
    """What the ladder says of load; nothing where nothing can be compared."""
    ladder, card = weighed.ladder, weighed.card
    pairs = list(zip(card.variants, ladder.rungs, strict=True))
    known = [(variant.rung, rung) for variant, rung in pairs if isinstance(rung.ratio, Estimate)]
    if len(known) < 2 or ladder.measure is None:
        return NO_LOAD
    rungs = {number: _rung(rung) for number, rung in reversed(known)}
    lines = [tr(_WHAT[ladder.measure])] if ladder.measure in _WHAT else []
    close = sorted((number for number, rung in rungs.items() if rung.close), reverse=True)
    if close:
        signs = ", ".join(ltr(rung_sign(number)) for number in close)
        lines.append(tr("Too close to a neighbour to order: {rungs}.", rungs=signs))
    left = len(pairs) - len(known)
    if left:
        lines.append(tr_n("{n} way is not estimated.", "{n} ways are not estimated.", left))
    return LoadFace(rungs, "\n".join(lines))


def _rung(rung: Rung) -> RungLoad:
    ratio = rung.ratio
    assert isinstance(ratio, Estimate)  # noqa: S101 - narrows the type
    if ratio.low == ratio.high:
        return RungLoad(ltr("1 ×"), "", rung.close)
    band = ltr(f"{_figure(ratio.low)}–{_figure(ratio.high)}")
    return RungLoad(ltr(f"{_figure(ratio.value)} ×"), band, rung.close)


def _figure(value: float) -> str:
    return f"{value:.1f}".replace(".", decimal_sign())
