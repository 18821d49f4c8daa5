"""A small sound library, and a way to break one thing in it.

Everything in it is invented. No check says anything about it as it stands, so that a
test breaks one thing and sees one result.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable
from typing import Any

from authoring.checks.library import check_library
from authoring.checks.result import CheckResult
from authoring.model.base import evolve
from authoring.model.card import Card, HoldDetail, Picture, Variant
from authoring.model.caution import Caution, RedFlag
from authoring.model.clinic import Clinic, EmergencyWording
from authoring.model.criterion import InWords, Measured, TimePassed, Window
from authoring.model.dose import Dose, Frequency, Holds, Repetitions
from authoring.model.library import Library, LibraryFile, Term
from authoring.model.load import IntRange
from authoring.model.pain import NextMorning, PainBand, PainRule
from authoring.model.protocol import (
    Approval,
    Block,
    ChangeNote,
    Delivery,
    Entry,
    Lesson,
    Progression,
    Protocol,
    Restriction,
    Stage,
)
from authoring.model.sources import Reference, Source
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Adherence,
    Basis,
    CautionKind,
    Comparator,
    Mode,
    PainAction,
    People,
    ProgressionMethod,
    Region,
    Setting,
    Since,
    Supervision,
    TermKind,
    Unit,
    Urgency,
    WindowKind,
)

TODAY = dt.date(2026, 3, 2)
CARD_ID = "00000000-0000-4000-8000-000000000001"
PROTOCOL_ID = "00000000-0000-4000-8000-000000000002"
OTHER_ID = "00000000-0000-4000-8000-000000000003"
IMAGE = f"{'a' * 64}.png"

say = Text.plain
number = IntRange


def rests_on(basis: Basis = Basis.COMMON_PRACTICE, **facts: Any) -> tuple[Source, ...]:
    return (Source(basis=basis, **facts),)


def term(kind: TermKind, term_id: str, **facts: Any) -> Term:
    return Term(id=term_id, kind=kind, name=say(term_id.replace("-", " ")), **facts)


REPETITIONS = Dose(
    work=Repetitions(sets=number(low=3), reps=(number(low=8, high=12),)),
    frequency=Frequency(days_per_week=number(low=3)),
    sources=rests_on(Basis.PUBLISHED, reference="trial"),
)
HOLDS = Dose(
    work=Holds(sets=number(low=1), holds=number(low=5), hold_s=(number(low=30),)),
    frequency=Frequency(days_per_week=number(low=3)),
    sources=rests_on(),
)
REFERENCES = (Reference(id="trial", citation="Invented A. An invented trial. 2020.", year=2020),)


def variant(variant_id: str, rung: int, mode: Mode = Mode.DYNAMIC, **facts: Any) -> Variant:
    return Variant(
        **{
            "id": variant_id,
            "rung": rung,
            "name": say(variant_id.replace("-", " ").capitalize()),
            "mode": mode,
            "position": "standing",
            "start": say("Stand tall and hold the chair."),
            "steps": (say("Rise onto your toes."), say("Lower your heels slowly.")),
            "in_short": say("Do it this way."),
            "dose": HOLDS if mode is Mode.ISOMETRIC else REPETITIONS,
            "pictures": (Picture(image=IMAGE, alt=say("A person on her toes")),),
            **facts,
        }
    )


CARD = Card(
    id=CARD_ID,
    slug="heel-raise",
    language="en",
    title=say("Heel raise"),
    purpose=say("It makes your calf strong."),
    regions=(Region.FOOT_ANKLE,),
    movements=("plantarflexion",),
    variants=(
        variant("two-legs", -1),
        variant("two-legs-still", -1, Mode.ISOMETRIC, hold=HoldDetail(stands_in_for=("two-legs",))),
        variant("one-leg", 0),
        variant("hop", 1, demands=("jump",)),
    ),
    cautions=(
        Caution(
            id="careful-jump",
            kind=CautionKind.PRECAUTION,
            text=say("A hop loads the ankle."),
            how=say("Start low."),
            demands=("jump",),
        ),
        Caution(
            id="not-after-a-break",
            kind=CautionKind.CONTRAINDICATION,
            text=say("Not with a broken ankle."),
            conditions=("ankle-fracture",),
        ),
    ),
    references=REFERENCES,
    review_due=dt.date(2027, 1, 1),
)

PAIN = PainRule(
    during=(
        PainBand(up_to=2, action=PainAction.CARRY_ON),
        PainBand(up_to=5, action=PainAction.GO_EASIER),
        PainBand(up_to=10, action=PainAction.STOP_TODAY),
    ),
    next_morning=NextMorning(),
    sources=rests_on(Basis.PUBLISHED, reference="trial"),
)


def little_pain(criterion_id: str, **facts: Any) -> Measured:
    return Measured(
        **{
            "id": criterion_id,
            "measure": "pain",
            "comparator": Comparator.AT_MOST,
            "value": 2,
            "unit": Unit.PAIN_0_10,
            "window": Window(kind=WindowKind.NEXT_MORNING),
            "patient": say("I can wake with pain of 2 or less."),
            "sources": rests_on(),
            **facts,
        }
    )


def entry(entry_id: str, start: str, **facts: Any) -> Entry:
    return Entry(
        id=entry_id,
        card=CARD_ID,
        start=start,
        **{"progression": Progression(method=ProgressionMethod.NEXT_RUNG), **facts},
    )


PROTOCOL = Protocol(
    id=PROTOCOL_ID,
    slug="ankle-sprain",
    language="en",
    title=say("Ankle sprain"),
    patient_title=say("Your ankle"),
    conditions=("ankle-sprain",),
    excluded=("ankle-fracture",),
    stages=(
        Stage(
            id="calm",
            name=say("Calm it down"),
            aims=(say("Settle the pain"),),
            entry=(InWords(id="no-flag", words=say("No red flag"), sources=rests_on()),),
            move_on=(little_pain("calm-pain"),),
            blocks=(
                Block(
                    id="calm-main",
                    entries=(
                        entry(
                            "calm-raise",
                            "one-leg",
                            allowed=("two-legs", "one-leg"),
                            may_hold=("two-legs-still",),
                        ),
                    ),
                ),
            ),
            not_allowed=(
                Restriction(id="no-jumps", text=say("Do not jump yet."), demands=("jump",)),
            ),
        ),
        Stage(
            id="strong",
            name=say("Make it strong"),
            aims=(say("Strength"),),
            entry=(TimePassed(id="weeks", since=Since.INJURY, at_least=2, sources=rests_on()),),
            blocks=(Block(id="strong-main", entries=(entry("strong-raise", "one-leg"),)),),
        ),
    ),
    education=(Lesson(id="load", title=say("Load"), text=say("A calm load helps it heal.")),),
    cautions=(
        Caution(
            id="numb",
            kind=CautionKind.STOP_SIGN,
            text=say("Your foot is cold and numb."),
            urgency=Urgency.EMERGENCY,
        ),
    ),
    red_flags=(
        RedFlag(
            id="steps",
            question=say("Can't take 4 steps?"),
            action=say("Send for an X-ray."),
            urgency=Urgency.SAME_DAY,
        ),
    ),
    pain=PAIN,
    delivery=Delivery(
        provider=say("A physiotherapist"),
        people=People.ALONE,
        supervision=Supervision.MIXED,
        settings=(Setting.HOME,),
        adherence=Adherence.DIARY,
        motivation=say("A diary"),
        tailoring=say("By rung and dose"),
        starting_level=say("By the entry criteria"),
        fidelity=say("Seen at every visit"),
        harms=say("Asked at every visit"),
    ),
    references=REFERENCES,
    authors=("A. Invented",),
    review_due=dt.date(2027, 1, 1),
    changes=(
        ChangeNote(version="0.1", date=dt.date(2026, 1, 5), author="A. Invented", text="First."),
    ),
)

APPROVAL = Approval(reviewer="B. Invented", date=dt.date(2026, 2, 2))

TERMS = (
    term(TermKind.CONDITION, "ankle-injury"),
    term(TermKind.CONDITION, "ankle-sprain", broader="ankle-injury"),
    term(TermKind.CONDITION, "ankle-fracture", broader="ankle-injury"),
    term(TermKind.DEMAND, "jump", needs_caution=True),
    term(TermKind.DEMAND, "single-leg-jump", broader="jump", needs_caution=True),
    term(TermKind.DEMAND, "balance"),
    term(TermKind.POSITION, "standing"),
    term(TermKind.KIT, "step"),
    term(TermKind.MOVEMENT, "plantarflexion"),
    term(TermKind.MEASURE, "pain"),
    term(TermKind.MEASURE, "knee-flexion"),
    term(TermKind.MEASURE, "reps-in-reserve"),
)

CLINIC = Clinic(
    language="en",
    name=say("Larkfield Movement Clinic"),
    phone="01632 960 100",
    closed=say("Call 111."),
    emergency=EmergencyWording(
        emergency=say("Call 112 now if:"),
        same_day=say("See a doctor today if:"),
        call_clinic=say("Call us if:"),
        stop_exercise=say("Stop if:"),
    ),
    invented=True,
)

LIBRARY = Library(
    manifest=LibraryFile(id=OTHER_ID, name="Invented", language="en", terms=TERMS),
    clinic=CLINIC,
    cards={CARD_ID: CARD},
    protocols={PROTOCOL_ID: PROTOCOL},
    images=frozenset({IMAGE}),
)


def with_card(card: Card) -> Library:
    return evolve(LIBRARY, cards={card.id: card})


def with_protocol(protocol: Protocol) -> Library:
    return evolve(LIBRARY, protocols={protocol.id: protocol})


def with_clinic(clinic: Clinic | None) -> Library:
    return evolve(LIBRARY, clinic=clinic)


def with_terms(*terms: Term) -> Library:
    return evolve(LIBRARY, manifest=evolve(LIBRARY.manifest, terms=(*TERMS, *terms)))


def _parts(path: str) -> list[str | int]:
    return [int(part) if part.isdigit() else part for part in re.findall(r"[\w]+", path)]


def _step(value: Any, part: str | int) -> Any:
    return value[part] if isinstance(part, int) else getattr(value, part)


def get(root: Any, path: str) -> Any:
    """What stands at a path; raises where there is no such place."""
    for part in _parts(path):
        root = _step(root, part)
    return root


def put(root: Any, path: str, new: Any) -> Any:
    """A copy of a value with what stands at a path replaced."""
    return _put(root, _parts(path), new)


def _put(value: Any, parts: list[str | int], new: Any) -> Any:
    if not parts:
        return new
    first, *rest = parts
    inner = _put(_step(value, first), rest, new)
    if isinstance(first, int):
        return (*value[:first], inner, *value[first + 1 :])
    return evolve(value, **{first: inner})


def card_with(path: str, new: Any) -> Library:
    return with_card(put(CARD, path, new))


def protocol_with(path: str, new: Any) -> Library:
    return with_protocol(put(PROTOCOL, path, new))


def clinic_with(path: str, new: Any) -> Library:
    return with_clinic(put(CLINIC, path, new))


def results(library: Library) -> tuple[CheckResult, ...]:
    return check_library(library, TODAY)


def only(found: Iterable[CheckResult], code: str) -> CheckResult:
    """The one result with this code."""
    (one,) = [result for result in found if result.code == code]
    return one
