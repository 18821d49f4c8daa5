"""What the project asks of a change: style, types, arrows between rooms, tests."""

import os
import platform
import secrets
import tempfile
from collections.abc import Sequence
from pathlib import Path

from authoring.bootstrap import report
from authoring.bootstrap.environment import ROOT
from authoring.bootstrap.told import run, say

# Each is a program of the environment.
STATIC = {
    "ruff check": ["ruff", "check", "."],
    "ruff format": ["ruff", "format", "--check", "."],
    "mypy": ["mypy"],
    "import-linter": ["lint-imports", "--no-logo", "--no-cache"],
}


def _run(command: Sequence[str | Path], *, require_all: bool = False, **more: str) -> int:
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen", **more}
    environment.pop("RUNGBOOK_REQUIRE_ALL", None)
    if require_all:
        environment["RUNGBOOK_REQUIRE_ALL"] = "1"
    return run(command, folder=ROOT, environment=environment, keep_stdout=True)


def static(python: Path) -> list[str]:
    """Names of the checks of the source text that failed."""
    failed = []
    for name, (program, *words) in STATIC.items():
        say(f"{name}:")
        if _run([python.with_name(program), *words]):
            failed.append(name)
    return failed


def quick(python: Path, *, require_all: bool) -> int:
    """All static checks and the quick tests; 0 when all are clean, else 1.

    pytest speaks last, so that its closing line ends the output.
    """
    failed = static(python)
    if failed:
        say(f"Failed before the tests: {', '.join(failed)}.")
    tests = _run([python, "-m", "pytest", "-n", "2"], require_all=require_all)
    return 1 if failed or tests else 0


def _benchmarks(python: Path, output: Path, *, require_all: bool) -> int:
    if not list((ROOT / "tests" / "benchmarks").glob("test_*.py")):
        return 0
    # Benchmarks take turns, and the project's usual options would skip them.
    words = ["-m", "pytest", "-o", "addopts=--import-mode=importlib", "-p", "no:cacheprovider"]
    words += ["-p", "no:xdist", "--benchmark-only", f"--benchmark-json={output}"]
    return _run([python, *words, "tests/benchmarks"], require_all=require_all)


def long(python: Path, *, require_all: bool, seed: int | None) -> int:
    """Long and property tests with many cases, then benchmark limits; writes a dated report."""
    chosen = secrets.randbelow(2**32) if seed is None else seed
    say(f"Long tests with seed {chosen}.")
    with tempfile.TemporaryDirectory() as folder:
        record, benchmarks = Path(folder, "tests.json"), Path(folder, "benchmarks.json")
        words = ["-m", "pytest", "-n", "2", "-m", "long or hypothesis"]
        tests = _run(
            [python, *words, f"--hypothesis-seed={chosen}"],
            require_all=require_all,
            RUNGBOOK_PROFILE="long",
            RUNGBOOK_RECORD=str(record),
            RUNGBOOK_SEED=str(chosen),
        )
        timed = _benchmarks(python, benchmarks, require_all=require_all)
        facts = {"seed": str(chosen), "Python": platform.python_version()}
        facts |= {"system": platform.platform(), "processors": str(os.cpu_count())}
        written, broken = report.write(ROOT / "reports", facts, record, benchmarks)
    say(f"Report: {written}")
    return 1 if tests or timed or broken else 0
