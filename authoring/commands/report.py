"""A check report as text for people and as JSON for scripts."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from authoring.checks.result import Strength
from authoring.commands.check import Found, Report
from authoring.files.errors import shown


def as_json(report: Report) -> dict[str, Any]:
    """Counts, results and unreadable files as plain values."""
    return {
        "counts": {strength.value: report.count(strength) for strength in Strength},
        "results": [_result(item) for item in report.found],
        "form_only": [shown(file) for file in report.form_only],
        "unreadable": [
            {"file": shown(problem.path), "sentence": problem.sentence, "mend": problem.mend}
            for problem in report.unreadable
        ],
    }


def _result(item: Found) -> dict[str, str]:
    result = item.result
    return {
        "file": shown(item.file),
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
        lines.append(shown(file))
        for item in items:
            result = item.result
            where = f" at {result.path}" if result.path else ""
            lines.append(f"  {result.strength.value:<6} {result.sentence} [{result.code}{where}]")
            lines.append(f"         {result.mend}")
        lines.append("")
    lines += [
        f"{shown(file)}: only its form was checked, as it is no card or protocol of a library."
        for file in report.form_only
    ]
    counts = ", ".join(f"{report.count(strength)} {strength.value}" for strength in Strength)
    unreadable = len(report.unreadable)
    more = (
        f"; {unreadable} {'file' if unreadable == 1 else 'files'} could not be read"
        if unreadable
        else ""
    )
    lines.append(f"Protocol checks: {counts}{more}.")
    return "\n".join(lines)
