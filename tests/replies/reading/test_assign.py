"""Numbers and the names of measures are joined as a whole, not one after the other."""

import pytest

from tests.replies.reading.readings import aside, measures


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("length 13, height 11, width 5", {"length": "13", "height": "11", "width": "5"}),
        ("13 long, 11 high, 5 wide", {"length": "13", "height": "11", "width": "5"}),
        ("13 long 11 high 5 wide", {"length": "13", "height": "11", "width": "5"}),
        ("length 13 height 11 width 5", {"length": "13", "height": "11", "width": "5"}),
        ("length:13\nheight:11\nwidth:5", {"length": "13", "height": "11", "width": "5"}),
        ("height is 11 and he is 13 long", {"height": "11", "length": "13"}),
        ("he is 11 high, length 13, and 5 across", {"height": "11", "length": "13", "width": "5"}),
        ("back 13. shoulder 11. across 5.", {"length": "13", "height": "11", "width": "5"}),
        ("11 inches is how tall he is, and 13 how long", {"height": "11 in", "length": "13 in"}),
        (
            "he measures 13 in from collar to tail while floor to shoulder is 11 in",
            {"length": "13 in", "height": "11 in"},
        ),
        ("length = 13in (33cm)", {"length": "13 in"}),
        ("13 in - that's the back. 11 in - the shoulder height.", {"length": "13 in", "height": "11 in"}),
    ],
)
def test_names_before_and_behind_numbers(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12 lb, 13 in long", {"weight": "12 lb", "length": "13 in"}),
        ("length 13 in, weight 12 lb", {"length": "13 in", "weight": "12 lb"}),
        ("weight 13 in long 12 lb", {"weight": "12 lb", "length": "13 in"}),
        ("height 28 cm 5 kg", {"height": "28 cm", "weight": "5 kg"}),
    ],
)
def test_a_unit_keeps_lengths_and_weights_apart(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


def test_a_number_between_two_names_that_could_both_have_it_is_set_aside() -> None:
    assert measures("length, 12, height") == {}
    assert aside("length, 12, height") == {"12": "unclear"}


def test_a_bare_number_nobody_named_is_set_aside() -> None:
    assert measures("Hi, we need a carrier. 13.") == {}
    assert aside("Hi, we need a carrier. 13.") == {"13": "unclear"}
