"""How fast the command starts and answers, as a process of its own."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.handout.clinic_sheets import EXAMPLE

CARD = EXAMPLE / "cards" / "heel-raise.card.json"


def run(*arguments: object) -> None:
    subprocess.run([sys.executable, *map(str, arguments)], check=True, capture_output=True)


@pytest.mark.parametrize(
    ("arguments", "limit_s"),
    [
        pytest.param(("-c", "pass"), None, id="python alone"),
        pytest.param(("-c", "import authoring.cli"), 0.3, id="import of the command"),
        pytest.param(("-m", "authoring", "--version"), 0.3, id="version"),
        pytest.param(("-m", "authoring", "check", EXAMPLE), 2.0, id="check of the example clinic"),
    ],
)
def test_start(
    benchmark: BenchmarkFixture, arguments: tuple[object, ...], limit_s: float | None
) -> None:
    if limit_s is not None:
        benchmark.extra_info["limit_s"] = limit_s
    benchmark.pedantic(run, args=arguments, rounds=7, warmup_rounds=1)


@pytest.mark.parametrize("ending", ["docx", "html", "pdf"])
def test_a_handout_from_the_command_line(
    benchmark: BenchmarkFixture, ending: str, tmp_path: Path
) -> None:
    protocol = EXAMPLE / "protocols" / "lateral-ankle-sprain-back-to-running.protocol.json"
    out = tmp_path / f"x.{ending}"
    arguments = ("-m", "authoring", "handout", protocol, "--stage", 2, "-o", out)
    benchmark.extra_info["limit_s"] = 3.0
    benchmark.pedantic(run, args=arguments, rounds=5, warmup_rounds=1)
