"""Finds the phrases of rivals.toml in the marks of a message."""

from collections.abc import Sequence
from dataclasses import dataclass

from replies.reading.lexicon import Lexicon
from replies.reading.marks import NUMBER, Mark


@dataclass(frozen=True, slots=True)
class Hit:
    """A phrase of rivals.toml in a message.

    first, last  indices of its marks
    names        the lists in which it stands
    words        how many words it has
    """

    first: int
    last: int
    names: frozenset[str]
    words: int = 1


def find_hits(marks: Sequence[Mark], lexicon: Lexicon, folded: str) -> list[Hit]:
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
            names = frozenset(one.name for one in hit[1].all)
            found.append(Hit(places[at], places[at + size - 1], names, size))
        at += size
    return found
