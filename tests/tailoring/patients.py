"""Any patient: what a clinic's library knows, picked at random, contradictions and all."""

from __future__ import annotations

import datetime as dt
from random import Random
from typing import Any, TypeVar

from authoring.model.card import Card
from authoring.model.criterion import Measured
from authoring.model.dose import AngleLimit
from authoring.model.library import Library
from authoring.model.limits import LimbLimit
from authoring.model.patient import (
    ExercisePain,
    FlagAnswer,
    OwnedKit,
    Presentation,
    SideState,
    StageSoFar,
    SurgeonLimit,
    TestResult,
)
from authoring.model.vocabulary import (
    Answer,
    Irritability,
    Joint,
    Motion,
    Side,
    SupportKind,
    TermKind,
    Unit,
    WeightBearing,
)
from authoring.tailoring.request import Request, StageWish
from tests.tailoring.values import PATIENT_ID, TODAY

_T = TypeVar("_T")


def some(random: Random, values: Any, most: int) -> tuple[Any, ...]:
    listed = list(values)
    return tuple(random.sample(listed, min(len(listed), random.randint(0, most))))


def perhaps(random: Random, value: _T, chance: float = 0.5) -> _T | None:
    return value if random.random() < chance else None


def pain(random: Random) -> float | None:
    return perhaps(random, random.randint(0, 20) / 2)


def any_patient(random: Random, library: Library) -> Presentation:
    ids = {kind: [t.id for t in library.manifest.terms if t.kind is kind] for kind in TermKind}
    kit_chance = random.random()
    kit = tuple(
        OwnedKit(
            kit=each,
            sizes=tuple(sorted(some(random, (1, 2, 4, 6, 10, 15, 20, 45), 4))),
            unit=perhaps(random, random.choice((Unit.KILOGRAMS, Unit.POUNDS, Unit.CENTIMETRES))),
            count=random.randint(1, 2),
        )
        for each in ids[TermKind.KIT]
        if random.random() < kit_chance
    )
    side = random.choice(list(Side))
    both = side is Side.BOTH and random.random() < 0.7
    return Presentation(
        id=PATIENT_ID,
        label=random.choice(("", "A17", "Jane Doe", "1234567890")),
        side=side,
        each_side=tuple(any_side(random, each) for each in (Side.LEFT, Side.RIGHT) if both),
        irritability=perhaps(random, random.choice(list(Irritability))),
        rest_pain=pain(random),
        morning_pain=pain(random),
        pains=tuple(any_pain(random, library.cards) for _ in range(random.randint(0, 6))),
        red_flags=any_answers(random, library),
        injured=any_day(random),
        operated=any_day(random),
        weight_bearing=perhaps(random, random.choice(list(WeightBearing)), 0.3),
        limits=tuple(any_limit(random, ids) for _ in range(random.choice((0, 0, 0, 1, 2)))),
        tests=tuple(any_test(random, library) for _ in range(random.randint(0, 8))),
        stages=any_stages(random, library),
        conditions=some(random, ids[TermKind.CONDITION], random.choice((0, 1, 4))),
        unmapped_conditions=perhaps(random, ("a clicky toe",), 0.2) or (),
        avoid_positions=some(random, ids[TermKind.POSITION], 2),
        avoid_demands=some(random, ids[TermKind.DEMAND], 2),
        avoid_movements=some(random, ids[TermKind.MOVEMENT], 1),
        kit=kit,
        supports=perhaps(random, some(random, SupportKind, 6)),
        hands_free=perhaps(random, random.randint(0, 2), 0.3),
        minutes=perhaps(random, random.choice((1, 5, 10, 15, 20, 30, 60))),
        days_per_week=perhaps(random, random.randint(1, 7)),
    )


def any_side(random: Random, side: Side) -> SideState:
    return SideState(
        side=side,
        irritability=perhaps(random, random.choice(list(Irritability))),
        weight_bearing=perhaps(random, random.choice(list(WeightBearing)), 0.2),
        injured=any_day(random),
    )


def any_day(random: Random) -> dt.date | None:
    return perhaps(random, TODAY + dt.timedelta(random.randint(-400, 20)))


def any_pain(random: Random, cards: Any) -> ExercisePain:
    card: Card = random.choice(list(cards.values()))
    tried = random.choice(card.variants).id
    return ExercisePain(
        card=perhaps(random, card.id, 0.8),
        variant=perhaps(random, tried),
        movement=random.choice((*card.movements, None)),
        side=random.choice(list(Side)),
        during=pain(random),
        next_morning=pain(random),
    )


def any_answers(random: Random, library: Library) -> tuple[FlagAnswer, ...]:
    chance = random.choice((0.0, 0.01, 0.3))
    return tuple(
        FlagAnswer(
            protocol=protocol.id,
            flag=flag.id,
            answer=random.choice(list(Answer)) if random.random() < chance else Answer.NO,
        )
        for protocol in library.protocols.values()
        for flag in protocol.red_flags
    )


def any_limit(random: Random, ids: dict[TermKind, list[str]]) -> SurgeonLimit:
    low = random.randint(0, 90)
    angle = AngleLimit(
        joint=random.choice((Joint.KNEE, Joint.ANKLE, Joint.ELBOW)),
        motion=random.choice(list(Motion)),
        from_deg=low,
        to_deg=low + random.randint(0, 60),
    )
    limb = LimbLimit(
        angles=perhaps(random, (angle,)) or (),
        passive_only=perhaps(random, True, 0.1),
        weight_bearing=perhaps(random, random.choice(list(WeightBearing)), 0.3),
        most_weight_kg=perhaps(random, random.randint(0, 20), 0.2),
    )
    return SurgeonLimit(
        text="No more than this",
        demands=some(random, ids[TermKind.DEMAND], 1),
        movements=some(random, ids[TermKind.MOVEMENT], 1),
        positions=some(random, ids[TermKind.POSITION], 1),
        limb=perhaps(random, limb),
        side=random.choice(list(Side)),
        until=any_day(random),
    )


def any_test(random: Random, library: Library) -> TestResult:
    criteria = [
        each
        for protocol in library.protocols.values()
        for stage in protocol.stages
        for each in (*stage.entry, *stage.move_on)
        if isinstance(each, Measured)
    ]
    wanted = random.choice(criteria)
    return TestResult(
        measure=wanted.measure,
        value=wanted.value + random.choice((-10, -1, 0, 1, 10)),
        unit=wanted.unit,
        side=random.choice(list(Side)),
        date=TODAY - dt.timedelta(random.randint(-2, 60)),
    )


def any_stages(random: Random, library: Library) -> tuple[StageSoFar, ...]:
    protocol = random.choice(list(library.protocols.values()))
    began = TODAY - dt.timedelta(random.randint(-5, 200))
    so_far = StageSoFar(
        protocol=protocol.id,
        stage=random.choice(protocol.stages).id,
        began=began,
        programme_began=began,
        sessions_done=random.randint(0, 30),
    )
    return perhaps(random, (so_far,)) or ()


def any_request(random: Random, library: Library) -> Request:
    protocols = some(random, sorted(library.protocols), 2)
    wishes = tuple(
        StageWish(
            each,
            random.choice(library.protocols[each].stages).id,
            random.choice((Side.NONE, Side.LEFT, Side.RIGHT)),
        )
        for each in protocols
        if random.random() < 0.7
    )
    return Request(
        today=TODAY,
        protocols=protocols,
        cards=some(random, sorted(library.cards), 2),
        stages=wishes,
        most_exercises=perhaps(random, random.randint(1, 10)),
        clinician="J. Example",
    )
