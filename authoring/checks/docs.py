"""The page of all checks, ``authoring/checks/README.md``.

``python -m authoring.checks.docs`` writes it; a test fails when it is out of date.
"""

from __future__ import annotations

from pathlib import Path

from authoring.checks.registry import BY_SUBJECT, CHECKS
from authoring.checks.result import SCHEMA, UNKNOWN_FIELD, Strength, Subject

PAGE = Path(__file__).with_name("README.md")

_HEAD = """\
# Protocol checks

Written by `python -m authoring.checks.docs`; change the checks, not this page.

Each result has a code from this page, a strength, the place in the file, one sentence and how
to mend it. **must** keeps a protocol from patients and makes `rungbook check` end with status
1; **should** does so with `--strict`; **may** is a hint. One result often speaks for several
places of a file: it names the first and counts the rest.

No check replaces a clinician's judgement, and none proves that an exercise is safe.

| strength | checks |
|---|---|
"""

_FILE = f"""
## Any file

### `{SCHEMA}` (must)

The file breaks the format: a field is missing, has another type or is outside its limits.

*Why:* the contract in `schemas/`. All faults of a file are reported at once.

### `{UNKNOWN_FIELD}` (may)

The file has a field that this version does not know; it is kept.

*Why:* a slip in a field's name would otherwise pass in silence.
"""

_HEADINGS = {
    Subject.PROTOCOL: "Protocols",
    Subject.CARD: "Cards",
    Subject.CLINIC: "The clinic",
    Subject.LIBRARY: "The library as a whole",
}


def page() -> str:
    """The page as Markdown. A check on several kinds of file stands under the first."""
    counts = "".join(
        f"| {strength} | {sum(each.strength is strength for each in CHECKS)} |\n"
        for strength in Strength
    )
    parts = [_HEAD + counts, _FILE]
    told: set[str] = set()
    for subject, heading in _HEADINGS.items():
        parts.append(f"\n## {heading}\n")
        for each in BY_SUBJECT[subject]:
            if each.code in told:
                continue
            told.add(each.code)
            others = [other for other in each.subjects if other is not subject]
            also = f", also for: {', '.join(others)}" if others else ""
            parts.append(
                f"\n### `{each.code}` ({each.strength}{also})\n\n{each.says}\n\n*Why:* {each.why}\n"
            )
    return "".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
