"""Libraries on which one check must stay silent: at its limit, or not meant by it."""

from authoring.model.base import evolve
from authoring.model.card import LimbRoles
from authoring.model.caution import Caution
from authoring.model.criterion import AllOf, TimePassed, Window
from authoring.model.dose import (
    AngleLimit,
    Distance,
    Duration,
    Either,
    Frequency,
    LeftOpen,
    RangeOfMovement,
)
from authoring.model.library import Library
from authoring.model.load import EffortLoad, Measure, NumberRange, PercentLoad, ReserveLoad
from authoring.model.pain import NextMorning
from authoring.model.protocol import Choice, Lesson, Restriction, WeekSpan
from authoring.model.text import Text
from authoring.model.vocabulary import (
    BlockKind,
    BranchAction,
    CautionKind,
    Comparator,
    Extent,
    Joint,
    LimbUse,
    Mode,
    Motion,
    PainAction,
    Pathway,
    Quantity,
    SideComparison,
    Sides,
    Since,
    TermKind,
    Unit,
    WindowKind,
)
from tests.checks.breaking import (
    FIRST,
    SECOND,
    SYMMETRY,
    approved,
    branching,
    dosed,
    entry_dose,
    growing,
    lesson,
    moving_on,
    moving_on_also,
    ruling_out,
    stretched,
    two_entries,
    without_rules,
)
from tests.checks.build import (
    APPROVAL,
    CARD,
    CLINIC,
    HOLDS,
    PAIN,
    PROTOCOL,
    PROTOCOL_ID,
    REPETITIONS,
    TODAY,
    card_with,
    clinic_with,
    little_pain,
    number,
    protocol_with,
    put,
    rests_on,
    say,
    term,
    variant,
    with_card,
    with_protocol,
    with_terms,
)

STILL = variant("still", 0, Mode.ISOMETRIC, dose=HOLDS)
NARROW_JUMP = put(CARD, "variants[3].demands", ("single-leg-jump",))
BARE = evolve(CARD, cautions=())
COVERED_BY_PROTOCOL = evolve(
    with_card(BARE),
    protocols={PROTOCOL_ID: evolve(PROTOCOL, cautions=(*PROTOCOL.cautions, CARD.cautions[0]))},
)
EXPECTED = Caution(
    id="sore", kind=CautionKind.EXPECTED_RESPONSE, text=say("A little sore."), demands=("jump",)
)
WEEK_TWO = Restriction(id="no-jumps", text=say("No jumps."), demands=("jump",), until_week=2)


def until_week_two(start: str) -> Library:
    stage = evolve(
        PROTOCOL.stages[0], usual_weeks=WeekSpan(from_week=0, to_week=4), not_allowed=(WEEK_TWO,)
    )
    return with_protocol(put(put(PROTOCOL, "stages[0]", stage), f"{FIRST}.start", start))


def heavy(days: int) -> Library:
    return entry_dose(
        loads=(EffortLoad(rating=NumberRange(low=8)),),
        frequency=Frequency(days_per_week=number(low=days)),
    )


def bent_to(degrees: float) -> Library:
    limit = AngleLimit(joint=Joint.KNEE, motion=Motion.FLEXION, from_deg=0, to_deg=degrees)
    return entry_dose(range=RangeOfMovement(extent=Extent.LIMITED, limits=(limit,)))


def working(**facts: object) -> Library:
    roles = LimbRoles(lifting=LimbUse.BOTH, lowering=LimbUse.WORKING)
    library = card_with("variants[2].limbs", roles)
    changed = evolve(PROTOCOL.stages[0].blocks[0].entries[0], **facts)
    told = put(put(PROTOCOL, FIRST, changed), f"{SECOND}.sides", Sides.EACH)
    return evolve(library, protocols={PROTOCOL_ID: told})


SILENT: list[tuple[str, str, Library]] = [
    # ---- references ----
    (
        "builds-on-not-earlier",
        "on an earlier one",
        protocol_with(f"{SECOND}.builds_on", "calm-raise"),
    ),
    ("builds-on-cycle", "on an earlier one", protocol_with(f"{SECOND}.builds_on", "calm-raise")),
    (
        "branch-without-target",
        "to a protocol that is there",
        branching(then=BranchAction.USE_PROTOCOL, protocol=PROTOCOL_ID),
    ),
    ("branch-without-target", "that refers", branching(then=BranchAction.REFER)),
    (
        "choice-without-choice",
        "of one among two",
        with_protocol(
            put(
                put(
                    two_entries(choice="one-of").protocols[PROTOCOL_ID],
                    f"{FIRST}.choice",
                    "one-of",
                ),
                "stages[0].blocks[0].choices",
                (Choice(id="one-of"),),
            )
        ),
    ),
    # ---- cautions ----
    ("caution-missing-on-card", "a wider demand is covered", with_card(NARROW_JUMP)),
    ("caution-missing-for-demand", "a wider demand is covered", with_card(NARROW_JUMP)),
    ("caution-missing-for-demand", "the protocol covers it", COVERED_BY_PROTOCOL),
    (
        "caution-missing-on-card",
        "the demand needs none",
        card_with("variants[3].demands", ("balance",)),
    ),
    (
        "contraindicated-for-condition",
        "a sibling condition",
        card_with("cautions", (*CARD.cautions, ruling_out("ankle-fracture"))),
    ),
    (
        "contraindicated-for-condition",
        "a narrower condition",
        evolve(
            card_with("cautions", (*CARD.cautions, ruling_out("ankle-sprain"))),
            protocols={
                PROTOCOL_ID: evolve(PROTOCOL, conditions=("ankle-injury",), excluded=()),
            },
        ),
    ),
    # ---- stages ----
    (
        "stage-no-move-on",
        "time and measure",
        protocol_with(
            "stages[0].move_on",
            (
                AllOf(
                    id="both",
                    parts=(
                        TimePassed(id="time", since=Since.STAGE_START, at_least=2),
                        little_pain("calm-pain"),
                    ),
                ),
            ),
        ),
    ),
    (
        "stage-weeks-backwards",
        "spans overlap",
        with_protocol(
            put(
                put(PROTOCOL, "stages[0].usual_weeks", WeekSpan(from_week=0, to_week=4)),
                "stages[1].usual_weeks",
                WeekSpan(from_week=2),
            )
        ),
    ),
    ("restriction-broken", "it ends within the stage", until_week_two("hop")),
    (
        "stage-contradicts-next",
        "corridors that meet",
        protocol_with(
            "stages[1].entry", (little_pain("low", comparator=Comparator.AT_LEAST, value=2),)
        ),
    ),
    # ---- criteria ----
    (
        "criterion-no-patient-words",
        "the parts have them",
        protocol_with(
            "stages[0].move_on",
            (AllOf(id="both", parts=(little_pain("one"), little_pain("two"))),),
        ),
    ),
    ("criterion-symmetry-value", "at 110", moving_on_also(evolve(SYMMETRY, value=110))),
    ("criterion-symmetry-value", "at 50", moving_on_also(evolve(SYMMETRY, value=50))),
    (
        "criterion-symmetry-value",
        "of one side",
        moving_on_also(evolve(SYMMETRY, value=9, side=SideComparison.EACH)),
    ),
    (
        "criterion-reserve-high",
        "at 5",
        moving_on_also(
            little_pain("easy", measure="reps-in-reserve", unit=Unit.REPETITIONS, value=5)
        ),
    ),
    (
        "criterion-angle-beyond-normal",
        "155 of 135 degrees",
        moving_on_also(little_pain("bend", measure="knee-flexion", unit=Unit.DEGREES, value=155)),
    ),
    (
        "criterion-window-without-count",
        "with its number",
        moving_on_also(
            little_pain("two", window=Window(kind=WindowKind.CONSECUTIVE_SESSIONS, count=3))
        ),
    ),
    # ---- pain ----
    (
        "pain-rule-default",
        "the clinic has one",
        evolve(without_rules(Pathway.CONSERVATIVE), clinic=evolve(CLINIC, pain=PAIN)),
    ),
    (
        "pain-rule-missing",
        "stage and exercise have one",
        with_protocol(
            put(
                put(
                    evolve(PROTOCOL, pain=None, pathway=Pathway.POST_OPERATIVE),
                    "stages[0].pain",
                    PAIN,
                ),
                f"{SECOND}.pain",
                PAIN,
            )
        ),
    ),
    ("pain-limit-high", "at 5", moving_on(value=5)),
    (
        "pain-limit-high",
        "what leads a stage back",
        protocol_with("stages[1].step_back", (little_pain("worse", value=7),)),
    ),
    (
        "pain-limit-high",
        "next morning at 5",
        protocol_with("pain.next_morning", NextMorning(most=5)),
    ),
    (
        "pain-bands-soften",
        "equal actions",
        protocol_with("pain.during[1].action", PainAction.CARRY_ON),
    ),
    # ---- ladder ----
    (
        "ladder-no-regression",
        "gaps between rungs",
        card_with("variants", (variant("low", -7), variant("one-leg", 0), variant("top", 4))),
    ),
    (
        "hold-stands-in-for-nothing",
        "the exercise as named is a hold",
        card_with("variants", (STILL, variant("carry", 1))),
    ),
    (
        "entry-no-way-down",
        "it is a hold itself",
        card_with("variants", (variant("one-leg", 0, Mode.ISOMETRIC),)),
    ),
    (
        "dose-dynamic-without-repetitions",
        "a timed station",
        with_protocol(
            put(
                put(PROTOCOL, "stages[0].blocks[0].kind", BlockKind.CIRCUIT),
                f"{FIRST}.dose",
                dosed(work=Duration(seconds=number(low=30))),
            )
        ),
    ),
    ("hold-stands-in-for-nothing", "nothing on the card moves", card_with("variants", (STILL,))),
    ("entry-no-way-down", "late in the protocol", protocol_with(f"{SECOND}.allowed", ("one-leg",))),
    ("entry-no-way-down", "a hold is enough", protocol_with(f"{FIRST}.allowed", ("one-leg",))),
    ("entry-no-way-down", "a regression is enough", protocol_with(f"{FIRST}.may_hold", ())),
    (
        "entry-no-way-down",
        "breathing",
        card_with("variants", (variant("one-leg", 0, Mode.BREATHING),)),
    ),
    # ---- dose ----
    (
        "dose-missing",
        "left open on purpose",
        protocol_with(f"{FIRST}.dose", dosed(work=LeftOpen())),
    ),
    (
        "dose-missing-for-variant",
        "the dose fits it",
        evolve(
            card_with("variants[0].dose", None),
            protocols={
                PROTOCOL_ID: put(
                    put(
                        evolve(PROTOCOL, stages=PROTOCOL.stages[:1]),
                        f"{FIRST}.dose",
                        REPETITIONS,
                    ),
                    f"{FIRST}.dose_fits",
                    ("one-leg", "two-legs"),
                )
            },
        ),
    ),
    (
        "dose-dynamic-without-repetitions",
        "repetitions to choose",
        entry_dose(work=Either(doses=(HOLDS, REPETITIONS))),
    ),
    (
        "dose-hold-without-time",
        "a carry over a distance",
        card_with("variants[1].dose", evolve(HOLDS, work=Distance(metres=NumberRange(low=20)))),
    ),
    (
        "dose-hold-without-time",
        "a duration",
        card_with("variants[1].dose", evolve(HOLDS, work=Duration(seconds=number(low=45)))),
    ),
    ("sides-missing", "the dose says", working(dose=dosed(sides=Sides.EACH))),
    ("sides-missing", "the entry says", working(sides=Sides.AFFECTED)),
    # ---- numbers: Ratamess 2009 (2 to 10 percent, 2 to 5 days), Hackett 2017 (5 left),
    # Reynolds 2006 (10 repetitions), Garber 2011 (10 to 60 s, 60 s in all) ----
    ("load-step-large", "at 10 percent", growing(step_percent=10)),
    ("load-step-small", "at 2 percent", growing(step_percent=2)),
    ("effort-reserve-high", "at 5", entry_dose(loads=(ReserveLoad(reps=number(low=3, high=5)),))),
    (
        "load-from-many-repetitions",
        "at 10",
        entry_dose(
            loads=(
                PercentLoad(
                    of=Measure(quantity=Quantity.N_RM, reps=10), per_set=(NumberRange(low=70),)
                ),
            )
        ),
    ),
    ("stretch-hold-length", "10 s", stretched(hold_s=(number(low=10),), holds=number(low=6))),
    (
        "stretch-total-short",
        "6 times 10 s",
        stretched(hold_s=(number(low=10),), holds=number(low=6)),
    ),
    ("stretch-hold-length", "60 s", stretched(hold_s=(number(low=60),), holds=number(low=1))),
    ("heavy-work-frequency", "2 days", heavy(2)),
    ("heavy-work-frequency", "5 days", heavy(5)),
    (
        "heavy-work-frequency",
        "light work daily",
        entry_dose(frequency=Frequency(days_per_week=number(low=7))),
    ),
    # American Academy of Orthopaedic Surgeons: knee 135 degrees (value from memory).
    ("angle-beyond-normal", "155 of 135 degrees", bent_to(155)),
    # ---- description ----
    (
        "step-too-long",
        "15 words",
        card_with("variants[2].steps[1]", say(" ".join(["rise"] * 15))),
    ),
    ("step-wordy", "8 words", card_with("variants[2].steps[1]", say(" ".join(["rise"] * 8)))),
    (
        "step-several-actions",
        "a decimal",
        card_with("variants[2].steps[1]", say("Rise 2.5 cm.")),
    ),
    # ---- words ----
    ("sentence-too-long", "20 words", lesson(" ".join(["calm"] * 20) + ".")),
    (
        "claim-without-source",
        "with a source",
        protocol_with(
            "education",
            (Lesson(id="x", title=say("X"), text=say("It is proven."), sources=rests_on()),),
        ),
    ),
    ("vague-words", "another language", with_card(evolve(CARD, language="pt"))),
    ("text-empty", "an optional text", protocol_with("stages[0].lead", say(""))),
    (
        "text-without-own-language",
        "the language without its region",
        with_card(evolve(CARD, language="en-GB", title=Text({"en": "Heel raise"}))),
    ),
    # ---- governance ----
    ("review-overdue", "due today", card_with("review_due", TODAY)),
    ("approved-by-author-only", "somebody else", approved()),
    (
        "approved-by-author-only",
        "the clinic wants no second person",
        evolve(
            approved(approvals=(evolve(APPROVAL, reviewer="A. Invented"),)),
            clinic=evolve(CLINIC, second_approver=False),
        ),
    ),
    ("approval-in-the-future", "today", approved(approvals=(evolve(APPROVAL, date=TODAY),))),
    # ---- library ----
    (
        "term-name-twice",
        "another kind",
        with_terms(term(TermKind.KIT, "standing")),
    ),
    (
        "demand-asks-no-caution",
        "a word that only looks alike",
        with_terms(term(TermKind.DEMAND, "shopping")),
    ),
    # ---- clinic: WCAG 2.2, #767676 is 4.5422:1 on white, #595959 7.0047:1 ----
    ("brand-colour-contrast", "just enough", clinic_with("brand.colour", "#767676")),
    ("ink-contrast", "just enough", clinic_with("brand.ink", "#595959")),
    ("clinic-phone-missing", "a short number", clinic_with("phone", "116 117")),
]
