"""Finds the words around a number that say how surely it is known: "about", "12ish", "maybe"."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Self

from replies.reading.number_words import folded_set
from replies.reading.numbers import text_at
from replies.reading.tidy import fold
from replies.reading.tokens import GLUED, LINE, Token, tokenize
from replies.words import WordList, read_word_list

Phrase = tuple[str, ...]
_MOST_TOKENS = 12


class _Places(WordList):
    before: list[str]
    after: list[str]


class _NotAfter(WordList):
    hedges: list[str]
    words: list[str]


class _Bounds(WordList):
    floor: list[str]
    joints: list[str]
    ceiling: list[str]


class HedgeList(WordList):
    """hedges.toml."""

    about: _Places
    guess: _Places
    bounds: _Bounds
    not_after: _NotAfter


@dataclass(frozen=True, slots=True, kw_only=True)
class HedgeWords:
    """The phrases of hedges.toml, each under the word that touches the number.

    guesses     those that make a guess of it
    doubtful    words that are no hedge behind one of `not_after`: "chest around 18"
    floor       phrases before the lower of two bounds, under their last word
    joints      words between the two
    ceiling     phrases before the upper one, under their first word
    """

    before: Mapping[str, tuple[Phrase, ...]]
    after: Mapping[str, tuple[Phrase, ...]]
    guesses: frozenset[Phrase]
    doubtful: frozenset[str]
    not_after: frozenset[str]
    floor: Mapping[str, tuple[Phrase, ...]]
    joints: frozenset[str]
    ceiling: Mapping[str, tuple[Phrase, ...]]

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read hedges.toml, with the maker's own words added.

        Raises      WordListError
        """
        words = read_word_list(Path(__file__).with_name("hedges.toml"), HedgeList, own)
        return cls(
            before=_index(_phrases([*words.about.before, *words.guess.before]), -1),
            after=_index(_phrases([*words.about.after, *words.guess.after]), 0),
            guesses=frozenset(_phrases([*words.guess.before, *words.guess.after])),
            doubtful=folded_set(words.not_after.hedges),
            not_after=folded_set(words.not_after.words),
            floor=_index(_phrases(words.bounds.floor), -1),
            joints=folded_set(words.bounds.joints),
            ceiling=_index(_phrases(words.bounds.ceiling), 0),
        )


def _phrases(words: Iterable[str]) -> list[Phrase]:
    return [tuple(token.text for token in tokenize(fold(word))) for word in words]


def _index(phrases: Iterable[Phrase], touching: int) -> dict[str, tuple[Phrase, ...]]:
    index: dict[str, tuple[Phrase, ...]] = {}
    for phrase in sorted(phrases, key=len, reverse=True):
        index[phrase[touching]] = (*index.get(phrase[touching], ()), phrase)
    return index


def hedges_before(tokens: Sequence[Token], at: int, words: HedgeWords) -> tuple[int, bool]:
    """Count the tokens of doubt directly before the token `at` ("maybe about"); does one make it a guess."""
    first, guess = at, False
    while first and at - first < _MOST_TOKENS and tokens[first].gap != LINE:
        for phrase in words.before.get(tokens[first - 1].text, ()):
            start = first - len(phrase)
            if _stands(tokens, start, phrase) and not _is_spatial(tokens, start, words):
                first = start
                guess = guess or phrase in words.guesses
                break
        else:
            break
    return at - first, guess


def hedges_after(tokens: Sequence[Token], at: int, words: HedgeWords) -> tuple[int, bool]:
    """Count the tokens of doubt that begin at the token `at`; does one make a guess of the number."""
    last, guess = at, False
    while last < len(tokens) and last - at < _MOST_TOKENS and tokens[last].gap != LINE:
        for phrase in words.after.get(tokens[last].text, ()):
            if _stands(tokens, last, phrase):
                last += len(phrase)
                guess = guess or phrase in words.guesses
                break
        else:
            break
    return last - at, guess


def ceiling_behind(tokens: Sequence[Token], at: int, after: int, words: HedgeWords) -> int | None:
    """Give the index behind "but less than" where an upper bound follows an amount that has a lower one before it.

    at, after   the tokens at which the amount begins, and that follow it
    """
    floors = words.floor.get(tokens[at - 1].text, ()) if at else ()
    if not any(_stands(tokens, at - len(phrase), phrase) for phrase in floors):
        return None
    while text_at(tokens, after) in words.joints:
        after += 1
    ceilings = words.ceiling.get(text_at(tokens, after), ())
    return next((after + len(phrase) for phrase in ceilings if _stands(tokens, after, phrase)), None)


def _stands(tokens: Sequence[Token], at: int, phrase: Phrase) -> bool:
    if at < 0 or tokens[at].text != phrase[0]:
        return False
    return all(text_at(tokens, at + place) == word for place, word in enumerate(phrase) if place)


def _is_spatial(tokens: Sequence[Token], at: int, words: HedgeWords) -> bool:
    """Does "around" belong to the word before it, or is ">" the end of a mark or of a quote."""
    token = tokens[at]
    if token.text in "<>":
        return token.gap in (GLUED, LINE) and at > 0
    return token.text in words.doubtful and at > 0 and token.gap != LINE and tokens[at - 1].text in words.not_after
