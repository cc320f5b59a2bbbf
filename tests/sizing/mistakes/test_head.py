"""When a height is suspected of going to the head, and when it must not be."""

import pytest

from sizing.judge import judge
from sizing.measures import Dog
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, first, of_breed, ordinary

TO_THE_HEAD = {
    "an ordinary dog": ordinary(height=14.5),
    "a schnauzer": of_breed(dog(length=12, height=16, width=5, throat=8.5, weight=12), "Miniature Schnauzer"),
    "a long and low dog": of_breed(
        dog(length=16.5, height=15.5, width=6.25, throat=7.75, weight=26), "Pembroke Welsh Corgi"
    ),
    "a tiny dog": of_breed(dog(length=8, height=10, width=3.5, throat=4.75, weight=6), "Chihuahua"),
    "a big dog": dog(length=23, height=30, width=9, throat=16.5, weight=72),
}

TO_THE_SHOULDER = {
    "an ordinary dog": ordinary(),
    "a leggy dog": dog(length=18.5, height=19.5, width=5.75, throat=14.75, weight=27),
    "an Italian greyhound": of_breed(dog(length=13, height=14, width=4, throat=10.25, weight=9.5), "Italian Greyhound"),
    "a short back": of_breed(dog(length=12, height=15, width=5.75, throat=11, weight=18), "Wire Fox Terrier"),
    "a giant": dog(length=32, height=33, width=12.5, throat=24, weight=148),
    "the lightest saluki": dog(height=23, weight=40),
}


@pytest.mark.parametrize("told", TO_THE_HEAD.values(), ids=TO_THE_HEAD.keys())
def test_a_height_to_the_head_is_doubted(told: Dog) -> None:
    assert first(told) == "height head"


@pytest.mark.parametrize("told", TO_THE_SHOULDER.values(), ids=TO_THE_SHOULDER.keys())
def test_a_height_to_the_shoulder_is_not(told: Dog) -> None:
    assert doubted(told) == set()


def test_the_likelier_height_is_a_quarter_to_a_third_less() -> None:
    likely = judge(ordinary(height=14.5))[0].likely

    assert likely is not None
    assert 10 < likely < 12.5
