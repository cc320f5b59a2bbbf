"""Names on lines of their own below their numbers."""

import pytest

from tests.replies.reading.readings import aside, measures


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("13\nlength\n11\nheight\n5\nwidth", {"length": "13", "height": "11", "width": "5"}),
        ("Toffee\n13 in\nback\n12 lb\nweight\n\nThanks", {"length": "13 in", "weight": "12 lb"}),
        ("length\n13\nheight\n11", {"length": "13", "height": "11"}),
    ],
)
def test_lines_take_turns(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


def test_where_lines_do_not_come_out_even_nothing_is_guessed_from_their_order() -> None:
    assert aside("13\nlength\n11\nheight\n5")["13"] == "unclear"
