"""Poses in use: on the command line, in a library folder and on a handout."""

from __future__ import annotations

import datetime as dt
import json
import re
import shutil
from pathlib import Path

import pytest
from PIL import Image

from authoring import resources
from authoring.cli import main
from authoring.commands.handout import Wish, compose_source
from authoring.commands.source import context_of, find_source, sheet_of
from authoring.figures.drawing import draw
from authoring.figures.look import SKIN, Skin
from authoring.figures.looks import look_of
from authoring.figures.mirror import mirrored
from authoring.files.documents import document_bytes, read_document
from authoring.files.library import file_of, open_library, save_document
from authoring.files.poses import poses_of, stock_poses
from authoring.handout.context import Context
from authoring.handout.document import Exercise
from authoring.handout.errors import HandoutError
from authoring.model import card as cards
from authoring.model.base import evolve
from authoring.model.figure_look import FigureLook
from authoring.model.text import Text
from authoring.model.vocabulary import Phase, Side
from tests.figures.values import STOCK, named

CARD = Path("cards", "heel-raise.card.json")


@pytest.fixture
def library(tmp_path: Path) -> Path:
    """A copy of the invented example clinic."""
    folder = tmp_path / "library"
    shutil.copytree(resources.examples() / "larkfield", folder)
    return folder


def context(library: Path) -> Context:
    source = find_source(library / CARD, None)
    return context_of(source, sheet_of(source, ()), None)


def picture(pose: str, phase: Phase = Phase.END) -> cards.Picture:
    return cards.Picture(pose=pose, alt=Text.plain("What it shows."), phase=phase)


# ---- command line ------------------------------------------------------------------------


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_draw_writes_the_picture_of_a_pose(pose: object, tmp_path: Path) -> None:
    name = named(pose)
    assert main(["draw", name, "-o", str(tmp_path / "a.svg")]) == 0
    assert (tmp_path / "a.svg").read_text("utf-8") == draw(stock_poses()[name]).svg


def test_draw_writes_png_as_sharp_as_print_needs(tmp_path: Path) -> None:
    assert main(["draw", "bridge", "-o", str(tmp_path / "a.png"), "--phase", "start"]) == 0
    with Image.open(tmp_path / "a.png") as image:
        # 84 mm, half a page, at 300 dots to the inch (common practice of print, no source).
        assert image.width >= 84 / 25.4 * 300


def test_draw_takes_a_file_and_a_side(tmp_path: Path) -> None:
    pose = stock_poses()["step-up"]
    file = tmp_path / "mine.pose.json"
    file.write_bytes(document_bytes(pose))
    assert main(["draw", str(file), "-o", str(tmp_path / "a.svg"), "--side", "left"]) == 0
    assert (tmp_path / "a.svg").read_text("utf-8") == draw(mirrored(pose)).svg


@pytest.mark.parametrize(
    ("arguments", "status", "words"),
    [
        (["no-such-pose", "-o", "a.svg"], 2, "no pose called 'no-such-pose'"),
        (["bridge", "-o", "a.gif"], 2, "a .svg or .png file"),
        (["bridge", "-o", "a.svg", "--phase", "leap"], 2, "no moment 'leap'"),
        (["bridge", "-o", "a.svg", "--phase", "hold"], 1, "no moment 'hold'; it has: start, end"),
        (["missing.pose.json", "-o", "a.svg"], 2, "missing.pose.json"),
    ],
)
def test_draw_says_what_is_wrong_in_a_sentence(
    arguments: list[str],
    status: int,
    words: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    told = main(["draw", *arguments])
    said = capsys.readouterr().err
    assert words in said
    assert "Traceback" not in said
    assert told == status
    assert list(tmp_path.iterdir()) == []


def test_draw_warns_of_an_angle_no_joint_has(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    data = json.loads(document_bytes(stock_poses()["one-leg-balance"]))
    data["phases"][1]["angles"].append(
        {"joint": "knee", "motion": "flexion", "degrees": 170, "side": "left"}
    )
    (tmp_path / "a.pose.json").write_text(json.dumps(data), encoding="utf-8")
    assert main(["draw", str(tmp_path / "a.pose.json"), "-o", str(tmp_path / "a.svg")]) == 0
    assert "the left knee has 170 degrees of flexion, and 135" in capsys.readouterr().err


# ---- library -----------------------------------------------------------------------------


def test_pose_of_a_library_is_read_back_and_comes_before_that_of_the_program(
    library: Path,
) -> None:
    own = evolve(stock_poses()["bridge"], title=Text.plain("Our own bridge"))
    save_document(open_library(library), own)
    opened = open_library(library)
    assert opened.library.poses[own.id] == own
    assert opened.paths[own.id] == library / file_of(own)
    assert poses_of(opened.library)["bridge"] == own
    assert poses_of(opened.library)["step-up"] == stock_poses()["step-up"]


def test_damaged_pose_is_named_and_the_library_opens(library: Path) -> None:
    (library / "poses").mkdir()
    (library / "poses" / "bad.pose.json").write_text("{", encoding="utf-8")
    opened = open_library(library)
    assert [problem.path.name for problem in opened.problems] == ["bad.pose.json"]
    assert opened.library.cards


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_stock_file_is_named_after_its_pose_and_written_as_the_program_writes(
    pose: object,
) -> None:
    path = resources.stock_illustrations() / f"{named(pose)}.pose.json"
    assert document_bytes(read_document(path).document) == path.read_bytes()


# ---- handout -----------------------------------------------------------------------------


def test_card_that_names_a_pose_shows_start_and_end_with_their_words(library: Path) -> None:
    source = find_source(library / "cards" / "bridge.card.json", None)
    document, _ = compose_source(source, Wish(), today=dt.date(2026, 1, 2))
    shown = [
        each for part in document.parts if isinstance(part, Exercise) for each in part.pictures
    ]
    assert [each.caption for each in shown] == ["Start", "End"]
    assert all(each.media_type == "image/svg+xml" and each.alt for each in shown)


def test_drawing_wears_the_clinics_colour(library: Path) -> None:
    here = context(library)
    colour = here.clinic.brand.colour
    made = here.picture(picture("bridge"), "en")
    assert (
        made.data.decode()
        == draw(stock_poses()["bridge"], None, look_of(FigureLook(), colour, "bridge")).svg
    )
    assert colour in made.data.decode()


def test_one_person_does_all_the_exercises_of_a_handout(library: Path) -> None:
    """Skin is worn by every figure; hands, legs or face always show it."""
    source = find_source(next(iter(sorted((library / "protocols").glob("*.json")))), None)
    document, _ = compose_source(source, Wish(), today=dt.date(2026, 1, 2))
    drawn = [
        each.data.decode()
        for part in document.parts
        if isinstance(part, Exercise)
        for each in part.pictures
    ]
    tones = [{tone for tone in Skin if SKIN[tone] in svg} for svg in drawn]
    assert len(drawn) > 4
    assert len(set.union(*tones)) == 1


@pytest.mark.parametrize(("side", "turned"), [(Side.LEFT, True), (Side.RIGHT, False)])
def test_drawing_is_turned_to_the_side_that_works(side: Side, turned: bool, library: Path) -> None:
    here = context(library)
    plain = here.picture(picture("step-up"), "en").data
    assert (here.picture(picture("step-up"), "en", side=side).data != plain) is turned


@pytest.mark.parametrize(
    ("wanted", "words"),
    [
        (picture("no-such-pose"), "The pose no-such-pose is neither in the poses folder"),
        (picture("bridge", Phase.HOLD), "The pose 'bridge' has no moment 'hold'"),
    ],
)
def test_pose_that_cannot_be_drawn_is_told_in_a_sentence(
    wanted: cards.Picture, words: str, library: Path
) -> None:
    with pytest.raises(HandoutError, match=re.escape(words)):
        context(library).picture(wanted, "en")


def test_every_pose_that_an_example_card_names_is_there(library: Path) -> None:
    opened = open_library(library)
    named_by_cards = {
        (shown.pose, shown.phase)
        for card in opened.library.cards.values()
        for variant in card.variants
        for shown in variant.pictures
        if shown.pose is not None
    }
    poses = poses_of(opened.library)
    assert len(named_by_cards) >= 20
    assert all(poses[slug].moment(phase) is not None for slug, phase in named_by_cards)
