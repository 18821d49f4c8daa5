"""Silhouettes against elementary geometry."""

from __future__ import annotations

import io
import math

import pytest
import resvg_py
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageOps, ImageStat

from authoring.figures.outline import look_from
from authoring.figures.space import FORWARD, RIGHT
from authoring.figures.sweep import Bent, Section, patch, smooth, sweep

SCALE = 10.0


def tube(front: float, half: float, *, long: float = 40.0, count: int = 9) -> list[Section]:
    """An upright tube of elliptic sections, cm."""
    ups = [long * i / (count - 1) for i in range(count)]
    return [Section((0.0, up, 0.0), FORWARD, RIGHT, front, front, half) for up in ups]


def area_cm2(path: str) -> float:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="800" height="800" '
        f'viewBox="-400 -600 800 800"><path d="{path}"/></svg>'
    )
    data = bytes(resvg_py.svg_to_bytes(svg_string=svg, background="#FFFFFF"))
    image = ImageOps.invert(Image.open(io.BytesIO(data)).convert("L"))
    return float(ImageStat.Stat(image).sum[0]) / 255 / SCALE**2


@pytest.mark.parametrize(
    ("turn", "width"), [(0, 12.0), (90, 8.0), (180, 12.0), (45, 2 * math.sqrt(18 + 8))]
)
def test_upright_tube_shows_its_width_in_the_direction_of_view(turn: float, width: float) -> None:
    """Width of an ellipse's shadow: 2 sqrt(a² cos² + b² sin²) (elementary geometry)."""
    path = sweep(look_from(turn, 0, SCALE), tube(4.0, 6.0))
    assert area_cm2(path) == pytest.approx(width * 40.0, rel=0.01)


def test_round_caps_add_about_half_an_ellipse_at_each_end() -> None:
    path = sweep(look_from(0, 0, SCALE), tube(5.0, 5.0), (5.0, 5.0))
    assert area_cm2(path) == pytest.approx(10 * 40 + math.pi * 25, rel=0.03)


def test_tube_that_points_at_the_viewer_is_its_own_section() -> None:
    """Seen end on: the ellipse, area pi a b, as a polygon of ten corners made smooth."""
    path = sweep(look_from(0, 89.9, SCALE), tube(4.0, 6.0))
    assert area_cm2(path) == pytest.approx(math.pi * 24, rel=0.06)


@given(turn=st.floats(-180, 180), tilt=st.floats(-80, 80))
def test_any_view_gives_finite_path_data(turn: float, tilt: float) -> None:
    path = sweep(look_from(turn, tilt, SCALE), tube(4.0, 6.0), (3.0, 0.0))
    assert path.startswith("M")
    assert path.endswith("Z")
    assert not set(path) & set("naifNAIF")


def test_sheet_round_the_front_is_not_seen_from_behind() -> None:
    rows = [(section, section, 60.0) for section in tube(5.0, 5.0)]
    assert patch(look_from(0, 0, SCALE), rows)
    assert not patch(look_from(180, 0, SCALE), rows)


def test_sheet_of_a_right_angle_to_either_side_covers_the_whole_front() -> None:
    rows = [(section, section, 90.0) for section in tube(5.0, 5.0)]
    # Its corners are round, which swells the ends.
    assert area_cm2(patch(look_from(0, 0, SCALE), rows)) == pytest.approx(400, rel=0.1)
    assert area_cm2(patch(look_from(90, 0, SCALE), rows)) == pytest.approx(200, rel=0.1)


def test_smooth_line_goes_through_its_points() -> None:
    path = smooth([Bent(0, 0), Bent(10, 5), Bent(20, 0)], closed=False)
    assert path.startswith("M0 0c")
    ends = path.removeprefix("M0 0c").replace("-", " -").split()
    assert [ends[4:6], ends[10:12]] == [["10", "5"], ["10", "-5"]]
