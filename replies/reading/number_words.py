"""The words of which numbers are made, from numbers.toml, ready to be looked up."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Self

from pydantic import Field

from replies.reading.tidy import fold
from replies.reading.tokens import tokenize
from replies.words import WordList, read_word_list

Listed = list[str]
Phrases = Mapping[str, tuple[tuple[str, ...], ...]]
"""Phrases of several words, each under its first word."""


class _Joined(WordList):
    link: str
    ones: Listed
    tens: Listed
    tens_first: bool = False


class _Words(WordList):
    hundred: Listed
    one_and_a_half: Listed
    article: Listed
    and_: Listed = Field(alias="and")
    ten_and: Listed
    of: Listed
    half_of: Listed
    point: Listed
    to: Listed
    or_: Listed = Field(alias="or")
    between: Listed
    times: Listed
    restates: Listed
    restates_about: Listed
    before_item: Listed
    even: Listed
    goes_on: Listed
    up_to: Listed
    or_maybe: Listed
    tolerance: Listed
    only_with_unit: Listed


class _Glued(WordList):
    letters: Listed
    words: Listed
    slang: Listed


class NumberList(WordList):
    """numbers.toml."""

    whole: dict[int, Listed]
    phrases: dict[int, Listed]
    joined: list[_Joined]
    parts: dict[int, Listed]
    glued_parts: dict[int, Listed]
    words: _Words
    glued: _Glued


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberWords:
    """The words of numbers.toml, ready to be looked up; each field is named as its list there."""

    whole: Mapping[str, int]
    phrases: Mapping[str, tuple[tuple[tuple[str, ...], int], ...]]
    parts: Mapping[str, int]
    glued_parts: Mapping[str, int]
    hundred: frozenset[str]
    one_and_a_half: frozenset[str]
    article: frozenset[str]
    and_: frozenset[str]
    ten_and: frozenset[str]
    of: frozenset[str]
    half_of: frozenset[str]
    point: frozenset[str]
    to: frozenset[str]
    or_: frozenset[str]
    between: frozenset[str]
    times: frozenset[str]
    restates: frozenset[str]
    restates_about: frozenset[str]
    before_item: frozenset[str]
    even: frozenset[str]
    goes_on: frozenset[str]
    up_to: Phrases
    or_maybe: Phrases
    tolerance: Phrases
    only_with_unit: frozenset[str]
    glued_letters: frozenset[str]
    glued_words: frozenset[str]
    slang: frozenset[str]

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read numbers.toml, with the maker's own words added.

        Raises      WordListError
        """
        words = read_word_list(Path(__file__).with_name("numbers.toml"), NumberList, own)
        kinds = words.words
        return cls(
            whole=_by_word(words.whole) | _joined(words.joined),
            phrases=_by_first_word(words.phrases),
            parts=_by_word(words.parts),
            glued_parts=_by_word(words.glued_parts),
            hundred=folded_set(kinds.hundred),
            one_and_a_half=folded_set(kinds.one_and_a_half),
            article=folded_set(kinds.article),
            and_=folded_set(kinds.and_),
            ten_and=folded_set(kinds.ten_and),
            of=folded_set(kinds.of),
            half_of=folded_set(kinds.half_of),
            point=folded_set(kinds.point),
            to=folded_set(kinds.to),
            or_=folded_set(kinds.or_),
            between=folded_set(kinds.between),
            times=folded_set(kinds.times),
            restates=folded_set(kinds.restates),
            restates_about=folded_set(kinds.restates_about),
            before_item=folded_set(kinds.before_item),
            even=folded_set(kinds.even),
            goes_on=folded_set(kinds.goes_on),
            up_to=_cut(kinds.up_to),
            or_maybe=_cut(kinds.or_maybe),
            tolerance=_cut(kinds.tolerance),
            only_with_unit=folded_set(kinds.only_with_unit),
            glued_letters=folded_set(words.glued.letters),
            glued_words=folded_set(words.glued.words),
            slang=folded_set(words.glued.slang),
        )

    def opening(self) -> frozenset[str]:
        """Give every word with which a number, or a part of one, may begin."""
        return frozenset().union(self.whole, self.phrases, self.parts, self.hundred, self.one_and_a_half, self.article)


def folded_set(words: Sequence[str]) -> frozenset[str]:
    """Give the words as they are looked up."""
    return frozenset(map(fold, words))


def _cut(phrases: Sequence[str]) -> dict[str, tuple[tuple[str, ...], ...]]:
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for phrase in sorted(phrases, key=len, reverse=True):
        cut = tuple(token.text for token in tokenize(fold(phrase)))
        found[cut[0]] = (*found.get(cut[0], ()), cut)
    return found


def _by_word(groups: Mapping[int, Sequence[str]]) -> dict[str, int]:
    return {fold(word): value for value, words in groups.items() for word in words}


def _by_first_word(groups: Mapping[int, Sequence[str]]) -> dict[str, tuple[tuple[tuple[str, ...], int], ...]]:
    """Put each phrase, cut into tokens, under its first word, the longest first."""
    found: dict[str, tuple[tuple[tuple[str, ...], int], ...]] = {}
    for value, phrases in groups.items():
        for phrase in phrases:
            cut = tuple(token.text for token in tokenize(fold(phrase)))
            known = (*found.get(cut[0], ()), (cut, value))
            found[cut[0]] = tuple(sorted(known, key=lambda one: -len(one[0])))
    return found


def _joined(groups: Sequence[_Joined]) -> dict[str, int]:
    """Make "achtundzwanzig" and "ventotto" and their like."""
    return {
        _join(fold(one), fold(group.link), fold(ten), tens_first=group.tens_first): (tens + 2) * 10 + ones + 1
        for group in groups
        for ones, one in enumerate(group.ones)
        for tens, ten in enumerate(group.tens)
    }


def _join(one: str, link: str, ten: str, *, tens_first: bool) -> str:
    """Join ones and tens; of two vowels that meet in "venti" and "otto" the first falls."""
    if not tens_first:
        return one + link + ten
    return (ten[:-1] if one[0] in "aeiou" else ten) + link + one
