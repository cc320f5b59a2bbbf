"""When a value is one that no dog of the build has, and when it only seems so."""

import pytest

from sizing.judge import judge
from sizing.measures import Dog
from tests.sizing.dogs import dog
from tests.sizing.doubted import doubted, first, of_breed, ordinary

IMPOSSIBLE = {
    "a decimal point lost in the height": (ordinary(height=105), "height size", 10.5),
    "a decimal point too far left in the length": (ordinary(length=1.35), "length size", 13.5),
    "a decimal point lost in the width": (ordinary(width=50), "width size", 5),
    "a decimal point lost in the throat height": (ordinary(throat=75), "throat_height size", 7.5),
    "digits exchanged": (dog(length=31, height=12, width=5, throat=8.5, weight=13), None, None),
    "half the width": (ordinary(width=2.25), "width size", 4.5),
    "half the width of a stout dog": (dog(length=12, height=11.5, width=3, throat=8, weight=20), "width size", 6),
    "a length of eleven feet": (dog(length=140), "length size", 14),
}

UNUSUAL = {
    "an ordinary dog": ordinary(),
    "a narrow dog": ordinary(width=4),
    "a wide dog": ordinary(width=6.5),
    "a greyhound": dog(length=26, height=27, width=7.5, throat=20, weight=65),
    "a tiny dog": dog(length=5.25, height=5, width=2.5, throat=3.5, weight=2.5),
    "a giant": dog(length=32, height=33, width=12.5, throat=24, weight=148),
    "a fat pug": dog(length=12.5, height=11.5, width=6.75, throat=7.75, weight=27),
    "an Irish wolfhound": of_breed(dog(length=34, height=33.5, width=11, throat=25, weight=141), "Irish Wolfhound"),
}


@pytest.mark.parametrize(("told", "right", "likely"), IMPOSSIBLE.values(), ids=IMPOSSIBLE.keys())
def test_a_value_that_no_dog_of_this_build_has_is_doubted(told: Dog, right: str | None, likely: float | None) -> None:
    if right is None:
        assert doubted(told)
    else:
        assert (first(told), judge(told)[0].likely) == (right, pytest.approx(likely, rel=0.15))


@pytest.mark.parametrize("told", UNUSUAL.values(), ids=UNUSUAL.keys())
def test_an_unusual_dog_is_not(told: Dog) -> None:
    assert doubted(told) == set()
