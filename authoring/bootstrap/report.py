"""The dated record of a long run: counts, seeds, times and the limits they must keep."""

import datetime
import json
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any


def _read(path: Path, missing: Any) -> Any:
    return json.loads(path.read_text(encoding="utf-8")) if path.is_file() else missing


def _tests(record: list[Mapping[str, Any]]) -> list[str]:
    counts = Counter(str(each["outcome"]) for each in record)
    cases = sum(int(each["cases"]) for each in record)
    told = ", ".join(f"{number} {outcome}" for outcome, number in sorted(counts.items()))
    rows = [
        f"| {each['test']} | {each['outcome']} | {each['cases'] or ''} | {each['seconds']} |"
        for each in record
    ]
    return [
        "## Tests",
        "",
        f"{told or 'none'}; {cases:,} generated cases.",
        "",
        "| test | outcome | cases | seconds |",
        "|---|---|---:|---:|",
        *rows,
    ]


def _row(each: Mapping[str, Any]) -> tuple[str, bool]:
    median = float(each["stats"]["median"])
    limit = each.get("extra_info", {}).get("limit_s")
    broken = limit is not None and median > float(limit)
    verdict = "" if limit is None else "too slow" if broken else "kept"
    shown = "" if limit is None else f"{float(limit) * 1000:.1f}"
    return f"| {each['fullname']} | {median * 1000:.1f} | {shown} | {verdict} |", broken


def write(
    folder: Path, facts: Mapping[str, str], record: Path, benchmarks: Path
) -> tuple[Path, bool]:
    """Write the report; returns its path and whether a benchmark broke its limit.

    `record` is the tests' JSON list, `benchmarks` pytest-benchmark's JSON; either may be missing.
    A benchmark sets its limit, in seconds of median time, as `extra_info["limit_s"]`.
    """
    now = datetime.datetime.now().astimezone()
    rows = [_row(each) for each in _read(benchmarks, {"benchmarks": []})["benchmarks"]]
    lines = [f"# Long run of {now:%Y-%m-%d %H:%M %Z}", ""]
    lines += [f"- {name}: {value}" for name, value in facts.items()]
    lines += ["", *_tests(_read(record, [])), "", "## Benchmarks", ""]
    lines += ["| benchmark | median, ms | limit, ms | |", "|---|---:|---:|---|"]
    lines += [row for row, _ in rows]
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{now:%Y-%m-%d-%H%M%S}-long.md"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path, any(broken for _, broken in rows)
