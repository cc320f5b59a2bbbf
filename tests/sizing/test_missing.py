"""Which measures are still missing."""

from sizing.measures import FIVE, Measure
from sizing.missing import missing
from tests.sizing.dogs import dog, snug


def test_all_five_are_missing_of_a_dog_of_which_nothing_is_known() -> None:
    assert missing(dog()) == FIVE


def test_what_is_missing_is_asked_in_order() -> None:
    assert missing(dog(weight=12, height=10)) == (Measure.LENGTH, Measure.WIDTH, Measure.THROAT_HEIGHT)


def test_a_girth_stands_for_no_width() -> None:
    assert missing(snug(width=None, girth=15)) == (Measure.WIDTH,)


def test_nothing_is_missing_of_a_dog_with_all_five() -> None:
    assert missing(snug()) == ()
