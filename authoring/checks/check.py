"""One check: a pure function with its stable code, strength, reason and source."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeAlias

from attrs import frozen

from authoring.checks.context import Context
from authoring.checks.result import CheckResult, Strength, Subject
from authoring.model.sentence import Sentence


@frozen
class Spot:
    """One thing that a check found: its place, a sentence for it and the mend."""

    path: str
    sentence: Sentence
    mend: Sentence


Spots: TypeAlias = Iterable[Spot]


@frozen(kw_only=True)
class Check:
    """A check and what the page of checks says about it.

    Attributes:
        code: stable; scripts and filters rely on it.
        says: what it reports, one sentence.
        why: why that matters, and the source of the rule or of its figures.
        subjects: kinds of file it is run on.
        find: the function; its first argument is a file of one of these kinds.
    """

    code: str
    strength: Strength
    says: str
    why: str
    subjects: tuple[Subject, ...]
    find: Callable[[Any, Context], Spots]

    def results(
        self, value: object, context: Context, subject: Subject, subject_id: str
    ) -> list[CheckResult]:
        """What this check reports for one file."""
        return [
            CheckResult(
                self.code, self.strength, spot.path, spot.sentence, spot.mend, subject, subject_id
            )
            for spot in self.find(value, context)
        ]


def check(
    code: str, strength: Strength, *subjects: Subject, says: str, why: str
) -> Callable[[Callable[[Any, Context], Spots]], Check]:
    """Turn a function into a :class:`Check`."""

    def made(find: Callable[[Any, Context], Spots]) -> Check:
        return Check(code=code, strength=strength, says=says, why=why, subjects=subjects, find=find)

    return made
