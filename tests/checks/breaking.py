"""Pieces from which the broken libraries are made."""

from __future__ import annotations

from typing import Any

from authoring.model.base import evolve
from authoring.model.caution import Caution
from authoring.model.clinic import Logo
from authoring.model.criterion import Measured
from authoring.model.dose import (
    Dose,
    Holds,
)
from authoring.model.library import Library
from authoring.model.protocol import Branch, Lesson, Progression
from authoring.model.text import Text
from authoring.model.vocabulary import (
    CautionKind,
    Comparator,
    Mode,
    Pathway,
    ProgressionMethod,
    SideComparison,
    Status,
    Unit,
)
from tests.checks.build import (
    APPROVAL,
    HOLDS,
    IMAGE,
    PROTOCOL,
    REPETITIONS,
    card_with,
    entry,
    little_pain,
    number,
    protocol_with,
    put,
    rests_on,
    say,
    variant,
    with_protocol,
)

FIRST = "stages[0].blocks[0].entries[0]"
SECOND = "stages[1].blocks[0].entries[0]"
LONG_STEP = " ".join(["rise"] * 16)
LONG_SENTENCE = " ".join(["calm"] * 21) + "."
HARD_TEXT = "Approximately simultaneous proprioceptive reintegration necessitates repetition. " * 20
MIDDLING_TEXT = (
    "Walk a little every day, because your ankle needs movement to get strong again. " * 40
)
PASSIVE_TEXT = "The ball is thrown. The ball is caught. The ball is dropped."


def dosed(**facts: Any) -> Dose:
    return evolve(REPETITIONS, **facts)


def entry_dose(**facts: Any) -> Library:
    return protocol_with(f"{FIRST}.dose", dosed(**facts))


def growing(**facts: Any) -> Library:
    return protocol_with(
        f"{FIRST}.progression", Progression(method=ProgressionMethod.PERCENT_STEP, **facts)
    )


def stretched(**facts: Any) -> Library:
    work = Holds(**{"holds": number(low=2), "hold_s": (number(low=30),), **facts})
    dose = evolve(HOLDS, work=work)
    return card_with("variants[2]", variant("one-leg", 0, Mode.STRETCH, dose=dose))


def moving_on(**facts: Any) -> Library:
    return protocol_with("stages[0].move_on", (little_pain("calm-pain", **facts),))


def moving_on_also(*others: Any) -> Library:
    return protocol_with("stages[0].move_on", (little_pain("calm-pain"), *others))


def stopped(**facts: Any) -> Library:
    return protocol_with("cautions[0]", evolve(PROTOCOL.cautions[0], **facts))


def approved(**facts: Any) -> Library:
    numbered = put(put(PROTOCOL, f"{FIRST}.number", 1), f"{SECOND}.number", 2)
    changes = {"status": Status.APPROVED, "approvals": (APPROVAL,), **facts}
    return with_protocol(evolve(numbered, **changes))


def ruling_out(condition: str) -> Caution:
    return Caution(
        id="rules-out",
        kind=CautionKind.CONTRAINDICATION,
        text=say("Not with this."),
        conditions=(condition,),
    )


def two_entries(**second: Any) -> Library:
    both = (PROTOCOL.stages[0].blocks[0].entries[0], entry("calm-two", "two-legs", **second))
    return protocol_with("stages[0].blocks[0].entries", both)


def lesson(words: str) -> Library:
    return protocol_with("education", (Lesson(id="load", title=say("Load"), text=say(words)),))


def branching(**facts: Any) -> Library:
    branch = Branch(id="sore", finding=say("Sore"), **facts)
    return protocol_with("stages[0].branches", (branch,))


def without_rules(pathway: Pathway) -> Library:
    return with_protocol(evolve(PROTOCOL, pain=None, pathway=pathway))


TRANSLATED = Text({"en": "Heel raise", "pt": "Elevação do calcanhar"})
FOREIGN = Text({"pt": "Elevação do calcanhar"})
LOGO = Logo(image=IMAGE, alt=say("The clinic"))
SYMMETRY = Measured(
    id="balance",
    measure="pain",
    comparator=Comparator.AT_LEAST,
    value=90,
    unit=Unit.PERCENT,
    side=SideComparison.PERCENT_OF_OTHER,
    patient=say("I can stand as long as on the other leg."),
    sources=rests_on(),
)
