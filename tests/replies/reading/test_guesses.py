"""Guesses are told from measurements."""

import pytest

from tests.replies.reading.readings import measures


@pytest.mark.parametrize(
    "text",
    [
        "I haven't measured, maybe 13 in long",
        "just a guess: 13 in long",
        "13 in long, I'm guessing",
        "no tape here, but 13 in long I'd say",
        "13 in long, eyeballed",
        "from memory 13 in long",
        "geschätzt 33 cm lang",
    ],
)
def test_a_guess(text: str) -> None:
    assert "vague" in measures(text)["length"]


@pytest.mark.parametrize("text", ["about 13 in long", "roughly 13 in long, measured twice", "~13 in long"])
def test_about_is_no_guess(text: str) -> None:
    assert measures(text) == {"length": "13 in about"}


def test_only_what_was_guessed_is_a_guess() -> None:
    found = measures("length 13 in, measured. Weight is a guess: 12 lb")

    assert found == {"length": "13 in", "weight": "12 lb vague"}


def test_a_number_that_is_said_to_come_from_the_vet_behind_a_comma_is_no_guess() -> None:
    found = measures("havent measured, guessing 13 in long. 12 lb, that one's from the vet")

    assert found == {"length": "13 in vague", "weight": "12 lb"}


@pytest.mark.parametrize(
    "text",
    ["13 in long. I guess that's it!", "I think you need this: 13 in long", "13 in long I think I got everything"],
)
def test_a_thought_about_something_else_makes_no_guess(text: str) -> None:
    assert measures(text) == {"length": "13 in"}
