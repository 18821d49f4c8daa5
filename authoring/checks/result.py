"""What a protocol check reports: one thing, where it is, and how to mend it."""

from __future__ import annotations

from enum import StrEnum

from attrs import frozen

from authoring.model.sentence import say


class Strength(StrEnum):
    """How much weight a result has. A ``must`` keeps a protocol from patients."""

    MUST = "must"
    SHOULD = "should"
    MAY = "may"


class Subject(StrEnum):
    """What kind of file a result is about."""

    CARD = "card"
    PROTOCOL = "protocol"
    CLINIC = "clinic"
    LIBRARY = "library"
    PLAN = "plan"
    PRESENTATION = "presentation"
    REVIEW = "review"
    APPROVED = "approved"


@frozen
class CheckResult:
    """One result of one check.

    Attributes:
        code: stable name of the check, listed in ``authoring/checks/README.md``.
        path: place in the file (``stages[1].blocks[0].entries[3].dose``), "" for the whole.
        sentence: what is wrong and where, for a person.
        mend: what to do about it, one sentence.
        subject: kind of the file.
        subject_id: its id; "" for the clinic and for a file whose id can't be read.
    """

    code: str
    strength: Strength
    path: str
    sentence: str
    mend: str
    subject: Subject
    subject_id: str


SCHEMA = "schema"
UNKNOWN_FIELD = "unknown-field"


def _as_sentence(words: str) -> str:
    """Words with a capital and a full stop; words in quotation marks keep theirs."""
    closed = words if words.endswith((".", "?", "!")) else f"{words}."
    return closed[:1].upper() + closed[1:]


def schema_result(
    subject: Subject, subject_id: str, path: str, sentence: str, mend: str
) -> CheckResult:
    """A fault of the file itself, found while it was read; always a ``must``."""
    return CheckResult(
        SCHEMA,
        Strength.MUST,
        path,
        _as_sentence(sentence),
        _as_sentence(mend),
        subject,
        subject_id,
    )


def unknown_field_result(subject: Subject, subject_id: str, path: str) -> CheckResult:
    """A field this version does not know, found while the file was read."""
    return CheckResult(
        UNKNOWN_FIELD,
        Strength.MAY,
        path,
        say("This version does not know the field “{path}”, and keeps it as it is.", path=path),
        say("Correct the name if it is a slip; otherwise leave it."),
        subject,
        subject_id,
    )
