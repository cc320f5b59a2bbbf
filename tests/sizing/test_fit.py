"""What serves a dog."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.chart import Shop, read_shop
from sizing.fit import Body, body_of, fit, made_to_measure_inside, room_slacks
from sizing.outcome import Dimensions, Direction, Kind, Outcome, Room
from sizing.own_units import in_own_units
from sizing.units import from_inches, to_inches
from tests.sizing.dogs import dog, snug
from tests.sizing.shops import ease, shop, size

SHOP = shop()
SNUG = body_of(snug())


def fitted(body: Body = SNUG, chart: Shop = SHOP, **changed: float) -> Outcome:
    return fit(replace(body, **changed), chart)


def rated(loads: list[float | None], **settings: Any) -> Shop:
    sizes = [one.model_dump() | {"rated_load": load} for one, load in zip(SHOP.sizes, loads, strict=True)]
    return shop(sizes=sizes, **settings)


def test_a_range_counts_by_its_middle_and_its_weight_by_the_upper_end() -> None:
    ranges = dog(length=(12, 13), height=(10, 11), width=(4, 5), throat=(7, 8), weight=(9, 12))

    assert body_of(ranges) == Body(length=12.5, height=10.5, width=4.5, throat_height=7.5, weight=12)


def test_a_dog_that_a_size_serves_as_it_is_gets_it() -> None:
    outcome = fitted()

    assert (outcome.kind, outcome.size, outcome.opening) == (Kind.STANDARD, "No. 3", 7.0)
    assert outcome.inside == Dimensions(length=13.5, width=5.5, height=12.5)
    assert [slack.room for slack in outcome.slacks] == [Room.RIGHT] * 4
    assert [slack.slack for slack in outcome.slacks] == pytest.approx([1.5, 1.5, 2.0, 0.75])


def test_of_several_sizes_the_nearest_to_aim_is_chosen() -> None:
    # Aim for this dog: length +2.2, width +1.4, height +1.5: beside it a size that is right, but roomier everywhere.
    chart = shop(
        sizes=[size("Snug", 13.5, 5.5, 12, opening=6.75), size("Wide", 16, 6.5, 13.5, opening=6.75)],
    )

    assert fitted(chart=chart).size == "Snug"
    assert fitted(length=13, width=4.75, height=10.75, throat_height=7.5, chart=chart).size == "Wide"


def test_of_two_sizes_equally_near_the_smaller_is_chosen() -> None:
    # 0.3 under the aim and 0.3 over it in the length, the same in all else.
    even = [size("Short", 13.9, 5.5, 12, opening=6.75), size("Long", 14.5, 5.5, 12, opening=6.75)]

    assert fitted(chart=shop(sizes=even)).size == "Short"


def test_a_throat_that_no_standard_edge_suits_gets_the_opening_recut() -> None:
    outcome = fitted(throat_height=9.6)

    assert (outcome.kind, outcome.size, outcome.opening) == (Kind.ALTERED_OPENING, "No. 3", 9.0)
    assert outcome.slacks[-1].direction is Direction.DROP
    assert outcome.slacks[-1].room is Room.RIGHT


def test_an_edge_below_the_elbow_is_recut_even_where_the_drop_is_right() -> None:
    chart = shop(sizes=[size("One", 13.5, 5.5, 12.5, opening=5.75)])

    outcome = fitted(throat_height=7.0, chart=chart)

    assert (outcome.kind, outcome.opening) == (Kind.ALTERED_OPENING, 6.5)


def test_where_no_opening_serves_the_maker_decides() -> None:
    outcome = fitted(throat_height=5.6)

    assert (outcome.kind, outcome.size, outcome.opening, outcome.concern) == (
        Kind.ALTERED_OPENING,
        "No. 3",
        None,
        "opening",
    )
    assert len(outcome.slacks) == 3


def test_a_size_whose_rated_load_does_not_hold_is_passed_over() -> None:
    chart = rated([None, None, 9.0, None, None, None])

    assert fitted(chart=chart, weight=9.0).size == "No. 3"
    assert fitted(chart=chart, weight=9.5).size != "No. 3"


def test_a_dog_heavier_than_every_size_that_is_right_is_not_safe() -> None:
    outcome = fitted(chart=rated([5.0] * 6), weight=10)

    assert outcome == Outcome(kind=Kind.NOT_SAFE)


def test_a_dog_that_no_size_suits_gets_one_made_to_measure() -> None:
    outcome = fitted(length=14.5, height=11, width=5.75, throat_height=8, weight=13)

    assert outcome.kind is Kind.MADE_TO_MEASURE
    assert outcome.inside == Dimensions(length=17.0, width=7.25, height=13.0)
    assert outcome.opening == 7.25
    assert outcome.size is None


def test_made_to_measure_is_not_safe_above_its_rated_load() -> None:
    long = {"length": 20.0, "height": 9.0, "width": 5.0, "throat_height": 6.5}

    assert fitted(**long, weight=20).kind is Kind.MADE_TO_MEASURE
    assert fitted(**long, weight=20, chart=shop(made_to_measure_rated_load=20)).kind is Kind.MADE_TO_MEASURE
    assert fitted(**long, weight=20.5, chart=shop(made_to_measure_rated_load=20)) == Outcome(kind=Kind.NOT_SAFE)


def test_the_fallback_is_the_smallest_size_that_is_tight_nowhere() -> None:
    # Too wide for No. 3; No. 4 is roomy in the length, so it is no fit but would do.
    body = {"length": 9.0, "height": 11.0, "width": 5.0, "throat_height": 8.0}

    assert fitted(**body).fallback == "No. 4"


def test_a_fallback_must_hold_the_dog_and_must_not_choke_it() -> None:
    body = {"length": 9.0, "height": 11.0, "width": 5.0, "throat_height": 8.0, "weight": 14.0}

    assert fitted(**body, chart=rated([None, None, None, 10.0, None, None])).fallback is None
    assert fitted(**{**body, "throat_height": 7.5}).fallback is None


@pytest.mark.parametrize(
    "measures",
    [
        {"length": 31.0},
        {"width": 13.0},
        {"height": 26.0, "throat_height": 19.0},
        {"length": 3.0},
        {"width": 1.0},
        {"height": 3.0, "throat_height": 2.0},
    ],
)
def test_what_cannot_be_sewn_is_outside_the_range(measures: dict[str, float]) -> None:
    assert fitted(**measures) == Outcome(kind=Kind.OUTSIDE_RANGE)


def test_an_opening_that_cannot_be_sewn_is_outside_the_range() -> None:
    chart = shop(sewn={"most": {"opening": 6}}, sizes=[])

    assert fitted(chart=chart).kind is Kind.OUTSIDE_RANGE
    assert fitted(chart=chart, throat_height=6.5).kind is Kind.MADE_TO_MEASURE


def test_made_to_measure_moves_to_the_next_step_inside_least_and_most() -> None:
    narrow = {"least": ease(1.0), "aim": ease(1.1), "most": ease(1.3)}
    chart = shop(ease={"length": narrow, "width": narrow, "height": narrow}, step=0.25, sizes=[])

    inside = made_to_measure_inside(replace(SNUG, length=12.1, width=4.0, height=9.9), chart)

    # 12.1 + 1.1 = 13.2, nearest 13.25; 4 + 1.1 = 5.1, nearest 5.0; 9.9 + 0.5 + 1.1 = 11.5.
    assert inside == Dimensions(length=13.25, width=5.0, height=11.5)
    # 12.2 + 1.1 = 13.3, nearest 13.25; 12.3 + 1.1 = 13.4, nearest 13.5; 12.17: 13.27, nearest 13.25.
    assert made_to_measure_inside(replace(SNUG, length=12.3), chart).length == 13.5
    # 12.24 + 1.1 = 13.34, nearest 13.25, which leaves 1.01; 12.26: nearest 13.25 leaves 0.99, so 13.5.
    assert made_to_measure_inside(replace(SNUG, length=12.24), chart).length == 13.25
    assert made_to_measure_inside(replace(SNUG, length=12.26), chart).length == 13.5


INCHES = st.integers(min_value=8 * 3, max_value=8 * 30).map(lambda eighths: eighths / 8)


@st.composite
def bodies(draw: st.DrawFn) -> Body:
    height = draw(INCHES)
    return Body(
        length=height * draw(st.floats(0.8, 1.9)),
        width=height * draw(st.floats(0.25, 0.6)),
        height=height,
        throat_height=height * draw(st.floats(0.55, 0.9)),
        weight=draw(st.floats(1, 100)),
    )


@st.composite
def growths(draw: st.DrawFn) -> tuple[Body, Body]:
    body = draw(bodies())
    more = {name: getattr(body, name) + draw(st.floats(0, 4)) for name in ("length", "width", "height")}
    return body, replace(body, **more)


@given(growths())
def test_a_bigger_dog_never_gets_a_smaller_standard_size_the_drop_aside(pair: tuple[Body, Body]) -> None:
    # No edge clears an elbow as high as the shoulder, so that length, width and height alone choose.
    chart = shop(elbow=0.99)
    order = [one.name for one in chart.sizes]
    smaller, bigger = (fit(body, chart) for body in pair)

    if smaller.size is not None and bigger.size is not None:
        assert order.index(bigger.size) >= order.index(smaller.size)


@given(growths())
def test_dimensions_made_to_measure_never_fall_as_a_measure_grows(pair: tuple[Body, Body]) -> None:
    smaller, bigger = (made_to_measure_inside(body, SHOP) for body in pair)

    assert bigger.length >= smaller.length
    assert bigger.width >= smaller.width
    assert bigger.height >= smaller.height


@given(growths())
def test_room_falls_as_the_dog_grows(pair: tuple[Body, Body]) -> None:
    inside = SHOP.sizes[3].inside
    smaller, bigger = (room_slacks(body, inside, SHOP) for body in pair)

    assert all(big.slack <= small.slack for small, big in zip(smaller, bigger, strict=True))


@given(bodies())
def test_measures_told_in_centimetres_change_nothing(body: Body) -> None:
    lengths = ("length", "width", "height", "throat_height")
    told = replace(body, **{name: to_inches(from_inches(getattr(body, name), "cm"), "cm") for name in lengths})
    here, there = fit(body, SHOP), fit(told, SHOP)

    assert (here.kind, here.size, here.inside, here.opening) == (there.kind, there.size, there.inside, there.opening)


METRIC = read_shop(in_own_units({**SHOP.model_dump(), "length_unit": "cm", "weight_unit": "kg"}))


@given(bodies())
def test_a_chart_kept_in_centimetres_and_kilograms_changes_nothing(body: Body) -> None:
    assert fit(body, METRIC) == fit(body, SHOP)


@given(bodies())
def test_made_to_measure_is_always_right_in_every_direction(body: Body) -> None:
    outcome = fit(body, shop(sizes=[]))

    assert all(slack.room is Room.RIGHT for slack in outcome.slacks)


@given(st.lists(st.floats(min_value=5e-324, max_value=1.7e308), min_size=5, max_size=5))
def test_no_measures_however_wild_raise(values: list[float]) -> None:
    outcome = fit(
        Body(**dict(zip(("length", "width", "height", "throat_height", "weight"), values, strict=True))), SHOP
    )

    assert isinstance(outcome.kind, Kind)
