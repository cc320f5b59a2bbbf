"""The vocabulary with a maker's own additions."""

import pytest

from replies.errors import WordListError
from replies.reading.context import Context
from replies.reading.facts import Manner
from replies.reading.read import read
from replies.reading.words import load_words


def test_a_makers_own_words_name_a_measure() -> None:
    own = {"labels": {"words": {"BACK": {"places": ["noggin to tush"]}}}}

    told = read("noggin to tush 13 in", Context(), load_words(own))

    assert [fact.measure.value for dog in told.dogs for fact in dog.facts] == ["length"]


def test_without_additions_the_words_are_loaded_once() -> None:
    assert load_words() is load_words({})


@pytest.mark.parametrize(
    ("own", "named"),
    [
        ({"lables": {}}, "there is no such list; use one of labels, dogs"),
        ({"labels": {"fillers": {"words": "hm"}}}, r'labels.fillers.words: write a list here, such as \["hm"\]'),
        ({"labels": {"rules": "none"}}, "labels.rules: write a list here"),
        ({"labels": {"colours": {"words": ["red"]}}}, "labels.colours: there is no such key"),
        (
            {"small_words": {"words": {"know": ["rn"]}}},
            "small_words.words.know: there is no such key; use one of .*now",
        ),
        ({"riding": {"posture": {"flies": {}}}}, "riding.posture.flies: there is no such key; use one of stands, sits"),
        ({"dogs": {"titles": {"words": [3]}}}, "dogs.titles.words.*: write each word in quotes"),
    ],
)
def test_a_fault_in_own_words_names_list_key_and_remedy(own: dict[str, object], named: str) -> None:
    with pytest.raises(WordListError, match=named):
        load_words(own)


def test_a_makers_small_words_count_as_the_standard_ones() -> None:
    text = "Nutmeg is 3.5 in wide whoopsie daisy"
    own = {"small_words": {"words": {"afterthoughts": ["whoopsie daisy"]}}}

    manners = [
        {fact.manner for dog in read(text, Context(), words).dogs for fact in dog.facts}
        for words in (load_words(), load_words(own))
    ]

    assert manners == [{Manner.PLAIN}, {Manner.CORRECTION}]
