"""Splits a pasted conversation into turns, and tells the customer's from the shop's."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from replies.reading.mail import Author
from replies.reading.quantities import find_quantities
from replies.reading.speaker_words import NAME, SpeakerWords, standard_speaker_words
from replies.reading.tidy import Tidied, fold


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """What one speaker says in one go.

    start, end    with the name and time before it
    words_start   where the words begin
    """

    start: int
    end: int
    words_start: int
    speaker: str
    author: Author


_ROW = 2
"""So many answers with measures are a row of them."""
_NAMED = re.compile(rf"(?m)^[ \t]*[*_]{{0,2}}(?P<a>{NAME})[*_]{{0,2}}:[*_]{{0,2}}[ \t]*")


def find_turns(text: str, words: SpeakerWords | None = None) -> tuple[Turn, ...]:
    """Split a pasted conversation into turns; () for a text that is none. In linear time.

    Lines count as a conversation when they carry times and names, or when the names are words for customer and shop.
    Text before the first turn belongs to none.

    >>> [(turn.speaker, turn.author.value) for turn in find_turns("Me: how tall?\\nThem: 12 in")]
    [('Me', 'shop'), ('Them', 'customer')]
    """
    words = words or standard_speaker_words()
    marks = _marks(text, words)
    if not marks:
        return ()
    ends = [start for start, _, _ in marks[1:]] + [len(text)]
    pieces = [(name, text[said:end]) for (_, said, name), end in zip(marks, ends, strict=True)]
    authors = _authors(pieces, words)
    return tuple(
        Turn(start=start, end=end, words_start=said, speaker=name, author=authors[fold(name)])
        for (start, said, name), end in zip(marks, ends, strict=True)
    )


def mask_turns(text: str, turns: Sequence[Turn]) -> str:
    """Blank out the shop's turns and all names and times, so that every offset stays."""
    pieces: list[str] = []
    done = 0
    for turn in turns:
        blank = turn.end if turn.author == Author.SHOP else turn.words_start
        pieces += [text[done : turn.start], re.sub(r"[^\n]", " ", text[turn.start : blank])]
        done = blank
    return "".join([*pieces, text[done:]])


def _marks(text: str, words: SpeakerWords) -> list[tuple[int, int, str]]:
    """Give (start, start of the words, name) of each turn."""
    stamped = [
        (match.start(), match.end(), match.group(match.lastgroup or 0).strip())
        for match in words.stamped.finditer(text)
    ]
    if len(stamped) >= 2:
        return stamped
    named = [(match.start(), match.end(), match.group("a").strip()) for match in _NAMED.finditer(text)]
    roles = [mark for mark in named if fold(mark[2]) in words.shop or fold(mark[2]) in words.customer]
    names = {fold(mark[2]) for mark in roles}
    if len(names) < 2 or text[: roles[0][0]].strip():
        return []
    return roles


def _authors(pieces: Sequence[tuple[str, str]], words: SpeakerWords) -> dict[str, Author]:
    """Say who each speaker is: by name, else the one who gives more measures is the customer, or who begins."""
    names = list(dict.fromkeys(fold(name) for name, _ in pieces))
    known = _settle({name: _author(name, words) for name in names}, pieces, words)
    if Author.SHOP in known.values():
        return {name: author or Author.CUSTOMER for name, author in known.items()}
    if Author.CUSTOMER in known.values() and len(names) == 2:
        return {name: author or Author.SHOP for name, author in known.items()}
    if len(names) == 2:
        measured = dict.fromkeys(names, 0)
        for name, said in pieces:
            measured[fold(name)] += _count_measures(said)
        first, second = names
        customer = second if measured[second] > measured[first] else first
        return {name: Author.CUSTOMER if name == customer else Author.SHOP for name in names}
    return {name: author or Author.CUSTOMER for name, author in known.items()}


def _settle(
    known: dict[str, Author | None], pieces: Sequence[tuple[str, str]], words: SpeakerWords
) -> dict[str, Author | None]:
    """Turn to the customer who is called as the shop might be: "Me" beside "Shop", and who answers with measures."""
    surer = known.keys() - words.either
    if surer and set(known.values()) == {Author.SHOP}:
        return {name: Author.SHOP if name in surer else Author.CUSTOMER for name in known}
    answering = known.keys() & words.answers
    if len(known) != 2 or len(answering) != 1:
        return known
    measured = [fold(name) in answering for name, said in pieces if _count_measures(said)]
    if len(measured) < _ROW or not all(measured):
        return known
    return {name: Author.CUSTOMER if name in answering else Author.SHOP for name in known}


def _author(name: str, words: SpeakerWords) -> Author | None:
    if _is_one_of(name, words.shop):
        return Author.SHOP
    return Author.CUSTOMER if _is_one_of(name, words.customer) else None


def _count_measures(words: str) -> int:
    tidied = Tidied(text=words, folded=fold(words), original=words)
    return sum(one.dimension is not None for one in find_quantities(tidied))


def _is_one_of(name: str, words: frozenset[str]) -> bool:
    return name in words or any(word in words for word in name.split() if len(word) > 3)
