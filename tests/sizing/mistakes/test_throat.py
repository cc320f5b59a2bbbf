"""When a throat height is too high to be one, and when it is not."""

import pytest

from sizing.judge import judge
from sizing.measures import Dog
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, first, of_breed, ordinary

TOO_HIGH = {
    "at the shoulder": ordinary(throat=10.5),
    "above the shoulder": dog(length=14, height=11, width=5.5, throat=12.5, weight=13),
    "just above the shoulder": dog(length=12, height=10.5, width=4.5, throat=11, weight=11),
    "of a big dog": dog(length=24, height=23, width=9, throat=25, weight=70),
}

BELOW = {
    "an ordinary dog": ordinary(),
    "a proud neck": ordinary(throat=8.5),
    "a lowered head": ordinary(throat=6.5),
    "a long and low dog": dog(length=17, height=9, width=6.5, throat=6.75, weight=20),
    "a giant": dog(length=32, height=33, width=12.5, throat=24, weight=148),
    "a puppy": of_breed(dog(length=5.5, height=5.25, width=2.25, throat=3.75, weight=1.3), "Chihuahua", age_months=3.2),
}


@pytest.mark.parametrize("told", TOO_HIGH.values(), ids=TOO_HIGH.keys())
def test_a_throat_at_or_above_the_shoulder_is_doubted(told: Dog) -> None:
    assert first(told) == "throat_height throat"


@pytest.mark.parametrize("told", BELOW.values(), ids=BELOW.keys())
def test_a_throat_below_the_shoulder_is_not(told: Dog) -> None:
    assert doubted(told) == set()


def test_the_likelier_throat_height_is_that_of_a_dog_of_this_build() -> None:
    likely = judge(ordinary(throat=11))[0].likely

    assert likely == pytest.approx(0.73 * 10.5, abs=0.5)
