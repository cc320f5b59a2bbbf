"""What is named once counts for the numbers that follow in the same form."""

import pytest

from tests.replies.reading.readings import dogs


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rex is 13 in long, Bella 15", [{"name": "Rex", "length": "13 in"}, {"name": "Bella", "length": "15 in"}]),
        ("weights: Rex 12 lb, Bella 9 lb", [{"name": "Rex", "weight": "12 lb"}, {"name": "Bella", "weight": "9 lb"}]),
        (
            "Rex and Bella are 13 and 15 in long",
            [{"name": "Rex", "length": "13 in"}, {"name": "Bella", "length": "15 in"}],
        ),
        (
            "length, height: Rex 13, 11; Bella 15, 12",
            [{"name": "Rex", "length": "13", "height": "11"}, {"name": "Bella", "length": "15", "height": "12"}],
        ),
    ],
)
def test_a_measure_goes_on_to_the_next_dog(text: str, expected: list[dict[str, str]]) -> None:
    assert dogs(text) == expected
