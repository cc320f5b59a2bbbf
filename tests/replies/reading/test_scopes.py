"""Scopes: how far a word reaches that says whose a number is, when it was, or that it is no earnest."""

import pytest

from tests.replies.reading.readings import measures as read_measures
from tests.replies.reading.readings import reading


def measures(text: str) -> dict[str, str]:
    """What is read, whether or not it is said to be taken anew."""
    return {key: value.removesuffix(" again") for key, value in read_measures(text).items()}


def notes(text: str) -> dict[str, str]:
    return {one.at.words: one.note for one in reading(text).aside}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("adult size per breeder: 13 in tall, 14 lb. for now 8 lb", {"weight": "8 lb"}),
        ("7 lb (grown: 15 lb), 8 in tall", {"weight": "7 lb", "height": "8 in"}),
        ("13 in and 14 lb when grown. 5 lb today", {"weight": "5 lb"}),
        ("he is my fully grown pug, 14 lb", {"weight": "14 lb"}),
        ("bigger than expected, 14 lb", {"weight": "14 lb"}),
    ],
)
def test_a_forecast_reaches_over_what_is_joined_to_it_and_no_farther(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "should end up around 20 lb",
        "the calculator says 9.3 lb finished",
        "two months ago he was 8 lb",
        "25 lb, that was before his diet",
        "18 lb (that's from 2022)",
        "her dam is 8 lb",
        "our cat is 12 lb",
        "suppose I had a great dane, 32 inches, 140 lb",
        "in his head he's 150 lb",
        "22 lb in the crate",
    ],
)
def test_where_only_such_a_value_is_told_none_is_read(text: str) -> None:
    assert measures(text) == {}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("last year 8 lb, now 9", {"weight": "9 lb"}),
        ("emotionally he's 900 lb. physically 12", {"weight": "12 lb"}),
        ("he's smaller than our cat, the cat is 12 lb he's 7", {"weight": "7 lb"}),
        ("at 8 weeks she was 3 lb, at 16 weeks 5 lb", {"weight": "5 lb"}),
        ("from 18 lb to 15 lb since spring", {"weight": "15 lb"}),
    ],
)
def test_the_value_that_stands_against_it_is_of_the_same_measure(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12 lb in his coat, 11 lb without", {"weight": "11 lb"}),
        ("12 lb in his coat", {"weight": "12 lb"}),
        ("with his cone he's 14 in wide, without 5", {"width": "5 in"}),
    ],
)
def test_what_is_worn_gives_way_to_the_value_without_it(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


def test_a_bracket_ends_what_was_begun_in_it() -> None:
    assert measures("my husband (6'3\", 200 lb) carries him, 15 lb") == {"weight": "15 lb"}


def test_a_brothers_number_is_set_aside_where_the_sentence_turns_to_her_own() -> None:
    assert measures("his brother weighs 14 lb, he only 9 lb") == {"weight": "9 lb"}


def test_a_person_who_measures_is_nobody_whose_number_it_is() -> None:
    assert measures("my daughter got 14 in for the back") == {"length": "14 in"}


def test_the_maker_is_told_why_a_number_was_left() -> None:
    assert notes("sire 14 lb. he's 8 lb") == {"14 lb": "of a dog's relative, not of the dog"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("the beagle is 25 lb so way bigger. he's 7 lb", {"weight": "7 lb"}),
        ("he's 25 lb so way bigger than a pug", {"weight": "25 lb"}),
        ("way smaller than my sister's 16 lb cavalier, only 9 lb", {"weight": "9 lb"}),
    ],
)
def test_a_dog_that_is_only_there_to_compare_has_no_say(text: str, expected: dict[str, str]) -> None:
    assert measures(text) == expected


def test_the_breed_of_a_supposed_dog_is_not_his() -> None:
    assert measures("suppose I had a mastiff, 30 in tall. mine is a pug, 11 in tall") == {"height": "11 in"}
