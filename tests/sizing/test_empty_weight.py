"""What an empty carrier weighs."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.empty_weight import estimated_empty_weight, sewn_area
from sizing.outcome import Dimensions
from sizing.sizes import Size
from tests.sizing.shops import shop

SHOP = shop()


def like(name: str, *, times: float = 1.0) -> Dimensions:
    inside = SHOP.size(name).inside
    return Dimensions(length=inside.length * times, width=inside.width * times, height=inside.height * times)


def test_the_area_is_that_of_the_base_and_four_walls() -> None:
    assert sewn_area(Dimensions(length=10, width=4, height=8)) == 10 * 4 + 2 * 10 * 8 + 2 * 4 * 8


@pytest.mark.parametrize("size", SHOP.sizes, ids=lambda size: size.name)
def test_dimensions_like_a_standard_size_weigh_what_it_weighs(size: Size) -> None:
    assert estimated_empty_weight(like(size.name), SHOP) == pytest.approx(size.empty_weight)


def test_between_two_sizes_it_lies_between_their_weights() -> None:
    assert 1.7 < estimated_empty_weight(Dimensions(length=14.5, width=6, height=13), SHOP) < 2.1


def test_beyond_the_chart_it_goes_with_the_area() -> None:
    assert estimated_empty_weight(like("No. 6", times=2), SHOP) == pytest.approx(4 * 3.2)
    assert estimated_empty_weight(like("No. 1", times=0.5), SHOP) == pytest.approx(1.0 / 4)


def test_a_shop_without_sizes_gets_the_built_in_ones_for_it() -> None:
    assert estimated_empty_weight(like("No. 3"), shop(sizes=[])) == pytest.approx(1.7)


@given(st.floats(0.1, 5), st.floats(1, 2))
def test_a_larger_carrier_is_never_lighter(times: float, more: float) -> None:
    assert (
        estimated_empty_weight(like("No. 3", times=times * more), SHOP)
        >= estimated_empty_weight(like("No. 3", times=times), SHOP) - 1e-12
    )
