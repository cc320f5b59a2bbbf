"""A message is cut where a sentence ends and where a new question opens."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from replies.reading.clauses import Clause, cut_into_clauses
from replies.reading.marks import cut, find_words
from replies.reading.quantities import read_quantities
from replies.reading.tidy import tidy
from replies.reading.words import load_words


def clauses(text: str, *, wrapped: bool = False) -> tuple[str, list[Clause]]:
    words, tidied = load_words(), tidy(text)
    marks = find_words(cut(tidied, read_quantities(tidied, words.amounts), words), tidied)
    return tidied.text, cut_into_clauses(marks, words.topics, wrapped=tidied.text if wrapped else "")


def parts(text: str, *, wrapped: bool = False) -> list[str]:
    plain, found = clauses(text, wrapped=wrapped)
    return [plain[clause.start : clause.end].strip() for clause in found]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("hi, how much is it", ["hi,", "how much is it"]),
        ("10 tall 12 long do you ship", ["10 tall 12 long", "do you ship"]),
        ("which size and can i pay by card", ["which size", "and can i pay by card"]),
        ("is it red, blue and green", ["is it red, blue and green"]),
        ("what should i order so it's here in time", ["what should i order", "so it's here in time"]),
        ("one\ntwo", ["one", "two"]),
        ("ok 👍 is it heavy", ["ok 👍", "is it heavy"]),
    ],
)
def test_a_clause_begins_with_its_form(text: str, expected: list[str]) -> None:
    assert parts(text) == expected


def test_a_reason_leaves_the_question_mark_to_the_question() -> None:
    _, (question, reason) = clauses("which one should i order so it's here in time?")

    assert (question.marked, reason.marked) == (True, False)


@pytest.mark.parametrize("text", ["is it heavy", "do u post", "how heavy is it", "kann man zahlen", "whats it made of"])
def test_the_order_of_words_asks(text: str) -> None:
    assert max(clause.form for clause in clauses(text)[1]) >= 1


@pytest.mark.parametrize(
    "text", ["is 12 in tall", "has short legs", "he is", "was an old one", "when he sits he is 12"]
)
def test_a_telling_without_a_subject_asks_nothing(text: str) -> None:
    assert max(clause.form for clause in clauses(text)[1]) < 1


@given(st.text(alphabet="ab is do you how ,.?!\n-12", max_size=120), st.booleans())
def test_every_mark_stands_in_one_clause_or_ends_one(text: str, wrapped: bool) -> None:
    found = clauses(text, wrapped=wrapped)[1]

    assert all(one.end <= other.start for one, other in itertools.pairwise(found))
