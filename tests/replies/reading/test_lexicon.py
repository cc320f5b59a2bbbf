"""Phrases are found whole, longest first, and slips of the pen in long words are seen through."""

import pytest

from replies.reading.lexicon import Lexicon, Sense, Typos, expand, key

END = "\0"


def lexicon(**phrases: str) -> Lexicon:
    built = Lexicon()
    for name, phrase in phrases.items():
        built.add(phrase, Sense("kind", name))
    return built


def test_the_longest_phrase_wins() -> None:
    words = ["base", "of", "tail", END]

    found = lexicon(base="base", tail="base of tail").find(words, 0)

    assert found is not None
    assert (found[0], found[1].name("kind")) == (3, "tail")


def test_a_phrase_that_breaks_off_gives_way_to_a_shorter_one() -> None:
    found = lexicon(base="base", tail="base of tail").find(["base", "of", "neck", END], 0)

    assert found is not None
    assert found[0] == 1


def test_a_word_that_begins_nothing_is_not_found() -> None:
    assert lexicon(base="base").find(["neck", END], 0) is None


def test_a_phrase_may_have_several_senses() -> None:
    built = lexicon(base="base")
    built.add("base", Sense("other", "bottom"))

    found = built.find(["base", END], 0)

    assert found is not None
    assert (found[1].name("kind"), found[1].name("other"), found[1].name("none")) == ("base", "bottom", None)


@pytest.mark.parametrize(
    ("phrase", "rows"),
    [
        ("back", ["back"]),
        ("[the] back", ["back", "the back"]),
        ("his|her back", ["her back", "his back"]),
        ("(base|root of) tail", ["base tail", "root of tail"]),
    ],
)
def test_the_notation_of_word_lists(phrase: str, rows: list[str]) -> None:
    assert sorted(" ".join(row) for row in expand(phrase)) == rows


@pytest.mark.parametrize(
    ("word", "as_listed"), [("Rücken", "rucken"), ("Øre", "ore"), ("HÖHE", "hohe"), ("groß", "gross")]
)
def test_words_are_compared_without_marks_and_capitals(word: str, as_listed: str) -> None:
    assert key(word) == as_listed


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("lenght", "length"),
        ("shouldr", "shoulder"),
        ("shoullder", "shoulder"),
        ("sholder", "shoulder"),
        ("length", "length"),
        ("lengthy", "length"),
        ("leg", None),
        ("xength", None),
        ("sloulter", None),
        ("strength", None),
    ],
)
def test_one_slip_in_a_long_word_is_seen_through(typed: str, meant: str | None) -> None:
    assert Typos(["length", "shoulder"], never=["strength"]).meant(typed) == meant
