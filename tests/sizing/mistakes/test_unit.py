"""When centimetres or kilograms are suspected, and when they must not be."""

import pytest

from sizing.judge import judge
from sizing.measures import Dog, Measure
from sizing.reasons import Why
from tests.sizing.dogs import dog
from tests.sizing.doubted import bare, doubted, of_breed, ordinary

LENGTHS = {"length unit", "height unit", "width unit", "throat_height unit"}

METRIC = {
    "all in centimetres": (dog(length=33, height=27, width=12, throat=19, weight=11), LENGTHS),
    "all in centimetres and kilograms, no unit": (
        bare(dog(length=33, height=27, width=12, throat=19, weight=5.1)),
        LENGTHS | {"weight unit"},
    ),
    "millimetres written for centimetres": (dog(length=1.3, height=1.1, width=0.51, throat=0.79, weight=14), LENGTHS),
    "no unit on two lengths": (bare(dog(length=30, height=28, weight=11)), {"length unit", "height unit"}),
    "the length alone": (ordinary(length=32), {"length unit"}),
    "the throat height alone": (ordinary(throat=19), {"throat_height unit"}),
    "the height alone": (ordinary(height=26.5), {"height unit"}),
    "kilograms": (of_breed(dog(length=13.5, height=13, width=5.5, throat=9.5, weight=7.4), "Border Terrier"), None),
    "kilograms of an ordinary dog": (ordinary(weight=5.2), {"weight unit"}),
}

INCHES = {
    "an ordinary dog": ordinary(),
    "an ordinary dog without units": bare(ordinary()),
    "a giant": dog(length=32, height=33, width=12.5, throat=24, weight=148),
    "a giant without units": bare(dog(length=30, height=31, width=11, throat=23, weight=140)),
    "a tiny dog": dog(length=7.75, height=6.5, width=3, throat=4.75, weight=4.5),
    "a light dog": dog(length=13, height=14, width=4.25, throat=10.25, weight=10),
    "a light dog of which neither length nor width is known": dog(height=13, throat=9.5, weight=7),
    "a whippet": dog(length=18.5, height=19.5, width=5.75, throat=14.75, weight=27),
    "a puppy of nineteen ounces": of_breed(
        dog(length=5.25, height=4.75, width=2.25, throat=3.25, weight=1.1875), "Yorkshire Terrier", age_months=2.1
    ),
    "a single length": bare(dog(length=24)),
}


@pytest.mark.parametrize(("told", "right"), METRIC.values(), ids=METRIC.keys())
def test_the_unit_is_doubted(told: Dog, right: set[str] | None) -> None:
    assert doubted(told) >= (right or {"weight unit"})


@pytest.mark.parametrize("told", INCHES.values(), ids=INCHES.keys())
def test_inches_and_pounds_are_not_doubted(told: Dog) -> None:
    assert doubted(told) == set()


def test_the_likelier_values_are_the_converted_ones() -> None:
    likely = {doubt.measure: doubt.likely for doubt in judge(dog(length=33, height=27, width=12, throat=19, weight=11))}

    assert likely[Measure.LENGTH] == pytest.approx(12.99, abs=0.01)
    assert likely[Measure.HEIGHT] == pytest.approx(10.63, abs=0.01)


def test_a_number_without_a_unit_is_doubted_for_it_sooner_than_one_with_a_unit() -> None:
    told = ordinary(weight=5.5)

    stated, unstated = (
        next((doubt.odds for doubt in judge(one) if doubt.why is Why.UNIT), 0.0) for one in (told, bare(told))
    )

    assert unstated > 2 * stated
