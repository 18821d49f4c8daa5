"""Any patient gets a plan with reasons: no crash, no rule broken, the same every time."""

from __future__ import annotations

import os
from collections.abc import Callable
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.files.documents import document_bytes, parse_document
from authoring.model.base import evolve
from authoring.model.patient import OwnedKit, Presentation
from authoring.model.vocabulary import TermKind
from authoring.tailoring.candidates import judged
from authoring.tailoring.case import case_of, places_of
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request
from authoring.tailoring.select import pain_at
from tests.tailoring.invariants import faults
from tests.tailoring.libraries import any_library
from tests.tailoring.patients import any_patient, any_request
from tests.tailoring.values import clinic_library

seeds = st.integers(0, 2**32)


def plan_faults(seed: int) -> list[str]:
    random = Random(seed)
    library = clinic_library()
    patient, ask = any_patient(random, library), any_request(random, library)
    plan = propose(library, patient, ask)
    found = list(faults(library, patient, ask, plan))
    if seed % 10 == 0:
        assert propose(library, patient, ask) == plan
        assert parse_document(document_bytes(plan), "plan.json").document == plan
    return found


@given(seeds)
def test_any_patient_gets_a_plan_that_keeps_every_rule(seed: int) -> None:
    assert plan_faults(seed) == []


@given(seeds)
def test_any_library_gives_plans_that_keep_every_rule(seed: int) -> None:
    random = Random(seed)
    library = any_library(random, clinic_library())
    patient, ask = any_patient(random, library), any_request(random, library)
    plan = propose(library, patient, ask)
    assert list(faults(library, patient, ask, plan)) == []
    assert propose(library, patient, ask) == plan


@pytest.mark.long
def test_ten_thousand_patients_get_plans_that_keep_every_rule(
    record_property: Callable[[str, object], None],
) -> None:
    first = int(os.environ.get("RUNGBOOK_SEED", "0"))
    wrong = {seed: found for seed in range(first, first + 10_000) if (found := plan_faults(seed))}
    record_property("cases", 10_000)
    assert wrong == {}


# ---- relaxing never shrinks -----------------------------------------------------------------


def candidates(patient: Presentation, ask: Request) -> set[tuple[object, ...]]:
    """Every variant that no hard rule excludes, place by place."""
    case = case_of(clinic_library(), patient, ask)
    found: set[tuple[object, ...]] = set()
    for place in places_of(case).open:
        rules = case.rules_for(place.side)
        usable = judged(place, rules, pain_at(place, rules, case)).usable
        entry = place.entry.id if place.entry is not None else ""
        found |= {(entry, place.card.id, place.side, each.variant.id) for each in usable}
    return found


def relaxed(random: Random, patient: Presentation) -> Presentation:
    """The patient with one restriction fewer."""

    def fewer(values: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(random.sample(values, max(0, len(values) - 1)))

    kit = [t.id for t in clinic_library().manifest.terms if t.kind is TermKind.KIT]
    ways: list[dict[str, object]] = [
        {"avoid_positions": fewer(patient.avoid_positions)},
        {"avoid_demands": fewer(patient.avoid_demands)},
        {"avoid_movements": fewer(patient.avoid_movements)},
        {"conditions": fewer(patient.conditions)},
        {"limits": fewer(patient.limits)},
        {"weight_bearing": None},
        {"hands_free": None},
        {"kit": (*patient.kit, OwnedKit(kit=random.choice(kit), count=2))},
        {"minutes": None, "days_per_week": None},
    ]
    return evolve(patient, **random.choice(ways))


@given(seeds)
def test_relaxing_a_restriction_never_takes_a_candidate_away(seed: int) -> None:
    random = Random(seed)
    library = clinic_library()
    patient = evolve(any_patient(random, library), tests=(), stages=())
    ask = any_request(random, library)
    stages = case_of(library, patient, ask).stages
    freer = relaxed(random, patient)
    if case_of(library, freer, ask).stages == stages:
        assert candidates(patient, ask) <= candidates(freer, ask)
