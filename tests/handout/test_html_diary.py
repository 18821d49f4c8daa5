"""The clock and the diary of the page in a real browser, by keyboard, and without scripts."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from authoring.handout.document import Diary, Exercise
from authoring.handout.html import diary_key, write_html
from tests import tools
from tests.handout.html_variants import VARIANTS
from tests.handout.sample import sample_document

DRIVER = Path(__file__).with_name("tick.mjs")
SHEET = VARIANTS["pictures"]()
EXERCISES = [part for part in SHEET.parts if isinstance(part, Exercise)]
(DIARY,) = (part for part in SHEET.parts if isinstance(part, Diary))

Told = Mapping[str, Any]


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Told:
    folder = tmp_path_factory.mktemp("ticked")
    files = [folder / "sheet.html", folder / "other.html"]
    for file, document in zip(files, (SHEET, VARIANTS["staged"]()), strict=True):
        file.write_bytes(write_html(document))
    command = [tools.node(), DRIVER, tools.axe_modules(), tools.chromium(), folder / "profile"]
    done = subprocess.run(
        [str(part) for part in (*command, *files)],
        capture_output=True,
        text=True,
        timeout=240,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    found: Told = json.loads(done.stdout)
    return found


def test_nothing_leaves_the_device_and_nothing_is_complained_of(told: Told) -> None:
    assert (told["requests"], told["cookies"], told["said"]) == ([], 0, [])


def test_the_keyboard_starts_and_stops_the_clock_of_an_exercise(told: Told) -> None:
    first = EXERCISES[0]
    assert told["clockName"].split()[-len(first.name.split()) :] == first.name.split()
    assert (told["running"], told["stopped"]) == (SHEET.screen.stop, SHEET.screen.start)
    assert told["face"] in {"0:01", "0:02", "0:03"}


def test_a_cell_of_the_diary_is_named_by_its_week_row_and_day(told: Told) -> None:
    week = DIARY.weeks[0]
    assert told["cellName"] == f"{week.heading}, {week.exercise_rows[0]}, {week.columns[0]}"


def test_the_focus_can_be_seen(told: Told) -> None:
    # WCAG 2.2, 2.4.7 Focus Visible.
    assert told["outline"] == "solid"


def test_every_control_is_large_enough_to_touch(told: Told) -> None:
    # WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS pixels.
    assert min(told["sizes"]) >= 24


def test_a_pain_outside_the_scale_is_not_kept(told: Told) -> None:
    assert told["ticked"] == {"ticked": 1, "pain": ["3"]}


def test_ticks_are_kept_for_this_sheet_alone_until_they_are_cleared(told: Told) -> None:
    empty = {"ticked": 0, "pain": []}
    assert told["again"] == told["ticked"]
    assert (told["elsewhere"], told["cleared"]) == (empty, empty)


def test_without_scripts_the_page_is_as_printed(told: Told) -> None:
    cells = sum(
        len(week.columns) * len((*week.exercise_rows, *week.pain_rows)) for week in DIARY.weeks
    )
    steps = sum(len(part.steps) for part in EXERCISES)
    assert told["without"] == {"controls": 0, "cells": cells, "steps": steps}


def test_another_print_size_shares_the_diary_and_another_plan_does_not() -> None:
    assert diary_key(VARIANTS["large"]()) == diary_key(SHEET)
    assert diary_key(sample_document(title="Another plan")) != diary_key(sample_document())
