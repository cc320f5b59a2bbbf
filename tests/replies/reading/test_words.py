"""The vocabulary with a maker's own additions."""

import pytest

from replies.errors import WordListError
from replies.reading.context import Channel, Context
from replies.reading.facts import Manner, SetAside
from replies.reading.read import read
from replies.reading.words import Words, load_words


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
        ({"sayings": {"words": [" "]}}, "sayings.words: one of the words is empty; take it out"),
        ({"speakers": {"shops": ["we"]}}, "speakers.shops: there is no such key; use one of shop, customer"),
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


def test_a_makers_own_figure_of_speech_is_no_measure() -> None:
    text = "12 in long, she is a 4 by 4 kind of girl"
    own = {"sayings": {"words": ["4 by 4"]}}

    notes = [{aside.note for aside in read(text, Context(), words).aside} for words in (load_words(), load_words(own))]

    assert "a figure of speech" not in notes[0]
    assert notes[1] == {"a figure of speech"}


def test_a_makers_own_word_for_an_age_is_read() -> None:
    text = "12 in long, 4 months mad"
    own = {"ages": {"behind": {"words": ["mad"]}}}

    assert [_age(text, words) for words in (load_words(), load_words(own))] == [None, 4.0]


def _age(text: str, words: Words) -> float | None:
    return read(text, Context(), words).dogs[0].age_months


def test_a_makers_own_name_for_her_shop_is_known_in_a_pasted_chat() -> None:
    text = "Carrierhouse: is she 13 in long?\nBuyer: no, 12 in long"
    own = {"speakers": {"shop": ["carrierhouse"]}}

    told = read(text, Context(channel=Channel.PASTE), load_words(own))

    assert [fact.written.low for dog in told.dogs for fact in dog.facts] == [12.0]


def test_a_makers_own_footer_of_mails_is_left() -> None:
    text = "12 in long\n\nPinged off my 14 in slate"
    own = {"email_words": {"footer": {"begins": ["pinged off my"]}}}
    context = Context(channel=Channel.EMAIL)

    left = [[aside.why for aside in read(text, context, words).aside] for words in (load_words(), load_words(own))]

    assert left == [[SetAside.UNCLEAR], []]
