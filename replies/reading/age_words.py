"""The words of ages.toml, checked and ready to be looked up."""

import re
from collections.abc import Iterable
from functools import cached_property

from replies.reading.tidy import fold
from replies.words import WordList

MONTHS = {"weeks": 12 / 52.1775, "months": 1.0, "years": 12.0}
"""Months in one of each; a year has 365.2425 days."""


class _Words(WordList):
    words: list[str]


class _Units(WordList):
    weeks: list[str]
    months: list[str]
    years: list[str]


class AgeWords(WordList):
    """ages.toml."""

    units: _Units
    behind: _Words
    before: _Words
    young: _Words
    other: _Words


class AgeVocabulary:
    """The words of ages.toml as patterns, each made when a message first needs it."""

    def __init__(self, words: AgeWords) -> None:
        self._words = words

    @cached_property
    def units(self) -> dict[str, float]:
        """Months in one of each unit, by word."""
        listed = self._words.units.model_dump().items()
        return {fold(word): MONTHS[name] for name, words in listed for word in words}

    @cached_property
    def behind(self) -> re.Pattern[str]:
        """Right behind a span of time: it is an age."""
        return re.compile(rf"[\s-]*(?:{_any(self._words.behind.words)})\b")

    @cached_property
    def before(self) -> re.Pattern[str]:
        """The same right before it."""
        return re.compile(rf"\b(?:{_any(self._words.before.words)})[\s:=]*$")

    @cached_property
    def young(self) -> re.Pattern[str]:
        """In the same sentence: it is the age of a young dog."""
        return re.compile(rf"\b(?:{_any(self._words.young.words)})\b")

    @cached_property
    def other_behind(self) -> re.Pattern[str]:
        """Right behind a span of time: it is no age."""
        return re.compile(rf"\s*(?:{_any(self._words.other.words)})\b")

    @cached_property
    def other_before(self) -> re.Pattern[str]:
        """The same right before it."""
        return re.compile(rf"\b(?:{_any(self._words.other.words)})(?:\s+the|\s+about)?\s*$")


def _any(words: Iterable[str]) -> str:
    return "|".join(r"\s+".join(map(re.escape, fold(one).split())) for one in sorted(words, key=len, reverse=True))
