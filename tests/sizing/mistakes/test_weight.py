"""When weight and size cannot belong to one dog, and when they can."""

import math
from statistics import fmean, pstdev

import pytest

from sizing.breeds import breed_rows
from sizing.judge import judge
from sizing.measures import Dog
from sizing.mistakes import weight
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, first, of_breed, ordinary

NOT_ONE_DOG = {
    "a decimal point lost": dog(length=8.66, height=7.48, width=3.74, throat=5.31, weight=50.7),
    "another, larger dog's weight": ordinary(weight=41),
    "another, smaller dog's weight": of_breed(
        dog(length=25, height=23, width=9, throat=16.5, weight=7), "Labrador Retriever"
    ),
    "a digit lost": of_breed(dog(length=15.5, height=14, width=6, throat=10, weight=6), "Beagle"),
    "a Maltese of ninety-nine pounds": of_breed(dog(length=10.2, height=9.4, weight=99.2), "Maltese"),
    "no dog's weight": dog(weight=1400),
}

ONE_DOG = {
    "an ordinary dog": ordinary(),
    "a fat dog": ordinary(weight=15.5),
    "a thin dog": ordinary(weight=9),
    "a giant": dog(length=32, height=33, width=12.5, throat=24, weight=148),
    "a heavy chihuahua": of_breed(dog(height=7, weight=9.5), "Chihuahua"),
    "a heavy dachshund": of_breed(dog(length=17, height=9, width=6.5, weight=20), "Dachshund (standard)"),
    "a sighthound": of_breed(dog(length=23, height=24, width=7, throat=17.5, weight=40), "Azawakh"),
    "a puppy of two pounds": of_breed(dog(length=6, height=5.5, width=2.5, throat=4, weight=2), age_months=1.9),
    "a weight alone": dog(weight=14),
}


@pytest.mark.parametrize("told", NOT_ONE_DOG.values(), ids=NOT_ONE_DOG.keys())
def test_a_weight_that_cannot_go_with_the_size_is_doubted(told: Dog) -> None:
    assert first(told) == "weight weight"


@pytest.mark.parametrize("told", ONE_DOG.values(), ids=ONE_DOG.keys())
def test_a_weight_that_can_is_not(told: Dog) -> None:
    assert doubted(told) == set()


def test_the_likelier_weight_is_that_of_a_dog_of_this_size() -> None:
    likely = judge(ordinary(weight=41))[0].likely

    assert likely == pytest.approx(13, abs=3)


def test_a_weight_fifteen_times_too_small_tells_of_centimetres_sooner_than_of_another_dog() -> None:
    assert first(dog(length=30.5, height=29, width=8.5, throat=20.5, weight=6)).endswith("unit")


def test_two_dogs_weights_lie_as_far_apart_as_those_of_the_breeds() -> None:
    rows = [(row.breed, *row.weights) for row in breed_rows()]
    by_breed: dict[str, list[float]] = {}
    for breed, least, most in rows:
        if least and most:
            by_breed.setdefault(breed, []).append(0.5 * math.log(least * most))

    spread = pstdev(fmean(middles) for middles in by_breed.values())

    assert math.sqrt(2) * spread == pytest.approx(weight._APART, abs=0.05)
