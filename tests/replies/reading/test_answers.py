"""Bare answers to what was just asked."""

import pytest

from tests.replies.reading.readings import dogs, known, measures

FOUR = ["height", "width", "throat_height", "weight"]


@pytest.mark.parametrize(
    ("text", "asked", "expected"),
    [
        ("5", ["width"], {"width": "5"}),
        ("5 in", ["width"], {"width": "5 in"}),
        ("it's 5 inches", ["width"], {"width": "5 in"}),
        ("5!", ["width"], {"width": "5"}),
        ("11 and 5", ["height", "width"], {"height": "11", "width": "5"}),
        ("11, 5", ["height", "width"], {"height": "11", "width": "5"}),
        ("11\n5", ["height", "width"], {"height": "11", "width": "5"}),
        ("1. 11\n2. 5", ["height", "width"], {"height": "11", "width": "5"}),
        ("1) 11 in 2) 5 in", ["height", "width"], {"height": "11 in", "width": "5 in"}),
        ("first one 11, second one 5", ["height", "width"], {"height": "11", "width": "5"}),
        ("11 / 5 / 8 / 12 lb", FOUR, {"height": "11", "width": "5", "throat_height": "8", "weight": "12 lb"}),
        (
            "12 lb, and the others 11, 5, 8",
            FOUR,
            {"height": "11", "width": "5", "throat_height": "8", "weight": "12 lb"},
        ),
        ("5 wide, 11 high", ["height", "width"], {"height": "11", "width": "5"}),
        ("width is 5, will measure the rest tonight", ["height", "width"], {"width": "5"}),
    ],
)
def test_answers_in_order(text: str, asked: list[str], expected: dict[str, str]) -> None:
    assert measures(text, asked=asked, first=False) == expected


def test_answers_for_two_dogs() -> None:
    before = [known("Rex", length=13), known("Bella", length=15)]

    found = dogs("Rex 5, Bella 6", dogs=before, asked=["1 width", "2 width"], first=False)

    assert found == [{"name": "Rex", "width": "5"}, {"name": "Bella", "width": "6"}]


def test_answers_below_quoted_questions() -> None:
    text = "> How wide is he?\n5 in\n\n> And how heavy?\n12 lb"

    assert measures(text, channel="email", asked=["width", "weight"], first=False) == {
        "width": "5 in",
        "weight": "12 lb",
    }


def test_the_shops_line_of_a_pasted_chat_says_what_was_asked() -> None:
    text = "[10:42] shop: how wide is he and what does he weigh?\n[10:43] Ann: 5 and 12"

    assert measures(text, channel="paste") == {"width": "5", "weight": "12"}


def test_the_age_beside_an_answer_is_no_answer() -> None:
    assert measures("5, and he is 3 years old", asked=["width"], first=False) == {"width": "5"}
