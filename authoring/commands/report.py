"""A check report as text for people and as JSON for scripts."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from authoring.checks.result import Strength
from authoring.commands.check import Found, Report


def as_json(report: Report) -> dict[str, Any]:
    """Counts, results and unreadable files as plain values."""
    return {
        "counts": {strength.value: report.count(strength) for strength in Strength},
        "results": [_result(item) for item in report.found],
        "unreadable": [
            {"file": str(problem.path), "sentence": problem.sentence, "mend": problem.mend}
            for problem in report.unreadable
        ],
    }


def _result(item: Found) -> dict[str, str]:
    result = item.result
    return {
        "file": str(item.file),
        "strength": result.strength.value,
        "code": result.code,
        "path": result.path,
        "sentence": result.sentence,
        "mend": result.mend,
    }


def as_text(report: Report) -> str:
    """One paragraph a file, one result on two lines, a count at the end."""
    lines: list[str] = []
    for file, items in groupby(report.found, key=lambda item: item.file):
        lines.append(str(file))
        for item in items:
            result = item.result
            where = f" at {result.path}" if result.path else ""
            lines.append(f"  {result.strength.value:<6} {result.sentence} [{result.code}{where}]")
            lines.append(f"         {result.mend}")
        lines.append("")
    counts = ", ".join(f"{report.count(strength)} {strength.value}" for strength in Strength)
    unreadable = len(report.unreadable)
    more = f"; {unreadable} files could not be read" if unreadable else ""
    lines.append(f"Protocol checks: {counts}{more}.")
    return "\n".join(lines)
