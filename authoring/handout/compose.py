"""From values to the neutral tree: every word a patient will read is chosen here."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from attrs import frozen

from authoring.handout.brand import brand_style
from authoring.handout.choices import ExtraKind, Layout
from authoring.handout.context import Context
from authoring.handout.document import (
    Blank,
    Direction,
    HandoutDocument,
    Masthead,
    PageSize,
    Part,
    PrintSize,
    StageHeading,
)
from authoring.handout.ending import (
    before_exercises,
    diary,
    normal_notes,
    protocol_notes,
    ready,
    small_print,
    stage_notes,
)
from authoring.handout.errors import HandoutError
from authoring.handout.exercises import block_heading, exercise
from authoring.handout.extras import extra_sheets
from authoring.handout.front import facts, glance, pain_guide, stage_rule, stairs, stop_box
from authoring.handout.layout import arranged
from authoring.handout.screen import ScreenWords
from authoring.handout.sheet import Sheet, StageSheet
from authoring.handout.since import since_notes
from authoring.handout.withheld import raised_parts
from authoring.handout.words import alt_texts, page_furniture, words
from authoring.model.base import evolve
from authoring.tailoring.release import release

# Unicode Annex 9: LRO and RLO force a direction on letters and digits alike.
_OVERRIDES = re.compile("[\u202d\u202e]")


@frozen
class Options:
    """How a handout is laid out.

    Attributes:
        draft: print "Draft, not for patients" on every page.
        layout: how much of the plan is on it.
        extras: sheets that go with it.
    """

    page_size: PageSize = PageSize.A4
    print_size: PrintSize = PrintSize.STANDARD
    draft: bool = True
    layout: Layout = Layout.FULL
    extras: frozenset[ExtraKind] = frozenset()


def compose(sheet: Sheet, context: Context, options: Options) -> HandoutDocument:
    """The handout of a sheet.

    A plan with a red flag answered yes gives the flag's action and no exercise; one that may
    not be printed yet is a draft whatever the options say.

    Raises:
        HandoutError: a picture can't be used, or a text would be shown back to front.
        PhraseMissingError: the catalogue of the language lacks a phrase.
    """
    context = evolve(context, person=sheet.person)
    freed = release(sheet.plan) if sheet.plan is not None else None
    withheld = freed is not None and freed.withheld
    blocked = freed is not None and not freed.may_print
    right_to_left = context.phrases.locale.text_direction == "rtl"
    title = context.say("flags.title") if withheld else _title(sheet, context)
    layout = Layout.FULL if withheld else options.layout
    subject = "" if withheld else _subject(sheet, context)
    if freed and withheld:
        parts = _present(raised_parts(freed, sheet, context))
    else:
        whole = _present(_parts(sheet, context, layout))
        parts = arranged(whole, layout, subject, context)
        parts += extra_sheets(whole, sorted(options.extras, key=list(ExtraKind).index), context)
    document = HandoutDocument(
        language=context.phrases.language,
        direction=Direction.RTL if right_to_left else Direction.LTR,
        page_size=options.page_size,
        print_size=options.print_size,
        brand=brand_style(context.clinic, context),
        banner=context.say("handout.draft") if options.draft or blocked else "",
        footer=_footer(sheet, context),
        page_label=context.phrases.pattern("handout.page"),
        masthead=_masthead(sheet, context),
        title=title,
        lead=context.say("flags.lead") if withheld else _lead(sheet, context),
        subject=subject,
        author=context.clinic_text(context.clinic.name),
        parts=parts,
        layout=layout,
        screen=_screen(context),
    )
    _refuse_reversed(document)
    return document


def _screen(context: Context) -> ScreenWords:
    return ScreenWords(
        start=context.say("screen.start"),
        stop=context.say("screen.stop"),
        kept=context.say("screen.kept"),
        clear=context.say("screen.clear"),
    )


def _present(parts: Iterable[Part | None]) -> tuple[Part, ...]:
    return tuple(part for part in parts if part is not None)


def _refuse_reversed(document: HandoutDocument) -> None:
    """Refuse the two signs that make a page show "21" where "12" was typed."""
    for text in (*words(document), *page_furniture(document), *alt_texts(document)):
        found = _OVERRIDES.search(text)
        if found:
            raise HandoutError(
                f"The text “{_OVERRIDES.sub('', text)[:80]}” holds a sign that turns the writing "
                f"round (U+{ord(found[0]):04X}), so it would be shown back to front; delete that "
                "sign."
            )


def _title(sheet: Sheet, context: Context) -> str:
    if sheet.protocol is not None:
        return context.text(sheet.protocol.patient_title or sheet.protocol.title)
    if sheet.card is not None:
        return context.text(sheet.card.title)
    return context.say("handout.your_exercises")


def _only(sheet: Sheet) -> StageSheet | None:
    return sheet.stages[0] if len(sheet.stages) == 1 else None


def _lead(sheet: Sheet, context: Context) -> str:
    if sheet.plan is not None and sheet.plan.note is not None:
        return context.text(sheet.plan.note)
    only = _only(sheet)
    if only is not None and only.stage is not None and only.stage.lead is not None:
        return context.text(only.stage.lead)
    if sheet.protocol is not None and sheet.protocol.lead is not None:
        return context.text(sheet.protocol.lead)
    if sheet.card is not None and sheet.card.purpose is not None:
        return context.text(sheet.card.purpose)
    return context.phrases.count("handout.lead", len(list(sheet.items())))


def _subject(sheet: Sheet, context: Context) -> str:
    only = _only(sheet)
    if only is None or only.stage is None or only.protocol is None:
        return ""
    stage = context.say("handout.stage_of", n=only.number, total=len(only.protocol.stages))
    return f"{stage}: {context.text(only.stage.name)}"


def _masthead(sheet: Sheet, context: Context) -> Masthead:
    blanks = (Blank(context.say("handout.for"), 42), Blank(context.say("handout.date"), 24))
    return Masthead(context.clinic_text(context.clinic.name), blanks)


def _footer(sheet: Sheet, context: Context) -> str:
    clinic = context.clinic
    invented = clinic.invented or any(source.invented for source in sheet.sources)
    pieces = [context.clinic_text(clinic.name), clinic.phone]
    if invented:
        pieces.append(context.say("handout.sample"))
    return "  ·  ".join(piece for piece in pieces if piece)


def _parts(sheet: Sheet, context: Context, layout: Layout) -> Iterator[Part | None]:
    only = _only(sheet)
    guides = [pain_guide(stage_rule(sheet, stage, context), context) for stage in sheet.stages]
    one_rule = all(guide == guides[0] for guide in guides)
    yield stairs(sheet, context)
    yield since_notes(sheet, context)
    if only is not None:
        yield from _overview(only, sheet, context)
    if one_rule:
        yield guides[0]
    yield stop_box(sheet, context)
    for stage, guide in zip(sheet.stages, guides, strict=True):
        if only is None:
            yield _stage_heading(stage, sheet, context)
            yield from _overview(stage, sheet, context)
        if not one_rule:
            yield guide
        yield from _stage_parts(stage, sheet, context, layout)
        if only is None:
            yield from _stage_end(stage, sheet, context)
    yield from protocol_notes(sheet, context, lessons=layout is not Layout.COMPACT)
    if only is not None:
        yield from _stage_end(only, sheet, context)
    yield small_print(sheet, context)


def _overview(stage: StageSheet, sheet: Sheet, context: Context) -> Iterator[Part | None]:
    first = next(stage.items(), None)
    note = ""
    alone = len(sheet.stages) == 1 and stage.number > 1
    if first is not None and first.number > 1 and alone and sheet.numbers_kept:
        note = context.say("handout.numbers_carry_on", n=stage.number - 1)
    yield glance(stage, context, note=note)
    yield facts(stage, context)


def _stage_heading(stage: StageSheet, sheet: Sheet, context: Context) -> StageHeading:
    if stage.stage is None or stage.protocol is None:
        label, name = context.say("handout.more_label"), context.say("handout.more")
        return StageHeading(len(sheet.stages), label, name, "")
    label = context.say("handout.stage", n=stage.number)
    if len(sheet.protocols) > 1:
        title = context.text(stage.protocol.patient_title or stage.protocol.title)
        label = context.say("handout.stage_in", title=title, stage=label)
    return StageHeading(
        stage.number,
        label,
        context.text(stage.stage.name),
        context.text(stage.stage.lead),
    )


def _stage_parts(
    stage: StageSheet, sheet: Sheet, context: Context, layout: Layout
) -> Iterator[Part | None]:
    yield from before_exercises(stage, sheet, context)
    rule = stage_rule(sheet, stage, context)
    for group in stage.groups:
        yield block_heading(group, context, alone=len(stage.groups) == 1)
        for item in group.items:
            yield exercise(item, group, rule, context)
    if layout is not Layout.COMPACT:
        yield from normal_notes(stage, context)
    yield from stage_notes(stage, context)


def _stage_end(stage: StageSheet, sheet: Sheet, context: Context) -> Iterator[Part | None]:
    yield diary(stage, context)
    yield ready(stage, context)
