"""Codes of reasons: each has one plain sentence here, and never means anything else later."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from immutabledict import immutabledict

from authoring.model.plan import Reason

HARD: Mapping[str, str] = immutabledict(
    {
        "contraindicated": "A contraindication of the card, the variant or the protocol applies.",
        "protocol-excludes": "The protocol is not for a condition that the patient has.",
        "position-avoided": "The patient avoids its position.",
        "demand-avoided": "The patient avoids something that it asks for.",
        "movement-avoided": "The patient avoids its movement.",
        "stage-forbids": "A stage that the plan follows does not allow it yet.",
        "surgeon-forbids": "A limit of the surgeon rules it out.",
        "limb-range": "It needs more range of movement than a limit allows.",
        "limb-passive": "The limb may only be moved for the patient, and this moves it actively.",
        "limb-weight": "It is heavier than a limit allows.",
        "weight-bearing": "It puts more weight on the limb than the limb may take.",
        "weight-not-known": (
            "The limb may not take full weight, and no term says how much this puts on it."
        ),
        "kit-missing": "Kit that it needs is not at hand.",
        "support-missing": "A support or helper that it needs is not at hand.",
        "hands-missing": "It needs more free hands than the patient has.",
        "pain-stop": "Pain with this exercise is in a band that says stop.",
        "branch-leaves-out": "A finding is met for which the protocol leaves it out.",
    }
)
"""Rules that exclude a variant. A clinician may set them aside, and the plan keeps it."""

NEEDS_WHY = frozenset(
    {
        "contraindicated",
        "protocol-excludes",
        "stage-forbids",
        "surgeon-forbids",
        "limb-range",
        "limb-passive",
        "limb-weight",
        "weight-bearing",
        "weight-not-known",
        "pain-stop",
        "branch-leaves-out",
    }
)
"""Hard rules about safety: setting them aside needs a reason."""

CHOICES: Mapping[str, str] = immutabledict(
    {
        "as-written": "The variant that the protocol starts with.",
        "single-card": "The clinician asked for this card; it comes from no protocol.",
        "same-rung": "Another way on the same rung, as the first can't be used.",
        "easier-rung": "An easier rung.",
        "start-excluded": "A hard rule excludes the variant that the protocol starts with.",
        "easiest-left": "Something easier was wanted, and nothing easier can be used.",
        "hold-permitted": "A hold replaces movement, as the author permits at this stage.",
        "same-purpose": "Another card of the same purpose, as no variant of the first can be used.",
        "irritability-high": "It flares up easily, so something easier was wanted.",
        "pain-allows": "Pain with this exercise is in a band that allows it.",
        "pain-easier": "Pain with this exercise is in a band that asks for something easier.",
        "pain-step-back": "Pain with this exercise is in a band that asks for the stage before.",
        "pain-no-rule": (
            "Pain was scored and no pain rule is in force, so nothing is concluded from it."
        ),
        "precaution": "A precaution applies: it says how to take care.",
        "load-from-kit": "The weight is one that is at hand.",
        "load-lighter": (
            "The weight at hand is lighter, so the number of repetitions follows the effort."
        ),
        "load-not-at-hand": "A weight that the week table asks for is not at hand.",
        "load-too-light": "The weight at hand is too light for the dose.",
        "kit-size": "The size of the kit at hand is not known.",
        "limb-range-set": "The range of movement is narrowed to a limit.",
        "week-variant-out": "A later row of the week table names a variant that can't be used.",
        "together-out": "A variant that is done side by side with it can't be used.",
        "fewer-days": "There are fewer days than the dose asks for.",
        "sets-cut": "Sets were taken off to fit the time.",
        "days-alternate": "It is done on every other day of the plan to fit the time.",
        "time-not-known": "Its time can't be computed, so three minutes are assumed.",
        "overridden": "The clinician decided it.",
    }
)
"""Why something is in the plan as it is."""

LEFT_OUT: Mapping[str, str] = immutabledict(
    {
        "time-short": "There is no time for it now.",
        "most-exercises": "The plan has as many exercises as were asked for at most.",
        "stage-cap": "The stage allows no more of what it counts.",
        "choice-other": "Another exercise of the same either/or choice was taken.",
        "only-harder-left": "Only harder rungs can be used, and nobody confirmed a step up.",
        "hold-not-permitted": "Only a hold can be used, and the author does not permit one here.",
        "nothing-usable": "No variant of it can be used.",
        "other-side-behind": "It loads both sides, and the other side is at an earlier stage.",
        "card-missing": "Its card or variant is not in the library.",
        "already-there": "The same exercise is in the plan already.",
        "removed": "The clinician took it out.",
    }
)
"""Why something is not in the plan."""

STAGES: Mapping[str, str] = immutabledict(
    {
        "stage-asked": "The clinician asked for this stage.",
        "stage-entered": "Every criterion to enter this stage is met.",
        "stage-first": "The first stage, as no later one can be entered yet.",
        "entry-not-met": "A criterion to enter this stage is not met.",
        "entry-not-tested": "A criterion to enter this stage has not been tested.",
        "next-not-met": "A criterion to enter the next stage is not met.",
        "next-not-tested": "A criterion to enter the next stage has not been tested.",
        "step-back-met": "A criterion that leads a stage back is met.",
    }
)
"""Why a stage is followed."""

PLAN: Mapping[str, str] = immutabledict(
    {
        "red-flag-yes": "A red flag is answered yes: the exercise pages are withheld.",
        "red-flag-not-asked": "A red flag was not asked: nothing may be printed.",
        "not-covered": "No caution speaks of a condition, so it is not passed as safe.",
        "time-over": "The plan takes longer than there is time for.",
        "time-may-run-over": "A slow session takes longer than there is time for.",
        "too-many": "The plan has more exercises than were asked for at most.",
        "cap-over": "The plan has more of something than a stage allows.",
        "no-exercise": "No exercise is left.",
        "criterion-out-of-reach": "An exclusion rules out the test of a criterion to move on.",
        "criterion-not-trained": (
            "Every exercise that trains for a criterion to move on is left out."
        ),
        "branch": "A finding is met for which the protocol says what follows.",
        "supports-assumed": "Nobody asked what is at hand, so chair, wall and table are assumed.",
        "side-not-given": "The protocol works one side, and the affected side is not given.",
        "date-in-future": "A date lies in the future and is not used.",
        "label-like-a-name": "The label looks like a name or a number of identity.",
        "term-not-known": "The presentation names a term that the library does not have.",
        "unknown-card": "A card or protocol that was asked for is not in the library.",
        "hard-rule-set-aside": "The clinician set a hard rule aside.",
        "countersign-missing": "A second clinician has not signed an override yet.",
    }
)
"""What must be known of a plan as a whole."""

CODES: Mapping[str, str] = immutabledict({**HARD, **CHOICES, **LEFT_OUT, **STAGES, **PLAN})
"""Every code with its sentence."""

_LONGEST = 500


def why(code: str, text: str = "") -> Reason:
    """A reason; without a text of its own it says the code's sentence.

    Raises:
        KeyError: the code is not in the registry.
    """
    sentence = CODES[code]
    words = text or sentence
    return Reason(code=code, text=words if len(words) <= _LONGEST else f"{words[: _LONGEST - 1]}…")


def hard(reasons: Iterable[Reason]) -> tuple[Reason, ...]:
    """Those of the reasons that come from hard rules."""
    return tuple(reason for reason in reasons if reason.code in HARD)
