"""Photos cut, levelled and brightened, checked by their pixels."""

import io
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from authoring.files.photo_edits import PhotoEdit, edited, edited_bytes, level_share


def white(width: int, height: int) -> Image.Image:
    return Image.new("RGB", (width, height), "white")


@given(st.integers(20, 200), st.integers(20, 200), st.floats(-15, 15))
def test_levelling_leaves_no_empty_corner(width: int, height: int, turn: float) -> None:
    made = edited(white(width, height), PhotoEdit(turn_deg=turn))
    assert min(low for low, _ in made.getextrema()) > 150  # type: ignore[misc]  # three bands


@pytest.mark.parametrize(("turn", "share"), [(0, 1.0), (15, 1 / (math.cos(0.261799) + 0.258819))])
def test_a_square_shrinks_by_the_closed_form(turn: float, share: float) -> None:
    """Largest square in a turned one: 1 / (cos a + sin a), by plane geometry."""
    assert level_share(100, 100, turn) == pytest.approx(share, abs=1e-5)


def test_a_turn_is_clockwise() -> None:
    picture = white(200, 200)
    picture.paste((0, 0, 0), (0, 95, 200, 105))
    made = edited(picture, PhotoEdit(turn_deg=10))
    dark = [next(y for y in range(made.height) if made.getpixel((x, y))[0] < 128) for x in (5, 140)]  # type: ignore[index]  # three bands
    assert dark[1] > dark[0]


def test_a_cut_keeps_the_part_that_is_named() -> None:
    picture = white(100, 50)
    picture.paste((255, 0, 0), (50, 0, 100, 25))
    made = edited(picture, PhotoEdit(left=0.5, bottom=0.5))
    assert made.size == (50, 25)
    assert made.getextrema() == ((255, 255), (0, 0), (0, 0))


@pytest.mark.parametrize(("by", "grey"), [(0.5, 150), (-0.5, 50), (1, 200), (-1, 0)])
def test_brightness_scales_each_channel(by: float, grey: int) -> None:
    picture = Image.new("RGB", (4, 4), (100, 100, 100))
    assert edited(picture, PhotoEdit(brightness=by)).getpixel((0, 0)) == (grey, grey, grey)


@pytest.mark.parametrize(
    "wrong", [{"left": 0.9, "right": 0.92}, {"turn_deg": 40}, {"brightness": 2}, {"left": -0.1}]
)
def test_what_no_photo_can_bear_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError, match=r"."):
        PhotoEdit(**wrong)


def test_nothing_but_pixels_is_written() -> None:
    out = io.BytesIO()
    exif = Image.Exif()
    exif[0x010E] = "a secret place"
    white(60, 40).save(out, "JPEG", exif=exif)
    made = edited_bytes(out.getvalue() + b"<script>", "jpg", PhotoEdit(right=0.5))
    assert b"secret" not in made
    assert b"<script>" not in made
    with Image.open(io.BytesIO(made)) as again:
        assert again.size == (30, 40)
        assert not again.getexif()
