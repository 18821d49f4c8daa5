"""Pictures: small, the same every time, shapes only, and alike in a mirror."""

from __future__ import annotations

import io
import re
import time
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from PIL import Image, ImageChops, ImageOps, ImageStat

from authoring.figures import drawing as drawing_module
from authoring.figures import solver
from authoring.figures.contacts import PoseError
from authoring.figures.drawing import SCALE, Drawing, draw, png
from authoring.figures.look import GHOST, Build, Hair, HairColour, Look, Skin
from authoring.figures.mirror import for_side, mirrored
from authoring.figures.outline import disc, hull, number
from authoring.figures.solver import settle
from authoring.model.base import evolve
from authoring.model.pose import BodyPoint, Camera, Focus, Pose
from authoring.model.vocabulary import Phase, Side
from tests.figures.values import MOMENTS, POSES, STOCK, named

MOST_BYTES = 25_000

SVG = "{http://www.w3.org/2000/svg}"
SHAPES = {f"{SVG}svg", f"{SVG}g", f"{SVG}path"}
ATTRIBUTES = {
    "width",
    "height",
    "viewBox",
    "d",
    "fill",
    "stroke",
    "stroke-width",
    "stroke-dasharray",
    "stroke-linejoin",
    "stroke-linecap",
}


def forget() -> None:
    drawing_module._drawn.cache_clear()
    solver._settled.cache_clear()


def pixels(made: Drawing, width: int = 200) -> Image.Image:
    return Image.open(io.BytesIO(png(made, width))).convert("RGB")


@pytest.mark.parametrize(("pose", "phase"), MOMENTS, ids=named)
def test_picture_is_well_formed_shapes_and_nothing_else(pose: Pose, phase: Phase) -> None:
    made = draw(pose, phase)
    root = ET.fromstring(made.svg)
    for element in root.iter():
        assert element.tag in SHAPES
        assert set(element.attrib) <= ATTRIBUTES
        assert not (element.text or "").strip()
    assert "nan" not in made.svg
    assert "inf" not in made.svg


@pytest.mark.parametrize(("pose", "phase"), MOMENTS, ids=named)
def test_picture_is_small(pose: Pose, phase: Phase) -> None:
    assert len(draw(pose, phase).svg.encode()) < MOST_BYTES


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_same_pose_gives_the_same_bytes(pose: Pose) -> None:
    first = draw(pose).svg
    forget()
    assert draw(pose).svg == first


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_moments_of_a_pose_have_one_size_so_that_they_stand_side_by_side(pose: Pose) -> None:
    made = [draw(pose, moment.phase) for moment in pose.phases]
    assert len({(each.width, each.height) for each in made}) == 1
    assert len({re.search(r'viewBox="([^"]*)"', each.svg)[1] for each in made}) == 1  # type: ignore[index]


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_whole_picture_lies_inside_its_frame(pose: Pose) -> None:
    for moment in pose.phases if pose.camera.focus is None else ():
        image = pixels(draw(pose, moment.phase), 300)
        edge = [image.getpixel((x, 0)) for x in range(image.width)]
        assert set(edge) <= {(255, 255, 255)} or "wall" in {p.id for p in pose.supports}


def test_close_picture_has_the_place_in_its_middle_and_the_shape_of_half_a_pair() -> None:
    pose = next(each for each in STOCK if each.slug == "wrist-curl")
    close = evolve(pose, camera=Camera(focus=Focus(point=BodyPoint.ELBOW, height_cm=60)))
    made = draw(close, Phase.START)
    left, top, width, height = map(float, re.search(r'viewBox="([^"]*)"', made.svg)[1].split())  # type: ignore[index]
    elbow = settle(close, close.phases[0]).body.points["elbow.r"]
    assert height == pytest.approx(600, abs=1)
    assert width / height == pytest.approx(41 / 59, abs=0.01)
    assert left + width / 2 == pytest.approx(elbow[0] * SCALE, abs=2)
    assert top + height / 2 == pytest.approx(-elbow[1] * SCALE, abs=2)
    assert made.height == pytest.approx(draw(pose, Phase.START).height, abs=60)


def test_close_picture_of_the_other_side_looks_at_the_other_limb() -> None:
    pose = next(each for each in STOCK if each.slug == "wrist-curl")
    close = evolve(pose, camera=Camera(focus=Focus(point=BodyPoint.WRIST)))
    turned = mirrored(close).camera.focus
    assert turned is not None
    assert turned.side is Side.LEFT


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_mirrored_twice_is_the_same_pose(pose: Pose) -> None:
    assert mirrored(mirrored(pose)) == pose


@settings(deadline=None, max_examples=60)
@given(pose=POSES)
def test_any_pose_mirrored_twice_is_the_same(pose: Pose) -> None:
    assert mirrored(mirrored(pose)) == pose


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_mirrored_pose_is_the_picture_in_a_mirror(pose: Pose) -> None:
    here = ImageOps.mirror(pixels(draw(pose)))
    there = pixels(draw(mirrored(pose)))
    off = ImageStat.Stat(ImageChops.difference(here, there).convert("L")).mean[0]
    assert off < 1.5


@pytest.mark.parametrize("side", [Side.LEFT, Side.RIGHT])
def test_pose_of_one_side_is_turned_to_the_side_that_works(side: Side) -> None:
    pose = next(each for each in STOCK if each.side is Side.RIGHT)
    assert for_side(pose, side).side is side
    assert for_side(pose, Side.NONE) is pose


def test_pose_of_both_sides_is_never_turned() -> None:
    pose = next(each for each in STOCK if each.side is Side.NONE)
    assert for_side(pose, Side.LEFT) is pose


@settings(deadline=None, max_examples=60)
@given(pose=POSES)
def test_any_pose_is_drawn_or_refused_in_a_sentence(pose: Pose) -> None:
    begun = time.process_time()
    made = drawn_or_refused(pose)
    assert time.process_time() - begun < 5
    if isinstance(made, Drawing):
        ET.fromstring(made.svg)
        assert "nan" not in made.svg
    else:
        assert re.fullmatch(r"The [^\n]*\.", made)


def drawn_or_refused(pose: Pose) -> Drawing | str:
    try:
        return draw(pose)
    except PoseError as error:
        return str(error)


def test_moment_that_the_pose_lacks_is_named() -> None:
    with pytest.raises(PoseError, match="has no moment 'hold'; it has: start, end"):
        draw(STOCK[0], Phase.HOLD)


@pytest.mark.parametrize("pose", [each for each in STOCK if each.arrows], ids=named)
def test_arrow_survives_grey(pose: Pose) -> None:
    """The arrow's ink against the white round it: WCAG 2.2 wants 3 for graphics."""
    grey = pixels(draw(pose), 400).convert("L")
    assert grey.getextrema()[0] < 40
    assert "#15191C" in draw(pose).svg


@pytest.mark.parametrize("pose", [each for each in STOCK if len(each.phases) > 1], ids=named)
def test_start_can_stand_pale_behind_the_end(pose: Pose) -> None:
    made = draw(evolve(pose, ghost=True))
    assert GHOST in made.svg
    assert draw(evolve(pose, ghost=True), pose.phases[0].phase) == draw(pose, pose.phases[0].phase)


LOOKS = [
    *(Look(skin=skin) for skin in Skin),
    *(Look(hair=hair) for hair in Hair),
    *(Look(hair_colour=colour) for colour in HairColour),
    *(Look(build=build) for build in Build),
    Look(top="#7A1F3D", shorts="#123F5C"),
]


@pytest.mark.parametrize("look", LOOKS, ids=str)
def test_every_look_draws_and_differs_from_the_plain_one(look: Look) -> None:
    made = draw(STOCK[0], None, look)
    assert len(made.svg.encode()) < MOST_BYTES
    assert (made.svg == draw(STOCK[0]).svg) == (look == Look())


def test_broader_build_covers_more_paper() -> None:
    def ink(build: Build) -> float:
        image = pixels(draw(STOCK[1], None, Look(build=build))).convert("L")
        return ImageStat.Stat(ImageOps.invert(image)).sum[0]

    assert ink(Build.SLIM) < ink(Build.MEDIUM) < ink(Build.BROAD)


@pytest.mark.parametrize("colour", ["red", "#12345", '#123456"/><script>', "url(#a)"])
def test_colour_that_is_none_is_refused(colour: str) -> None:
    with pytest.raises(ValueError, match="top"):
        Look(top=colour)


@pytest.mark.parametrize(
    ("value", "text"), [(1.0, "1"), (-0.04, "0"), (2.25, "2.2"), (-3.06, "-3.1")]
)
def test_numbers_are_short(value: float, text: str) -> None:
    assert number(value) == text


def test_circle_inside_another_leaves_no_mark() -> None:
    assert hull([(0, 0, 10), (1, 1, 2)]) == disc((0, 0, 10))


def test_hull_of_two_equal_circles_is_two_lines_and_two_half_circles() -> None:
    """A stadium: area pi r squared plus length times width (elementary geometry)."""
    path = hull([(10, 10, 5), (30, 10, 5)])
    assert path.count("A") == 2
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="400" height="200" viewBox="0 0 40 20">'
        f'<path d="{path}"/></svg>'
    )
    image = ImageOps.invert(pixels(Drawing(svg, 400, 200), 400).convert("L"))
    area = ImageStat.Stat(image).sum[0] / 255 / 100
    assert area == pytest.approx(3.14159 * 25 + 20 * 10, rel=0.01)
