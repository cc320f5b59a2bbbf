"""Looks up phrases: one pass over the words of a message, longest phrase first, whatever it is a phrase for."""

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from replies.reading.tidy import fold
from replies.reading.tokens import split_syllables


class Sense(NamedTuple):
    """What a phrase stands for: the list it comes from, the name it has there, and how it is used."""

    kind: str
    name: str
    form: str = ""


class Senses:
    """All that a phrase stands for, made to be asked often."""

    __slots__ = ("all", "kinds")

    def __init__(self, senses: Iterable[Sense] = ()) -> None:
        self.all = tuple(senses)
        self.kinds = frozenset(sense.kind for sense in self.all)

    def __bool__(self) -> bool:
        return bool(self.all)

    def name(self, kind: str) -> str | None:
        """Give the name under which the phrase stands in the lists of a kind; None: it stands in none."""
        if kind in self.kinds:
            for sense in self.all:
                if sense.kind == kind:
                    return sense.name
        return None

    def with_one(self, sense: Sense) -> "Senses":
        """Give these senses and another one."""
        return self if sense in self.all else Senses((*self.all, sense))


NO_SENSES = Senses()


class _Node:
    """A row of words with which phrases begin.

    senses   what the row stands for as it is; None: it is no phrase by itself
    longer   next word -> the row with it
    """

    __slots__ = ("longer", "senses")

    def __init__(self) -> None:
        self.senses: Senses | None = None
        self.longer: dict[str, _Node] = {}

    def add(self, sense: Sense) -> None:
        """Add a sense to the phrase that the row is."""
        self.senses = (self.senses or NO_SENSES).with_one(sense)


class Lexicon:
    """Phrases, word under word. Built once; afterwards only looked into."""

    def __init__(self) -> None:
        self._first: dict[str, _Node] = {}

    def add(self, phrase: str, sense: Sense) -> None:
        """Add a phrase in the notation of the word lists: [word] may be absent, one|other stand for each other."""
        for first, *rest in expand(phrase):
            node = self._first.setdefault(first, _Node())
            for word in rest:
                node = node.longer.setdefault(word, _Node())
            node.add(sense)

    def add_to_all_of(self, small: Iterable[str], sense: Sense) -> None:
        """Give a further sense to every longer phrase that is made of small words only."""
        words = {key(word) for word in small}
        rows = [node for word, node in self._first.items() if word in words]
        while rows:
            longer = [node for word, node in rows.pop().longer.items() if word in words]
            for node in longer:
                if node.senses is not None:
                    node.add(sense)
            rows += longer

    def __contains__(self, word: str) -> bool:
        return word in self._first

    def words(self) -> Iterator[str]:
        """Give every word with which a phrase begins."""
        return iter(self._first)

    def find(self, words: Sequence[str], at: int) -> tuple[int, Senses] | None:
        """Give the longest phrase that begins at a word: how many words, and its senses. None: no phrase does.

        words     with one more behind the last that no phrase holds
        """
        node = self._first.get(words[at])
        size, found = 0, None
        while node is not None:
            size += 1
            if node.senses is not None:
                found = size, node.senses
            node = node.longer.get(words[at + size]) if node.longer else None
        return found

    def find_all(self, words: Sequence[str]) -> Iterator[tuple[int, int, Senses]]:
        """Give the longest phrases of a row of words, none within another: the place of each, its words, its senses.

        words     with one more behind the last that no phrase holds
        """
        first = self._first
        at, end = 0, len(words) - 1
        while at < end:
            found = self.find(words, at) if words[at] in first else None
            if found is None:
                at += 1
            else:
                yield at, *found
                at += found[0]


_FOREIGN = str.maketrans({"ø": "o", "ł": "l", "æ": "ae", "ß": "ss", "đ": "d", "þ": "th", "œ": "oe"})


def key(word: str) -> str:
    """Give a word as it stands in the lists: folded, and with the letters of other alphabets written out."""
    return word.lower() if word.isascii() else fold(word).translate(_FOREIGN)


_PART = re.compile(r"\[([^\]]+)\]|\(([^)]+)\)|(\S+)")


def expand(phrase: str) -> list[tuple[str, ...]]:
    """Give every row of words that a phrase in the notation of the word lists stands for.

    [word] may be absent, one|other stand for each other, (one|in other words) too.

    >>> expand("end of [the|his] tail")
    [('end', 'of', 'tail'), ('end', 'of', 'the', 'tail'), ('end', 'of', 'his', 'tail')]
    """
    rows: list[tuple[str, ...]] = [()]
    for optional, group, needed in _PART.findall(phrase):
        choices = [_words(choice) for choice in (optional or group or needed).split("|")]
        longer = [(*row, *words) for row in rows for words in choices]
        rows = rows + longer if optional else longer
    return [row for row in dict.fromkeys(rows) if row]


def _words(choice: str) -> tuple[str, ...]:
    return tuple(key(part) for word in choice.split() for part in split_syllables(word))


class Typos:
    """Finds the known long word that a misspelt one was meant to be: one letter too few, too many, other or exchanged.

    Every known word is kept with each single letter taken out, so that a look-up costs the letters of the word.
    """

    def __init__(self, words: Iterable[str], never: Iterable[str]) -> None:
        self._never = frozenset(never)
        self._known: dict[str, set[str]] = {}
        for word in words:
            for shape in (word, *_without_one(word)):
                self._known.setdefault(shape, set()).add(word)

    def meant(self, word: str) -> str | None:
        """Give the known word within one slip of `word`; None: there is none, or more than one."""
        if len(word) < 4 or len(word) > 14 or word in self._never:
            return None
        found: set[str] = set()
        for shape in (word, *_without_one(word)):
            for known in self._known.get(shape, ()):
                if known[0] == word[0] and _within_one_slip(word, known):
                    found.add(known)
        return found.pop() if len(found) == 1 else None


def _without_one(word: str) -> Iterator[str]:
    return (word[:at] + word[at + 1 :] for at in range(len(word)))


def _within_one_slip(one: str, other: str) -> bool:
    if abs(len(one) - len(other)) > 1:
        return False
    at = 0
    while at < min(len(one), len(other)) and one[at] == other[at]:
        at += 1
    if len(one) > len(other):
        return one[at + 1 :] == other[at:]
    if len(one) < len(other):
        return one[at:] == other[at + 1 :]
    exchanged = one[at : at + 2][::-1] == other[at : at + 2]
    return one[at + 1 :] == other[at + 1 :] or (exchanged and one[at + 2 :] == other[at + 2 :])
