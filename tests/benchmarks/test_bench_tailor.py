"""How fast a protocol is tailored to a patient."""

from __future__ import annotations

from itertools import combinations

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from authoring.model.vocabulary import Irritability
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish
from tests.tailoring.values import TODAY, clinic_library, owned, patient

LIMIT_S = 0.02
TWO_LIMIT_S = 0.1
"""Two protocols at once, in too little time for both: the hardest that a clinic asks for."""

STAGES = [
    (protocol.id, stage.id)
    for protocol in clinic_library().protocols.values()
    for stage in protocol.stages
]


@pytest.mark.parametrize(("protocol", "stage"), STAGES)
def test_tailoring_a_protocol(benchmark: BenchmarkFixture, protocol: str, stage: str) -> None:
    benchmark.extra_info["limit_s"] = LIMIT_S
    library = clinic_library()
    person = patient(
        irritability=Irritability.HIGH,
        minutes=20,
        days_per_week=4,
        conditions=("osteoporosis",),
        avoid_demands=("hop",),
        kit=owned("chair", "mat", "towel", "band", "table"),
    )
    ask = Request(today=TODAY, protocols=(protocol,), stages=(StageWish(protocol, stage),))
    assert benchmark(propose, library, person, ask).stages


PAIRS = [
    ((first.id, first.stages[-1].id), (second.id, second.stages[-1].id))
    for first, second in combinations(clinic_library().protocols.values(), 2)
]


@pytest.mark.parametrize("pair", PAIRS)
def test_tailoring_two_protocols_to_little_time(
    benchmark: BenchmarkFixture, pair: tuple[tuple[str, str], ...]
) -> None:
    benchmark.extra_info["limit_s"] = TWO_LIMIT_S
    library = clinic_library()
    person = patient(minutes=25, days_per_week=6, kit=owned("band", "dumbbell", "mat", "step"))
    wishes = tuple(StageWish(*each) for each in pair)
    ask = Request(today=TODAY, protocols=tuple(name for name, _ in pair), stages=wishes)
    assert len(benchmark(propose, library, person, ask).stages) == 2
