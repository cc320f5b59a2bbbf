"""Where phrases of each kind stand in a message, and where its sentences end: seen once, and then only looked up.

A step whose words stand nowhere in the message is spared its way through the marks.
"""

from bisect import bisect_left
from collections.abc import Sequence

from replies.reading.marks import PHRASE, SENTENCE_ENDS, STOP, Mark
from replies.reading.small_words import Small

LONGEST_SENTENCE = 80
"""Marks on either side of one that may belong to its sentence."""


class MarkIndex:
    """Looks up the marks of one message by what they stand for."""

    __slots__ = ("_by_kind", "_by_list", "_ends", "_size")

    def __init__(self, marks: Sequence[Mark]) -> None:
        self._by_kind: dict[str, list[int]] = {}
        self._by_list: dict[Small, list[int]] = {}
        self._ends: list[int] = []
        self._size = len(marks)
        for at, mark in enumerate(marks):
            if mark.kind == PHRASE:
                for kind in mark.senses.kinds:
                    self._by_kind.setdefault(kind, []).append(at)
                for one in mark.small:
                    self._by_list.setdefault(one, []).append(at)
            elif mark.kind == STOP and mark.text in SENTENCE_ENDS:
                self._ends.append(at)

    def holds(self, *kinds: str) -> bool:
        """Does a phrase of one of these kinds stand anywhere in the message."""
        return not self._by_kind.keys().isdisjoint(kinds)

    def holds_among(self, *lists: Small) -> bool:
        """Does a word of one of these lists of small words stand anywhere in the message."""
        return not self._by_list.keys().isdisjoint(lists)

    def places(self, *kinds: str) -> Sequence[int]:
        """Give the indices of the marks that stand in a list of one of these kinds, in order."""
        if len(kinds) == 1:
            return self._by_kind.get(kinds[0], ())
        return sorted({at for kind in kinds for at in self._by_kind.get(kind, ())})

    def sentence(self, at: int) -> tuple[int, int]:
        """Give the marks of the sentence in which a mark stands, as (start, end)."""
        following = bisect_left(self._ends, at)
        start = self._ends[following - 1] + 1 if following else 0
        end = self._ends[following] if following < len(self._ends) else self._size
        return max(start, at - LONGEST_SENTENCE), min(end, at + LONGEST_SENTENCE)
