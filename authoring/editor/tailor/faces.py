"""What the plan's pane shows, as plain values that can be compared. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from attrs import frozen

from authoring.dosage.shorthand import write_dose
from authoring.editor.criterion_words import CriterionWords
from authoring.editor.i18n import day_words, ltr, tr
from authoring.editor.vocabulary_words import words_of
from authoring.model.card import Card
from authoring.model.library import LibraryFile
from authoring.model.plan import LeftOut, Override, Plan, PlanItem, Reason
from authoring.model.protocol import Protocol, Stage
from authoring.model.text import Text
from authoring.model.vocabulary import Mode, Side
from authoring.tailoring.case import Case
from authoring.tailoring.criteria import Verdict, judge
from authoring.tailoring.overrides import case_of_plan
from authoring.tailoring.reasons import HARD, NEEDS_WHY
from authoring.tailoring.stages import gate_to, known_for
from authoring.tailoring.whole import session_s


@frozen
class ReasonLine:
    """One reason. ``is_hard`` marks a rule that was set aside, ``is_own`` a person's choice."""

    words: str
    is_hard: bool = False
    is_own: bool = False


@frozen
class ItemFace:
    """An exercise of the plan as it is shown.

    Attributes:
        was: the rung that was proposed, where the clinician chose another of the same card.
        ways: the card's variants, hardest first, each with its words.
        waits: whether a second clinician has to sign.
    """

    id: str
    number: int
    name: str
    side: str
    mode: Mode
    rungs: tuple[int, ...]
    rung: int
    was: int | None
    dose: str
    minutes: int
    reasons: tuple[ReasonLine, ...]
    card: str
    variant: str
    ways: tuple[tuple[str, str], ...]
    seen: bool
    waits: bool


@frozen
class LeftFace:
    """An exercise that was left out; ``add`` is the variant that adding it takes."""

    left: LeftOut
    name: str
    side: str
    reasons: tuple[str, ...]
    later: bool
    add: str | None


@frozen
class CriterionFace:
    """A criterion to enter a stage, with what is known of it."""

    words: str
    verdict: Verdict


@frozen
class StageFace:
    """A stage that is followed.

    Attributes:
        names: names of all stages of its protocol.
        number: counted from 1.
        gate: criteria to enter the next stage, none after the last.
    """

    protocol: str
    title: str
    names: tuple[str, ...]
    ids: tuple[str, ...]
    number: int
    side: Side
    reasons: tuple[str, ...]
    gate: tuple[CriterionFace, ...]


@frozen
class PlanFace:
    """The whole plan as it is shown."""

    stages: tuple[StageFace, ...]
    items: tuple[ItemFace, ...]
    left: tuple[LeftFace, ...]
    reasons: tuple[str, ...]
    minutes: int
    most_minutes: int
    wanted: int | None
    days: str
    label: str


def side_words(side: Side) -> str:
    """A side in words, "" for none."""
    words = {Side.LEFT: tr("left"), Side.RIGHT: tr("right"), Side.BOTH: tr("both sides")}
    return words.get(side, "")


def face_of(plan: Plan, manifest: LibraryFile) -> PlanFace:
    """A plan as it is shown.

    Args:
        manifest: the library's record, which names what criteria measure.
    """
    case = case_of_plan(plan)
    cards = {card.id: card for card in plan.cards}
    usual, most = session_s(case, plan.items)
    needs_sign = any(reason.code == "countersign-missing" for reason in plan.reasons)
    flags = ("red-flag-yes", "red-flag-not-asked")
    return PlanFace(
        stages=tuple(_stages(plan, case, manifest)),
        items=tuple(
            _item(case, cards[item.card], item, number, needs_sign=needs_sign)
            for number, item in enumerate(plan.items, 1)
            if item.card in cards
        ),
        left=tuple(_left(plan, cards, left) for left in plan.left_out),
        reasons=tuple(reason.text for reason in plan.reasons if reason.code not in flags),
        minutes=minutes_of(usual) if plan.items else 0,
        most_minutes=minutes_of(most) if plan.items else 0,
        wanted=plan.presentation.minutes if plan.presentation is not None else None,
        days=", ".join(words_of(day) for day in plan.days),
        label=plan.label,
    )


def minutes_of(seconds: int) -> int:
    """Whole minutes, begun ones counted."""
    return -(-seconds // 60)


def _words(text: Text, language: str) -> str:
    return text.best(language, language).strip()


# ---- exercises -------------------------------------------------------------------------------


def _item(case: Case, card: Card, item: PlanItem, number: int, *, needs_sign: bool) -> ItemFace:
    variant = card.variant(item.variant) or card.variants[0]
    before = card.variant(item.proposed) if item.proposed is not None else None
    dose = write_dose(item.dose, pretty=True) if item.dose is not None else None
    ways = sorted(card.variants, key=lambda each: -each.rung)
    return ItemFace(
        id=item.id,
        number=number,
        name=_words(variant.name, card.language),
        side=side_words(item.side),
        mode=variant.mode,
        rungs=tuple(sorted({each.rung for each in card.variants})),
        rung=variant.rung,
        was=before.rung if before is not None and before.rung != variant.rung else None,
        dose=ltr(dose) if dose else tr("dose as the card says"),
        minutes=minutes_of(session_s(case, (item,))[0]),
        reasons=tuple(_reasons(item)),
        card=card.id,
        variant=variant.id,
        ways=tuple((each.id, way_words(card, each.id)) for each in ways),
        seen=item.seen_done is not None,
        waits=needs_sign
        and any(
            NEEDS_WHY.intersection(each.rules) and each.countersign is None
            for each in item.overrides
        ),
    )


def way_words(card: Card, variant_id: str) -> str:
    """A variant with its rung: "+1 One leg"."""
    variant = card.variant(variant_id)
    if variant is None:
        return variant_id
    sign = f"+{variant.rung}" if variant.rung > 0 else f"−{-variant.rung}" if variant.rung else "0"
    return f"{ltr(sign)}  {_words(variant.name, card.language)}"


def _reasons(item: PlanItem) -> Iterator[ReasonLine]:
    for each in item.overrides:
        yield ReasonLine(_decision(each), is_own=True)
    for reason in item.reasons:
        if reason.code == "overridden":
            continue
        yield ReasonLine(_said(reason), is_hard=reason.code in HARD)


def _decision(made: Override) -> str:
    what = tr("Your choice: {what}.", what=words_of(made.what))
    why = f" “{made.why.strip()}”" if made.why.strip() else ""
    by = f" {made.who}, {day_words(made.date)}"
    sign = made.countersign
    second = f"; {tr('signed by {who}', who=sign.who)}" if sign is not None else ""
    return f"{what}{why}{by}{second}"


def _said(reason: Reason) -> str:
    return f"{reason.text} ({reason.source})" if reason.source else reason.text


def _left(plan: Plan, cards: dict[str, Card], left: LeftOut) -> LeftFace:
    card = cards.get(left.card)
    return LeftFace(
        left=left,
        name=_words(card.title, card.language) if card is not None else left.card,
        side=side_words(left.side),
        reasons=tuple(_said(reason) for reason in left.reasons),
        later=left.later,
        add=_start(plan.protocols, card, left) if card is not None else None,
    )


def _start(protocols: Iterable[Protocol], card: Card, left: LeftOut) -> str | None:
    entries = (
        entry
        for protocol in protocols
        if protocol.id == left.protocol
        for entry in protocol.entries()
        if entry.id == left.entry and entry.card == card.id
    )
    start = next((entry.start for entry in entries), None)
    if start is not None and card.variant(start) is not None:
        return start
    named = [each.id for each in card.variants if each.rung == 0] or [
        each.id for each in card.variants
    ]
    return named[0] if named else None


# ---- stages ----------------------------------------------------------------------------------


def _stages(plan: Plan, case: Case, manifest: LibraryFile) -> Iterator[StageFace]:
    for chosen in plan.stages:
        protocol = next((each for each in plan.protocols if each.id == chosen.protocol), None)
        ids = [stage.id for stage in protocol.stages] if protocol is not None else []
        if protocol is None or chosen.stage not in ids:
            continue
        at = ids.index(chosen.stage)
        # Sides that differ are each moved alone, even while they are at the same stage.
        apart = chosen.side is Side.BOTH and len(case.sides) > 1
        for side in case.sides if apart else (chosen.side,):
            yield StageFace(
                protocol=protocol.id,
                title=_words(protocol.title, protocol.language),
                names=tuple(_name(protocol, stage) for stage in protocol.stages),
                ids=tuple(ids),
                number=at + 1,
                side=side,
                reasons=tuple(
                    reason.text for reason in chosen.reasons if not reason.code.startswith("next-")
                ),
                gate=tuple(_gate(case, protocol, at + 1, side, manifest)),
            )


def _name(protocol: Protocol, stage: Stage) -> str:
    return _words(stage.name, protocol.language)


def _gate(
    case: Case, protocol: Protocol, index: int, side: Side, manifest: LibraryFile
) -> Iterator[CriterionFace]:
    if index >= len(protocol.stages):
        return
    own = side if side in case.facts else case.sides[0]
    known = known_for(case.facts[own].presentation, protocol, own, case.ask)
    words = CriterionWords(manifest, protocol.language, protocol.language)
    for criterion in gate_to(protocol, index):
        yield CriterionFace(words.line(criterion), judge(criterion, known))


def others_like(
    cards: Iterable[Card], own: Card | None, language: str, taken: Sequence[str]
) -> tuple[tuple[str, str, str], ...]:
    """Cards to put in an exercise's place: id, variant and words; those of its purpose first.

    Args:
        taken: ids of the cards that the plan has already.
    """
    purpose = own.purpose if own is not None else None
    found = [card for card in cards if card.variants and card.id not in taken]
    found.sort(
        key=lambda card: (
            not (purpose and card.purpose == purpose),
            card.title.best(language, card.language).casefold(),
        )
    )
    return tuple(
        (
            card.id,
            next((each.id for each in card.variants if each.rung == 0), card.variants[0].id),
            card.title.best(language, card.language),
        )
        for card in found
    )
