"""The next standard size either way."""

from dataclasses import replace

from sizing.assessment import Neighbour
from sizing.fit import body_of, fit
from sizing.neighbours import neighbours
from sizing.outcome import Direction, Room
from tests.sizing.dogs import snug
from tests.sizing.shops import shop, size

SHOP = shop()
BODY = body_of(snug())


def beside(**changed: float) -> tuple[Neighbour, ...]:
    body = replace(BODY, **changed)
    return neighbours(body, fit(body, SHOP), SHOP)


def rooms(neighbour: Neighbour) -> dict[Direction, Room]:
    return {slack.direction: slack.room for slack in neighbour.slacks}


def test_a_standard_size_has_the_next_smaller_and_the_next_larger_beside_it() -> None:
    assert [(one.size, one.larger) for one in beside()] == [("No. 2", False), ("No. 4", True)]


def test_a_neighbour_says_in_which_direction_it_fails() -> None:
    smaller, larger = beside()

    assert rooms(smaller)[Direction.LENGTH] is Room.TIGHT
    assert not smaller.fits
    assert rooms(larger)[Direction.DROP] is Room.TIGHT
    assert not larger.fits


def test_a_neighbour_that_would_do_as_well_says_so() -> None:
    chart = shop(sizes=[size("Near", 14, 5.5, 12, opening=6.75), size("Far", 15, 6, 12.5, opening=6.75)])

    (far,) = neighbours(BODY, fit(BODY, chart), chart)

    assert (far.size, far.larger, far.fits, far.holds, far.clears_elbow) == ("Far", True, True, True, True)


def test_a_rated_load_that_does_not_hold_is_said() -> None:
    chart = shop(sizes=[size("Near", 14, 5.5, 12, opening=6.75), size("Weak", 15, 6, 12.5, opening=6.75, rated_load=5)])

    (weak,) = neighbours(BODY, fit(BODY, chart), chart)

    assert (weak.holds, weak.fits) == (False, False)


def test_made_to_measure_lies_between_two_standard_sizes() -> None:
    assert [one.size for one in beside(length=14.5, height=11, width=5.75, throat_height=8)] == ["No. 4", "No. 5"]


def test_the_smallest_and_the_largest_size_have_one_neighbour() -> None:
    assert [one.size for one in beside(length=7.5, height=6.8, width=3, throat_height=5)] == ["No. 2"]


def test_where_nothing_serves_there_is_none() -> None:
    assert beside(length=40) == ()
