"""Finds the phrases of a list in the marks of a message."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Self

from replies.reading.lexicon import NO_SENSES, Lexicon, Senses
from replies.reading.marks import NUMBER, Mark


@dataclass(frozen=True, slots=True)
class Cue:
    """A phrase of a list in a message.

    first, last  indices of its marks
    senses       what it stands for, in the order of the list
    words        how many words it has
    """

    first: int
    last: int
    senses: Senses = NO_SENSES
    words: int = 1

    @property
    def names(self) -> frozenset[str]:
        """The names of what it stands for."""
        return frozenset(sense.name for sense in self.senses.all)

    def says(self, kind: str, *names: str) -> bool:
        """Does it stand under one of these names in the lists of a kind; without a name: in one of those lists."""
        return any(sense.kind == kind and (not names or sense.name in names) for sense in self.senses.all)


@dataclass(frozen=True, slots=True)
class SingleWords:
    """The words of a row of marks one by one, each with the index of its mark."""

    words: Sequence[str]
    places: Sequence[int]

    @classmethod
    def of(cls, marks: Sequence[Mark], folded: str) -> Self:
        """Part marks into words. A number counts as it is written: "1st", "two"."""
        words: list[str] = []
        places: list[int] = []
        for at, mark in enumerate(marks):
            text = folded[mark.start : mark.end] if mark.kind == NUMBER else mark.text
            parts = text.split()
            words += parts
            places += [at] * len(parts)
        words.append("\0")
        return cls(words, places)

    def find(self, lexicon: Lexicon) -> list[Cue]:
        """Find the phrases of a list, longest first. In linear time."""
        places = self.places
        return [
            Cue(places[at], places[at + size - 1], senses, size) for at, size, senses in lexicon.find_all(self.words)
        ]
