"""The clinic: whom a patient calls, and colours that can be read."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.contrast import (
    AA_TEXT,
    AAA_TEXT,
    WHITE,
    contrast_ratio,
    shown_ratio,
    tints,
)
from authoring.checks.result import Strength, Subject
from authoring.model.clinic import Clinic
from authoring.model.sentence import say

CLINIC = Subject.CLINIC
_FEWEST_DIGITS = 3


@check(
    "clinic-phone-missing",
    Strength.MUST,
    CLINIC,
    says="The clinic has no telephone number.",
    why="Stop signs send the patient to the telephone: the sheet must say whom to call.",
)
def no_phone(clinic: Clinic, _: Context) -> Iterator[Spot]:
    if sum(sign.isdigit() for sign in clinic.phone) < _FEWEST_DIGITS:
        yield Spot(
            "phone",
            say("The clinic has no telephone number, and handouts must say whom to call."),
            say("Add the number that patients call."),
        )


@check(
    "clinic-closed-missing",
    Strength.SHOULD,
    CLINIC,
    says="Nothing says whom to call when the clinic is closed.",
    why="Signs come at night, too. Common practice, no source.",
)
def no_closed(clinic: Clinic, _: Context) -> Iterator[Spot]:
    if not clinic.closed:
        yield Spot(
            "closed",
            say("Nothing says whom a patient calls when the clinic is closed."),
            say("Add it as one sentence."),
        )


@check(
    "emergency-wording-missing",
    Strength.MAY,
    CLINIC,
    says="The clinic has no wording of its own for the stop box.",
    why="The wording that comes with the handout prints; emergency numbers differ by country.",
)
def no_wording(clinic: Clinic, _: Context) -> Iterator[Spot]:
    if clinic.emergency is None:
        yield Spot(
            "emergency",
            say("The clinic has no wording of its own for emergencies, so the default prints."),
            say("Check the default, and write your own where the emergency number differs."),
        )


@check(
    "brand-colour-contrast",
    Strength.SHOULD,
    CLINIC,
    says="The clinic's colour is too light for text on white.",
    why="WCAG 2.2 success criterion 1.4.3: 4.5:1. Text in it is printed in the ink instead.",
)
def light_colour(clinic: Clinic, _: Context) -> Iterator[Spot]:
    ratio = contrast_ratio(clinic.brand.colour, WHITE)
    if ratio < AA_TEXT:
        yield Spot(
            "brand.colour",
            say(
                "The clinic's colour has a contrast of {ratio} to white; text needs 4.5:1, so it "
                "is printed in the ink instead.",
                ratio=shown_ratio(ratio),
            ),
            say("Choose a darker tone of it."),
        )


@check(
    "ink-contrast",
    Strength.MUST,
    CLINIC,
    says="The colour of text has less than 7:1 contrast to white.",
    why="WCAG 2.2 success criterion 1.4.6 (AAA): patients read the sheet in poor light and on "
    "poor printers.",
)
def light_ink(clinic: Clinic, _: Context) -> Iterator[Spot]:
    ratio = contrast_ratio(clinic.brand.ink, WHITE)
    if ratio < AAA_TEXT:
        yield Spot(
            "brand.ink",
            say(
                "The colour of text has a contrast of {ratio} to white; it needs 7:1.",
                ratio=shown_ratio(ratio),
            ),
            say("Choose a colour near black."),
        )


@check(
    "ink-on-panel-contrast",
    Strength.SHOULD,
    CLINIC,
    says="The colour of text can't be read well on the panels of the clinic's colour.",
    why="WCAG 2.2 success criterion 1.4.3: 4.5:1.",
)
def ink_on_panels(clinic: Clinic, _: Context) -> Iterator[Spot]:
    panels = tints(clinic.brand.colour)
    ratio = min(contrast_ratio(clinic.brand.ink, panel) for panel in (panels.tint, panels.middle))
    if ratio < AA_TEXT:
        yield Spot(
            "brand.ink",
            say(
                "The colour of text has a contrast of {ratio} to the panels; text needs 4.5:1.",
                ratio=shown_ratio(ratio),
            ),
            say("Choose a colour near black."),
        )
