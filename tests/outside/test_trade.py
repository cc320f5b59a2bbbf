"""Facts of the trade. Common practice, no source."""

from datetime import date

import pytest

from sizing.assess import assess
from sizing.caution import Level, zones_passed
from sizing.chart import builtin_shop
from sizing.fit import Body, fit
from sizing.guideline import Zone
from sizing.judge import judge
from sizing.outcome import Kind
from tests.sizing.dogs import dog

SHOP = builtin_shop()
ON = date(2026, 3, 1)


def test_weight_alone_never_gives_the_size() -> None:
    """Two dogs of 15 lb can need different carriers in all directions."""
    leggy = assess(dog(length=14, height=14, width=5, throat=10.25, weight=15), SHOP, ON).outcome
    low = assess(dog(length=15.5, height=9.5, width=5.75, throat=6.5, weight=15), SHOP, ON).outcome

    assert leggy is not None and leggy.inside is not None
    assert low is not None and low.inside is not None
    assert leggy.inside.length != low.inside.length
    assert leggy.inside.width != low.inside.width
    assert leggy.inside.height != low.inside.height


@pytest.mark.parametrize("weight", [None, 10, 12, 14])
def test_nothing_is_doubtful_about_a_small_long_bodied_cross_of_toy_parents(weight: float | None) -> None:
    assert judge(dog(height=10, length=13, width=5, throat=7, weight=weight)) == ()


def test_the_smallest_dog_that_standard_carriers_are_made_for_can_be_served() -> None:
    """About 12 in long, 3 in wide, 7 in tall."""
    outcome = assess(dog(length=12, width=3, height=7, throat=5, weight=6), SHOP, ON).outcome

    assert outcome is not None and outcome.kind is Kind.MADE_TO_MEASURE


def test_what_can_be_sewn_reaches_to_about_the_largest_dog_that_standard_carriers_are_made_for() -> None:
    """About 26 in long, 12 in wide, 22 in tall: the built-in widest carrier is a quarter of an inch short of that."""
    nearly = Body(length=26, width=11.75, height=22, throat_height=16, weight=100)
    most, ease = SHOP.sewn.most, SHOP.ease

    assert fit(nearly, SHOP).kind is Kind.MADE_TO_MEASURE
    assert most.length >= 26 + ease.length.aim.at(26) - 0.25
    assert most.width >= 12 + ease.width.aim.at(12) - 0.25
    assert most.height >= 22 + SHOP.pad + ease.height.aim.at(22) - 0.25


def test_about_twelve_inches_of_handle_drop_keep_the_hands_off_the_lowest_zone() -> None:
    """It puts a small dog at a comfortable height."""
    assert SHOP.handle_drop == 12
    assert all(
        Zone.BELOW_MID_LOWER_LEG not in zones_passed(SHOP.wall + size.inside.height + SHOP.handle_drop)
        for size in SHOP.sizes
    )


@pytest.mark.parametrize(("length", "height"), [(18.0, 17.0), (21.0, 15.0)])
def test_a_dog_of_forty_pounds_is_not_carried(length: float, height: float) -> None:
    """It walks, sits in the carrier during the ride, and the carrier is carried empty."""
    heavy = dog(length=length, height=height, width=8, throat=height * 0.73, weight=40)

    caution = assess(heavy, SHOP, ON).caution

    assert caution is not None
    assert caution.level is Level.DO_NOT_LIFT


@pytest.mark.parametrize("height", [6, 8, 10, 12, 14, 16])
def test_the_edge_neither_presses_on_the_throat_nor_lets_the_dog_tip_out(height: float) -> None:
    """An edge that presses on the throat chokes; one too low lets the dog tip out."""
    throat = height * 0.73
    outcome = fit(Body(length=height * 1.1, height=height, width=height * 0.385, throat_height=throat, weight=9), SHOP)

    assert outcome.opening is not None
    assert 0.25 <= throat + SHOP.pad - outcome.opening <= 0.22 * height
    assert outcome.opening >= SHOP.pad + SHOP.elbow * height
