"""When two measures are suspected of being exchanged, and when they must not be."""

from dataclasses import replace

import pytest

from sizing.judge import judge
from sizing.measures import Dog, Measure
from sizing.reasons import Why
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, of_breed, ordinary

EXCHANGED = {
    "width and height": (dog(length=13, height=5.5, width=10, throat=7, weight=12), {"width swap", "height swap"}),
    "width and throat": (ordinary(width=7.5, throat=4.5), {"width swap", "throat_height swap"}),
    "height and throat": (ordinary(height=7.25, throat=10.5), {"height swap", "throat_height swap"}),
    "length and height of a dachshund": (
        of_breed(dog(length=8.25, height=14.25, width=4.75, throat=5.5, weight=13.25), "Dachshund (standard)"),
        {"length swap", "height swap"},
    ),
    "length and height of a small dachshund": (
        of_breed(dog(length=8, height=14.5, width=4.75, throat=5.5, weight=10.5), "Dachshund (miniature)"),
        {"length swap", "height swap"},
    ),
    "length and height of a corgi": (
        of_breed(dog(length=11.5, height=17, width=6.5, throat=7.75, weight=28), "Pembroke Welsh Corgi"),
        {"length swap", "height swap"},
    ),
}

IN_PLACE = {
    "an ordinary dog": ordinary(),
    "a square dog": dog(length=12, height=12, width=5, throat=8.75, weight=12),
    "taller than long": dog(length=18.5, height=19.5, width=5.75, throat=14.75, weight=27),
    "twice as long as high": dog(length=17, height=9, width=6.5, throat=6.25, weight=20),
    "width equal to the throat height": of_breed(
        dog(length=7.75, height=4.5, width=3, throat=3, weight=2.5), "Dachshund (miniature)", age_months=1.8
    ),
    "wider than the throat is high": of_breed(
        dog(length=14, height=8.5, width=6.5, throat=6, weight=24), "Dachshund (standard)"
    ),
}


@pytest.mark.parametrize(("told", "right"), EXCHANGED.values(), ids=EXCHANGED.keys())
def test_both_measures_are_doubted(told: Dog, right: set[str]) -> None:
    assert doubted(told) >= right


@pytest.mark.parametrize("told", IN_PLACE.values(), ids=IN_PLACE.keys())
def test_measures_in_their_place_are_not(told: Dog) -> None:
    assert doubted(told) == set()


def test_the_likelier_value_of_each_is_that_of_the_other() -> None:
    likely = {doubt.measure: doubt.likely for doubt in judge(dog(length=13, height=5.5, width=10, throat=7, weight=12))}

    assert likely == {Measure.HEIGHT: pytest.approx(10), Measure.WIDTH: pytest.approx(5.5)}


def test_a_confirmed_exchange_is_not_raised_for_either_measure_again() -> None:
    told = dog(length=13, height=5.5, width=10, throat=7, weight=12)
    sure = replace(told.measures[Measure.WIDTH], confirmed=frozenset({Why.SWAP}))

    assert not doubted(replace(told, measures={**told.measures, Measure.WIDTH: sure})) >= {"width swap", "height swap"}
