"""A library broken in one place for every check of references, safety, stages and pain.

Each row was written from the rule that its check states, by hand.
"""

from __future__ import annotations

from authoring.model.base import evolve
from authoring.model.card import HoldDetail, Picture
from authoring.model.criterion import AllOf, InWords, TimePassed, Window
from authoring.model.library import Library
from authoring.model.pain import PainBand
from authoring.model.protocol import Choice, WeekSpan
from authoring.model.text import Text
from authoring.model.vocabulary import (
    BranchAction,
    Comparator,
    PainAction,
    Pathway,
    Since,
    Unit,
    Urgency,
    WindowKind,
)
from tests.checks.breaking import (
    FIRST,
    SECOND,
    SYMMETRY,
    branching,
    moving_on,
    moving_on_also,
    ruling_out,
    stopped,
    without_rules,
)
from tests.checks.build import (
    CARD,
    CLINIC,
    LIBRARY,
    OTHER_ID,
    PAIN,
    PROTOCOL,
    card_with,
    little_pain,
    protocol_with,
    put,
    rests_on,
    say,
    with_protocol,
)

# code, broken library, place where it must be said
ROWS: list[tuple[str, Library, str]] = [
    # ---- references ----
    ("reference-missing-term", card_with("variants[0].position", "lying"), "variants[0].position"),
    ("reference-missing-card", protocol_with(f"{FIRST}.card", OTHER_ID), f"{FIRST}.card"),
    (
        "reference-missing-variant",
        protocol_with(f"{FIRST}.may_hold", ("two-legs-still", "gone")),
        f"{FIRST}.may_hold[1]",
    ),
    (
        "reference-missing-stand-in",
        card_with("variants[1].hold", HoldDetail(stands_in_for=("gone",))),
        "variants[1].hold.stands_in_for[0]",
    ),
    ("reference-missing-choice", protocol_with(f"{FIRST}.choice", "gone"), f"{FIRST}.choice"),
    (
        "choice-without-choice",
        protocol_with("stages[0].blocks[0].choices", (Choice(id="one-of"),)),
        "stages[0].blocks[0].choices[0]",
    ),
    (
        "reference-missing-publication",
        card_with("references", ()),
        "variants[0].dose.sources[0].reference",
    ),
    (
        "reference-missing-image",
        evolve(LIBRARY, images=frozenset()),
        "variants[0].pictures[0].image",
    ),
    (
        "reference-missing-pose",
        card_with("variants[0].pictures[0]", Picture(pose="gone", alt=Text.plain("Gone"))),
        "variants[0].pictures[0].pose",
    ),
    (
        "branch-without-target",
        branching(then=BranchAction.GO_TO_STAGE, stage="gone"),
        "stages[0].branches[0].stage",
    ),
    (
        "builds-on-cycle",
        with_protocol(
            put(
                put(PROTOCOL, f"{FIRST}.builds_on", "strong-raise"),
                f"{SECOND}.builds_on",
                "calm-raise",
            )
        ),
        f"{FIRST}.builds_on",
    ),
    (
        "builds-on-not-earlier",
        protocol_with(f"{FIRST}.builds_on", "strong-raise"),
        f"{FIRST}.builds_on",
    ),
    ("id-twice", protocol_with("stages[1].id", "calm"), "stages[1].id"),
    # ---- cautions ----
    ("stop-signs-missing", protocol_with("cautions", ()), "cautions"),
    ("emergency-sign-missing", stopped(urgency=Urgency.SAME_DAY), "cautions"),
    ("red-flags-missing", protocol_with("red_flags", ()), "red_flags"),
    ("caution-missing-on-card", card_with("cautions", ()), "variants[3].demands"),
    ("caution-missing-for-demand", card_with("cautions", ()), SECOND),
    (
        "contraindicated-for-condition",
        card_with("cautions", (*CARD.cautions, ruling_out("ankle-injury"))),
        f"{FIRST}.card",
    ),
    (
        "contraindicated-variant",
        card_with("variants[0].cautions", (ruling_out("ankle-sprain"),)),
        f"{FIRST}.allowed",
    ),
    (
        "contraindication-for-everyone",
        card_with("cautions[1].conditions", ()),
        "cautions[1].conditions",
    ),
    ("precaution-without-how", card_with("cautions[0].how", None), "cautions[0].how"),
    # ---- stages ----
    ("protocol-no-stages", protocol_with("stages", ()), "stages"),
    ("stage-no-exercises", protocol_with("stages[1].blocks", ()), "stages[1].blocks"),
    ("stage-no-entry-criterion", protocol_with("stages[1].entry", ()), "stages[1].entry"),
    ("stage-no-move-on", protocol_with("stages[0].move_on", ()), "stages[0].move_on"),
    (
        "stage-no-move-on",
        protocol_with(
            "stages[0].move_on",
            (TimePassed(id="time", since=Since.STAGE_START, at_least=2, sources=rests_on()),),
        ),
        "stages[0].move_on",
    ),
    (
        "stage-move-on-not-measured",
        protocol_with(
            "stages[0].move_on",
            (InWords(id="good", words=say("Good form"), patient=say("I can do it well.")),),
        ),
        "stages[0].move_on",
    ),
    (
        "stage-weeks-backwards",
        with_protocol(
            put(
                put(PROTOCOL, "stages[0].usual_weeks", WeekSpan(from_week=4)),
                "stages[1].usual_weeks",
                WeekSpan(from_week=2),
            )
        ),
        "stages[1].usual_weeks.from_week",
    ),
    (
        "entry-number-twice",
        with_protocol(put(put(PROTOCOL, f"{FIRST}.number", 3), f"{SECOND}.number", 3)),
        f"{SECOND}.number",
    ),
    ("restriction-broken", protocol_with(f"{FIRST}.start", "hop"), f"{FIRST}.start"),
    ("restriction-broken-by-variant", protocol_with(f"{FIRST}.allowed", ()), f"{FIRST}.allowed"),
    (
        "stage-contradicts-next",
        protocol_with(
            "stages[1].entry", (little_pain("worse", comparator=Comparator.AT_LEAST, value=6),)
        ),
        "stages[1].entry[0]",
    ),
    # ---- criteria ----
    ("criterion-pain-no-next-morning", moving_on(window=None), "stages[0].move_on"),
    ("criterion-no-patient-words", moving_on(patient=None), "stages[0].move_on[0].patient"),
    (
        "criterion-symmetry-value",
        moving_on_also(evolve(SYMMETRY, value=9)),
        "stages[0].move_on[1].value",
    ),
    (
        "criterion-reserve-high",
        moving_on_also(
            little_pain("easy", measure="reps-in-reserve", unit=Unit.REPETITIONS, value=6)
        ),
        "stages[0].move_on[1].value",
    ),
    (
        "criterion-angle-beyond-normal",
        moving_on_also(
            AllOf(
                id="both",
                parts=(
                    little_pain("bend", measure="knee-flexion", unit=Unit.DEGREES, value=160),
                    little_pain("calm-too"),
                ),
            )
        ),
        "stages[0].move_on[1].parts[0].value",
    ),
    (
        "criterion-window-without-count",
        moving_on_also(
            little_pain("calm-too", window=Window(kind=WindowKind.CONSECUTIVE_SESSIONS))
        ),
        "stages[0].move_on[1].window.count",
    ),
    # ---- pain ----
    ("pain-rule-missing", without_rules(Pathway.POST_OPERATIVE), "stages[0].pain"),
    ("pain-rule-missing", without_rules(Pathway.BONE_STRESS), "stages[0].pain"),
    (  # no page after an operation takes the clinic's usual rule
        "pain-rule-missing",
        evolve(without_rules(Pathway.POST_OPERATIVE), clinic=evolve(CLINIC, pain=PAIN)),
        "stages[0].pain",
    ),
    ("pain-rule-default", without_rules(Pathway.CONSERVATIVE), "pain"),
    (
        "pain-limit-high",
        protocol_with("pain.during", (PainBand(up_to=10, action=PainAction.CARRY_ON),)),
        "pain.during",
    ),
    ("pain-limit-high", moving_on(value=6), "stages[0].move_on[0].value"),
    (
        "pain-rule-no-next-morning",
        protocol_with("pain.next_morning", None),
        "pain.next_morning",
    ),
    (
        "pain-bands-soften",
        protocol_with("pain.during[2].action", PainAction.CARRY_ON),
        "pain.during[2].action",
    ),
]
