"""Bare numbers answer the questions in their order, where only one way is possible."""

import pytest

from tests.replies.reading.readings import aside, dogs, measures


def test_one_number_for_two_questions_is_not_guessed() -> None:
    assert measures("5", asked=["length", "height"], first=False) == {}
    assert aside("5", asked=["length", "height"], first=False) == {"5": "unclear"}


def test_one_weight_answers_the_weight_whatever_else_was_asked() -> None:
    assert measures("12 lb", asked=["height", "weight"], first=False) == {"weight": "12 lb"}


@pytest.mark.parametrize("text", ["dog 1 is Basil, dog 2 is Sybil", "Olga 24 and Piet 18,5."])
def test_two_dogs_that_name_themselves_to_a_question_of_one_are_not_guessed(text: str) -> None:
    assert [list(dog) for dog in dogs(text, asked=["length", "width"])] == [["name"], ["name"]]
