"""Pages lie side by side without touching, in any window and size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.editor.page.spread import STEPS, Fit, Rect, lay_out, next_share

# CSS Values and Units 3, 5.2: one inch is 96 px; ISO 216 A4 is 210 by 297 mm.
A4 = (210 / 25.4 * 72, 297 / 25.4 * 72)
A4_PX = (794, 1123)

ROOM = st.tuples(st.integers(120, 3000), st.integers(120, 2000))
SIZES = st.lists(st.tuples(st.floats(100, 900), st.floats(100, 1300)), min_size=1, max_size=12)
ZOOM = st.sampled_from([*Fit, *STEPS])


def overlap(one: Rect, other: Rect) -> bool:
    across = one.x < other.x + other.width and other.x < one.x + one.width
    down = one.y < other.bottom and other.y < one.bottom
    return across and down


def test_a_page_at_100_percent_has_its_size_on_paper() -> None:
    (place,) = lay_out(1.0, [A4], (1000, 700), 16).places
    assert (place.width, place.height) == A4_PX


@given(ZOOM, SIZES, ROOM, st.booleans())
def test_pages_never_overlap_and_stay_on_the_ground(zoom, sizes, room, mirrored) -> None:
    spread = lay_out(zoom, sizes, room, 16, mirrored=mirrored)
    for index, place in enumerate(spread.places):
        assert place.x >= 0
        assert place.x + place.width <= spread.width
        assert place.y >= 16
        assert place.bottom <= spread.height
        assert not any(overlap(place, other) for other in spread.places[index + 1 :])


@given(SIZES, ROOM)
def test_whole_pages_and_page_width_fit_the_window(sizes, room) -> None:
    for fit in Fit:
        spread = lay_out(fit, sizes, room, 16)
        if spread.share > 0.1:
            assert max(place.width for place in spread.places) <= room[0] - 31
    spread = lay_out(Fit.PAGE, sizes, room, 16)
    if spread.share > 0.1:
        assert max(place.height for place in spread.places) <= room[1] - 31


@given(SIZES, ROOM)
def test_reading_from_right_to_left_mirrors_the_pages(sizes, room) -> None:
    plain = lay_out(0.5, sizes, room, 16)
    turned = lay_out(0.5, sizes, room, 16, mirrored=True)
    for one, other in zip(plain.places, turned.places, strict=True):
        assert other.x == plain.width - one.x - one.width
        assert (one.y, one.width, one.height) == (other.y, other.width, other.height)


def test_page_width_is_not_blown_up_in_a_wide_window() -> None:
    spread = lay_out(Fit.WIDTH, [A4, A4, A4], (2200, 1200), 16)
    assert spread.share == 1.25
    assert spread.places[0].y == spread.places[1].y
    assert spread.places[2].y > spread.places[0].y


@pytest.mark.parametrize(
    ("share", "step", "after"),
    [(1.0, 1, 1.25), (1.0, -1, 0.8), (1.2, 1, 1.25), (1.2, -1, 1.0), (3.0, 1, 3.0), (0.5, -1, 0.5)],
)
def test_the_zoom_keys_go_through_the_steps(share: float, step: int, after: float) -> None:
    assert next_share(share, step) == after


def test_the_page_in_sight_is_the_one_that_shows_most() -> None:
    spread = lay_out(1.0, [A4, A4, A4], (900, 700), 16)
    assert spread.page_at(0, 700) == 0
    assert spread.page_at(1123 - 200, 700) == 1
    assert spread.page_at(spread.height - 700, 700) == 2
    assert lay_out(1.0, [], (900, 700), 16).page_at(0, 700) == 0
