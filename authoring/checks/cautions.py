"""Safety of a protocol and its cards: stop signs, cautions, contraindications, red flags."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import listed, named, quoted
from authoring.checks.placed import Placed, card_name, placed, variant_name
from authoring.checks.result import Strength, Subject
from authoring.model.base import Node
from authoring.model.card import Card, Variant
from authoring.model.caution import Caution
from authoring.model.protocol import Protocol
from authoring.model.sentence import say, say_n
from authoring.model.vocabulary import CautionKind, TermKind, Urgency

CARD, PROTOCOL = Subject.CARD, Subject.PROTOCOL


def _stop_signs(protocol: Protocol) -> list[Caution]:
    return [c for c in protocol.cautions if c.kind is CautionKind.STOP_SIGN]


@check(
    "stop-signs-missing",
    Strength.MUST,
    PROTOCOL,
    says="A protocol has no stop sign.",
    why="The sheet must say when to stop and what to do then (CERT item 11; PEMAT item 20).",
)
def no_stop_signs(protocol: Protocol, _: Context) -> Iterator[Spot]:
    if not _stop_signs(protocol):
        yield Spot(
            "cautions",
            say("The protocol has no stop sign: nothing tells the patient when to stop."),
            say(
                "Add stop signs, each with where it leads: stop, call the clinic, same day, "
                "emergency."
            ),
        )


@check(
    "emergency-sign-missing",
    Strength.MUST,
    PROTOCOL,
    says="No stop sign of a protocol leads to the emergency services.",
    why="Every region has signs that can't wait (Finucane LM et al. J Orthop Sports Phys Ther "
    "2020;50:350-372 for the spine; for the rest common practice, no source).",
)
def no_emergency_sign(protocol: Protocol, _: Context) -> Iterator[Spot]:
    signs = _stop_signs(protocol)
    if signs and all(sign.urgency is not Urgency.EMERGENCY for sign in signs):
        yield Spot(
            "cautions",
            say("No stop sign says when to call the emergency services."),
            say("Add the signs that can't wait, with the urgency emergency."),
        )


@check(
    "red-flags-missing",
    Strength.SHOULD,
    PROTOCOL,
    says="A protocol has no red flag to ask about.",
    why="Red flags are prompts before a programme starts (Finucane LM et al. J Orthop Sports "
    "Phys Ther 2020;50:350-372).",
)
def no_red_flags(protocol: Protocol, _: Context) -> Iterator[Spot]:
    if not protocol.red_flags:
        yield Spot(
            "red_flags",
            say("The protocol has no red flag to ask about before it is given."),
            say("Add those of its region, each with what to do if the answer is yes."),
        )


# ---- cautions for demands -----------------------------------------------------

_COVERING = (CautionKind.CONTRAINDICATION, CautionKind.PRECAUTION, CautionKind.STOP_SIGN)


def _uncovered(variant: Variant, cautions: Iterable[Caution], context: Context) -> list[str]:
    """Demands of a variant that need a caution and have none."""
    covered = {demand for c in cautions if c.kind in _COVERING for demand in c.demands}
    found = []
    for demand in variant.demands:
        row = context.wider(TermKind.DEMAND, demand)
        terms = (context.term(TermKind.DEMAND, each) for each in row)
        if any(t and t.needs_caution for t in terms) and not any(each in covered for each in row):
            found.append(demand)
    return found


@check(
    "caution-missing-on-card",
    Strength.SHOULD,
    CARD,
    says="Variants make a demand that needs a caution, and the card has none for it.",
    why="A card is used in any protocol, and alone. Which demands need one is said by the "
    "library's terms.",
)
def uncovered_on_card(card: Card, context: Context) -> Iterator[Spot]:
    places: dict[str, list[int]] = {}
    for index, variant in enumerate(card.variants):
        for demand in _uncovered(variant, (*card.cautions, *variant.cautions), context):
            places.setdefault(demand, []).append(index)
    for demand, indices in places.items():
        names = [variant_name(card, card.variants[index]) for index in indices]
        yield Spot(
            f"variants[{indices[0]}].demands",
            say(
                "{card} has no caution for the demand {demand} of {names}.",
                card=card_name(card),
                demand=quoted(demand),
                names=listed(names),
            ),
            say("Add a precaution, stop sign or contraindication that names this demand."),
        )


@check(
    "caution-missing-for-demand",
    Strength.MUST,
    PROTOCOL,
    says="An exercise makes a demand that needs a caution, and neither variant, card nor "
    "protocol has one for it.",
    why="Jumps, loads overhead, closed eyes, lying on the affected side and the like are not "
    "given without a caution. Common practice, no source; the library's terms say which.",
)
def uncovered_in_protocol(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        if place.card is None:
            continue
        lacking: dict[str, list[str]] = {}
        for variant in place.used:
            cautions = (*variant.cautions, *place.card.cautions, *protocol.cautions)
            for demand in _uncovered(variant, cautions, context):
                lacking.setdefault(demand, []).append(variant_name(place.card, variant))
        for demand, names in lacking.items():
            yield Spot(
                place.path,
                say(
                    "{name} makes the demand {demand} with {names}, and no caution names it.",
                    name=place.name,
                    demand=quoted(demand),
                    names=listed(names),
                ),
                say("Add a caution that names this demand to the card or the protocol."),
            )


# ---- contraindications --------------------------------------------------------


def _against(
    cautions: Iterable[Caution], protocol: Protocol, context: Context
) -> list[tuple[Caution, str]]:
    """Contraindications that hold for a condition the protocol is for."""
    return [
        (caution, condition)
        for caution in cautions
        if caution.kind is CautionKind.CONTRAINDICATION
        for condition in protocol.conditions
        if context.falls_under(TermKind.CONDITION, condition, caution.conditions)
    ]


@check(
    "contraindicated-for-condition",
    Strength.MUST,
    PROTOCOL,
    says="A protocol uses a card or starts with a variant that must not be used for its condition.",
    why="The protocol and the contraindication contradict one another.",
)
def contraindicated(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for condition in protocol.conditions:
        if context.falls_under(TermKind.CONDITION, condition, protocol.excluded):
            yield Spot(
                "excluded",
                say(
                    "The protocol is for {condition}, and not for it.", condition=quoted(condition)
                ),
                say("Take the condition out of one of the two lists."),
            )
    for caution, condition in _against(protocol.cautions, protocol, context):
        yield Spot(
            "cautions",
            say(
                "The protocol is for {condition}, and its own contraindication {caution} rules it "
                "out.",
                condition=quoted(condition),
                caution=quoted(caution.id),
            ),
            say("Correct the conditions of the contraindication."),
        )
    for place in placed(protocol, context):
        cautions = [*(place.card.cautions if place.card else ())]
        cautions += [caution for variant in place.done for caution in variant.cautions]
        yield from _ruled_out(place, cautions, protocol, context)


def _ruled_out(
    place: Placed, cautions: Iterable[Caution], protocol: Protocol, context: Context
) -> Iterator[Spot]:
    for caution, condition in _against(cautions, protocol, context):
        language = place.card.language if place.card else protocol.language
        yield Spot(
            f"{place.path}.card",
            say(
                "{name} must not be done with {condition}: {text}.",
                name=place.name,
                condition=quoted(condition),
                text=named(caution.text, language, caution.id),
            ),
            say("Take the exercise or variant out, or correct the contraindication."),
        )


@check(
    "contraindicated-variant",
    Strength.SHOULD,
    PROTOCOL,
    says="An exercise allows a variant that must not be used for the protocol's condition.",
    why="A patient could be given it.",
)
def contraindicated_variants(protocol: Protocol, context: Context) -> Iterator[Spot]:
    for place in placed(protocol, context):
        done = {variant.id for variant in place.done}
        for variant in place.used:
            if variant.id in done or place.card is None:
                continue
            for _, condition in _against(variant.cautions, protocol, context):
                yield Spot(
                    f"{place.path}.allowed",
                    say(
                        "{name} allows {variant}, which must not be done with {condition}.",
                        name=place.name,
                        variant=variant_name(place.card, variant),
                        condition=quoted(condition),
                    ),
                    say("Name the variants that are allowed."),
                )


@check(
    "contraindication-for-everyone",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="A contraindication names no condition, so it holds for everybody.",
    why="No patient could be given the exercise (contract of the files).",
)
def for_everyone(value: Node, context: Context) -> Iterator[Spot]:
    for path, caution in context.walk(value).nodes(Caution):
        if caution.kind is CautionKind.CONTRAINDICATION and not caution.conditions:
            yield Spot(
                f"{path}.conditions",
                say(
                    "The contraindication {caution} names no condition.", caution=quoted(caution.id)
                ),
                say("Name the conditions it is for, or make it a precaution."),
            )


@check(
    "precaution-without-how",
    Strength.SHOULD,
    CARD,
    PROTOCOL,
    says="Precautions do not say what to do.",
    why="“Take care” is no instruction (PEMAT item 22).",
)
def without_how(value: Card | Protocol, context: Context) -> Iterator[Spot]:
    lacking = [
        (path, caution)
        for path, caution in context.walk(value).nodes(Caution)
        if caution.kind is CautionKind.PRECAUTION and not caution.how
    ]
    if lacking:
        names = [named(caution.text, value.language, caution.id) for _, caution in lacking]
        yield Spot(
            f"{lacking[0][0]}.how",
            say_n(
                "{n} precaution has no word on what to do: {names}.",
                "{n} precautions have no word on what to do: {names}.",
                len(lacking),
                names=listed(names),
            ),
            say("Say how to take care, in the patient's words."),
        )
