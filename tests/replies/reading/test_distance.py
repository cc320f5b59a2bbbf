"""How far a name is from a number: words count little, ends of clauses much."""

from replies.reading.distance import Distance
from replies.reading.marks import cut, find_marks
from replies.reading.quantities import read_quantities
from replies.reading.tidy import tidy
from replies.reading.words import load_words


def way(text: str) -> float:
    """The way from the first word to the first number."""
    words = load_words()
    tidied = tidy(text)
    quantities = read_quantities(tidied, words.amounts)
    marks = find_marks(cut(tidied, quantities, words), tidied, words)
    return Distance(marks, quantities.found).before(0, 0)


def test_a_number_right_behind_is_nearest() -> None:
    assert way("length 13") < way("length of his back, all told, 13")


def test_small_words_count_less_than_others() -> None:
    assert way("length is about 13") < way("length seems biscuit 13")


def test_a_sentence_between_counts_more_than_a_comma() -> None:
    assert way("length, 13") < way("length. And 13")


def test_a_line_between_counts_less_than_an_empty_one() -> None:
    assert way("length\n13") < way("length\n\n13")
