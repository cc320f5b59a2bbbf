"""Two values of one measure, one of which plainly is the dog's, and now."""

import pytest

from tests.replies.reading.readings import measures, reading


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("the litter makes 15 lb. ours has 9 lb", "9 lb"),
        ("vet card: 12 kg. at the moment 10.6 kg", "10.6 kg"),
        ("will he still fit at 15 lb? he is 9 lb", "9 lb"),
        ("that lad of 13 stone carries her. she is 12 lb", "12 lb"),
    ],
)
def test_the_other_value_is_set_aside(text: str, expected: str) -> None:
    assert measures(text)["weight"].removesuffix(" again") == expected


def test_two_peoples_values_of_today_stay_a_contradiction() -> None:
    assert "conflict" in measures("I measured 13 in for the back, my husband got 15 in today")["length"]


def test_two_heavy_dogs_values_are_not_told_from_one_another_by_their_size() -> None:
    assert "conflict" in measures("50 lb on one scale, 60 lb on the other")["weight"]


def test_the_maker_is_told_why() -> None:
    (left,) = reading("our line makes 15 lb. ours has 9 lb").aside

    assert left.note == "another value is of the customer's own dog"
