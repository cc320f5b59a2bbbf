"""The figures behind the caution against the published ones.

UK Health and Safety Executive, INDG143 (rev4, 2020) and L23: lifting and lowering diagram, kilograms, read in copies.
"""

import pytest

from sizing.guideline import Zone, guideline
from sizing.units import from_pounds, to_pounds

# zone: women close, women at arm's length, men close, men at arm's length
PUBLISHED = {
    "above_shoulder": (7, 3, 10, 5),
    "elbow_to_shoulder": (13, 7, 20, 10),
    "knuckle_to_elbow": (16, 10, 25, 15),
    "mid_lower_leg_to_knuckle": (13, 7, 20, 10),
    "below_mid_lower_leg": (7, 3, 10, 5),
}


@pytest.mark.parametrize("zone", PUBLISHED)
def test_a_zone_has_its_published_figures(zone: str) -> None:
    women, men = guideline().women[Zone(zone)], guideline().men[Zone(zone)]

    assert (women.close_kg, women.far_kg, men.close_kg, men.far_kg) == PUBLISHED[zone]


def test_the_zones_stand_in_the_order_in_which_hands_pass_them() -> None:
    assert [zone.value for zone in Zone] == list(reversed(PUBLISHED))


def test_the_first_level_is_the_least_figure_close_to_the_body_in_any_zone() -> None:
    assert guideline().carry_kg == min(figures[0] for figures in PUBLISHED.values()) == 7


def test_the_second_level_is_the_least_figure_from_the_middle_of_the_lower_leg_to_the_shoulder() -> None:
    between = ("mid_lower_leg_to_knuckle", "knuckle_to_elbow", "elbow_to_shoulder")

    assert guideline().short_carry_kg == min(PUBLISHED[zone][0] for zone in between) == 13


def test_a_carry_is_without_a_rest_no_farther_than_about_ten_metres() -> None:
    assert guideline().rest_within_m == 10


@pytest.mark.parametrize(("kg", "lb"), [(7, 15.432), (10, 22.046), (13, 28.660), (16, 35.274), (20, 44.092)])
def test_the_figures_in_pounds(kg: float, lb: float) -> None:
    """Worked out from the exact factor, to three decimals."""
    assert round(to_pounds(kg, "kg"), 3) == lb
    assert round(from_pounds(lb, "kg"), 3) == kg


def test_the_women_s_figures_are_nowhere_more_than_the_men_s() -> None:
    women, men = guideline().women, guideline().men

    assert all(women[zone].close_kg <= men[zone].close_kg and women[zone].far_kg <= men[zone].far_kg for zone in Zone)
