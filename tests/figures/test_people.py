"""Who is drawn, in which proportions, and what is left of it in grey."""

from __future__ import annotations

import subprocess
import sys

import pytest
from PIL import ImageChops, ImageOps

from authoring.figures.drawing import draw
from authoring.figures.look import (
    GHOST_LINE,
    INK,
    LINE,
    PLAIN,
    Build,
    Footwear,
    Hair,
    Legwear,
    Look,
    Skin,
)
from authoring.figures.looks import beside, look_of
from authoring.model.base import evolve
from authoring.model.figure_look import FigureLook
from authoring.model.pose import Base, BasePosition, Pose, PosePhase, View
from authoring.model.vocabulary import Joint, Motion, Phase, Side
from tests.figures.pixels import angle, box_of, image_of, pose_of, rgb
from tests.figures.values import STOCK, named

CLINIC = "#123F5C"
KEYS = [f"exercise-{n}" for n in range(80)]


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2 (W3C Recommendation, 5 October 2023), definition of terms."""
    parts = [each / 255 for each in rgb(colour)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2, definition of terms."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("colour", [INK, LINE, GHOST_LINE, "#474D56"])
def test_what_carries_meaning_has_contrast_on_white(colour: str) -> None:
    """WCAG 2.2, success criterion 1.4.11: at least 3 to 1 for graphics."""
    grey = "#" + f"{round(255 * luminance_to_grey(colour)):02X}" * 3
    assert contrast(colour, "#FFFFFF") >= 3
    assert contrast(grey, "#FFFFFF") >= 3


def luminance_to_grey(colour: str) -> float:
    """The sRGB value of the grey of the same luminance (IEC 61966-2-1)."""
    value = luminance(colour)
    return 12.92 * value if value <= 0.0031308 else 1.055 * value ** (1 / 2.4) - 0.055


def test_formula_gives_the_published_extreme() -> None:
    """Black on white is 21 to 1 (WCAG 2.2)."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)


# ---- proportions -------------------------------------------------------------------------


def test_standing_person_is_drawn_as_tall_as_they_are() -> None:
    """Stature 170 cm; sole and hair add a little."""
    pose = pose_of(View.FRONT)
    assert _extent_cm(pose, PLAIN, 1) == pytest.approx(171, abs=3)


@pytest.mark.parametrize(("build", "low", "high"), [(Build.SLIM, 39, 47), (Build.BROAD, 44, 54)])
def test_shoulders_are_as_broad_as_peoples(build: Build, low: float, high: float) -> None:
    """Bideltoid breadth of adults is about 40 to 54 cm (value from memory)."""
    pose = pose_of(View.FRONT, angle(Joint.SHOULDER, Motion.FLEXION, 178))
    assert low < _extent_cm(pose, Look(build=build), 0) < high


def _extent_cm(pose: Pose, look: Look, axis: int) -> float:
    made = draw(pose, None, look)
    image = ImageOps.invert(image_of(made, 1200).convert("L")).point(lambda v: 255 if v > 90 else 0)
    floor = round(-box_of(made)[1] / box_of(made)[2] * 1200) - 4
    box = image.crop((0, 0, 1200, floor)).getbbox()
    assert box is not None
    return (box[2 + axis] - box[axis]) / 1200 * box_of(made)[2] / 10


# ---- variety -----------------------------------------------------------------------------


def test_every_skin_build_and_way_to_wear_hair_is_drawn_somewhere() -> None:
    people = [look_of(FigureLook(), CLINIC, key) for key in KEYS]
    assert {each.skin for each in people} == set(Skin)
    assert {each.hair for each in people} == set(Hair)
    assert {each.build for each in people} == set(Build)
    assert {each.legwear for each in people} == set(Legwear)


@pytest.mark.parametrize("key", KEYS[:8])
def test_clinic_gets_only_whom_it_chose(key: str) -> None:
    choice = FigureLook(
        skins=(Skin.BROWN, Skin.DARK),
        hair=(Hair.SCARF,),
        footwear=(Footwear.BARE,),
        top="#7A1F3D",
        bottom="#101010",
    )
    made = look_of(choice, CLINIC, key)
    assert made.skin in choice.skins
    assert (made.hair, made.footwear, made.top, made.shorts) == (
        Hair.SCARF,
        Footwear.BARE,
        "#7A1F3D",
        "#101010",
    )


def test_same_exercise_shows_the_same_person_in_every_run() -> None:
    code = (
        "from authoring.figures.looks import look_of\n"
        "from authoring.model.figure_look import FigureLook\n"
        f"print([look_of(FigureLook(), {CLINIC!r}, key) for key in {KEYS[:20]!r}])"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ":".join(filter(None, sys.path))},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1


@pytest.mark.parametrize("colour", [CLINIC, "#0A5C4D", "#7A1F3D", "#808080", "#000000", "#FFFFFF"])
def test_shirt_takes_up_any_clinic_colour(colour: str) -> None:
    made = beside(colour)
    assert len(made) == 7
    assert 3 <= contrast(made, "#FFFFFF") <= 15


@pytest.mark.parametrize("hair", list(Hair))
@pytest.mark.parametrize("view", list(View))
def test_every_head_is_drawn_from_every_side(hair: Hair, view: View) -> None:
    bare = draw(pose_of(view), None, Look(hair=hair, footwear=Footwear.BARE))
    assert len(bare.svg.encode()) < 25_000
    assert bare != draw(pose_of(view), None, Look(hair=hair))


@pytest.mark.parametrize("hair", list(Hair))
@pytest.mark.parametrize("position", [BasePosition.PRONE, BasePosition.UPRIGHT])
def test_hair_stays_inside_the_frame(hair: Hair, position: BasePosition) -> None:
    pose = pose_of(View.SIDE, base=Base(position=position, up_cm=14), contacts=())
    image = image_of(draw(pose, None, Look(hair=hair))).convert("L")
    assert image.crop((0, 0, image.width, 2)).getextrema() == (255, 255)


# ---- marks -------------------------------------------------------------------------------


@pytest.mark.parametrize("side", [Side.LEFT, Side.RIGHT])
def test_marked_side_differs_in_grey(side: Side) -> None:
    pose = pose_of(View.FRONT)
    plain = image_of(draw(pose)).convert("L")
    marked = image_of(draw(pose, None, PLAIN, side)).convert("L")
    off = ImageChops.difference(plain, marked).point(lambda v: 255 if v > 60 else 0)
    found = off.getbbox()
    assert found is not None
    # The person faces us: their left is on our right.
    ends = (found[0], found[2])
    assert all((x > plain.width / 2) == (side is Side.LEFT) for x in ends)


def test_no_side_no_mark() -> None:
    pose = pose_of(View.FRONT)
    assert draw(pose, None, PLAIN, Side.NONE) == draw(pose)
    assert draw(pose, None, PLAIN, Side.BOTH) == draw(pose)


def test_hold_shows_its_mark_in_a_corner() -> None:
    pose = pose_of(View.FRONT)
    held = evolve(pose, phases=(PosePhase(phase=Phase.START, hold=True),))
    plain, marked = image_of(draw(pose)), image_of(draw(held))
    corner = (0, 0, marked.width // 4, marked.height // 6)
    assert plain.size == marked.size
    assert sum(marked.crop(corner).convert("L").histogram()[:60]) > 100
    assert sum(plain.crop(corner).convert("L").histogram()[:60]) == 0


def test_limb_that_comes_towards_us_leaves_a_dashed_one_behind() -> None:
    start = PosePhase(phase=Phase.START)
    forward = angle(Joint.SHOULDER, Motion.FLEXION, 80, Side.RIGHT)
    aside = angle(Joint.SHOULDER, Motion.ABDUCTION, 80, Side.RIGHT)
    base = evolve(pose_of(View.FRONT), ghost=True)
    for moved, dashed in ((forward, True), (aside, False)):
        made = draw(evolve(base, phases=(start, PosePhase(phase=Phase.END, angles=(moved,)))))
        assert ("stroke-dasharray" in made.svg) is dashed


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_picture_fills_its_frame_with_several_greys_and_is_opaque(pose: Pose) -> None:
    grey = image_of(draw(pose), 484).convert("L")
    shares = grey.histogram()
    drawn = 1 - shares[255] / (grey.width * grey.height)
    assert 0.05 < drawn < 0.7
    assert sum(1 for count in shares if count > 200) >= 5


def test_dashed_pose_shows_where_each_moved_limb_was_and_the_start_shows_none() -> None:
    start = PosePhase(phase=Phase.START)
    aside = PosePhase(
        phase=Phase.END, angles=(angle(Joint.SHOULDER, Motion.ABDUCTION, 80, Side.RIGHT),)
    )
    pose = evolve(pose_of(View.FRONT), dashed=True, ghost=False, phases=(start, aside))
    assert draw(pose).svg.count("stroke-dasharray") == 1
    assert "stroke-dasharray" not in draw(pose, Phase.START).svg
    assert "stroke-dasharray" not in draw(evolve(pose, dashed=False)).svg
