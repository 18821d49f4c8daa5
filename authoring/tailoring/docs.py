"""The page of all reasons, ``authoring/tailoring/README.md``.

``python -m authoring.tailoring.docs`` writes it; a test fails when it is out of date.
"""

from __future__ import annotations

from pathlib import Path

from authoring.tailoring import review_reasons
from authoring.tailoring.reasons import CHOICES, HARD, LEFT_OUT, NEEDS_WHY, PLAN, STAGES

PAGE = Path(__file__).with_name("README.md")

_HEAD = """\
# Reasons of a plan

Written by `python -m authoring.tailoring.docs`; change the registry, not this page.

Every choice in a plan, and everything left out, has at least one reason with a code from this
page. A code never means anything else later. No reason replaces a clinician's judgement: the
clinician may overrule each, and the plan keeps who did and why.

A plan has the least loss, compared in this order: exclusions without a reason (there are none);
preference rank; exercises of priority 1, then of priority 2, that wait; sets taken off; exercises
of priority 3 that wait; exercises on alternating days. Of equal ones the plan that changes the
earlier entries least.
"""

_GROUPS = (
    ("Hard rules: why a variant is excluded", HARD),
    ("Why something is in the plan as it is", CHOICES),
    ("Why something is not in the plan", LEFT_OUT),
    ("Why a stage is followed", STAGES),
    ("What must be known of the plan as a whole", PLAN),
)


_REVIEW = """
# Reasons of a review

A review looks for all that stands against a step up; the gravest decides. What was not asked, done
or tested is never taken as good. The clinician confirms each step up and each move on. Steps carry
the codes of the projection, too (`authoring.dosage.progression`).
"""

_REVIEWED = (
    ("Why an exercise steps up, stays, steps down, is held or stops", review_reasons.ITEMS),
    ("Why a stage moves on, stays, steps back or stops", review_reasons.STAGES),
)


def page() -> str:
    """The page as Markdown."""
    parts = [_HEAD]
    for heading, codes in _GROUPS:
        parts.append(f"\n## {heading}\n\n| code | meaning |\n|---|---|\n")
        for code, sentence in codes.items():
            needs = " Setting it aside needs a reason." if code in NEEDS_WHY else ""
            parts.append(f"| `{code}` | {sentence}{needs} |\n")
    parts.append(_REVIEW)
    for heading, registry in _REVIEWED:
        parts.append(f"\n## {heading}\n\n| code | meaning | rests on |\n|---|---|---|\n")
        for code, (sentence, source) in registry.items():
            parts.append(f"| `{code}` | {sentence} | {source or 'the protocol'} |\n")
    return "".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
