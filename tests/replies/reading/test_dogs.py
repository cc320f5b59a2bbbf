"""Whose back an amount is, where there are several dogs."""

import pytest

from tests.replies.reading.readings import aside, dogs, known

REX = {"name": "Rex", "length": "13", "height": "11"}
BELLA = {"name": "Bella", "length": "15", "height": "12"}


@pytest.mark.parametrize(
    "text",
    [
        "Rex: length 13, height 11. Bella: length 15, height 12.",
        "Rex\nlength 13\nheight 11\n\nBella\nlength 15\nheight 12",
        "Rex is 13 long and 11 high, Bella 15 long and 12 high",
        "Two dogs, Rex and Bella. Rex: back 13, shoulder 11. Bella: back 15, shoulder 12",
        "Rex - 13 long, 11 tall; Bella - 15 long, 12 tall",
        "Length: Rex 13, Bella 15. Height: Rex 11, Bella 12.",
        "Rex has a 13 back and stands 11. Bella has a 15 back and stands 12.",
    ],
)
def test_two_dogs_with_names(text: str) -> None:
    assert dogs(text) == [REX, BELLA]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Rex and Bella are both 12 lb", [{"name": "Rex", "weight": "12 lb"}, {"name": "Bella", "weight": "12 lb"}]),
        (
            "Rex is 13 in long, Bella is the same but an inch longer",
            [{"name": "Rex", "length": "13 in"}, {"name": "Bella", "length": "14 in"}],
        ),
        (
            "The boy is 13 in long and 12 lb. The girl is 11 in long and 9 lb.",
            [{"length": "13 in", "weight": "12 lb"}, {"length": "11 in", "weight": "9 lb"}],
        ),
        (
            "my dachshund is 13 in long, the poodle is 15 in long",
            [{"length": "13 in"}, {"length": "15 in"}],
        ),
        ("one is 13 in long, the other 15 in long", [{"length": "13 in"}, {"length": "15 in"}]),
    ],
)
def test_several_dogs_in_other_words(text: str, expected: list[dict[str, str]]) -> None:
    assert dogs(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "My dog Rex is 12 lb. Our cat Mimi is 9 lb.",
        "Rex is 12 lb. Our other dog is 40 lb and walks.",
        "Rex is 12 lb. The 40 lb lab stays home.",
        "Rex is 12 lb. My sister's dog is 20 lb and has one of yours.",
    ],
)
def test_a_dog_that_is_not_to_be_carried_is_left_out(text: str) -> None:
    assert dogs(text) == [{"name": "Rex", "weight": "12 lb"}]
    assert set(aside(text).values()) == {"not_this_dog"}


def test_a_dog_known_by_name_is_met_again() -> None:
    found = dogs(
        "Bella is 5 wide, Rex 6",
        dogs=[known("Rex", length=13), known("Bella", length=15)],
        asked=["1 width", "2 width"],
    )

    assert found == [{"name": "Rex", "width": "6"}, {"name": "Bella", "width": "5"}]


def test_what_is_said_of_no_dog_by_name_is_of_the_only_known_one() -> None:
    assert dogs("he's 5 in wide", dogs=[known("Rex", length=13)]) == [{"name": "Rex", "width": "5 in"}]
