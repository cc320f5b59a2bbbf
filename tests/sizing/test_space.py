"""A carrier against an outer size that a customer names."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.measures import SpaceLimit
from sizing.outcome import Dimensions
from sizing.space import Space, outer_size, space
from tests.sizing.shops import shop

SHOP = shop()
INSIDE = Dimensions(length=15.5, width=6.5, height=10.5)
"""17 x 8 x 11 in outside."""


def against(*sides: float) -> Space:
    return space(INSIDE, SpaceLimit(sides=sides), SHOP)  # type: ignore[arg-type]


def test_outside_come_two_walls_and_an_inch_of_bulge_but_not_upwards() -> None:
    assert outer_size(INSIDE, SHOP) == Dimensions(length=17.0, width=8.0, height=11.0)


def test_a_carrier_within_the_limit_names_the_side_that_must_stand_up() -> None:
    found = against(18, 14, 8)

    assert found.fits
    assert found.upright == (14,)
    assert not found.whichever_way


def test_a_carrier_that_is_nowhere_within_the_limit_does_not_fit() -> None:
    found = against(16, 14, 8)

    assert not found.fits
    assert found.upright == ()


def test_a_carrier_within_the_limit_whichever_side_stands_up_says_so() -> None:
    assert against(20, 18, 17).whichever_way


def test_a_carrier_just_as_large_as_the_limit_fits() -> None:
    assert against(17, 11, 8).upright == (11,)


@pytest.mark.parametrize("sides", [(18, 14, 8), (8, 18, 14), (14, 8, 18)])
def test_the_order_in_which_the_limit_is_told_does_not_matter(sides: tuple[float, float, float]) -> None:
    assert against(*sides).upright == (14,)


@given(st.lists(st.floats(1, 40), min_size=3, max_size=3), st.floats(0, 10))
def test_a_wider_limit_never_shuts_a_carrier_out(sides: list[float], more: float) -> None:
    if against(*sides).fits:
        assert against(*(side + more for side in sides)).fits
