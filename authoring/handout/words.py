"""The words of a handout in reading order, as every format must say them.

Tests read the written Word, HTML and PDF files back and compare them with this
list, so that no writer can drop or add a word. Repeated page furniture (footer,
banner, page numbers) and alternative texts are listed apart.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import singledispatch

from authoring.handout.document import (
    BlockHeading,
    Bullets,
    Change,
    Diary,
    Exercise,
    ExtraSheet,
    Facts,
    Glance,
    HandoutDocument,
    Line,
    Notes,
    Numbered,
    PainGuide,
    Paragraph,
    Part,
    Picture,
    Ready,
    Rich,
    SmallPrint,
    StageHeading,
    Stairs,
    StopBox,
)


def words(document: HandoutDocument) -> tuple[str, ...]:
    """Every non-empty text of the handout, in reading order, once each time it is printed."""
    masthead = document.masthead
    head = [masthead.clinic_name, *(blank.label for blank in masthead.blanks)]
    body = (text for part in document.parts for text in part_words(part))
    return tuple(text for text in (*head, document.title, document.lead, *body) if text.strip())


def page_furniture(document: HandoutDocument) -> tuple[str, ...]:
    """Texts repeated on every page, without the page number."""
    return tuple(text for text in (document.banner, document.footer) if text)


def alt_texts(document: HandoutDocument) -> tuple[str, ...]:
    """Alternative texts in reading order, the logo's first."""
    logo = document.brand.logo
    pictures = (picture for part in document.parts for picture in part_pictures(part))
    return tuple(picture.alt for picture in (*((logo,) if logo else ()), *pictures))


def line_text(line: Line) -> str:
    """The plain text of one line of spans."""
    return "".join(span.text for span in line)


def rich_texts(rich: Rich) -> Iterator[str]:
    """One text for each paragraph and list item."""
    for block in rich:
        match block:
            case Paragraph():
                yield line_text(block.line)
            case Bullets() | Numbered():
                yield from (line_text(item) for item in block.items)


def part_pictures(part: Part) -> Iterator[Picture]:
    """The pictures of one part, in reading order."""
    match part:
        case Glance():
            yield from (item.picture for item in part.items if item.picture)
        case Exercise():
            yield from part.pictures
            for change in part.changes:
                yield from (option.picture for option in change.options if option.picture)
        case _:
            return


@singledispatch
def part_words(part: object) -> Iterator[str]:
    """The texts of one part, in reading order.

    Raises:
        TypeError: ``part`` is no part of a handout.
    """
    raise TypeError(f"{type(part).__name__} is not a part of a handout")


@part_words.register
def _(part: Stairs) -> Iterator[str]:
    for step in part.steps:
        if step.here:
            yield part.here_label
        yield str(step.number)
        yield step.name


@part_words.register
def _(part: Glance) -> Iterator[str]:
    yield part.heading
    yield part.note
    for item in part.items:
        yield from (str(item.number), item.name, item.dose)


@part_words.register
def _(part: Facts) -> Iterator[str]:
    for fact in part.items:
        yield from (fact.headline, fact.detail)


@part_words.register
def _(part: PainGuide) -> Iterator[str]:
    yield part.heading
    if part.zones:
        yield from (str(number) for number in range(11))
    for zone in part.zones:
        yield from (zone.label, zone.action)
    yield from part.notes


@part_words.register
def _(part: StopBox) -> Iterator[str]:
    for group in part.groups:
        yield group.lead
        yield from group.signs
    contact = part.contact
    yield from (contact.label, contact.phone, contact.hours, contact.closed)


@part_words.register
def _(part: Notes) -> Iterator[str]:
    yield part.heading
    yield from rich_texts(part.body)


@part_words.register
def _(part: StageHeading) -> Iterator[str]:
    yield from (part.label, part.name, part.lead)


@part_words.register
def _(part: BlockHeading) -> Iterator[str]:
    yield from (part.name, part.note)


@part_words.register
def _(part: Exercise) -> Iterator[str]:
    yield from (str(part.number), part.name, part.dose, part.why)
    yield from (picture.caption for picture in part.pictures)
    yield from part.details
    yield from (part.needs, part.start)
    for index, step in enumerate(part.steps, 1):
        yield from (str(index), step)
    if part.tips:
        yield part.tips_heading
        yield from part.tips
    for care in part.cares:
        yield from (care.lead, care.text)
    for stop in part.stops:
        yield from (stop.lead, stop.text)
    if part.weeks:
        yield from part.weeks_headers
    for row in part.weeks:
        yield from (row.weeks, row.dose)
    for change in part.changes:
        yield from _change_words(change)


def _change_words(change: Change) -> Iterator[str]:
    yield from (change.heading, change.sub)
    for option in change.options:
        yield option.label
        if option.picture:
            yield option.picture.caption
        yield from (option.text, option.dose)


@part_words.register
def _(part: Diary) -> Iterator[str]:
    yield from (part.heading, part.instruction)
    for week in part.weeks:
        yield week.heading
        yield week.row_heading
        yield from week.columns
        yield from (*week.exercise_rows, *week.pain_rows)


@part_words.register
def _(part: Ready) -> Iterator[str]:
    yield from (part.heading, part.instruction, *part.ticks)
    for outcome in part.outcomes:
        yield from (outcome.question, outcome.action)


@part_words.register
def _(part: SmallPrint) -> Iterator[str]:
    yield from (part.heading, *part.lines)


@part_words.register
def _(part: ExtraSheet) -> Iterator[str]:
    yield from (part.heading, part.note)
