"""Codes of the reasons of a review: each has one sentence, and what the rule rests on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from immutabledict import immutabledict

from authoring.dosage.pain import DEFAULT_RULE
from authoring.dosage.progression.told import ACSM_2009, NSCA, Told
from authoring.model.pain import PainRule
from authoring.model.plan import Reason
from authoring.model.protocol import Protocol
from authoring.model.sources import Source

MONITORING = "Silbernagel KG et al., Am J Sports Med 2007;35:897-906 (value from memory)"
"""Pain may reach 5, is back to usual next morning, and does not rise from week to week."""

PRACTICE = "Common practice, no source"
SAFE = "The program's own rule: what is not known is never taken as good"

ITEMS: Mapping[str, tuple[str, str]] = immutabledict(
    {
        "review-red-flag": ("A red flag is answered yes: everything stops.", PRACTICE),
        "review-flag-not-asked": ("A red flag was not asked again, so nothing steps up.", SAFE),
        "review-not-reported": ("Nothing was reported of it, so it stays as it is.", SAFE),
        "review-no-pain-rule": (
            "No pain rule is in force, so nothing is concluded from pain and nothing steps up.",
            SAFE,
        ),
        "review-pain-not-asked": ("Pain during it was not asked.", SAFE),
        "review-after-not-asked": ("Pain after it was not asked, and its rule has a limit.", SAFE),
        "review-morning-not-asked": (
            "Whether pain was back to its usual level the next morning is not known.",
            SAFE,
        ),
        "review-pain-band": ("Pain lies in a band that does not allow a step up.", ""),
        "review-pain-allows": ("Pain lies in a band that allows a step up.", ""),
        "review-not-settled": ("Pain was not back to its usual level in time.", ""),
        "review-pain-rose": ("Pain during it is more than last time.", MONITORING),
        "review-sessions-not-known": ("The number of sessions done is not known.", SAFE),
        "review-sessions-few": ("Too few sessions were done for a step up.", PRACTICE),
        "review-adherence-low": ("Too few of the sessions planned were done.", PRACTICE),
        "review-running-not-known": (
            "How many sessions running were done as asked is not known.",
            SAFE,
        ),
        "review-running-few": ("Too few sessions running were done as asked.", ACSM_2009),
        "review-work-not-known": ("What was reached is not known.", SAFE),
        "review-work-short": ("What the rule asks for was not reached.", ""),
        "review-load-not-known": ("The load that was used is not known.", SAFE),
        "review-load-short": ("A lighter load was used than the plan says.", ""),
        "review-no-rule": ("No rule says how it grows: the clinician decides.", ""),
        "review-no-step": ("The rule has no further step here.", ""),
        "review-step-excluded": ("A hard rule excludes the next step.", ""),
        "review-rule-met": ("What the rule asks for was reached.", ""),
        "review-back-to-written": (
            "It was easier than the protocol starts with, and goes a step towards that.",
            PRACTICE,
        ),
        "review-rung-up": ("The rule is at its end, and the ladder has a next rung.", PRACTICE),
        "review-line-goes-on": (
            "It goes on from the rung that was reached in the stage before.",
            "the protocol's line of progression",
        ),
        "review-pause": ("After a break the protocol asks for something easier.", ""),
        "review-table-next": ("The next row of the week table.", ""),
        "review-table-goes-on": ("The row of the week table is not over yet.", ""),
        "review-table-repeat": ("The row of the week table is done again.", ""),
        "review-table-back": ("The row before in the week table.", ""),
        "review-table-ended": ("The week table has no further row.", ""),
        "review-load-down": ("One real step of the load less.", PRACTICE),
        "review-rung-down": ("An easier rung.", PRACTICE),
        "review-hold": ("A hold instead of movement, as the author permits at this stage.", ""),
        "review-work-down": ("Less of the same work.", PRACTICE),
        "review-nothing-easier": (
            "Nothing easier can be used, so it waits until it is looked at again.",
            PRACTICE,
        ),
        "review-excluded-now": ("A hard rule excludes it now.", ""),
        "review-waits-for-confirmation": ("A step up is proposed; nobody has confirmed it.", ""),
        "review-confirmed": ("The clinician confirmed the step up.", ""),
    }
)
"""Why an exercise steps up, stays, steps down, is held or stops."""

STAGES: Mapping[str, tuple[str, str]] = immutabledict(
    {
        "stage-red-flag": ("A red flag is answered yes: everything stops.", PRACTICE),
        "stage-flag-not-asked": ("A red flag was not asked again, so no stage moves on.", SAFE),
        "stage-criteria-met": ("Every criterion to move on is met.", ""),
        "stage-not-met": ("A criterion to move on is not met.", ""),
        "stage-not-tested": ("A criterion to move on was not tested; untested is never met.", SAFE),
        "stage-no-criteria": ("The stage has no criterion to move on.", SAFE),
        "stage-sessions-few": ("Too few sessions were done in the stage to move on.", ""),
        "stage-sessions-not-known": ("The sessions done in the stage are not known.", SAFE),
        "stage-pain": ("Pain with an exercise asks for something easier or a stop.", ""),
        "stage-pain-not-known": ("Pain with an exercise is not known.", SAFE),
        "stage-last": ("It is the last stage; the clinician decides how it ends.", ""),
        "stage-first": ("It is the first stage, so there is none before it.", ""),
        "stage-back-met": ("A criterion that leads a stage back is met.", ""),
        "stage-pain-back": ("Pain lies in a band that asks for the stage before.", ""),
        "stage-branch": ("A finding is met for which the protocol says what follows.", ""),
        "stage-pause": ("After a break the protocol says what follows.", ""),
        "stage-confirmed": ("The clinician confirmed it.", ""),
        "stage-moved-on": ("The clinician confirmed the move on at a review.", ""),
        "stage-moved-back": ("A review led back to this stage.", ""),
    }
)
"""Why a stage moves on, stays, steps back or stops."""

SENTENCES: Mapping[str, tuple[str, str]] = immutabledict({**ITEMS, **STAGES})
_LONGEST, _LONGEST_SOURCE = 500, 300


def because(code: str, text: str = "", source: str = "") -> Reason:
    """A reason; without words or a source of its own it has those of the code.

    Raises:
        KeyError: the code is not in the registry.
    """
    sentence, usual = SENTENCES[code]
    return Reason(
        code=code,
        text=_cut(text or sentence, _LONGEST),
        source=_cut(source or usual, _LONGEST_SOURCE),
    )


def from_told(told: Iterable[Told]) -> tuple[Reason, ...]:
    """Remarks of a step as reasons."""
    return tuple(
        Reason(code=t.code, text=_cut(t.text, _LONGEST), source=_cut(t.source, _LONGEST_SOURCE))
        for t in told
    )


def cited(sources: Iterable[Source], protocol: Protocol | None) -> str:
    """What sources rest on, in one line: citations of the protocol, else places and bases."""
    known = {each.id: each.citation for each in protocol.references} if protocol else {}
    found: list[str] = []
    for source in sources:
        basis = source.basis.value.replace("_", " ").capitalize()
        place = f"{basis}: {source.place}" if source.place else basis
        found.append(known.get(source.reference or "") or place)
    return "; ".join(dict.fromkeys(found))


def cited_pain(rule: PainRule, protocol: Protocol | None) -> str:
    """What a pain rule rests on, and whose it is where it names nothing."""
    if rule == DEFAULT_RULE:
        return f"Default bands, {'; '.join(source.place for source in rule.sources)}"
    return cited(rule.sources, protocol) or "The protocol's or clinic's own bands"


def usual_source(method: str) -> str:
    """What a method of progression rests on where the protocol cites nothing."""
    return {"two_for_two": NSCA, "reps_then_load": ACSM_2009, "percent_step": ACSM_2009}.get(
        method, PRACTICE
    )


def _cut(text: str, longest: int) -> str:
    return text if len(text) <= longest else f"{text[: longest - 1]}…"
