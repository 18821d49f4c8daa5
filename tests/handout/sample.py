"""An invented handout for the tests of the three writers.

Larkfield Movement Clinic is fictional; every name, number, dose and rule here
is made up to fill the page.
"""

from __future__ import annotations

from io import BytesIO
from typing import Any

from attrs import evolve
from PIL import Image, ImageDraw

from authoring.handout.document import (
    Blank,
    BrandStyle,
    Bullets,
    CareNote,
    Change,
    Contact,
    Diary,
    DiaryWeek,
    Direction,
    Exercise,
    Fact,
    Facts,
    Glance,
    GlanceItem,
    HandoutDocument,
    Masthead,
    Notes,
    Numbered,
    Option,
    Outcome,
    PageSize,
    PainGuide,
    PainZone,
    Paragraph,
    Part,
    Picture,
    PrintSize,
    Ready,
    SmallPrint,
    Span,
    Stairs,
    StairStep,
    StopBox,
    StopGroup,
    StopNote,
    WeekDose,
)

BRAND = BrandStyle(
    ink="#15191C",
    soft="#454D53",
    brand="#123F5C",
    brand_text="#123F5C",
    on_brand="#FFFFFF",
    tint="#E9EFF2",
    middle="#C3D0D8",
    rule="#AAB4BA",
    font="Noto Sans",
    logo=None,
)


def hurts(*options: Option) -> Change:
    return Change(-1, "If it hurts", "pain of 4 or 5", options)


def easy(text: str, dose: str) -> Change:
    return Change(1, "If it feels easy", "", (Option("After 3 easy days", text, dose),))


def exercise(number: int, name: str, dose: str, **changes: Any) -> Exercise:
    """A bare exercise with two steps; ``changes`` are fields of :class:`Exercise`."""
    plain = Exercise(
        number=number,
        name=name,
        why="",
        dose=dose,
        details=(),
        weeks_headers=("Weeks", "How much"),
        weeks=(),
        needs="",
        start="",
        pictures=(),
        steps=("Stand tall, hands on a chair.", "Lift both heels."),
        tips_heading="Tips",
        tips=(),
        cares=(),
        stops=(),
        changes=(),
    )
    return evolve(plain, **changes)


HEEL_RAISE = exercise(
    5,
    "Heel raise",
    "3 sets of 12",
    why="Makes your calf strong",
    details=("Rest 1 minute after each set.",),
    needs="You need: a chair.",
    steps=(
        "Stand tall, hands on a chair.",
        "Rise up on to the toes of both feet.",
        "Stay up for 1 second.",
        "Take 3 seconds to come down.",
    ),
    tips_heading="Tips",
    tips=("Push the floor away.", "Look straight ahead."),
    cares=(CareNote("Take care.", "Keep your weight over your big toe. Don’t roll out."),),
    changes=(
        hurts(
            Option("Hold still", "Stay halfway up.", "4 holds of 30 seconds"),
            Option("Or easier", "Sit and lift your heels.", "3 sets of 15"),
        ),
        easy("Rise up on your right leg only.", "3 sets of 8"),
    ),
)
BALANCE = exercise(
    6,
    "One-leg balance",
    "4 holds of 30 seconds",
    why="Makes your ankle steady",
    details=("Right leg.", "Rest 15 seconds in between."),
    start="Stand tall behind a chair.",
    steps=(
        "Stand tall, hands on a chair.",
        "Lift your left foot behind you.",
        "Let go of the chair.",
        "Stay still for 30 seconds.",
    ),
    cares=(CareNote("Take care.", "Stay by the chair. No socks."),),
    stops=(StopNote("Stop for today if", "your ankle gives way."),),
    changes=(
        hurts(
            Option("Hold still", "Press your right foot into the floor.", "5 holds of 20 seconds"),
            Option("Or easier", "Hold the chair.", "4 holds of 20 seconds"),
        ),
        easy("Look left and right.", "4 holds of 30 seconds"),
    ),
)
STEP_UP = exercise(
    7,
    "Step-up",
    "Weeks 1 and 2: 3 sets of 10",
    why="Gets you ready to jog",
    details=("Right leg.", "Rest 1 minute after each set."),
    weeks_headers=("Weeks", "How much"),
    weeks=(
        WeekDose("Weeks 1 and 2", "3 sets of 10"),
        WeekDose("Week 3", "3 sets of 12"),
        WeekDose("Week 4 on", "4 sets of 12"),
    ),
    needs="You need: a low step.",
    steps=(
        "Put your right foot on a low step.",
        "Lean forward a little.",
        "Push that foot down. Stand up.",
        "Take 3 seconds to step back down.",
    ),
    cares=(CareNote("Take care.", "Keep your knee in line with your toes. Don’t let it fall in."),),
    changes=(
        hurts(
            Option("Hold still", "Stay halfway up.", "5 holds of 20 seconds"),
            Option("Or easier", "Use a rail and a lower step.", "3 sets of 8"),
        ),
        easy("Use a step twice as high.", "3 sets of 8"),
    ),
)
BRIDGE = exercise(
    8,
    "Bridge",
    "3 sets of 10",
    why="Makes your hips strong for running",
    details=("Rest 1 minute after each set.",),
    steps=(
        "Lie on your back. Bend your knees.",
        "Press your feet into the floor.",
        "Lift your hips. Stay up for 3 seconds.",
        "Take 3 seconds to come down.",
    ),
    cares=(CareNote("Take care.", "Breathe out as you lift. Don’t arch your back."),),
)
EXERCISES = (HEEL_RAISE, BALANCE, STEP_UP, BRIDGE)

STAIRS = Stairs(
    "You are here",
    (
        StairStep(1, "Settle", here=False),
        StairStep(2, "Strong and steady", here=True),
        StairStep(3, "Jog and walk", here=False),
        StairStep(4, "Run", here=False),
    ),
)
FACTS = Facts(
    (
        Fact("3 days a week", "with rest days"),
        Fact("20 minutes", "each time"),
        Fact("4 weeks", "then we check"),
        Fact("You need", "chair, step, mat"),
    )
)
PAIN = PainGuide(
    heading="How much pain is OK?",
    scale_alt=(
        "Pain scale from 0, no pain, to 10, worst pain. "
        "0 to 3 is white, 4 and 5 are grey, 6 to 10 are black."
    ),
    zones=(
        PainZone(0, 3, "0 to 3", "Fine. Carry on.", 0),
        PainZone(4, 5, "4 or 5", "Go easier.", 1),
        PainZone(6, 10, "6 or more", "Stop for today.", 2),
    ),
    notes=(
        "More sore or swollen next morning? Go easier next time.",
        "To go easier, use the “If it hurts” box of that exercise.",
    ),
)
STOP = StopBox(
    groups=(
        StopGroup(0, "Call 112 now if:", ("You have chest pain.", "You can’t catch your breath.")),
        StopGroup(
            1,
            "Stop, and call us that day, if:",
            (
                "Your ankle gives way 2 times in one day.",
                "You can’t stand on your right leg.",
                "Your ankle is still more swollen after 2 days.",
                "Your calf is hot, red and sore.",
            ),
        ),
    ),
    contact=Contact("01632 960 417", "Monday to Friday, 8 to 6", "Closed? Call 01632 960 428"),
)
NOTES = Notes(
    "What is normal",
    (
        Paragraph((Span("A dull ache in the calf "), Span("for a day or two", strong=True))),
        Bullets(
            (
                (Span("Muscles may feel tired the next day."),),
                (Span("A little swelling at night is common."),),
            )
        ),
        Paragraph(
            (
                Span("More to read: "),
                Span("larkfield.example/ankle", href="https://larkfield.example/ankle"),
            )
        ),
    ),
)
LEAVE_OUT = Notes(
    "Leave out for now",
    (Numbered(((Span("Running"),), (Span("Jumping"),))),),
    framed=True,
)
READY = Ready(
    heading="Ready for stage 3?",
    instruction="Tick each one when it is true.",
    ticks=(
        "I can walk fast for 30 minutes with pain of 2 or less, that day and the next.",
        "I can stand on my right leg for 30 seconds, 3 times, hands off.",
        "I can do 20 heel raises on my right leg.",
        "My ankle has not given way for 2 weeks.",
    ),
    outcomes=(
        Outcome("All 4 ticked?", "Call us to start stage 3."),
        Outcome("Not yet?", "Stay with these exercises."),
        Outcome("Pain of 6 or more, 2 days running?", "Go back to stage 1 and call us."),
    ),
)
SMALL_PRINT = SmallPrint(
    "About this sheet",
    (
        "Written by A. Invented, checked by B. Invented. Version 3, 1 May 2030.",
        "Invented sample: phone numbers and data are made up.",
    ),
)


def glance(exercises: tuple[Exercise, ...]) -> Glance:
    """The overview of ``exercises``, each with its last picture."""
    items = (
        GlanceItem(item.number, item.name, item.dose, item.pictures[-1] if item.pictures else None)
        for item in exercises
    )
    return Glance("What to do", "Numbers carry on from stage 1", tuple(items))


def diary(exercises: tuple[Exercise, ...], weeks: int = 4, days: int = 3) -> Diary:
    return Diary(
        heading=f"Your {weeks} weeks",
        instruction="Tick each exercise you do. "
        "Write your worst pain, 0 to 10, that day and the next.",
        weeks=tuple(
            DiaryWeek(
                heading=f"Week {week}",
                row_heading="Day",
                columns=tuple(str(day) for day in range(1, days + 1)),
                exercise_rows=tuple(f"{item.number} {item.name}" for item in exercises),
                pain_rows=("Pain that day", "Pain next day"),
            )
            for week in range(1, weeks + 1)
        ),
    )


def sample_parts(exercises: tuple[Exercise, ...] = EXERCISES) -> tuple[Part, ...]:
    """The parts of the sample around ``exercises``."""
    return (
        STAIRS,
        glance(exercises),
        FACTS,
        PAIN,
        STOP,
        NOTES,
        LEAVE_OUT,
        *exercises,
        diary(exercises),
        READY,
        SMALL_PRINT,
    )


def sample_document(**changes: Any) -> HandoutDocument:
    """The sample without pictures; ``changes`` are fields of :class:`HandoutDocument`."""
    document = HandoutDocument(
        language="en-GB",
        direction=Direction.LTR,
        page_size=PageSize.A4,
        print_size=PrintSize.STANDARD,
        brand=BRAND,
        banner="",
        footer="Larkfield Movement Clinic  ·  01632 960 417  ·  Phone numbers and data invented",
        page_label="{page} of {pages}",
        masthead=Masthead("Larkfield Movement Clinic", (Blank("For", 42), Blank("Date", 24))),
        title="Ankle sprain: back to running",
        lead="Do these 4 exercises to make your right ankle strong and steady. "
        "Then you can start to jog.",
        subject="Stage 2 of 4: Strong and steady",
        author="Larkfield Movement Clinic",
        parts=sample_parts(),
    )
    return evolve(document, **changes)


def sample_with_pictures(**changes: Any) -> HandoutDocument:
    """The sample with start and end pictures, a picture of an option, and a logo."""
    upright = (
        upright_picture(raised=False, alt="Start: standing tall, feet flat.", caption="Start"),
        upright_picture(raised=True, alt="End: one arm and one leg lifted.", caption="End"),
    )
    lying = (
        lying_picture(raised=False, alt="Start: lying on the back, knees bent.", caption="Start"),
        lying_picture(raised=True, alt="End: hips lifted off the mat.", caption="End"),
    )
    heel = evolve(HEEL_RAISE, pictures=upright, changes=_with_picture(HEEL_RAISE.changes))
    exercises = (
        heel,
        evolve(BALANCE, pictures=upright[1:]),
        evolve(STEP_UP, pictures=upright),
        evolve(BRIDGE, pictures=lying),
    )
    brand = evolve(BRAND, logo=logo_picture())
    return sample_document(**{"parts": sample_parts(exercises), "brand": brand, **changes})


def _with_picture(changes: tuple[Change, ...]) -> tuple[Change, ...]:
    first, *others = changes
    hold, *rest = first.options
    picture = upright_picture(raised=True, alt="Held halfway, standing.", caption="Hold")
    return (evolve(first, options=(evolve(hold, picture=picture), *rest)), *others)


# ---- pictures drawn here, so that no file is needed --------------------------


def upright_picture(*, raised: bool, alt: str, caption: str) -> Picture:
    """A standing stick figure as PNG, 246 x 354 pixels (the shape of 41 x 59 mm)."""
    image = Image.new("RGB", (246, 354), "white")
    pen = ImageDraw.Draw(image)
    ink, wide = "#15191C", 9
    pen.ellipse((98, 40, 148, 90), outline=ink, width=wide)
    pen.line((123, 90, 123, 215), fill=ink, width=wide)
    pen.line((123, 120, 80, 190), fill=ink, width=wide)
    pen.line((123, 120, 190, 80) if raised else (123, 120, 166, 190), fill=ink, width=wide)
    pen.line((123, 215, 95, 335), fill=ink, width=wide)
    pen.line((123, 215, 190, 280) if raised else (123, 215, 151, 335), fill=ink, width=wide)
    pen.line((10, 341, 236, 341), fill="#C3D0D8", width=6)
    out = BytesIO()
    image.save(out, "PNG")
    return Picture(out.getvalue(), "image/png", alt, caption, *image.size)


def lying_picture(*, raised: bool, alt: str, caption: str) -> Picture:
    """A lying stick figure as SVG, 504 x 162 pixels (the shape of 84 x 27 mm)."""
    hip = 70 if raised else 128
    svg = f"""<svg xmlns="http://www.w3.org/2000/svg"
 width="504" height="162" viewBox="0 0 504 162">
<path d="M20 150H484" stroke="#C3D0D8" stroke-width="6"/>
<g fill="none" stroke="#15191C" stroke-width="9" stroke-linecap="round" stroke-linejoin="round">
<circle cx="70" cy="118" r="22"/><path d="M94 126L250 {hip}L345 50L370 142H400"/>
<path d="M120 134H230"/></g></svg>"""
    return Picture(svg.encode(), "image/svg+xml", alt, caption, 504, 162)


def logo_picture() -> Picture:
    """An invented mark: three bars on a square, 96 x 96 pixels."""
    image = Image.new("RGB", (96, 96), "#123F5C")
    pen = ImageDraw.Draw(image)
    for top in (24, 46, 68):
        pen.line((16, top, 80, top - 8), fill="white", width=8)
    out = BytesIO()
    image.save(out, "PNG")
    return Picture(out.getvalue(), "image/png", "Larkfield Movement Clinic", "", 96, 96)
