"""The words of ages.toml, checked and ready to be looked up."""

import re
from functools import cached_property

from replies.reading.patterns import any_of
from replies.reading.tidy import fold
from replies.words import OneList, WordList

MONTHS = {"weeks": 12 / 52.1775, "months": 1.0, "years": 12.0}
"""Months in one of each; a year has 365.2425 days."""


class _Units(WordList):
    weeks: list[str]
    months: list[str]
    years: list[str]


class AgeWords(WordList):
    """ages.toml."""

    units: _Units
    behind: OneList
    before: OneList
    young: OneList
    other: OneList


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
        return re.compile(rf"[\s-]*(?:{_any(self._words.behind)})\b")

    @cached_property
    def before(self) -> re.Pattern[str]:
        """The same right before it."""
        return re.compile(rf"\b(?:{_any(self._words.before)})[\s:=]*$")

    @cached_property
    def young(self) -> re.Pattern[str]:
        """In the same sentence: it is the age of a young dog."""
        return re.compile(rf"\b(?:{_any(self._words.young)})\b")

    @cached_property
    def other_behind(self) -> re.Pattern[str]:
        """Right behind a span of time: it is no age."""
        return re.compile(rf"\s*(?:{_any(self._words.other)})\b")

    @cached_property
    def other_before(self) -> re.Pattern[str]:
        """The same right before it."""
        return re.compile(rf"\b(?:{_any(self._words.other)})(?:\s+the|\s+about)?\s*$")


def _any(listed: OneList) -> str:
    return any_of(map(fold, listed.words), blank=r"\s+")
