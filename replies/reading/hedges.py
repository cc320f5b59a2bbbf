"""Finds the words around a number that say how surely it is known: "about", "12ish", "maybe"."""

from collections.abc import Iterable, Sequence
from pathlib import Path

from replies.reading.numbers import LINE, Token, tokenize
from replies.reading.tidy import fold
from replies.words import WordList, read_word_list

Phrase = tuple[str, ...]


class _Places(WordList):
    before: list[str]
    after: list[str]


class _HedgeWords(WordList):
    """hedges.toml."""

    about: _Places
    guess: _Places


def _phrases(words: Iterable[str]) -> list[Phrase]:
    return [tuple(token.text for token in tokenize(fold(word))) for word in words]


def _index(phrases: Iterable[Phrase], at: int) -> dict[str, tuple[Phrase, ...]]:
    """Sort phrases by the word that touches the number, longest first."""
    index: dict[str, tuple[Phrase, ...]] = {}
    for phrase in sorted(phrases, key=len, reverse=True):
        index[phrase[at]] = (*index.get(phrase[at], ()), phrase)
    return index


_LIST = read_word_list(Path(__file__).with_name("hedges.toml"), _HedgeWords)
_GUESSES = frozenset(_phrases([*_LIST.guess.before, *_LIST.guess.after]))
_BEFORE = _index(_phrases([*_LIST.about.before, *_LIST.guess.before]), -1)
_AFTER = _index(_phrases([*_LIST.about.after, *_LIST.guess.after]), 0)


def hedges_before(tokens: Sequence[Token], at: int) -> tuple[int, bool]:
    """Count the tokens of doubt directly before the token `at`, over several phrases ("maybe about"); is one a guess."""
    first, guess = at, False
    while first and at - first < 12 and tokens[first].gap != LINE:
        for phrase in _BEFORE.get(tokens[first - 1].text, ()):
            if _stands(tokens, first - len(phrase), phrase):
                first -= len(phrase)
                guess = guess or phrase in _GUESSES
                break
        else:
            break
    return at - first, guess


def hedges_after(tokens: Sequence[Token], at: int) -> tuple[int, bool]:
    """Count the tokens of doubt that begin at the token `at`; is one a guess."""
    last, guess = at, False
    while last < len(tokens) and last - at < 12 and tokens[last].gap != LINE:
        for phrase in _AFTER.get(tokens[last].text, ()):
            if _stands(tokens, last, phrase):
                last += len(phrase)
                guess = guess or phrase in _GUESSES
                break
        else:
            break
    return last - at, guess


def _stands(tokens: Sequence[Token], at: int, phrase: Phrase) -> bool:
    return at >= 0 and all(
        at + place < len(tokens) and tokens[at + place].text == word for place, word in enumerate(phrase)
    )
