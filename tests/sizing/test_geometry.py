"""How the measures of a dog follow from one another."""

import math

import numpy as np
import pytest

from sizing.builds import Build
from sizing.geometry import SOURCES_OF_SPREAD, dog_logs, plain_width_share
from sizing.proportions import figure

CROSS = Build(breed="", heights=(10, 12), weights=(10, 14), length=1.1, length_spread=0.07, share=1)
MIDDLE = np.zeros((1, SOURCES_OF_SPREAD))


def middle_dog(build: Build, *, by_girth: bool) -> list[float]:
    return [math.exp(value) for value in dog_logs(build, MIDDLE, by_girth=by_girth)[0].tolist()]


@pytest.mark.parametrize("by_girth", [True, False])
def test_the_middle_of_all_spreads_is_the_middle_of_the_ranges(by_girth: bool) -> None:
    length, height, _, throat, _, _ = middle_dog(CROSS, by_girth=by_girth)

    assert height == pytest.approx(math.sqrt(10 * 12))
    assert length == pytest.approx(1.1 * height)
    assert throat == pytest.approx(0.735 * height)


def test_girth_width_and_depth_are_those_of_an_ellipse() -> None:
    _, height, width, _, _, girth = middle_dog(CROSS, by_girth=True)

    assert girth == pytest.approx(math.pi * math.sqrt((width**2 + (0.5 * height) ** 2) / 2))


def test_the_width_is_never_under_a_quarter_of_the_girth() -> None:
    lean = Build(breed="", heights=(29, 31), weights=(60, 70), length=0.95, length_spread=0.07, share=1)

    _, _, width, _, _, girth = middle_dog(lean, by_girth=True)

    assert width == pytest.approx(girth / 4)


def test_a_heavier_dog_of_the_same_height_is_wider() -> None:
    heavy = Build(breed="", heights=(10, 12), weights=(14, 20), length=1.1, length_spread=0.07, share=1)

    assert middle_dog(heavy, by_girth=True)[2] > 1.1 * middle_dog(CROSS, by_girth=True)[2]


def test_pets_are_heavier_than_their_standards() -> None:
    assert middle_dog(CROSS, by_girth=True)[4] > 1.1 * math.sqrt(10 * 14)


def test_widths_go_with_the_height_more_often_where_weight_and_girth_would_make_a_barrel() -> None:
    barrel = Build(breed="", heights=(5, 6), weights=(5, 7), length=1.1, length_spread=0.07, share=1)

    assert plain_width_share(CROSS) == figure("plain_width_share")
    assert plain_width_share(barrel) == figure("plain_width_share_round") > figure("plain_width_share")
