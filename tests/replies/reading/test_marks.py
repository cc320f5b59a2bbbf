"""The words, numbers and signs of a message in one row."""

import pytest

from replies.reading.marks import NUMBER, cut, find_marks
from replies.reading.quantities import read_quantities
from replies.reading.tidy import tidy
from replies.reading.words import load_words


def row(text: str) -> list[str]:
    words = load_words()
    tidied = tidy(text)
    quantities = read_quantities(tidied, words.amounts)
    marks = find_marks(cut(tidied, quantities, words), tidied, words)
    return ["#" if mark.kind == NUMBER else mark.text for mark in marks]


@pytest.mark.parametrize(
    ("text", "marks"),
    [
        ("length 13 1/2 in", ["length", "#"]),
        ("he's 12 long.", ["hes", "#", "long", "."]),
        ("Rex, Bella", ["rex", ",", "bella"]),
        ("13\n11", ["#", "\n", "#"]),
        ("13\n\n11", ["#", "\n\n", "#"]),
        ("33\t28", ["#", "\t", "#"]),
        ("LxWxH", ["l", "w", "h"]),
        ("l'épaule", ["epaule"]),
        ("", []),
    ],
)
def test_a_row_of_marks(text: str, marks: list[str]) -> None:
    assert row(text) == marks


def test_a_known_phrase_is_one_mark() -> None:
    assert row("base of the tail 13") == ["base of the tail", "#"]


@pytest.mark.parametrize("phrase", sorted(phrase for phrase in load_words().small.among if " " in phrase))
def test_a_phrase_of_the_small_words_is_one_mark(phrase: str) -> None:
    assert row(phrase) == [phrase]
