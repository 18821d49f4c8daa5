"""One exercise on the page, always in the same order: which, how much, how, what if."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from authoring.dosage.frequency_words import frequency_sentences
from authoring.dosage.pain import zones
from authoring.dosage.quantities import rest_time
from authoring.handout.alternatives import easier, harder, hold_instead, other_ways, together
from authoring.handout.cautions import added_words, care_notes, stop_notes
from authoring.handout.context import Context, limb_of
from authoring.handout.document import (
    BlockHeading,
    Change,
    Exercise,
    Option,
    Picture,
    WeekDose,
)
from authoring.handout.front import (
    after_notes,
    dose_headline,
    dose_language,
    exercise_name,
    morning_notes,
    weekdays,
    zone_action,
    zone_label,
)
from authoring.handout.sheet import Group, Item
from authoring.model.base import evolve
from authoring.model.card import KitNeed, Support, Variant
from authoring.model.dose import Dose, Rest
from authoring.model.pain import PainRule
from authoring.model.protocol import Choice
from authoring.model.vocabulary import (
    BlockKind,
    PainAction,
    Side,
    SupportKind,
    TermKind,
)

_HELP = (
    SupportKind.PARTNER,
    SupportKind.CLINICIAN,
    SupportKind.WALKING_AID,
    SupportKind.BRACE,
    SupportKind.TAPE,
    SupportKind.FLOAT,
)
"""Helpers, and what is worn or brought."""

_SECONDS = re.compile(r"\bseconds?\b", re.IGNORECASE)


def block_heading(group: Group, context: Context, *, alone: bool) -> BlockHeading | None:
    """Heading of a block; None for a plain main block, or the only block of a stage."""
    block = group.block
    if block is None:
        return None
    notes = [*_block_notes(group, context)]
    plain = block.kind is BlockKind.MAIN and block.name is None and not notes
    if plain or (alone and block.kind is BlockKind.MAIN and not notes):
        return None
    name = context.text(block.name) or context.say(f"block.{block.kind}")
    return BlockHeading(name, " ".join(notes))


def _block_notes(group: Group, context: Context) -> Iterator[str]:
    block = group.block
    if block is None:
        return
    words = context.phrases
    if block.rounds is not None:
        rounds = words.span(block.rounds.low, block.rounds.high)
        yield words.count("block.rounds", block.rounds.top, n=rounds)
    if block.in_order and block.kind is not BlockKind.SCRIPT:
        yield context.say("block.in_order")
    for key, rest in (
        ("block.rest_entries", block.rest_between_entries),
        ("block.rest_rounds", block.rest_between_rounds),
    ):
        time = _seconds(rest, context)
        if time:
            yield context.say(key, time=time)
    if block.minutes is not None:
        minutes = words.span(block.minutes.low, block.minutes.high)
        time = words.count("unit.minute", block.minutes.top, n=minutes)
        yield context.say("block.minutes", time=time)
    yield from frequency_sentences(words, block.frequency)
    if block.note is not None:
        yield context.text(block.note)


def _seconds(rest: Rest | None, context: Context) -> str:
    return rest_time(context.phrases, rest) if rest is not None else ""


# ---- the exercise ------------------------------------------------------------------


def exercise(item: Item, group: Group, rule: PainRule | None, context: Context) -> Exercise:
    """One exercise of the sheet.

    Args:
        item: the exercise.
        group: its block, for either/or choices.
        rule: pain rule of the stage.
        context: words, clinic, terms and pictures.

    Raises:
        HandoutError: a picture can't be used.
    """
    own = item.card.language
    variant = item.variant
    words = context.dose_words(item, dose_language(item, context))
    dose = item.dose
    details = words.details(said_once(dose, variant), item.sides) if dose else ()
    weeks = words.weeks(dose) if dose else ()
    tips = [context.text(cue, own) for cue in variant.cues]
    if variant.breathing is not None:
        tips.append(context.text(variant.breathing, own))
    return Exercise(
        number=item.number,
        name=exercise_name(item, context),
        why=context.text(item.card.purpose, own),
        dose=dose_headline(item, context),
        details=(
            *_days(item, context),
            *details,
            *_limb_words(item, context),
            *_note(item, context),
            *_bands(item, context),
            *_own_pain(item, context),
        ),
        weeks_headers=(context.say("exercise.weeks"), context.say("exercise.dose")),
        weeks=tuple(WeekDose(label, amount) for label, amount in weeks),
        needs=needs(variant.equipment, context, variant.supports),
        start=context.text(variant.start, own),
        pictures=_pictures(item, context),
        steps=tuple(context.text(step, own) for step in variant.steps),
        tips_heading=context.say("exercise.tips") if tips else "",
        tips=tuple(tips),
        cares=tuple(care_notes(item, context)),
        stops=tuple(stop_notes(item, context)),
        changes=tuple(_changes(item, group, rule, context)),
    )


def said_once(dose: Dose, variant: Variant) -> Dose:
    """The dose without the seconds of its tempo, where the steps already say them."""
    timed = any(_SECONDS.search(words) for step in variant.steps for words in step.values.values())
    if not timed or dose.tempo is None:
        return dose
    kept = evolve(dose.tempo, lowering_s=None, pause_low_s=None, lifting_s=None, pause_high_s=None)
    return evolve(dose, tempo=kept)


def needs(equipment: Iterable[KitNeed], context: Context, supports: Iterable[Support] = ()) -> str:
    """ "You need: a chair, a low step (20 cm) and someone to help you.", or "".

    Supports that a limb holds or leans on are kit, or stand in the words of the steps; only
    who and what must be with the patient besides is added.
    """
    kit = [_kit(need, context) for need in equipment if not need.spare]
    kit += [context.say(f"support.{each.kind}") for each in supports if each.kind in _HELP]
    return context.say("needs", kit=context.phrases.listed(kit)) if kit else ""


def _kit(need: KitNeed, context: Context) -> str:
    name = context.term(TermKind.KIT, need.kit)
    if need.count > 1:
        name = context.say("kit.count", n=need.count, kit=name)
    if need.size is None or not need.unit:
        return name
    size = context.phrases.number(need.size)
    return context.say("needs_size", kit=name, size=size, unit=need.unit)


def _pictures(item: Item, context: Context) -> tuple[Picture, ...]:
    own, pictures = item.card.language, item.variant.pictures
    only = len(pictures) == 1
    return tuple(context.picture(each, own, side=item.side, only=only) for each in pictures)


def _days(item: Item, context: Context) -> Iterator[str]:
    """The days of the week on which alone it is done."""
    if item.days:
        yield context.say("exercise.days", days=weekdays(item.days, context))


def _bands(item: Item, context: Context) -> Iterator[str]:
    """What bands on a drawn limb mean, where the clinic wants them and one is drawn."""
    one_sided = item.side in (Side.LEFT, Side.RIGHT)
    drawn = any(each.pose is not None for each in item.variant.pictures)
    if context.clinic.figure.mark_side and one_sided and drawn:
        yield context.say("exercise.bands")


def _note(item: Item, context: Context) -> Iterator[str]:
    if item.entry is not None and item.entry.note is not None:
        yield context.text(item.entry.note)


def _limb_words(item: Item, context: Context) -> Iterator[str]:
    roles = item.variant.limbs
    if roles is None or roles.lifting is roles.lowering:
        return
    limb = limb_of(item.card)
    yield context.say(
        f"limbs.up_down.{limb}",
        up=context.say(f"limb.{roles.lifting}.{limb}"),
        down=context.say(f"limb.{roles.lowering}.{limb}"),
    )


def _own_pain(item: Item, context: Context) -> Iterator[str]:
    """The exercise's own pain rule, where it has one."""
    if item.entry is None or item.entry.pain is None:
        return
    for zone in zones(item.entry.pain.during):
        yield context.say(
            "pain.this_exercise",
            label=zone_label(zone, context),
            action=zone_action(zone, context),
        )
    yield from after_notes(item.entry.pain, context)
    yield from morning_notes(item.entry.pain.next_morning, context)


# ---- easier, harder, or ------------------------------------------------------------------


def _changes(item: Item, group: Group, rule: PainRule | None, context: Context) -> Iterator[Change]:
    hurts = tuple(_if_it_hurts(item, context))
    if hurts:
        yield Change(-1, context.say("exercise.if_hurts"), _hurts_sub(item, rule, context), hurts)
    easy = tuple(_if_easy(item, context))
    if easy:
        yield Change(1, context.say("exercise.if_easy"), "", easy)
    beside = tuple(_by_name(together(item), item, context))
    if beside:
        yield Change(0, context.say("exercise.together"), "", beside)
    other = tuple(_by_name(other_ways(item), item, context))
    if other:
        yield Change(0, context.say("exercise.another_way"), "", other)
    choice = tuple(_instead(item, group, context))
    if choice:
        pick = _choice(item, group)
        heading = context.phrases.count("exercise.choose", pick.pick if pick is not None else 1)
        yield Change(0, heading, context.text(pick.words) if pick is not None else "", choice)


def _hurts_sub(item: Item, rule: PainRule | None, context: Context) -> str:
    """The pain band in which to go easier ("pain of 4 or 5")."""
    own = item.entry.pain if item.entry is not None else None
    in_force = own or rule
    for zone in zones(in_force.during) if in_force else ():
        if zone.band.action is PainAction.GO_EASIER:
            return context.say("exercise.if_hurts_sub", label=zone_label(zone, context))
    return ""


def _option(label: str, item: Item, variant: Variant, context: Context) -> Option:
    own = item.card.language
    words = context.text(variant.in_short, own)
    if not words:
        sentences = [
            context.text(variant.start, own),
            *(context.text(s, own) for s in variant.steps),
        ]
        words = " ".join(filter(None, sentences)) or context.text(variant.name, own)
    words = " ".join([words, *added_words(item, variant, words, context)])
    dose = item.dose_of(variant)
    amount = ""
    if dose is not None:
        from_entry = item.entry is not None and dose in (item.entry.dose, item.entry.hold_dose)
        language = context.own if from_entry else own
        amount = context.dose_words(item, language).headline(dose)
    return Option(label, words, amount)


def _if_it_hurts(item: Item, context: Context) -> Iterator[Option]:
    hold, easy = hold_instead(item), easier(item)
    if hold is not None:
        yield _option(context.say("exercise.hold_still"), item, hold, context)
    if easy is not None:
        label = "exercise.or_easier" if hold is not None else "exercise.easier"
        yield _option(context.say(label), item, easy, context)


def _if_easy(item: Item, context: Context) -> Iterator[Option]:
    rule = item.entry.progression if item.entry is not None else None
    higher = harder(item)
    if higher is not None and rule is not None and rule.easy_sessions is not None:
        label = context.phrases.count("exercise.after_easy", rule.easy_sessions)
        yield _option(label, item, higher, context)


def _by_name(variants: Iterable[Variant], item: Item, context: Context) -> Iterator[Option]:
    for variant in variants:
        yield _option(context.text(variant.name, item.card.language), item, variant, context)


def _instead(item: Item, group: Group, context: Context) -> Iterator[Option]:
    """The other exercises of an either/or choice."""
    name = item.entry.choice if item.entry is not None else None
    if name is None:
        return
    for other in group.items:
        if other is not item and other.entry is not None and other.entry.choice == name:
            label = context.say(
                "exercise.number_name", n=other.number, name=exercise_name(other, context)
            )
            yield Option(label, "", dose_headline(other, context))


def _choice(item: Item, group: Group) -> Choice | None:
    name = item.entry.choice if item.entry is not None else None
    choices = group.block.choices if group.block is not None else ()
    return next((choice for choice in choices if choice.id == name), None)
