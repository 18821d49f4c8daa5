"""The neutral tree that every handout writer walks.

``compose`` builds one :class:`HandoutDocument`; the Word, HTML and PDF writers
lay it out. Every word a patient reads is already in the tree, in the
handout's own language: a writer adds none of its own (page numbers apart).
Walking :attr:`HandoutDocument.parts` in order gives the reading order of every
format, and :func:`authoring.handout.words.words` lists what each must say.

Lengths are in the names; text is never marked up except through
:class:`Span`. All values are immutable.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TypeAlias

from attrs import field, frozen

from authoring.handout.choices import ExtraKind, Layout
from authoring.handout.screen import ScreenWords


class PageSize(StrEnum):
    """Paper the handout is laid out for."""

    A4 = "a4"
    LETTER = "letter"


class PrintSize(StrEnum):
    """Standard type, or large print (UKAAF G003: 16 pt at least, ideally 18)."""

    STANDARD = "standard"
    LARGE = "large"


class Direction(StrEnum):
    """Writing direction of the handout's language."""

    LTR = "ltr"
    RTL = "rtl"


# ---- words ---------------------------------------------------------------


@frozen
class Span:
    """A run of text. ``href`` is an http, https, mailto or tel address, or None."""

    text: str
    strong: bool = False
    href: str | None = None


Line: TypeAlias = tuple[Span, ...]


@frozen
class Paragraph:
    """One paragraph of running text."""

    line: Line


@frozen
class Bullets:
    """An unordered list."""

    items: tuple[Line, ...]


@frozen
class Numbered:
    """An ordered list, counted from 1."""

    items: tuple[Line, ...]


RichBlock: TypeAlias = Paragraph | Bullets | Numbered
Rich: TypeAlias = tuple[RichBlock, ...]


@frozen
class Picture:
    """One picture. ``data`` is PNG or JPEG bytes, or SVG drawn by ourselves.

    Attributes:
        media_type: ``image/png``, ``image/jpeg`` or ``image/svg+xml``.
        alt: what a person who can't see it needs to know; never empty.
        caption: short words beside the picture ("Start", "End"), or "".
        width_px, height_px: natural size, for the aspect ratio.
    """

    data: bytes
    media_type: str
    alt: str
    caption: str
    width_px: int
    height_px: int


# ---- parts, in the order a patient reads them -----------------------------


@frozen
class StairStep:
    """One stage in the stairs; ``here`` marks the stage(s) this handout is for."""

    number: int
    name: str
    here: bool


@frozen
class Stairs:
    """The stages as rising steps. ``here_label`` is "You are here"; "" when none is marked."""

    here_label: str
    steps: tuple[StairStep, ...]


@frozen
class GlanceItem:
    """One exercise in the overview: its number, name, dose and end picture."""

    number: int
    name: str
    dose: str
    picture: Picture | None


@frozen
class Glance:
    """ "What to do": every exercise of the stage at a glance."""

    heading: str
    note: str
    items: tuple[GlanceItem, ...]


@frozen
class Fact:
    """A headline and the words under it ("3 days a week" / "with rest days")."""

    headline: str
    detail: str


@frozen
class Facts:
    """How often, how long, for how many weeks, what is needed."""

    items: tuple[Fact, ...]


@frozen
class PainZone:
    """A band of the 0-10 pain scale, inclusive whole numbers, lightest first.

    ``tone`` is 0 (white), 1 (middle) or 2 (black), so that grey print loses nothing.
    """

    low: int
    high: int
    label: str
    action: str
    tone: int


@frozen
class PainGuide:
    """The pain rule in force. ``zones`` is empty where the protocol gives no scale."""

    heading: str
    scale_alt: str
    zones: tuple[PainZone, ...]
    notes: tuple[str, ...]


@frozen
class StopGroup:
    """Stop signs of one urgency. ``lead`` says where to go ("Stop, and call us that day, if:").

    ``level`` is 0 for the most urgent (emergency) to 3 (stop this exercise).
    """

    level: int
    lead: str
    signs: tuple[str, ...]


@frozen
class Contact:
    """Whom to call. Any field may be ""; ``closed`` already holds its own label.

    ``label`` says whose number it is ("Call us:"), so that nobody takes it for the
    emergency number beside which it may stand.
    """

    phone: str
    hours: str
    closed: str
    label: str = ""


@frozen
class StopBox:
    """When to stop and whom to call, most urgent first."""

    groups: tuple[StopGroup, ...]
    contact: Contact


@frozen
class Notes:
    """A headed run of text: purpose, what is normal, advice, what to leave out for now.

    ``framed`` asks for a quiet panel, for text that must not be overlooked.
    """

    heading: str
    body: Rich
    framed: bool = False


@frozen
class StageHeading:
    """Opens a stage where a handout holds several."""

    number: int
    label: str
    name: str
    lead: str


@frozen
class BlockHeading:
    """Opens a block of exercises: a warm-up, a circuit with its rounds."""

    name: str
    note: str


@frozen
class CareNote:
    """A caution within an exercise; ``lead`` is "Take care."."""

    lead: str
    text: str


@frozen
class StopNote:
    """A stop sign that belongs to one exercise; ``lead`` says what to do."""

    lead: str
    text: str


@frozen
class Option:
    """Another way to do the exercise, in a sentence or more, with its own dose.

    ``picture`` may be None; ``label`` is "Hold still", "Or easier", "After 3 easy days".
    """

    label: str
    text: str
    dose: str
    picture: Picture | None = None


@frozen
class Change:
    """The strip under an exercise: -1 "If it hurts", +1 "If it feels easy", 0 "Or choose"."""

    direction: int
    heading: str
    sub: str
    options: tuple[Option, ...]


@frozen
class WeekDose:
    """One row of a week table: "Weeks 1 and 2" / "3 sets of 10"."""

    weeks: str
    dose: str


@frozen
class Exercise:
    """One exercise: which, how much, how, and what if it hurts, always in that order.

    Attributes:
        number: printed number.
        name: heading of the exercise.
        why: one line of purpose, or "".
        dose: as large as the name ("3 sets of 12").
        details: side, rest, load, speed, range: whole sentences, or empty.
        weeks: dose by week where it changes; empty otherwise.
        weeks_headers: the two column headings of that table.
        needs: "You need: a chair and a step.", or "".
        start: start position, one sentence, or "".
        pictures: start, then end (none, one, two or more).
        steps: numbered; one action each.
        tips: short cues.
        cares: cautions with what to do and what to avoid.
        stops: stop signs that belong to this exercise.
        changes: easier and harder strips.
    """

    number: int
    name: str
    why: str
    dose: str
    details: tuple[str, ...]
    weeks_headers: tuple[str, str]
    weeks: tuple[WeekDose, ...]
    needs: str
    start: str
    pictures: tuple[Picture, ...]
    steps: tuple[str, ...]
    tips_heading: str
    tips: tuple[str, ...]
    cares: tuple[CareNote, ...]
    stops: tuple[StopNote, ...]
    changes: tuple[Change, ...]


@frozen
class DiaryWeek:
    """One tick-off table: ``columns`` are the day headings after the first column."""

    heading: str
    row_heading: str
    columns: tuple[str, ...]
    exercise_rows: tuple[str, ...]
    pain_rows: tuple[str, ...]


@frozen
class Diary:
    """The tick-off diary for the weeks of the stage."""

    heading: str
    instruction: str
    weeks: tuple[DiaryWeek, ...]


@frozen
class Outcome:
    """What follows from the ticks: "All 4 ticked?" / "Call us to start stage 3."."""

    question: str
    action: str


@frozen
class Ready:
    """What must be true before the next stage."""

    heading: str
    instruction: str
    ticks: tuple[str, ...]
    outcomes: tuple[Outcome, ...]


@frozen
class SmallPrint:
    """Last lines: who wrote and approved the sheet, its version, what it rests on."""

    heading: str
    lines: tuple[str, ...]


@frozen
class ExtraSheet:
    """Opens a sheet that goes with the handout, on a page of its own; the parts after it are its.

    ``note`` says what to do with it ("Cut it out and fold it."), or "".
    """

    sheet: ExtraKind
    heading: str
    note: str


Part: TypeAlias = (
    Stairs
    | Glance
    | Facts
    | PainGuide
    | StopBox
    | Notes
    | StageHeading
    | BlockHeading
    | Exercise
    | Diary
    | Ready
    | SmallPrint
    | ExtraSheet
)


# ---- the whole -------------------------------------------------------------


@frozen
class BrandStyle:
    """Colours as ``#RRGGBB``, already checked for contrast, and fonts by family name.

    Attributes:
        ink: text. soft: second text. brand: the clinic's colour, for marks and panels.
        brand_text: the clinic's colour where it is used as text (ink where it is
            below 7:1 on white). on_brand: text on ``brand``. tint, middle, rule: panels
            and hairlines.
        font: family of the handout's text.
        logo: the clinic's mark, or None.
    """

    ink: str
    soft: str
    brand: str
    brand_text: str
    on_brand: str
    tint: str
    middle: str
    rule: str
    font: str
    logo: Picture | None


@frozen
class Blank:
    """A labelled line to write on ("For", "Date"); ``width_mm`` is its length on paper."""

    label: str
    width_mm: int


@frozen
class Masthead:
    """Top of page 1: the clinic's name and the lines to fill in."""

    clinic_name: str
    blanks: tuple[Blank, ...]


@frozen
class HandoutDocument:
    """A whole handout.

    Attributes:
        language: BCP-47 tag of the words in it.
        banner: "Draft, not for patients" on every page, or "" for an approved version.
        footer: one line on every page; the page number is added by the writer.
        page_label: pattern for the page number with ``{page}`` and ``{pages}``.
        title, lead: heading of the handout and its main message.
        subject, author: document properties.
        parts: everything after the title, in reading order; what the layout leaves out is
            not among them.
        layout: how the parts are set; it changes no word of them.
        screen: what a page on a screen can say beside the words of the sheet.
    """

    language: str
    direction: Direction
    page_size: PageSize
    print_size: PrintSize
    brand: BrandStyle
    banner: str
    footer: str
    page_label: str
    masthead: Masthead
    title: str
    lead: str
    subject: str
    author: str
    parts: tuple[Part, ...]
    layout: Layout = Layout.FULL
    screen: ScreenWords = field(factory=ScreenWords)
