"""Run-on speech in which names and numbers take turns."""

import pytest

from replies.reading.context import Context
from replies.reading.read import read
from replies.reading.words import load_words


def told(text: str) -> list[dict[str, float]]:
    """Give for each dog its measures as they were written."""
    dogs = read(text, Context(), load_words()).dogs
    return [{str(fact.measure): fact.written.low for fact in dog.facts} for dog in dogs]


ALL = {"length": 11.75, "height": 9.5, "width": 4.5, "throat_height": 7, "weight": 10}


@pytest.mark.parametrize(
    "text",
    [
        "back eleven and three quarters shoulder nine and a half across four and a half throat seven weight 10 lb",
        "11.75 back 9.5 shoulder 4.5 across the hips 7 throat 10 lb weight",
    ],
)
def test_each_name_stands_with_its_own_number(text: str) -> None:
    assert told(text) == [ALL]


def test_names_that_do_not_take_turns_are_not_forced_to() -> None:
    assert told("back 11.75 9.5 shoulder across 4.5 throat 7")[0].items() <= ALL.items()
