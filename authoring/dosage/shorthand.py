"""The trade's shorthand for a dose, read and written ("3 x 8-12, rest 90 s, 3/wk")."""

from __future__ import annotations

from authoring.dosage.shorthand_errors import ShorthandError, UnsayableError
from authoring.dosage.shorthand_parser import read_dose
from authoring.dosage.shorthand_write import write
from authoring.dosage.shorthand_write_parts import PLAIN, PRETTY
from authoring.model.base import evolve
from authoring.model.dose import Dose

__all__ = ["ShorthandError", "parse_dose", "why_not", "write_dose"]


def parse_dose(text: str, before: Dose | None = None) -> Dose:
    """The dose that a text in shorthand stands for.

    Args:
        before: the dose that the text replaces; its sources and unknown fields are kept.

    Raises:
        ShorthandError: the text is no dose; it names the characters, what is wrong and how
            to mend it.
    """
    dose = read_dose(text)
    return dose if before is None else evolve(dose, sources=before.sources, extra=before.extra)


def write_dose(dose: Dose, *, pretty: bool = False) -> str | None:
    """The dose in shorthand, or None where the shorthand can't say all of it.

    Sources and unknown fields of the dose itself are left out: they stay with whoever
    holds the dose. Nothing else is ever left out.

    Args:
        pretty: for reading: "3 × 8–12" with spaces that don't break. :func:`parse_dose`
            reads this form too.
    """
    try:
        return write(dose, PRETTY if pretty else PLAIN)
    except UnsayableError:
        return None


def why_not(dose: Dose) -> str:
    """One sentence on what the shorthand can't say of a dose, or "" where it says all."""
    try:
        write(dose, PLAIN)
    except UnsayableError as error:
        return str(error)
    return ""
