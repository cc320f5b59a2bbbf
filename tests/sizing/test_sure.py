"""How sure a fit is."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing import sure as module
from sizing.fit import body_of, fit
from sizing.measures import Dog, Measure
from sizing.outcome import Dimensions
from sizing.quadrature import integral
from sizing.sure import ABSOLUTE_ERROR, Sure, how_sure
from tests.sizing.dogs import dog, snug
from tests.sizing.shops import shop

SHOP = shop()
CERTAIN = snug(height=(9.9, 10.1), throat=(7.0, 8.0))
"""Its edge, 6.5 in above the floor, clears the elbow up to a height of 12.26 in; no throat up to 8.6 is too high."""
NO_3 = Dimensions(length=13.5, width=5.5, height=12.5)


def sure_of(told: Dog, inside: Dimensions = NO_3, opening: float = 7.0) -> Sure:
    return how_sure(told, inside, opening, shop=SHOP)


def test_a_dog_in_the_middle_of_everything_is_served_for_sure() -> None:
    wide = Dimensions(length=20, width=9, height=18)

    assert sure_of(CERTAIN, wide).serves == pytest.approx(1.0)


def test_a_length_that_leaves_a_quarter_of_an_inch_is_an_even_chance() -> None:
    roomy = Dimensions(length=12.25, width=9, height=18)

    assert sure_of(CERTAIN, roomy).serves == pytest.approx(0.5)
    assert sure_of(CERTAIN, roomy).measure is Measure.LENGTH


@pytest.mark.parametrize(
    ("told", "measure"),
    [
        (snug(width=5.0, throat=8.0), Measure.WIDTH),
        (snug(length=13.0, throat=8.0), Measure.LENGTH),
        (snug(throat=6.9), Measure.THROAT_HEIGHT),
        (snug(height=11.9, throat=7.9), Measure.HEIGHT),
    ],
)
def test_the_measure_that_could_tip_it_is_named(told: Dog, measure: Measure) -> None:
    assert sure_of(told).measure is measure


def test_about_makes_a_fit_less_sure() -> None:
    plain = {"length": 12, "height": 10, "width": 4, "throat": 7.3, "weight": 10}

    assert sure_of(dog(**plain, hedged=True)).serves < sure_of(dog(**plain)).serves


def test_an_edge_over_the_throat_is_never_sure() -> None:
    assert sure_of(snug(throat=(5.0, 6.0))).serves == 0.0


def test_a_dog_taller_than_the_carrier_is_never_sure() -> None:
    assert sure_of(snug(height=(13.0, 14.0))).serves == 0.0


def test_a_throat_that_is_certain_to_suit_leaves_the_other_measures() -> None:
    alone = sure_of(CERTAIN, Dimensions(length=13.5, width=9, height=12.5))

    assert alone.serves == pytest.approx(0.9937903, abs=1e-6)  # 2.5 deviations in the length alone


LENGTHS = st.floats(3, 28)


@st.composite
def fitted(draw: st.DrawFn) -> tuple[Dog, Dimensions, float]:
    height = draw(LENGTHS)
    length, width, throat = height * draw(st.floats(0.8, 1.9)), height * draw(st.floats(0.25, 0.6)), height * 0.73
    spread = draw(st.sampled_from([0.0, 0.5, 2.0]))

    def told(value: float) -> float | tuple[float, float]:
        return (value, value + spread) if draw(st.booleans()) and spread else value

    animal = dog(length=told(length), height=told(height), width=told(width), throat=told(throat), weight=10)
    outcome = fit(
        body_of(animal), shop(sizes=[], sewn={"least": {"length": 1, "width": 0.5, "height": 1, "opening": 1}})
    )
    inside = outcome.inside or Dimensions(length=length + 2, width=width + 1, height=height + 2)
    return animal, inside, outcome.opening or throat


@given(fitted())
def test_a_probability_is_a_probability(case: tuple[Dog, Dimensions, float]) -> None:
    assert 0.0 <= how_sure(*case, shop=SHOP).serves <= 1.0


@given(fitted())
def test_the_integral_is_as_near_as_is_stated(case: tuple[Dog, Dimensions, float]) -> None:
    """Against a rule of many times the points, over pieces a tenth as long."""

    def fine(function: Callable[[float], float], low: float, high: float, *, points: int) -> float:
        ends = [low + (high - low) * n / 10 for n in range(11)]
        return sum(integral(function, a, b, points=4 * points) for a, b in pairwise(ends))

    coarse = how_sure(*case, shop=SHOP).serves
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "integral", fine)
        exact = how_sure(*case, shop=SHOP).serves

    assert abs(coarse - exact) <= ABSOLUTE_ERROR


def test_a_larger_carrier_is_never_less_sure_to_be_long_enough() -> None:
    longer = replace(NO_3, length=14.5)

    assert sure_of(snug(), longer).serves >= sure_of(snug()).serves
