"""The level of the caution, and the figure that decides it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.caution import Bound, Caution, DecidedBy, Level, caution_for, zones_passed
from sizing.guideline import Zone
from sizing.outcome import Dimensions
from sizing.units import to_pounds
from tests.sizing.shops import shop

SHOP = shop()
INSIDE = Dimensions(length=13.5, width=5.5, height=12.5)
SEVEN, THIRTEEN = to_pounds(7, "kg"), to_pounds(13, "kg")


def cautioned(dog_lb: float, inside: Dimensions = INSIDE, empty_lb: float = 1.7, **settings: object) -> Caution:
    return caution_for(dog_lb, empty_lb, inside=inside, shop=shop(**settings))


def test_the_total_is_dog_empty_carrier_and_pockets() -> None:
    caution = cautioned(10.0)

    assert (caution.dog_lb, caution.empty_lb, caution.pockets_lb) == (10.0, 1.7, 1.0)
    assert caution.total_lb == pytest.approx(12.7)
    assert caution.total_kg == pytest.approx(5.760623, abs=1e-6)


@pytest.mark.parametrize(
    ("total", "level"),
    [
        (4.0, Level.CARRY),
        (SEVEN, Level.CARRY),
        (SEVEN + 0.01, Level.SHORT_CARRY),
        (THIRTEEN, Level.SHORT_CARRY),
        (THIRTEEN + 0.01, Level.DO_NOT_LIFT),
        (1e300, Level.DO_NOT_LIFT),
    ],
)
def test_a_level_holds_up_to_its_published_figure(total: float, level: Level) -> None:
    assert cautioned(total - 2.7).level is level


def test_the_bound_that_decided_is_kept() -> None:
    assert cautioned(10).decided == cautioned(10).carry
    assert cautioned(20).decided == cautioned(20).short_carry
    assert cautioned(60).decided == cautioned(60).short_carry
    assert cautioned(20).decided == Bound(load_lb=THIRTEEN, by=DecidedBy.GUIDELINE, zone=Zone.MID_LOWER_LEG_TO_KNUCKLE)


def test_only_a_short_carry_names_the_way_to_a_rest() -> None:
    assert [cautioned(pounds).rest_within_m for pounds in (10, 20, 60)] == [None, 10, None]


def test_only_the_heaviest_level_is_the_heaviest() -> None:
    assert [cautioned(pounds).heaviest for pounds in (10, 20, 60)] == [False, False, True]


def test_hands_rise_from_the_handles_to_the_shoulder() -> None:
    caution = cautioned(10)

    assert caution.hands_from_in == 0.25 + 12.5 + 12
    assert caution.zones == (Zone.MID_LOWER_LEG_TO_KNUCKLE, Zone.KNUCKLE_TO_ELBOW, Zone.ELBOW_TO_SHOULDER)


def test_handles_that_lie_low_lower_the_second_level() -> None:
    low = Dimensions(length=13.5, width=5.5, height=8)
    caution = cautioned(15, low, handle_drop=1)

    assert caution.level is Level.DO_NOT_LIFT
    assert caution.decided == Bound(load_lb=SEVEN, by=DecidedBy.ZONE, zone=Zone.BELOW_MID_LOWER_LEG)
    assert cautioned(15, low).level is Level.SHORT_CARRY


def test_hands_that_begin_above_the_shoulder_pass_that_zone_too() -> None:
    assert zones_passed(70) == (Zone.ELBOW_TO_SHOULDER, Zone.ABOVE_SHOULDER)


def test_a_stricter_shop_is_obeyed_and_named() -> None:
    caution = cautioned(10, caution={"carry_most": 12})

    assert caution.level is Level.SHORT_CARRY
    assert caution.carry == Bound(load_lb=12, by=DecidedBy.SHOP, zone=None)


def test_pockets_count_as_the_shop_sets_them() -> None:
    assert cautioned(10, pockets=3).total_lb == pytest.approx(14.7)


WEIGHTS = st.floats(0.5, 200)


@given(WEIGHTS, st.floats(0, 100), st.floats(3, 26), st.floats(0, 20))
def test_a_heavier_dog_never_has_a_laxer_level(pounds: float, more: float, height: float, drop: float) -> None:
    inside = Dimensions(length=15, width=6, height=height)
    levels = list(Level)

    lighter, heavier = (cautioned(weight, inside, handle_drop=drop).level for weight in (pounds, pounds + more))

    assert levels.index(heavier) >= levels.index(lighter)


@given(WEIGHTS, st.floats(1, SEVEN), st.floats(SEVEN, THIRTEEN), st.floats(3, 26), st.floats(0, 20))
def test_no_setting_makes_a_level_laxer_than_the_published_figures(
    pounds: float, carry: float, short: float, height: float, drop: float
) -> None:
    inside = Dimensions(length=15, width=6, height=height)
    published = Level.CARRY if pounds + 2.7 <= SEVEN else Level.SHORT_CARRY if pounds + 2.7 <= THIRTEEN else None

    level = cautioned(pounds, inside, handle_drop=drop, caution={"carry_most": carry, "short_carry_most": short}).level

    assert list(Level).index(level) >= list(Level).index(published or Level.DO_NOT_LIFT)
