"""How fast a protocol is tailored to a patient."""

from __future__ import annotations

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from authoring.model.vocabulary import Irritability
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish
from tests.tailoring.values import TODAY, clinic_library, owned, patient

LIMIT_S = 0.02

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
