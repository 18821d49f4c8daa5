"""All checks, in the order in which they are documented and run."""

from __future__ import annotations

from types import ModuleType

from authoring.checks import (
    brand,
    by_set,
    cautions,
    criteria,
    description,
    dose,
    evidence,
    governance,
    ladder,
    ladder_load,
    numbers,
    pacing,
    pain,
    references,
    reporting,
    stages,
    terms,
    words,
)
from authoring.checks.check import Check
from authoring.checks.result import Subject

MODULES: tuple[ModuleType, ...] = (
    references,
    cautions,
    stages,
    criteria,
    pain,
    ladder,
    ladder_load,
    dose,
    by_set,
    numbers,
    pacing,
    description,
    words,
    evidence,
    governance,
    reporting,
    terms,
    brand,
)


def _checks_of(module: ModuleType) -> list[Check]:
    return [each for each in vars(module).values() if isinstance(each, Check)]


CHECKS: tuple[Check, ...] = tuple(each for module in MODULES for each in _checks_of(module))

BY_SUBJECT: dict[Subject, tuple[Check, ...]] = {
    subject: tuple(each for each in CHECKS if subject in each.subjects) for subject in Subject
}
