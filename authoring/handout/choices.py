"""What can be chosen of a handout beside paper and print size: layout, reader, extra sheets."""

from __future__ import annotations

from enum import StrEnum


class Layout(StrEnum):
    """How much of the plan is on the sheet, and how closely it is set.

    ``compact`` says all that the patient must know to do the exercises, close together;
    ``overview`` is one page for the wall and never given alone.
    """

    FULL = "full"
    COMPACT = "compact"
    OVERVIEW = "overview"


class Audience(StrEnum):
    """Whom the program's own phrases speak to; the author's words stay as they are."""

    ADULT = "adult"
    CHILD = "child"
    CARER = "carer"


class ExtraKind(StrEnum):
    """A sheet that goes with the handout, in the order in which they are printed."""

    WALLET = "wallet"
    DIARY = "diary"
    SUMMARY = "summary"
