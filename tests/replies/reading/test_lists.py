"""Names in a row and numbers in a row."""

import pytest

from tests.replies.reading.readings import aside, measures

THREE = {"length": "13 in", "height": "11 in", "width": "5 in"}


@pytest.mark.parametrize(
    "text",
    [
        "length, height, width: 13, 11, 5 in",
        "length/height/width 13/11/5 in",
        "length, height and width are 13, 11 and 5 in",
        "13, 11 and 5 in for length, height and width",
        "LxHxW 13x11x5 in",
        "L/H/W: 13/11/5 in",
        "L x H x W = 13 x 11 x 5 in",
        "13 x 11 x 5 in (L x H x W)",
        "his length, height and width are 13, 11 and 5 in respectively",
    ],
)
def test_as_many_numbers_as_names_go_together_in_order(text: str) -> None:
    assert measures(text) == THREE


@pytest.mark.parametrize("text", ["length, height, width: 13, 11 in", "length, height: 13, 11, 5 in"])
def test_rows_that_do_not_agree_are_not_guessed(text: str) -> None:
    assert set(aside(text).values()) == {"unclear"}


def test_the_smallest_of_three_bare_numbers_is_the_width() -> None:
    assert measures("he is 14 x 11 x 5 inches") == {"length": "14 in", "height": "11 in", "width": "5 in"}
