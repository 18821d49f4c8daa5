"""What follows the exercises: advice, the diary, what must be true to move on, small print."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from itertools import zip_longest

from babel.dates import format_date

from authoring.dosage.frequency_words import frequency_sentences
from authoring.dosage.quantities import count_phrase, distance_phrase
from authoring.handout.cautions import gathered
from authoring.handout.context import Context
from authoring.handout.criteria import criterion_words
from authoring.handout.document import (
    Bullets,
    Diary,
    DiaryWeek,
    Line,
    Notes,
    Outcome,
    Ready,
    SmallPrint,
    Span,
)
from authoring.handout.front import cautions_here, choice_names, how_often, stage_weeks
from authoring.handout.limit_words import limit_sentences, until_week
from authoring.handout.markdown import rich
from authoring.handout.sheet import Item, Sheet, StageSheet
from authoring.model.dose import Frequency
from authoring.model.load import IntRange, NumberRange
from authoring.model.pacing import Cap
from authoring.model.protocol import Activity, CareItem, Protocol, Restriction, Stage
from authoring.model.sources import Reference
from authoring.model.vocabulary import BranchAction, CapOf, CautionKind, Counting, Status

_USUAL_WEEKS = 4
_MOST_WEEKS = 12
_WEEK = 7


def _bullets(lines: list[str]) -> Bullets:
    items: tuple[Line, ...] = tuple((Span(line),) for line in lines)
    return Bullets(items)


def before_exercises(stage: StageSheet, sheet: Sheet, context: Context) -> Iterator[Notes]:
    """What is not allowed yet and for whom this is not, in panels to be seen first."""
    banned = stage.stage.not_allowed if stage.stage is not None else ()
    lines = [_restriction(item, context) for item in banned]
    if lines:
        yield Notes(context.say("notes.not_yet"), (_bullets(lines),), framed=True)
    whole = [*_cautions(sheet, CautionKind.CONTRAINDICATION, context)]
    not_for = (
        *(_bullets(whole).items if stage is sheet.stages[0] else ()),
        *gathered(stage.items(), CautionKind.CONTRAINDICATION, context),
    )
    if not_for:
        yield Notes(context.say("notes.not_for_you"), (Bullets(not_for),), framed=True)


def _restriction(item: Restriction, context: Context) -> str:
    limits = limit_sentences(item.limb, context)
    return " ".join([context.text(item.text), *limits, *until_week(item.until_week, context)])


def stage_notes(sheet: StageSheet, context: Context) -> Iterator[Notes]:
    """What may be done beside the exercises, other care, caps, findings, and breaks."""
    stage = sheet.stage
    if stage is None:
        return
    numbers = {item.entry.id: item.number for item in sheet.items() if item.entry is not None}
    activities = [_activity(activity, context) for activity in stage.activities]
    if activities:
        yield Notes(context.say("notes.activities"), (_bullets(activities),))
    care = [_care(item, context) for item in stage.care]
    if care:
        yield Notes(context.say("notes.care"), (_bullets(care),))
    caps = [_cap(cap, context) for cap in stage.caps]
    if stage.weekly_cap_percent is not None:
        # The share is a sum for the patient to do; the rule behind it is not.
        caps.append(context.say("cap.growth"))
    if caps:
        yield Notes(context.say("notes.caps"), (_bullets(caps),))
    left_out = [*_left_out(stage, numbers, context)]
    if left_out:
        yield Notes(context.say("notes.left_out"), (_bullets(left_out),))
    findings = [*_findings(stage, context)]
    if findings:
        yield Notes(context.say("notes.if_happens"), (_bullets(findings),))
    pauses = [*_pauses(stage, context)]
    if pauses:
        yield Notes(context.say("notes.pause"), (_bullets(pauses),))


def _pauses(stage: Stage, context: Context) -> Iterator[str]:
    """One line for each length of a break, the shortest first."""
    rules = sorted(stage.pauses, key=lambda rule: rule.after_days)
    for rule, longer in zip_longest(rules, rules[1:]):
        action = context.text(rule.words) or context.say(f"pause.{rule.action}")
        last = longer.after_days - 1 if longer is not None else None
        if last is not None and last <= rule.after_days:
            days = context.phrases.number(rule.after_days)
            yield context.phrases.count("notes.pause_days", rule.after_days, n=days, action=action)
        elif last is not None:
            days = context.phrases.span(rule.after_days, last)
            yield context.phrases.count("notes.pause_days", last, n=days, action=action)
        else:
            yield context.phrases.count("notes.pause_words", rule.after_days, action=action)


def _cap(cap: Cap, context: Context) -> str:
    most, phrases = IntRange(low=cap.most), context.phrases
    if cap.of is CapOf.MINUTES:
        amount = phrases.count("unit.minute", cap.most)
    elif cap.of is CapOf.METRES:
        amount = distance_phrase(phrases, NumberRange(low=cap.most))
    elif cap.of is CapOf.SESSIONS:
        amount = phrases.count("amount.sessions", cap.most)
    else:
        amount = count_phrase(phrases, Counting(cap.of.value), most, bare=False)
    return context.say(f"cap.{cap.per}", amount=amount)


def _left_out(stage: Stage, numbers: Mapping[str, int], context: Context) -> Iterator[str]:
    """Findings on which exercises of the sheet are left out, with their numbers."""
    for branch in stage.branches:
        out = [str(numbers[entry]) for entry in branch.entries if entry in numbers]
        if branch.then is not BranchAction.LEAVE_OUT or not out:
            continue
        finding = context.text(branch.finding).rstrip(".?")
        listed = context.phrases.listed(out)
        action = context.phrases.count("notes.leave_out", len(out), n=listed)
        yield " ".join(filter(None, (f"{finding}?", action, context.text(branch.words))))


def _findings(stage: Stage, context: Context) -> Iterator[str]:
    """What to do on a finding, where the author says it to the patient."""
    for branch in stage.branches:
        words = context.text(branch.words)
        if branch.then is BranchAction.LEAVE_OUT or not words:
            continue
        finding = context.text(branch.finding)
        told = finding.casefold().rstrip(".") in words.casefold()
        yield words if told else f"{finding} {words}"


def _activity(activity: Activity, context: Context) -> str:
    text = context.text(activity.text)
    if activity.most_minutes is not None:
        time = context.phrases.count("unit.minute", activity.most_minutes)
        text = context.say("notes.activity_minutes", text=text, time=time)
    if activity.most_pain is not None:
        pain = context.phrases.number(activity.most_pain)
        text = f"{text} {context.say('notes.activity_pain', n=pain)}"
    return " ".join([text, *frequency_sentences(context.phrases, activity.frequency)])


def _care(item: CareItem, context: Context) -> str:
    parts = [context.text(item.text)]
    if item.minutes is not None:
        amount = context.phrases.span(item.minutes.low, item.minutes.high)
        time = context.phrases.count("unit.minute", item.minutes.top, n=amount)
        parts.append(context.say("block.minutes", time=time))
    parts += frequency_sentences(context.phrases, item.frequency)
    parts += limit_sentences(item.limb, context)
    parts += until_week(item.until_week, context)
    return " ".join(parts)


def normal_notes(stage: StageSheet, context: Context) -> Iterator[Notes]:
    """What to expect of the exercises of a stage."""
    lines = gathered(stage.items(), CautionKind.EXPECTED_RESPONSE, context)
    if lines:
        yield Notes(context.say("notes.normal_here"), (Bullets(lines),))


def _cautions(sheet: Sheet, kind: CautionKind, context: Context) -> Iterator[str]:
    """Cautions of the protocols as wholes, each text once."""
    found = (
        when + " ".join(filter(None, (context.text(caution.text), context.text(caution.how))))
        for caution, when in cautions_here(sheet, context)
        if caution.kind is kind
    )
    yield from dict.fromkeys(found)


def protocol_notes(sheet: Sheet, context: Context, *, lessons: bool = True) -> Iterator[Notes]:
    """Precautions, what is normal, and the lessons, where wanted, for the stages on the sheet."""
    for kind, key in (
        (CautionKind.PRECAUTION, "notes.take_care"),
        (CautionKind.EXPECTED_RESPONSE, "notes.normal"),
    ):
        lines = [*_cautions(sheet, kind, context)]
        if lines:
            yield Notes(context.say(key), (_bullets(lines),))
    for protocol in sheet.protocols if lessons else ():
        stages = (each.stage for each in sheet.stages if each.protocol is protocol)
        here = {stage.id for stage in stages if stage is not None}
        for lesson in protocol.education:
            if not lesson.stages or here & set(lesson.stages):
                yield Notes(context.text(lesson.title), rich(context.text(lesson.text)))


# ---- diary ------------------------------------------------------------------------


def diary(stage: StageSheet, context: Context) -> Diary | None:
    """Tick-off tables for the weeks of the stage, one column for each day of exercise.

    None where the stage has no exercise to tick off.
    """
    if next(stage.items(), None) is None:
        return None
    weeks = min(_MOST_WEEKS, (stage_weeks(stage.stage) if stage.stage else None) or _USUAL_WEEKS)
    days = _days(stage)
    rows = tuple(_diary_row(item, name, context) for item, name in choice_names(stage, context))
    pain = (context.say("diary.pain_day"), context.say("diary.pain_next"))
    tables = tuple(
        DiaryWeek(
            context.say("diary.week", n=week),
            context.say("diary.day"),
            tuple(str(day) for day in range(1, days + 1)),
            rows,
            pain,
        )
        for week in range(1, weeks + 1)
    )
    heading = context.phrases.count("diary.heading", weeks)
    return Diary(heading, context.say("diary.instruction"), tables)


def _diary_row(item: Item, name: str, context: Context) -> str:
    """An exercise to tick, with how often, where that differs from the stage's."""
    row = context.say("diary.exercise", n=item.number, name=name)
    often = how_often(item, context)
    return context.say("diary.often", row=row, often=often) if often else row


def _days(sheet: StageSheet) -> int:
    """Days of a week on which something is done; a patient's own days come before all.

    An exercise follows its own dose, else its block, else the stage, else it is for every day.
    """
    if sheet.days:
        return len(sheet.days)
    stage = _days_of(sheet.stage.frequency if sheet.stage is not None else None)
    found = []
    for group in sheet.groups:
        block = _days_of(group.block.frequency if group.block is not None else None)
        for item in group.items:
            own = _days_of(item.dose.frequency if item.dose is not None else None)
            found.append(own or block or stage or _WEEK)
    return max(found, default=_WEEK)


def _days_of(frequency: Frequency | None) -> int | None:
    if frequency is None:
        return None
    if frequency.days_per_week is not None:
        return max(1, frequency.days_per_week.top)
    # How many times a day says nothing of which days.
    return -(-_WEEK // frequency.every_days) if frequency.every_days else None


# ---- ready ------------------------------------------------------------------------


def ready(stage: StageSheet, context: Context) -> Ready | None:
    """What must be true before the next stage; None where nothing is said."""
    protocol = stage.protocol
    if protocol is None or stage.stage is None:
        return None
    last = stage.number >= len(protocol.stages)
    ticks = tuple(_ticks(stage.stage, context))
    if not ticks:
        return None
    following = stage.number + 1
    say = context.say
    heading = say("ready.heading_last") if last else say("ready.heading", n=following)
    go = say("ready.all_do_last") if last else say("ready.all_do", n=following)
    outcomes = [
        Outcome(context.phrases.count("ready.all", len(ticks)), go),
        Outcome(say("ready.not_yet"), say("ready.not_yet_do")),
        *_step_back(stage, context),
    ]
    return Ready(heading, say("ready.instruction"), ticks, tuple(outcomes))


def _ticks(stage: Stage, context: Context) -> Iterator[str]:
    yield from (criterion_words(criterion, context) for criterion in stage.move_on)
    if stage.minimum_sessions is not None:
        yield context.phrases.count("ready.sessions", stage.minimum_sessions)


def _step_back(stage: StageSheet, context: Context) -> Iterator[Outcome]:
    if stage.stage is None:
        return
    back = stage.number - 1
    action = context.say("ready.back_do", n=back) if back else context.say("ready.back_do_first")
    for criterion in stage.stage.step_back:
        words = criterion_words(criterion, context).rstrip(".?")
        yield Outcome(f"{words}?", action)


# ---- small print ---------------------------------------------------------------------


def small_print(sheet: Sheet, context: Context) -> SmallPrint:
    """Who wrote and approved it, its version, what it rests on, and what it is not."""
    lines = [context.say("small.advice"), *_origin(sheet, context), *_sources(sheet, context)]
    lines += [*_where_we_are(context)]
    own = context.clinic_text(context.clinic.small_print)
    if own:
        lines.append(own)
    if _invented(sheet, context):
        lines.append(context.say("small.sample"))
    return SmallPrint(context.say("small.heading"), tuple(lines))


def _where_we_are(context: Context) -> Iterator[str]:
    """The clinic's address, mail and website in one line."""
    clinic = context.clinic
    pieces = (context.clinic_text(clinic.address), clinic.email, clinic.website)
    found = [" ".join(piece.split()) for piece in pieces if piece.strip()]
    if found:
        yield "  ·  ".join([context.clinic_text(clinic.name), *found])


def _invented(sheet: Sheet, context: Context) -> bool:
    return context.clinic.invented or any(source.invented for source in sheet.sources)


def _day(day: dt.date, context: Context) -> str:
    return format_date(day, format="long", locale=context.phrases.locale)


def _origin(sheet: Sheet, context: Context) -> Iterator[str]:
    for source in sheet.sources:
        if isinstance(source, Protocol):
            title = context.text(source.title)
            yield context.say("small.version", title=title, version=source.version)
            if source.status is Status.APPROVED:
                for approval in source.approvals:
                    yield context.say(
                        "small.approved", who=approval.reviewer, date=_day(approval.date, context)
                    )
        if source.authors:
            yield context.say("small.authors", who=context.phrases.listed(source.authors))
        if source.review_due is not None:
            yield context.say("small.review", date=_day(source.review_due, context))


_MOST_SOURCES = 6
_LONGEST_AUTHOR = 40


def _short(reference: Reference) -> str:
    """First author and year; the whole citation stands in the protocol's file."""
    first, comma, _ = reference.citation.partition(",")
    if not comma or reference.year is None or len(first) > _LONGEST_AUTHOR:
        return reference.citation.rstrip(".")
    return f"{first} {reference.year}"


def _sources(sheet: Sheet, context: Context) -> Iterator[str]:
    weight = {"guideline": 0, "consensus": 1, "review": 2}
    for source in sheet.sources:
        ranked = sorted(source.references, key=lambda ref: weight.get(ref.kind.value, 3))
        shown = dict.fromkeys(_short(reference) for reference in ranked[:_MOST_SOURCES])
        if shown:
            yield context.say("small.sources", list="; ".join(shown) + ".")
