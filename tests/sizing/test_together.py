"""Two dogs side by side in one carrier."""

import pytest

from sizing.caution import Level
from sizing.outcome import Dimensions, Kind
from sizing.together import Together, together
from tests.sizing.dogs import dog
from tests.sizing.shops import shop

SHOP = shop()
SMALL = {"length": 9.0, "height": 8.0, "width": 3.0, "throat": 6.0, "weight": 5.0}


def two(**second: float) -> Together:
    return together(dog(**SMALL), dog(**{**SMALL, **second}), SHOP)


def test_both_widths_and_an_inch_between_are_made_to_measure() -> None:
    outcome = two(width=3.5).outcome

    # 3 + 3.5 + 1 = 7.5; with ease 9.25. The longer and the taller dog decide length and height.
    assert outcome.kind is Kind.MADE_TO_MEASURE
    assert outcome.inside == Dimensions(length=11.0, width=9.25, height=10.0)


def test_the_longer_and_the_taller_dog_count() -> None:
    inside = two(length=11.0, height=9.0, throat=6.75).outcome.inside

    assert inside is not None
    assert (inside.length, inside.height) == (13.0, 11.0)


def test_throats_close_together_share_an_opening_that_suits_both() -> None:
    found = two(height=8.5, throat=6.5)

    # Best for one 6.5 - 0.98 = 5.52, for the other 7 - 1.01 = 5.99; half way between them 5.755.
    assert found.shared_opening
    assert found.opening == 5.75
    assert found.outcome.opening == 5.75


@pytest.mark.parametrize(("throat", "shared"), [(7.5, True), (7.625, False)])
def test_throats_more_than_an_inch_and_a_half_apart_share_none(throat: float, shared: bool) -> None:
    found = together(
        dog(**SMALL), dog(**{**SMALL, "throat": throat}), shop(ease={"drop": {"most": {"add": 3, "share": 0.12}}})
    )

    assert found.shared_opening is shared
    assert (found.outcome.concern == "opening") is not shared


def test_an_opening_that_would_suit_one_alone_is_not_cut() -> None:
    found = two(height=11.0, throat=7.0)

    assert found.opening is None
    assert found.outcome.concern == "opening"


def test_each_dog_has_a_tether_and_both_weights_count() -> None:
    found = two(weight=8.0)

    assert found.tethers == 2
    assert found.caution.dog_lb == 13.0
    assert found.caution.total_lb > 14.0


def test_two_heavy_dogs_are_not_lifted_together() -> None:
    assert two(weight=22.0).caution.level is Level.DO_NOT_LIFT


def test_a_standard_size_that_is_wide_enough_gets_its_opening_cut() -> None:
    wide = {"name": "Wide", "inside": {"length": 11, "width": 9, "height": 10}, "opening": 5.5, "empty_weight": 2.0}

    found = together(dog(**SMALL), dog(**SMALL), shop(sizes=[wide]))

    assert (found.outcome.kind, found.outcome.size, found.opening) == (Kind.ALTERED_OPENING, "Wide", 5.5)
    assert found.caution.empty_lb == 2.0


def test_two_dogs_wider_than_can_be_sewn_are_outside_the_range() -> None:
    found = two(width=9.0)

    assert found.outcome.kind is Kind.OUTSIDE_RANGE
    assert found.opening is None
    assert not found.shared_opening
