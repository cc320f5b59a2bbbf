"""When a width is doubted as measured around, and when it must not be."""

import pytest

from sizing.judge import judge
from sizing.measures import Dog
from sizing.reasons import Why
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, first, of_breed, ordinary

AROUND = {
    "an ordinary dog": ordinary(width=17),
    "a terrier": of_breed(dog(length=14.5, height=13, width=19, weight=17), "Border Terrier"),
    "a long and low dog": dog(length=17, height=11.5, width=22.5, throat=7.5, weight=28),
    "a tiny dog": dog(length=8, height=7.5, width=13, throat=5.5, weight=5),
    "a big dog": dog(length=24, height=23, width=31, throat=16.5, weight=70),
    "the girth told as well": ordinary(width=17, girth=17),
    "half the girth, told as well": ordinary(width=8.75, girth=17.25),
}

ACROSS = {
    "an ordinary dog": ordinary(),
    "the girth told beside the width": ordinary(girth=17),
    "a barrel chest": dog(length=12, height=11.5, width=8.5, throat=8, weight=25),
    "a bulldog": of_breed(dog(length=13, height=14.5, width=11, throat=10.5, weight=52), "Bulldog"),
    "a long and low dog": dog(length=17, height=9, width=6.5, throat=6.25, weight=20),
    "a puppy as wide as its throat is high": of_breed(
        dog(length=8, height=4.75, width=3.25, throat=3.25, weight=2.75), age_months=1.8
    ),
    "a giant": dog(length=32, height=33, width=12.5, throat=24, weight=148),
}


@pytest.mark.parametrize("told", AROUND.values(), ids=AROUND.keys())
def test_a_width_near_the_girth_is_doubted(told: Dog) -> None:
    assert first(told) == "width girth"


@pytest.mark.parametrize("told", ACROSS.values(), ids=ACROSS.keys())
def test_a_width_straight_across_is_not(told: Dog) -> None:
    assert doubted(told) == set()


def test_the_likelier_width_is_that_of_a_dog_with_this_girth() -> None:
    doubt = judge(ordinary(width=17))[0]

    assert doubt.likely == pytest.approx(5.3, abs=0.8)


def test_around_and_centimetres_are_asked_in_one_question_where_they_look_alike() -> None:
    whys = {doubt.why for doubt in judge(dog(length=12, height=10, width=15, throat=7.25, weight=14))}

    assert whys == {Why.GIRTH, Why.UNIT}
