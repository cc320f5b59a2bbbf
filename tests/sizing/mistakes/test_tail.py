"""When a length is suspected of taking in tail, head or nose, and when it must not be."""

import pytest

from sizing.judge import judge
from sizing.measures import Dog
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, first, of_breed, ordinary

TOO_LONG = {
    "with the tail": ordinary(length=20),
    "a papillon with the tail": of_breed(
        dog(length=19.5, height=10.5, width=4.25, throat=7.75, weight=8.5), "Papillon"
    ),
    "with the head": ordinary(length=18.25),
    "a leggy dog with the tail": of_breed(dog(length=32, height=19.5, width=5.75, throat=14.5, weight=28), "Whippet"),
    "without other measures than the height": dog(length=21, height=11, weight=13),
    "a big dog with the tail": dog(length=41, height=24, width=9, throat=17.5, weight=75),
}

LONG = {
    "an ordinary dog": ordinary(),
    "a dachshund": of_breed(dog(length=13.5, height=8.25, width=5, throat=5.5, weight=15), "Dachshund (miniature)"),
    "a dachshund whose breed was not told": dog(length=17, height=9, width=6.5, weight=20),
    "a corgi": dog(length=17, height=11.5, width=6.5, throat=7.75, weight=28),
    "a basset": of_breed(dog(length=23.5, height=14, width=9.5, throat=9.25, weight=58), "Basset Hound"),
    "a Skye terrier": of_breed(dog(length=17, height=10, width=5.75, throat=6.75, weight=24), "Skye Terrier"),
    "a long-bodied cross": dog(length=13, height=10, width=5, throat=7),
}


@pytest.mark.parametrize("told", TOO_LONG.values(), ids=TOO_LONG.keys())
def test_a_length_with_more_than_the_back_in_it_is_doubted(told: Dog) -> None:
    assert first(told) == "length tail"


@pytest.mark.parametrize("told", LONG.values(), ids=LONG.keys())
def test_a_long_back_is_not(told: Dog) -> None:
    assert doubted(told) == set()


def test_the_likelier_length_is_shorter_by_a_part_of_the_height() -> None:
    likely = judge(ordinary(length=20))[0].likely

    assert likely == pytest.approx(12.5, abs=1.5)
