"""Pictures in a store: made once, by content, at the size that paper needs."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from authoring.figures.cache import key_of, pixels_for, stored_png, stored_svg
from authoring.figures.contacts import PoseError
from authoring.figures.drawing import draw
from authoring.figures.look import PLAIN, Look, Skin
from authoring.model.vocabulary import Phase, Side
from tests.figures.values import STOCK

POSE = STOCK[0]


def test_picture_in_the_store_is_not_drawn_again() -> None:
    store: dict[str, bytes] = {}
    assert stored_svg(store, POSE).decode() == draw(POSE).svg
    (key,) = store
    store[key] = b"kept"
    assert stored_svg(store, POSE) == b"kept"


def test_whatever_changes_the_picture_changes_its_key() -> None:
    store: dict[str, bytes] = {}
    for phase in (Phase.START, Phase.END):
        for look in (PLAIN, Look(skin=Skin.DARK)):
            for side in (Side.NONE, Side.LEFT):
                stored_svg(store, POSE, phase, look, side)
    stored_svg(store, STOCK[1])
    assert len(store) == 9


def test_what_cannot_be_drawn_is_not_stored() -> None:
    store: dict[str, bytes] = {}
    with pytest.raises(PoseError):
        stored_svg(store, POSE, Phase.HOLD)
    assert store == {}


@pytest.mark.parametrize(
    ("width_mm", "dpi", "wide"), [(41, 300, 484), (84, 300, 992), (41, 150, 242)]
)
def test_png_has_the_pixels_of_its_paper(width_mm: float, dpi: float, wide: int) -> None:
    """25.4 mm are one inch (the international inch of 1959)."""
    store: dict[str, bytes] = {}
    data = stored_png(store, draw(POSE), width_mm, dpi)
    assert pixels_for(width_mm, dpi) == wide
    with Image.open(io.BytesIO(data)) as image:
        assert (image.format, image.width) == ("PNG", wide)
        assert image.convert("RGBA").getchannel("A").getextrema() == (255, 255)
    assert stored_png(store, draw(POSE), width_mm, dpi) is data
    assert len(store) == 1


def test_parts_of_a_key_do_not_run_together() -> None:
    assert key_of("ab", "c") != key_of("a", "bc")
    assert len(key_of()) == 64
