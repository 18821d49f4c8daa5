"""What every test shares: profiles, a screenless Qt, and a list of what was not run."""

import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings

# Before pytest-qt loads Qt: tests need no screen.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

NOT_RUN = "not run: "

# Too-slow is about the machine, which may be shared; a deadline would be, too.
_SHARED = {"deadline": None, "database": None, "suppress_health_check": [HealthCheck.too_slow]}

# Quick tries the same cases every time, so that a red run means a change; long looks for new ones.
settings.register_profile("quick", max_examples=60, derandomize=True, **_SHARED)
settings.register_profile("long", max_examples=5_000, print_blob=True, **_SHARED)
settings.load_profile(os.environ.get("RUNGBOOK_PROFILE", "quick"))


def _reasons(reports: list[pytest.TestReport]) -> Iterator[str]:
    for report in reports:
        # A skip's longrepr is (path, line, reason).
        text = report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)
        if NOT_RUN in text:
            yield text[text.index(NOT_RUN) + len(NOT_RUN) :].strip()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Name each outside judge that could not be asked, once, with its mend."""
    missing = sorted(set(_reasons(terminalreporter.getreports("skipped"))))
    if missing:
        terminalreporter.section("not run")
        for sentence in missing:
            terminalreporter.write_line(sentence)
