"""What every test shares: profiles, a screenless Qt, the list of what was not run, a record."""

import json
import os
import re
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# Before pytest-qt loads Qt: tests need no screen.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

NOT_RUN = "not run: "
CASES = "cases"

# Nor does one leave pictures in the user's own cache.
os.environ.setdefault("RUNGBOOK_CACHE", tempfile.mkdtemp(prefix="rungbook-cache-"))

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


@pytest.hookimpl(hookwrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Iterator[None]:
    """Carry Hypothesis's count of cases with the report; a test may add its own `cases`."""
    outcome = yield
    report = outcome.get_result()
    told = getattr(item, "hypothesis_statistics", "")
    if report.when == "call":
        report.user_properties += [
            (CASES, int(number)) for number in re.findall(r"(\d+) passing", told)
        ]


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Write what ran to the file named by RUNGBOOK_RECORD, for the long run's report."""
    path = os.environ.get("RUNGBOOK_RECORD")
    reporter = session.config.pluginmanager.getplugin("terminalreporter")
    if not path or reporter is None or hasattr(session.config, "workerinput"):
        return
    record = [
        {
            "test": report.nodeid,
            "outcome": report.outcome,
            "seconds": round(report.duration, 3),
            "cases": sum(value for name, value in report.user_properties if name == CASES),
        }
        for reports in reporter.stats.values()
        for report in reports
        if isinstance(report, pytest.TestReport)
        and (report.when == "call" or report.outcome != "passed")
    ]
    Path(path).write_text(json.dumps(record, indent=2), encoding="utf-8")
