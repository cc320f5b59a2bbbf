"""Finds the phrases of a list in the marks of a message."""

from collections.abc import Sequence
from dataclasses import dataclass

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


def find_cues(marks: Sequence[Mark], lexicon: Lexicon, folded: str) -> list[Cue]:
    """Find the phrases of a list, longest first. A number counts as it is written: "1st", "two". In linear time."""
    words: list[str] = []
    places: list[int] = []
    for at, mark in enumerate(marks):
        parts = folded[mark.start : mark.end].split() if mark.kind == NUMBER else mark.text.split()
        words += parts
        places += [at] * len(parts)
    words.append("\0")
    found, at = [], 0
    while at < len(places):
        hit = lexicon.find(words, at)
        size = hit[0] if hit else 1
        if hit:
            found.append(Cue(places[at], places[at + size - 1], hit[1], size))
        at += size
    return found
