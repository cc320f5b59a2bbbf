"""Splits a pasted conversation into turns, and tells the customer's from the shop's."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from replies.reading.mail import Author
from replies.reading.quantities import find_quantities
from replies.reading.tidy import Tidied, fold
from replies.words import WordList, read_word_list


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


class _SpeakerWords(WordList):
    """speakers.toml."""

    shop: list[str]
    customer: list[str]


_LIST = read_word_list(Path(__file__).with_name("speakers.toml"), _SpeakerWords)
_SHOP = frozenset(map(fold, _LIST.shop))
_CUSTOMER = frozenset(map(fold, _LIST.customer))

_MONTH = (
    r"(?:jan|feb|mar|mär|apr|may|mai|maj|mei|jun|jul|aug|sep|oct|okt|nov|dec|dez|ene|abr|ago|dic|gen|mag|giu|lug|set|ott)"
    r"[^\W\d]{0,6}\.?"
)
_DAY = (
    r"(?:\d{1,4}[./-]\d{1,2}[./-]\d{1,4}"
    rf"|\d{{1,2}}\.?[ ]{_MONTH}(?:[ ]\d{{4}})?|{_MONTH}[ ]\d{{1,2}}(?:,?[ ]\d{{4}})?)"
)
_TIME = (
    r"(?:(?:mon|tue|wed|thu|fri|sat|sun|mo|di|mi|do|fr|sa|so|lun|mar|mer|jeu|ven|sam|dim)[a-z]{0,6}\.?,?[ ])?"
    rf"(?:{_DAY},?[ ]{{1,2}}(?:at[ ]|um[ ])?)?"
    r"\d{1,2}[:.]\d{2}(?:[:.]\d{2})?(?:[ ]?[ap]\.?m\.?)?"
    r"(?:,?[ ]\d{1,2}[./-]\d{1,2}[./-]\d{2,4})?"
)
_NAME = r"[^\W\d_][^\n:,\[\]()<>]{0,30}"
_STAMPED = re.compile(
    rf"(?m)^[ \t]*(?:"
    rf"[\[(]{_TIME}[\])][ ]?(?:-[ ])?(?P<a>{_NAME}):"  # [10:42] Anna:
    rf"|{_TIME}(?:[ ]-)?[ ]{{1,4}}(?P<b>{_NAME}):"  # 2.3.2026, 10:42 - Anna:
    rf"|(?P<c>{_NAME}),[ ]{_TIME}:"  # Anna, 10:42:
    rf"|(?P<e>{_NAME}),[ ][\[(]{_TIME}[\])](?::|[ \t]*$)"  # Anna, [2.3.2026 10:42]
    rf"|(?P<f>{_NAME})[ ]{{1,4}}{_TIME}[ \t]*$"  # Anna  10:42
    rf"|(?P<d>{_NAME})[ ][\[(]{_TIME}[\])](?::|[ \t]*$)"  # Anna (10:42):
    rf")[ \t]*",
    re.IGNORECASE,
)
_NAMED = re.compile(rf"(?m)^[ \t]*[*_]{{0,2}}(?P<a>{_NAME})[*_]{{0,2}}:[*_]{{0,2}}[ \t]*")


def find_turns(text: str) -> tuple[Turn, ...]:
    """Split a pasted conversation into turns; () for a text that is none. In linear time.

    Lines count as a conversation when they carry times and names, or when the names are words for customer and shop.
    Text before the first turn belongs to none.

    >>> [(turn.speaker, turn.author.value) for turn in find_turns("Me: how tall?\\nThem: 12 in")]
    [('Me', 'shop'), ('Them', 'customer')]
    """
    marks = _marks(text)
    if not marks:
        return ()
    ends = [start for start, _, _ in marks[1:]] + [len(text)]
    pieces = [(name, text[words:end]) for (_, words, name), end in zip(marks, ends, strict=True)]
    authors = _authors(pieces)
    return tuple(
        Turn(start=start, end=end, words_start=words, speaker=name, author=authors[fold(name)])
        for (start, words, name), end in zip(marks, ends, strict=True)
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


def _marks(text: str) -> list[tuple[int, int, str]]:
    """Give (start, start of the words, name) of each turn."""
    stamped = [
        (match.start(), match.end(), match.group(match.lastgroup or 0).strip()) for match in _STAMPED.finditer(text)
    ]
    if len(stamped) >= 2:
        return stamped
    named = [(match.start(), match.end(), match.group("a").strip()) for match in _NAMED.finditer(text)]
    roles = [mark for mark in named if fold(mark[2]) in _SHOP or fold(mark[2]) in _CUSTOMER]
    names = {fold(mark[2]) for mark in roles}
    if len(names) < 2 or text[: roles[0][0]].strip():
        return []
    return roles


def _authors(pieces: Sequence[tuple[str, str]]) -> dict[str, Author]:
    """Say who each speaker is: by name, else the one who gives more measures is the customer, or who begins."""
    names = list(dict.fromkeys(fold(name) for name, _ in pieces))
    known = {
        name: Author.SHOP if _is_one_of(name, _SHOP) else Author.CUSTOMER if _is_one_of(name, _CUSTOMER) else None
        for name in names
    }
    if Author.SHOP in known.values():
        return {name: author or Author.CUSTOMER for name, author in known.items()}
    if Author.CUSTOMER in known.values() and len(names) == 2:
        return {name: author or Author.SHOP for name, author in known.items()}
    if len(names) == 2:
        measured = dict.fromkeys(names, 0)
        for name, words in pieces:
            measured[fold(name)] += _count_measures(words)
        first, second = names
        customer = second if measured[second] > measured[first] else first
        return {name: Author.CUSTOMER if name == customer else Author.SHOP for name in names}
    return {name: author or Author.CUSTOMER for name, author in known.items()}


def _count_measures(words: str) -> int:
    tidied = Tidied(text=words, folded=fold(words), original=words)
    return sum(one.dimension is not None for one in find_quantities(tidied))


def _is_one_of(name: str, words: frozenset[str]) -> bool:
    return name in words or any(word in words for word in name.split() if len(word) > 3)
