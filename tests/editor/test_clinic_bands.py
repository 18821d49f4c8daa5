"""Bands of the pain scale stay a scale, whatever is done to them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.dosage.pain import DEFAULT_RULE
from authoring.editor.clinic_room import bands as edits
from authoring.model.base import ModelError
from authoring.model.pain import PainBand, PainRule
from authoring.model.vocabulary import PainAction

USUAL = DEFAULT_RULE.during


def band(top: float) -> PainBand:
    return PainBand(up_to=top, action=PainAction.CARRY_ON)


@st.composite
def scales(draw: st.DrawFn) -> edits.Bands:
    tops = draw(st.sets(st.sampled_from([n / 2 for n in range(20)]), max_size=5))
    return tuple(band(top) for top in (*sorted(tops), 10.0))


def sound(bands: edits.Bands) -> bool:
    """Whether a rule takes these bands: the model is the judge."""
    return PainRule(during=bands).during == bands


@given(scales())
def test_one_band_more_is_a_scale_with_every_old_end(bands: edits.Bands) -> None:
    more = edits.with_more(bands)
    assert sound(more)
    assert len(more) == min(len(bands) + 1, edits.MOST)
    assert {one.up_to for one in bands} <= {one.up_to for one in more}


@given(scales(), st.data())
def test_one_band_less_is_a_scale_until_none_is_left(bands: edits.Bands, data) -> None:
    index = data.draw(st.integers(0, len(bands) - 1))
    less = edits.without(bands, index)
    assert len(less) == len(bands) - 1
    assert not less or sound(less)


@given(scales(), st.data(), st.floats(0, 10))
def test_an_end_moves_only_between_its_neighbours(bands, data, top) -> None:
    index = data.draw(st.integers(0, len(bands) - 1))
    low, high = edits.limits(bands, index)
    if index < len(bands) - 1 and low < top < high:
        moved = edits.with_top(bands, index, top)
        assert sound(moved)
        assert moved[index].up_to == top
    else:
        with pytest.raises(ModelError, match="This band must end above"):
            edits.with_top(bands, index, top)


def test_the_refusal_says_between_what() -> None:
    with pytest.raises(ModelError) as caught:
        edits.with_top(USUAL, 1, 1)
    assert caught.value.sentence == "This band must end above 2 and below 10."


def test_the_first_bands_can_be_added() -> None:
    assert sound(edits.with_more(()))


def test_the_widest_band_is_cut_at_a_whole_number() -> None:
    assert [one.up_to for one in edits.with_more(USUAL)] == [2, 5, 8, 10]


@pytest.mark.parametrize(
    ("tops", "words"),
    [
        ((2, 5, 10), ["0 to 2", "3 to 5", "6 to 10"]),
        ((0, 10), ["0", "1 to 10"]),
        ((2, 2.5, 10), ["0 to 2", "no whole number", "3 to 10"]),
        ((9, 10), ["0 to 9", "10"]),
    ],
)
def test_bands_are_named_by_the_numbers_that_patients_say(tops, words) -> None:
    bands = tuple(band(top) for top in tops)
    assert [edits.span_words(bands, index) for index in range(len(bands))] == words
