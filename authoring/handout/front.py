"""The first page: where you are, what to do, how much pain is fine, when to stop."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.dosage.frequency_words import frequency_phrase, rest_day_sentences
from authoring.dosage.pain import NO_DEFAULT, Zone, rule_in_force, zones
from authoring.handout.context import Context
from authoring.handout.document import (
    Contact,
    Fact,
    Facts,
    Glance,
    GlanceItem,
    PainGuide,
    PainZone,
    Picture,
    Stairs,
    StairStep,
    StopBox,
    StopGroup,
)
from authoring.handout.sheet import Item, Sheet, StageSheet
from authoring.model.caution import Caution
from authoring.model.load import IntRange
from authoring.model.pain import NextMorning, PainRule
from authoring.model.protocol import Stage
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, PainAction, Phase, TermKind, Urgency, Weekday

_A_DAY = 24

_TONES = {
    PainAction.CARRY_ON: 0,
    PainAction.STAY: 1,
    PainAction.GO_EASIER: 1,
    PainAction.REST: 1,
    PainAction.STEP_BACK: 1,
    PainAction.STOP_TODAY: 2,
    PainAction.STOP_AND_CALL: 2,
}


def stairs(sheet: Sheet, context: Context) -> Stairs | None:
    """The protocol's stages as steps; None where there is only one, or none."""
    protocol = sheet.protocol
    if protocol is None or len(protocol.stages) < 2:
        return None
    here = set() if sheet.whole else {stage.number for stage in sheet.stages}
    steps = tuple(
        StairStep(number, context.text(stage.name, protocol.language), number in here)
        for number, stage in enumerate(protocol.stages, 1)
    )
    return Stairs(context.say("handout.here") if here else "", steps)


_MOST_PICTURED = 4
"""Exercises with pictures in the overview; with more, the stop box would leave page 1."""


def glance(stage: StageSheet, context: Context, *, note: str) -> Glance | None:
    """Every exercise of a stage: number, name, dose, end picture; None where it has none."""
    named = list(choice_names(stage, context))
    if not named:
        return None
    pictured = len(named) <= _MOST_PICTURED
    items = tuple(_glance_item(item, name, context, pictured=pictured) for item, name in named)
    return Glance(context.say("handout.what_to_do"), note, items)


def exercise_name(item: Item, context: Context) -> str:
    """Name of an exercise on the page: the variant's."""
    return context.text(item.variant.name, item.card.language)


def dose_headline(item: Item, context: Context) -> str:
    """The dose in one phrase, "" where there is none."""
    if item.dose is None:
        return ""
    return context.dose_words(item, dose_language(item, context)).headline(item.dose)


def how_often(item: Item, context: Context) -> str:
    """How often an exercise is done, where that is its own; "" where it is the stage's."""
    if item.days:
        return weekdays(item.days, context)
    frequency = item.dose.frequency if item.dose is not None else None
    return frequency_phrase(context.phrases, frequency) if frequency is not None else ""


def dose_language(item: Item, context: Context) -> str:
    """Language of plain strings in the file that holds the item's dose."""
    from_entry = item.entry is not None and item.dose is item.entry.dose
    return context.own if from_entry else item.card.language


def choice_names(stage: StageSheet, context: Context) -> Iterator[tuple[Item, str]]:
    """Each exercise with its name in a list: "or …" where it is another of one choice."""
    before: Item | None = None
    for item in stage.items():
        name = exercise_name(item, context)
        choice = item.entry.choice if item.entry is not None else None
        same = before is not None and before.entry is not None and before.entry.choice == choice
        yield item, context.say("choice.or", name=name) if choice is not None and same else name
        before = item


def _glance_item(item: Item, name: str, context: Context, *, pictured: bool) -> GlanceItem:
    return GlanceItem(
        item.number,
        name,
        _dose_and_often(item, context),
        _end_picture(item, context) if pictured else None,
    )


def _dose_and_often(item: Item, context: Context) -> str:
    dose, often = dose_headline(item, context), how_often(item, context)
    if dose and often:
        return context.say("glance.often", dose=dose, often=often)
    return dose or often[:1].upper() + often[1:]


def _end_picture(item: Item, context: Context) -> Picture | None:
    pictures = item.variant.pictures
    ends = [picture for picture in pictures if picture.phase in (Phase.END, Phase.HOLD)]
    chosen = (ends or list(pictures))[-1:]
    for picture in chosen:
        made = context.picture(picture, item.card.language, side=item.side)
        return Picture(made.data, made.media_type, made.alt, "", made.width_px, made.height_px)
    return None


# ---- facts ----------------------------------------------------------------------


def facts(stage: StageSheet, context: Context) -> Facts | None:
    """How often, how long, for how many weeks, with what."""
    items = list(stage.items())
    found = [*_stage_facts(stage, context), *(_kit_fact(items, context) if items else ())]
    return Facts(tuple(found)) if found else None


def _stage_facts(sheet: StageSheet, context: Context) -> Iterator[Fact]:
    """How often, how long and for how many weeks; a patient's own days and minutes come first."""
    stage, words = sheet.stage, context.phrases
    if sheet.days:
        yield Fact(weekdays(sheet.days, context), context.say("facts.often"))
    elif stage is not None and stage.frequency is not None:
        yield from _often_fact(stage, context)
    session = stage.session_minutes if stage is not None else None
    minutes = IntRange(low=sheet.minutes) if sheet.minutes is not None else session
    if minutes is not None:
        amount = words.span(minutes.low, minutes.high)
        yield Fact(
            words.count("unit.minute", minutes.top, n=amount), context.say("facts.each_time")
        )
    weeks = stage_weeks(stage) if stage is not None else None
    if weeks is not None:
        yield Fact(words.count("unit.week", weeks), context.say("facts.then_check"))


def weekdays(days: Iterable[Weekday], context: Context) -> str:
    """Days of the week in a list: "Monday, Wednesday and Friday"."""
    order = list(Weekday)
    names = context.phrases.locale.days["format"]["wide"]
    return context.phrases.listed([names[order.index(day)] for day in days])


def _often_fact(stage: Stage, context: Context) -> Iterator[Fact]:
    frequency = stage.frequency
    if frequency is None:
        return
    often = frequency_phrase(context.phrases, frequency)
    rest = " ".join(rest_day_sentences(context.phrases, frequency))
    if not often:
        if rest:
            yield Fact(rest, context.say("facts.often"))
        return
    days = frequency.days_per_week
    free = days is not None and days.top < 6
    detail = rest or context.say("facts.rest_days" if free else "facts.often")
    yield Fact(often[:1].upper() + often[1:], detail)


def stage_weeks(stage: Stage) -> int | None:
    """Usual length of a stage in weeks, at least 1; None where it is open or unknown."""
    usual = stage.usual_weeks
    if usual is None or usual.to_week is None:
        return None
    return max(1, usual.to_week - usual.from_week)


def _kit_fact(items: Iterable[Item], context: Context) -> Iterator[Fact]:
    kit = list(
        dict.fromkeys(
            context.term(TermKind.KIT, need.kit)
            for item in items
            for need in item.variant.equipment
            if not need.spare
        )
    )
    words = context.phrases.listed(kit) if kit else context.say("facts.no_kit")
    yield Fact(context.say("facts.need"), words)


# ---- pain -----------------------------------------------------------------------


def stage_rule(sheet: Sheet, stage: StageSheet, context: Context) -> PainRule | None:
    """The pain rule in force in a stage.

    Single cards beside protocols follow the strictest thing that is known of the patient:
    where one of the protocols allows no default, neither do they.
    """
    if stage.protocol is None:
        barred = next((each for each in sheet.protocols if each.pathway in NO_DEFAULT), None)
        return rule_in_force(barred, None, None, context.clinic.pain)
    return rule_in_force(stage.protocol, stage.stage, None, context.clinic.pain)


def zone_label(zone: Zone, context: Context) -> str:
    """ "0 to 2", "4 or 5", "6 or more", "any pain"."""
    if (zone.low, zone.high) == (0, 10):
        return context.say("pain.all")
    if zone.high == 10 and zone.low < 10:
        return context.say("pain.band_last", low=zone.low)
    if zone.low == zone.high:
        return context.say("pain.band_one", low=zone.low)
    key = "pain.band_two" if zone.high == zone.low + 1 else "pain.band"
    return context.say(key, low=zone.low, high=zone.high)


def zone_action(zone: Zone, context: Context) -> str:
    """What to do in a band, in the author's words or ours."""
    return _own_words(zone.band.words, context) or context.say(f"pain.{zone.band.action}")


def _own_words(text: Text | None, context: Context) -> str:
    return context.text(text)


def pain_guide(rule: PainRule | None, context: Context) -> PainGuide:
    """The pain rule as bands, the next-morning rule below."""
    heading = context.say("pain.heading")
    if rule is None:
        return PainGuide(heading, "", (), (context.say("pain.none"),))
    found = tuple(
        PainZone(
            zone.low,
            zone.high,
            zone_label(zone, context),
            zone_action(zone, context),
            _TONES[zone.band.action],
        )
        for zone in zones(rule.during)
    )
    tones = " ".join(context.say(f"pain.tone.{zone.tone}", label=zone.label) for zone in found)
    notes = [
        *after_notes(rule, context),
        *morning_notes(rule.next_morning, context),
        *([context.say("pain.how_easier")] if any(zone.tone == 1 for zone in found) else []),
    ]
    return PainGuide(heading, context.say("pain.scale_alt", bands=tones), found, tuple(notes))


def after_notes(rule: PainRule, context: Context) -> Iterator[str]:
    """What pain after exercise means, band by band."""
    for zone in zones(rule.after):
        yield context.say(
            "pain.after", label=zone_label(zone, context), action=zone_action(zone, context)
        )


def morning_notes(morning: NextMorning | None, context: Context) -> Iterator[str]:
    """What to do where it is not settled by the next morning, or by the hour the rule names."""
    if morning is None:
        return
    words = _own_words(morning.words, context)
    action = context.say(f"pain.morning.{morning.action}")
    if words:
        yield words
    elif morning.most is not None:
        most = context.phrases.number(morning.most)
        yield context.say("pain.next_morning_most", most=most, action=action)
    elif morning.settles_within_h > _A_DAY:
        yield context.say("pain.later", n=morning.settles_within_h, action=action)
    else:
        yield context.say("pain.next_morning", action=action)


# ---- stop -----------------------------------------------------------------------


def stop_box(sheet: Sheet, context: Context) -> StopBox:
    """Stop signs by urgency, most urgent first, and whom to call.

    Signs of an emergency that hold for anybody stand in where the protocol names none,
    and on the sheet of a single card.
    """
    signs: dict[Urgency, list[str]] = {urgency: [] for urgency in Urgency}
    for caution, when in cautions_here(sheet, context):
        if caution.kind is CautionKind.STOP_SIGN and caution.urgency is not None:
            sign = when + context.text(caution.text)
            if sign not in signs[caution.urgency]:
                signs[caution.urgency].append(sign)
    if not signs[Urgency.EMERGENCY]:
        general = ("stop.default_chest", "stop.default_faint")
        signs[Urgency.EMERGENCY] = [context.say(key) for key in general]
    groups = tuple(
        StopGroup(level, stop_lead(urgency, context), tuple(signs[urgency]))
        for level, urgency in enumerate(Urgency)
        if signs[urgency]
    )
    clinic = context.clinic
    closed = context.clinic_text(clinic.closed)
    contact = Contact(
        clinic.phone,
        context.clinic_text(clinic.hours),
        context.say("stop.closed", words=closed) if closed else "",
        context.say("stop.call_us") if clinic.phone else "",
    )
    return StopBox(groups, contact)


def cautions_here(sheet: Sheet, context: Context) -> Iterator[tuple[Caution, str]]:
    """Cautions of the protocols for the stages on the sheet.

    Each comes with words on the stages it is for ("Stage 2: "), "" where it is for all that
    are on the sheet.
    """
    for protocol in sheet.protocols:
        here = {
            each.stage.id: each.number
            for each in sheet.stages
            if each.protocol is protocol and each.stage is not None
        }
        for caution in protocol.cautions:
            numbers = [number for key, number in here.items() if key in caution.stages]
            if not caution.stages or len(numbers) == len(here):
                yield caution, ""
            elif numbers:
                listed = context.phrases.listed([str(number) for number in numbers])
                yield caution, context.phrases.count("notes.stages", len(numbers), n=listed) + " "


def stop_lead(urgency: Urgency, context: Context) -> str:
    """Where signs of this urgency lead, in the clinic's words or ours."""
    wording = context.clinic.emergency
    if wording is not None:
        words = context.clinic_text(getattr(wording, urgency.value))
        if words:
            return words
    return context.say(f"stop.{urgency}")
