"""The load of a card in words and figures, for clinicians."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from authoring.commands.load import CardLoad
from authoring.mechanics.estimate import CONTACTS, Estimate, NotEstimated, Unit, What, Why
from authoring.mechanics.ladder import LadderLoad, Rung
from authoring.mechanics.variant_load import VariantLoad
from authoring.model.card import Variant
from authoring.model.vocabulary import Side

CAUTION: Final = (
    "An estimate for clinicians, of a body that stands still. It never chooses a variant and "
    "never moves a patient on."
)

_WIDE: Final = 30
_SMALL: Final = 0.1

_WHAT: Final[Mapping[What, str]] = {
    What.HANDS: "on the hands",
    What.FOREARMS: "on the forearms",
    What.KNEES: "on the knees",
    What.FEET: "on the feet",
    What.TRUNK: "on the trunk",
    What.HEAD: "on the head",
    What.SHOULDER: "shoulder",
    What.SHOULDER_ROTATION: "shoulder, rotation",
    What.ELBOW: "elbow",
    What.WRIST: "wrist",
    What.LOWER_BACK: "lower back",
    What.HIP: "hip",
    What.KNEE: "knee",
    What.ANKLE: "ankle",
    What.CABLE: "pull of the cable",
    What.BAND: "pull of the band",
}

_WHY: Final[Mapping[Why, str]] = {
    Why.NO_POSE: "it has no picture that is drawn from a pose",
    Why.UNREACHED: "the pose does not fit this body",
    Why.SPEED: "a still model says nothing about speed",
    Why.AIRBORNE: "the body is in the air",
    Why.BOUNCE: "a still model says nothing about jumps and bounces",
    Why.UNSTABLE: "what it rests on or hangs from gives way",
    Why.BAND: "the band has no measured force at this length",
    Why.PULL_UNKNOWN: "the pull of the cable is not given",
    Why.MASS_UNKNOWN: "the mass of what is held is not given",
    Why.NOT_DRAWN: "the weight of its dose is in no picture",
    Why.HELP: "nobody knows how much a helper, water or a machine takes off",
    Why.UNBALANCED: "as drawn, its contacts would not hold the body still",
    Why.OPEN: "the error is as large as the figure",
    Why.NO_MEASURE: "nothing on rung 0 can be compared with it",
}


def as_text(load: CardLoad) -> str:
    """The load of a card: one paragraph a variant, the hardest rung first."""
    card, person = load.card, load.person
    pairs = sorted(
        zip(card.variants, load.ladder.rungs, strict=True), key=lambda pair: -pair[0].rung
    )
    lines = [
        f"{card.title.best(card.language, card.language)}: load for {person.mass_kg:g} kg and "
        f"{person.height_cm:g} cm.",
        CAUTION,
        _compared(load.ladder),
    ]
    for variant, rung in pairs:
        lines += ["", *_variant(load, variant, rung)]
    lines += _disorders(load)
    return "\n".join(lines)


def _compared(ladder: LadderLoad) -> str:
    if ladder.measure is None:
        return "Rungs are not compared: no variant on rung 0 has a figure for this card's regions."
    if ladder.measure in CONTACTS:
        return f"Rungs are compared by the share of body weight {_WHAT[ladder.measure]}."
    return f"Rungs are compared by the moment at the joint: {_WHAT[ladder.measure]}."


def _rung_words(rung: int) -> str:
    if rung == 0:
        return "rung 0"
    return f"progression {rung}" if rung > 0 else f"regression {-rung}"


def _variant(load: CardLoad, variant: Variant, rung: Rung) -> Iterator[str]:
    card, mass_kg, measure = load.card, load.person.mass_kg, load.ladder.measure
    name = variant.name.best(card.language, card.language)
    yield f"{_rung_words(variant.rung)}: {name} ({variant.id})"
    if not rung.load.estimates:
        yield from (f"  not estimated: {_reason(each)}" for each in rung.load.missing)
        return
    if isinstance(rung.ratio, Estimate):
        close = "; too close to the next rung to say which is harder" if rung.close else ""
        yield f"  {'against rung 0':<{_WIDE}}{_figure(rung.ratio)}{close}"
    else:
        yield f"  {'against rung 0':<{_WIDE}}not estimated: {_WHY[rung.ratio.why]}"
    for each in _worth_a_line(rung.load, measure):
        yield f"  {_named(each):<{_WIDE}}{_figure(each)}{_per_kg(each, rung.load, mass_kg)}"
    yield from (f"  not estimated: {_reason(each)}" for each in rung.load.missing)


def _per_kg(of: Estimate, load: VariantLoad, mass_kg: float) -> str:
    """The same for a kilogram of body mass, where that is known without what is held."""
    for each in load.estimates:
        if (each.what, each.side, each.unit) == (of.what, of.side, Unit.NM_PER_KG):
            loaded = abs(of.value - each.value * mass_kg) > 1e-6
            return f"; {each.value:.2f} N·m/kg{' without the load held' if loaded else ''}"
    return ""


def _worth_a_line(load: VariantLoad, measure: What | None) -> list[Estimate]:
    """Figures to print: of joints those of more than a tenth of the greatest moment."""
    shown = [each for each in load.estimates if each.unit is not Unit.NM_PER_KG]
    most = max((each.value for each in shown if each.unit is Unit.NM), default=0.0)
    return [
        each
        for each in shown
        if each.unit is not Unit.NM or each.what is measure or each.value > _SMALL * most
    ]


def _named(each: Estimate) -> str:
    return _WHAT[each.what] + _side(each.what, each.side)


def _side(what: What | None, side: Side) -> str:
    if side is Side.NONE:
        return ""
    if side is Side.BOTH:
        return ", together" if what in CONTACTS else ", each side"
    return f", {side.value}"


def _reason(each: NotEstimated) -> str:
    what = "" if each.of is None else f"{_WHAT[each.of]}{_side(each.of, each.side)}: "
    detail = f" ({each.detail.rstrip('.')})" if each.detail else ""
    return f"{what}{_WHY[each.why]}{detail}."


def _figure(each: Estimate) -> str:
    """A value with its band, no finer than the band allows."""
    match each.unit:
        case Unit.BODY_WEIGHT:
            low, value, high = (100 * x for x in (each.low, each.value, each.high))
            return f"{value:.0f} % of body weight ({low:.0f} to {high:.0f})"
        case Unit.RATIO:
            if each.low == each.high:
                return "1"
            return f"{_short(each.value)} times ({_short(each.low)} to {_short(each.high)})"
        case Unit.NM_PER_KG:
            return f"{each.value:.2f} N·m/kg ({each.low:.2f} to {each.high:.2f})"
        case Unit.NM:
            return f"{_short(each.value)} N·m ({_short(each.low)} to {_short(each.high)})"
    return f"{each.value:.0f} N ({each.low:.0f} to {each.high:.0f})"


def _short(value: float) -> str:
    """Two figures that count, as an estimate deserves."""
    return f"{value:.0f}" if value >= 10 else f"{value:.1f}"


def _disorders(load: CardLoad) -> Iterator[str]:
    if not load.ladder.disorders:
        return
    yield ""
    for each in load.ladder.disorders:
        yield (
            f"By load, {each.easier!r} is harder than {each.harder!r}, which stands higher, by "
            "more than the error."
        )
