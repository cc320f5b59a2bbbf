"""Where phrases of each kind stand in a message, and where its sentences end."""

from replies.reading.mark_index import LONGEST_SENTENCE, MarkIndex
from replies.reading.marks import Mark, cut, find_marks
from replies.reading.quantities import read_quantities
from replies.reading.small_words import Small
from replies.reading.tidy import tidy
from replies.reading.words import load_words


def _marks(text: str) -> list[Mark]:
    words, tidied = load_words(), tidy(text)
    return find_marks(cut(tidied, read_quantities(tidied, words.amounts), words), tidied, words)


def test_every_place_of_a_kind_is_found_in_order() -> None:
    marks = _marks("her back is 12 long, the beagle is 11 tall")
    index = MarkIndex(marks)
    assert list(index.places("atom", "breed")) == [at for at, mark in enumerate(marks) if mark.has("atom", "breed")]
    assert list(index.places("breed")) == [at for at, mark in enumerate(marks) if mark.has("breed")] != []


def test_a_kind_or_a_small_word_that_is_nowhere_is_not_held() -> None:
    index = MarkIndex(_marks("her back is 12 long now"))
    assert index.holds("animal", "atom") and not index.holds("animal")
    assert index.holds_among(Small.NOW) and not index.holds_among(Small.SEVERAL_DOGS)
    assert list(index.places("animal")) == []


def test_a_sentence_runs_from_the_sign_before_to_the_sign_behind() -> None:
    marks = _marks("He is 12 lb. She is 9 long! And 5 wide")
    ends = [at for at, mark in enumerate(marks) if mark.text in (".", "!")]
    index = MarkIndex(marks)
    assert index.sentence(ends[0]) == (0, ends[0])
    assert index.sentence(ends[0] + 1) == (ends[0] + 1, ends[1])
    assert index.sentence(len(marks) - 1) == (ends[1] + 1, len(marks))


def test_of_a_sentence_without_an_end_only_so_much_is_looked_at() -> None:
    index = MarkIndex(_marks("dog " * 5 * LONGEST_SENTENCE))
    at = 2 * LONGEST_SENTENCE
    assert index.sentence(at) == (at - LONGEST_SENTENCE, at + LONGEST_SENTENCE)
