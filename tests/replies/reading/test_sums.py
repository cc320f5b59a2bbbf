"""What a customer works out before our eyes."""

import pytest

from replies.reading.context import Context
from replies.reading.read import read
from replies.reading.words import load_words


def told(text: str) -> list[dict[str, float]]:
    """Give for each dog its measures as they were written."""
    dogs = read(text, Context(), load_words()).dogs
    return [{str(fact.measure): fact.written.low for fact in dog.facts} for dog in dogs]


@pytest.mark.parametrize(
    "text",
    [
        "back: 13 to the collar, add 1 1/2 = 14 1/2 long",
        "long: 13 plus 1.5 makes 14.5",
        "the table is 29 and his shoulder on it 42, so 13 tall. back 14.5",
        "from the collar 13 plus another inch and a half = 14.5 long",
    ],
)
def test_the_result_is_the_measure_and_its_parts_are_not(text: str) -> None:
    assert told(text)[0]["length"] == 14.5


@pytest.mark.parametrize("text", ["back 13, height 11, width 5 so 16 lb", "long 13, tall 12, weighs 25 lb"])
def test_numbers_that_only_happen_to_add_up_stay_what_they_are(text: str) -> None:
    assert told(text)[0]["length"] == 13
