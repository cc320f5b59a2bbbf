"""How high the opening's edge must lie."""

import pytest

from sizing.opening import clears_elbow, edge_band, elbow_line, recut
from tests.sizing.shops import ease, shop

SHOP = shop()


def test_the_elbow_lies_at_its_share_of_the_height_above_the_pad() -> None:
    assert elbow_line(10, SHOP) == pytest.approx(5.8)


@pytest.mark.parametrize(("opening", "clears"), [(5.75, False), (5.8, True), (6.0, True)])
def test_an_edge_at_the_elbow_clears_it(opening: float, clears: bool) -> None:
    assert clears_elbow(opening, 10, SHOP) is clears


def test_the_edge_lies_as_far_below_the_hollow_as_the_ease_says() -> None:
    band = edge_band(10, 7.5, SHOP)

    assert (band.lowest, band.aim, band.highest) == pytest.approx((8 - 1.95, 8 - 1.1, 8 - 0.45))


def test_the_elbow_raises_lowest_and_aim_but_never_what_would_choke() -> None:
    band = edge_band(10, 6.0, SHOP)

    assert (band.lowest, band.aim, band.highest) == pytest.approx((5.8, 5.8, 6.05))


@pytest.mark.parametrize(("throat", "opening"), [(7.5, 7.0), (7.25, 6.75), (6.0, 6.0)])
def test_the_opening_is_cut_at_the_step_nearest_to_the_aim(throat: float, opening: float) -> None:
    assert recut(edge_band(10, throat, SHOP), 12.5, SHOP) == opening


def test_where_elbow_and_hollow_leave_no_step_nothing_is_cut() -> None:
    assert recut(edge_band(10, 5.7, SHOP), 12.5, SHOP) is None


def test_an_edge_is_never_cut_above_the_carrier() -> None:
    high = edge_band(10, 14, shop(ease={"drop": {"least": ease(0), "aim": ease(0), "most": ease(2)}}))

    assert recut(high, 13.0, SHOP) == 12.75
    assert recut(high, 12.0, SHOP) is None
