"""Words suggested for pictures: what a sighted author would say of them.

The expectations were written by looking at the pictures; there is no outside source.
"""

import pytest

from authoring.figures.alt_text import suggested_alt
from authoring.files.poses import stock_poses
from authoring.model.vocabulary import Phase


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("bridge", "Lying on the back with the knees bent, both hands on a mat; the hips rise."),
        ("heel-raise-both", "Standing, both hands on a worktop; the heels rise."),
        (
            "heel-raise-one",
            "Standing on the right leg, both hands on a wall; the right heel rises.",
        ),
        ("heel-raise-sitting", "Sitting on a chair; the heels rise."),
        ("side-leg-lift", "Lying on the left side; the right leg rises."),
        ("squat-chair", "Standing; the hips sink and the knees bend."),
        ("two-foot-hop", "Standing; the feet leave the floor and the hips rise."),
        ("wall-sit", "Standing against a wall; the hips sink and the knees bend."),
    ],
)
def test_words_say_position_support_and_what_moves(name: str, words: str) -> None:
    assert suggested_alt(stock_poses()[name]) == words


@pytest.mark.parametrize("name", sorted(stock_poses()))
def test_every_pose_that_comes_with_us_gets_one_line(name: str) -> None:
    said = suggested_alt(stock_poses()[name])
    assert said[0].isupper()
    assert said.endswith(".")
    assert len(said) <= 200
    assert "_" not in said


def test_a_moment_alone_says_only_how_somebody_is_placed() -> None:
    pose = stock_poses()["heel-raise-both"]
    assert suggested_alt(pose, Phase.START) == "Standing, both hands on a worktop."
