"""Numbers that are one more try of what another one measures, and numbers that are not."""

import pytest

from tests.replies.reading.readings import dogs


@pytest.mark.parametrize(
    "text",
    [
        "back first go 13, second go 14.5. height 11",
        "back 13 on the first go, 14.5 on the second. height 11",
        "back: take one 13, take two 14.5. height 11",
        "round one: 13 long. round two: 14.5 long. height 11",
        "Back\n1st: 13\n2nd: 14.5\nheight 11",
        "Measured her back twice, got 13 the first time and 14.5 the second time. height 11",
        "back 13 by the wall and 14.5 in the hallway. height 11",
        "back 13 with one tape and 14.5 with another. height 11",
    ],
)
def test_a_second_try_has_the_measure_of_the_first(text: str) -> None:
    (dog,) = dogs(text)

    assert dog["height"] == "11"
    assert dog["length"] == "14.5 conflict"


def test_as_many_numbers_as_were_announced_are_of_one_measure() -> None:
    assert dogs("two heights: 12 and 10. back 13") == [{"length": "13", "height": "10 conflict"}]


def test_the_number_of_a_try_is_no_measure() -> None:
    assert dogs("take 1: back 13, height 11") == [{"length": "13", "height": "11"}]


def test_the_first_and_the_second_of_two_dogs_are_no_tries() -> None:
    assert len(dogs("two dogs. the first one is 13 long and 11 tall, the second one is 14 long and 12 tall")) == 2


def test_answers_in_the_order_of_the_questions_are_no_tries() -> None:
    assert dogs("the first 13, the second 11", asked=["length", "height"]) == [{"length": "13", "height": "11"}]


def test_a_number_far_from_the_first_is_no_try() -> None:
    assert dogs("back 13 by the wall and 40 in the hallway") == [{"length": "13"}]


def test_a_number_in_another_paragraph_is_no_try() -> None:
    assert dogs("back 13 on the floor\n\n14.5 on the sofa") == [{"length": "13"}]


def test_as_many_numbers_as_there_are_dogs_are_no_tries() -> None:
    assert all("conflict" not in str(dog) for dog in dogs("we have 2 pugs. long 12 and 13, tall 11 and 12"))
