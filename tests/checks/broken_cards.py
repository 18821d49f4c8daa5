"""A library broken in one place for every other check: ladders, doses, words, upkeep, brand.

Each row was written from the rule that its check states, by hand.
"""

from __future__ import annotations

import datetime as dt

from authoring.model.base import evolve
from authoring.model.card import HoldDetail, KitNeed, LimbRoles, Picture
from authoring.model.dose import (
    AngleLimit,
    Duration,
    Frequency,
    RangeOfMovement,
    Tempo,
)
from authoring.model.library import Library
from authoring.model.load import (
    BandLoad,
    EffortLoad,
    Measure,
    NumberRange,
    PercentLoad,
    ReserveLoad,
)
from authoring.model.sources import Reference
from authoring.model.vocabulary import (
    Basis,
    Extent,
    Joint,
    LimbUse,
    Motion,
    Quantity,
    Region,
    Status,
    TermKind,
)
from tests.checks.breaking import (
    FIRST,
    FOREIGN,
    HARD_TEXT,
    LOGO,
    LONG_SENTENCE,
    LONG_STEP,
    MIDDLING_TEXT,
    PASSIVE_TEXT,
    TRANSLATED,
    approved,
    entry_dose,
    growing,
    lesson,
    moving_on,
    stretched,
)
from tests.checks.build import (
    APPROVAL,
    CARD,
    CARD_ID,
    HOLDS,
    LIBRARY,
    OTHER_ID,
    PROTOCOL,
    PROTOCOL_ID,
    REFERENCES,
    REPETITIONS,
    card_with,
    clinic_with,
    number,
    protocol_with,
    put,
    rests_on,
    say,
    term,
    with_card,
    with_clinic,
    with_protocol,
    with_terms,
)
from tests.mechanics.press_ups import press_up


def _pictured(pose: str) -> tuple[Picture, ...]:
    return (Picture(pose=pose, alt=say("A press-up.")),)


_POSES = {"full": press_up(), "on-knees": press_up(knees=True)}

# Mier 2014: a press-up on the toes loads the hands with 66 % of body weight, one on the knees
# with 52 %; here the lighter one stands a rung above.
LOADED_BACKWARD = evolve(
    with_card(
        put(
            put(
                put(CARD, "regions", (Region.SHOULDER,)), "variants[0].pictures", _pictured("full")
            ),
            "variants[2].pictures",
            _pictured("on-knees"),
        )
    ),
    poses={slug: evolve(pose, slug=slug) for slug, pose in _POSES.items()},
)

# code, broken library, place where it must be said
ROWS: list[tuple[str, Library, str]] = [
    # ---- ladder ----
    ("ladder-empty", card_with("variants", ()), "variants"),
    ("ladder-no-regression", card_with("variants", CARD.variants[2:]), "variants"),
    ("ladder-no-progression", card_with("variants", CARD.variants[:3]), "variants"),
    (
        "ladder-no-rung-zero",
        card_with("variants", (CARD.variants[0], CARD.variants[3])),
        "variants",
    ),
    ("hold-stands-in-for-nothing", card_with("variants[1].hold", None), "variants[1].hold"),
    (
        "hold-stands-in-for-nothing",
        card_with("variants[1].hold", HoldDetail(stands_in_for=("two-legs-still",))),
        "variants[1].hold",
    ),
    (
        "hold-on-moving-variant",
        card_with("variants[0].hold", HoldDetail(stands_in_for=("one-leg",))),
        "variants[0].hold",
    ),
    ("variant-no-in-short", card_with("variants[0].in_short", None), "variants[0].in_short"),
    (
        "entry-no-way-down",
        with_protocol(
            put(put(PROTOCOL, f"{FIRST}.allowed", ("one-leg",)), f"{FIRST}.may_hold", ())
        ),
        f"{FIRST}.may_hold",
    ),
    (
        "may-hold-not-isometric",
        protocol_with(f"{FIRST}.may_hold", ("two-legs",)),
        f"{FIRST}.may_hold[0]",
    ),
    ("start-not-allowed", protocol_with(f"{FIRST}.allowed", ("two-legs",)), f"{FIRST}.allowed"),
    ("ladder-load-order", LOADED_BACKWARD, "variants[2].rung"),
    # ---- dose ----
    ("dose-missing", card_with("variants[2].dose", None), f"{FIRST}.dose"),
    ("dose-missing-for-variant", card_with("variants[0].dose", None), f"{FIRST}.dose_fits"),
    (
        "dose-fits-not-allowed",
        protocol_with(f"{FIRST}.dose_fits", ("hop",)),
        f"{FIRST}.dose_fits[0]",
    ),
    (
        "dose-load-without-kit",
        card_with("variants[2].dose", evolve(REPETITIONS, loads=(BandLoad(band="band"),))),
        "variants[2].dose.loads",
    ),
    (
        "dose-isometric-with-tempo",
        card_with("variants[1].dose", evolve(HOLDS, tempo=Tempo(lowering_s=3))),
        "variants[1].dose.tempo",
    ),
    (
        "dose-dynamic-without-repetitions",
        card_with("variants[2].dose", evolve(HOLDS, work=Duration(seconds=number(low=30)))),
        "variants[2].dose.work",
    ),
    (
        "dose-hold-without-time",
        card_with("variants[1].dose", REPETITIONS),
        "variants[1].dose.work",
    ),
    (
        "sides-missing",
        card_with("variants[2].limbs", LimbRoles(lifting=LimbUse.BOTH, lowering=LimbUse.WORKING)),
        f"{FIRST}.sides",
    ),
    (
        "kit-size-without-unit",
        card_with("variants[2].equipment", (KitNeed(kit="step", size=20),)),
        "variants[2].equipment[0].unit",
    ),
    # ---- numbers ----
    ("load-step-large", growing(step_percent=11), f"{FIRST}.progression.step_percent"),
    ("load-step-small", growing(step_percent=1.5), f"{FIRST}.progression.step_percent"),
    (
        "effort-reserve-high",
        entry_dose(loads=(ReserveLoad(reps=number(low=6)),)),
        f"{FIRST}.dose.loads[0].reps",
    ),
    (
        "load-from-many-repetitions",
        entry_dose(
            loads=(
                PercentLoad(
                    of=Measure(quantity=Quantity.N_RM, reps=12), per_set=(NumberRange(low=70),)
                ),
            )
        ),
        f"{FIRST}.dose.loads[0].of.reps",
    ),
    ("stretch-hold-length", stretched(hold_s=(number(low=90),)), "variants[2].dose.work.hold_s"),
    ("stretch-total-short", stretched(hold_s=(number(low=20),)), "variants[2].dose.work"),
    (
        "heavy-work-frequency",
        entry_dose(
            loads=(EffortLoad(rating=NumberRange(low=8)),),
            frequency=Frequency(days_per_week=number(low=7)),
        ),
        f"{FIRST}.dose",
    ),
    (
        "angle-beyond-normal",
        entry_dose(
            range=RangeOfMovement(
                extent=Extent.LIMITED,
                limits=(
                    AngleLimit(joint=Joint.KNEE, motion=Motion.FLEXION, from_deg=0, to_deg=190),
                ),
            )
        ),
        f"{FIRST}.dose.range.limits[0]",
    ),
    # ---- description ----
    ("purpose-missing", card_with("purpose", None), "purpose"),
    ("start-position-missing", card_with("variants[2].start", None), "variants[2].start"),
    ("steps-missing", card_with("variants[2].steps", (say("Rise."),)), "variants[2].steps"),
    ("step-too-long", card_with("variants[2].steps[1]", say(LONG_STEP)), "variants[2].steps[1]"),
    (
        "step-wordy",
        card_with("variants[2].steps[1]", say("Rise up as far as you can, and stay there.")),
        "variants[2].steps[1]",
    ),
    (
        "step-several-actions",
        card_with("variants[2].steps[1]", say("Rise, and then lower.")),
        "variants[2].steps[1]",
    ),
    (
        "alt-missing",
        card_with("variants[0].pictures[0].alt", say("  ")),
        "variants[0].pictures[0].alt",
    ),
    ("alt-missing", clinic_with("brand.logo", evolve(LOGO, alt=say(""))), "brand.logo.alt"),
    (
        "pictures-missing",
        with_card(evolve(CARD, variants=tuple(evolve(v, pictures=()) for v in CARD.variants))),
        "variants[0].pictures",
    ),
    # ---- words ----
    ("reading-grade-high", lesson(HARD_TEXT), ""),
    ("reading-grade-above-advice", lesson(MIDDLING_TEXT), ""),
    ("reading-grade-not-measured", protocol_with("language", "pt"), "language"),
    ("passive-voice", lesson(PASSIVE_TEXT * 9), ""),
    ("sentence-too-long", lesson(LONG_SENTENCE), "education[0].text"),
    ("vague-words", lesson("Walk as tolerated."), "education[0].text"),
    ("hard-words", lesson("It helps with inflammation."), "education[0].text"),
    ("patient-sums", lesson("Lift 70% of your best."), "education[0].text"),
    ("claim-without-source", lesson("This will cure your ankle."), "education[0].text"),
    ("text-empty", protocol_with("stages[0].name", say(" ")), "stages[0].name"),
    ("text-without-own-language", card_with("title", FOREIGN), "title"),
    ("translation-incomplete", card_with("title", TRANSLATED), "purpose"),
    # ---- evidence ----
    ("dose-without-source", entry_dose(sources=()), f"{FIRST}.dose"),
    (
        "variant-dose-without-source",
        card_with("variants[2].dose.sources", ()),
        "variants[2].dose.sources",
    ),
    ("criterion-without-source", moving_on(sources=()), "stages[0].move_on[0].sources"),
    ("pain-rule-without-source", protocol_with("pain.sources", ()), "pain.sources"),
    (
        "source-without-publication",
        protocol_with("pain.sources", rests_on(Basis.PUBLISHED)),
        "pain.sources[0].reference",
    ),
    (
        "reference-unused",
        protocol_with(
            "references", (*REFERENCES, Reference(id="idle", citation="Invented B. 2021."))
        ),
        "references[1]",
    ),
    # ---- governance ----
    ("review-overdue", card_with("review_due", dt.date(2026, 3, 1)), "review_due"),
    ("review-date-missing", protocol_with("review_due", None), "review_due"),
    ("authors-missing", protocol_with("authors", (" ",)), "authors"),
    ("approved-without-approval", approved(approvals=()), "approvals"),
    ("approved-not-kept", evolve(approved(), kept=frozenset()), "version"),
    (
        "approved-by-author-only",
        approved(approvals=(evolve(APPROVAL, reviewer="a. invented "),)),
        "approvals",
    ),
    (
        "approval-in-the-future",
        approved(approvals=(evolve(APPROVAL, date=dt.date(2026, 3, 3)),)),
        "approvals[0].date",
    ),
    ("approved-number-missing", protocol_with("status", Status.APPROVED), f"{FIRST}.number"),
    ("approved-change-note-missing", approved(version="2"), "changes"),
    ("retired", protocol_with("status", Status.RETIRED), "status"),
    # ---- reporting ----
    ("cert-items-missing", protocol_with("delivery.motivation", None), "delivery.motivation"),
    ("tidier-items-missing", protocol_with("changes", ()), "changes"),
    # ---- library ----
    ("clinic-missing", with_clinic(None), ""),
    (
        "slug-twice",
        evolve(LIBRARY, cards={CARD_ID: CARD, OTHER_ID: evolve(CARD, id=OTHER_ID)}),
        "",
    ),
    (
        "id-shared-by-files",
        evolve(LIBRARY, cards={CARD_ID: CARD, PROTOCOL_ID: evolve(CARD, id=PROTOCOL_ID)}),
        "",
    ),
    ("term-twice", with_terms(term(TermKind.KIT, "step")), "terms[12].id"),
    ("term-name-twice", with_terms(term(TermKind.KIT, "box", also=("Step",))), "terms[12]"),
    (
        "term-broader-missing",
        with_terms(term(TermKind.KIT, "box", broader="gone")),
        "terms[12].broader",
    ),
    (
        "term-broader-cycle",
        with_terms(
            term(TermKind.KIT, "box", broader="crate"), term(TermKind.KIT, "crate", broader="box")
        ),
        "terms[12].broader",
    ),
    (
        "demand-asks-no-caution",
        with_terms(term(TermKind.DEMAND, "load-overhead")),
        "terms[12].needs_caution",
    ),
    # ---- clinic ----
    ("clinic-phone-missing", clinic_with("phone", ""), "phone"),
    ("clinic-closed-missing", clinic_with("closed", None), "closed"),
    ("emergency-wording-missing", clinic_with("emergency", None), "emergency"),
    # WCAG 2.2: #777777 on white is 4.4781:1, #5A5A5A 6.8969:1.
    ("brand-colour-contrast", clinic_with("brand.colour", "#777777"), "brand.colour"),
    ("ink-contrast", clinic_with("brand.ink", "#5A5A5A"), "brand.ink"),
    ("ink-on-panel-contrast", clinic_with("brand.ink", "#767676"), "brand.ink"),
]
