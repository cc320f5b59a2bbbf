"""Dogs without names whose measures are told in the same order."""

from replies.reading.context import Context
from replies.reading.read import read
from replies.reading.words import load_words


def told(text: str) -> list[dict[str, float]]:
    """Give for each dog its measures as they were written."""
    dogs = read(text, Context(), load_words()).dogs
    return [{str(fact.measure): fact.written.low for fact in dog.facts} for dog in dogs]


def test_measures_told_twice_in_one_order_are_two_dogs() -> None:
    assert told("my two: 10 lb / 10 tall / 11 long and 12 lb / 10.5 tall / 12 long") == [
        {"length": 11, "height": 10, "weight": 10},
        {"length": 12, "height": 10.5, "weight": 12},
    ]


def test_one_measure_told_twice_is_one_dogs() -> None:
    assert len(told("12 long, 10 tall, no wait 12.5 long")) == 1


def test_a_dog_with_a_name_is_not_parted() -> None:
    assert len(told("Otto: 10 tall, 11 long, 10 lb. 10 tall, 11 long, 10 lb.")) == 1
