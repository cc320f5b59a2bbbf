"""Splits a pasted conversation into turns, and tells the customer's from the shop's."""

import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from replies.reading.mail import Author
from replies.reading.quantities import find_quantities
from replies.reading.shape_words import Shape
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


_Start = tuple[int, int, str]
"""Where a turn begins, where its words begin, and the name before them."""
_ROW = 2
"""So many answers with measures are a row of them."""
_MOST_NAMES = 40
"""No conversation has so many speakers."""
_CLOCK = re.compile(r"\d[:.h]\d\d", re.IGNORECASE)
"""Without a time of day no turn is stamped."""
_NAMED = re.compile(
    rf"(?m)^[ \t]*(?:[*_]{{0,2}}(?P<a>{NAME}?)(?:[ ][(\[][^\n()\[\]]{{1,20}}[)\]])?[*_]{{0,2}}:[*_]{{0,2}}"  # Anna (ES)
    rf"|<(?P<b>{NAME})>"  # <Anna>
    rf"|(?P<c>[^\W\d_]{{1,20}})[ ]?>(?=[ ]?\S))[ \t]*"  # anna>
)


def find_turns(
    text: str, words: SpeakerWords | None = None, is_field: Callable[[str], bool] | None = None
) -> tuple[Turn, ...]:
    """Split a pasted conversation into turns; () for a text that is none. In linear time.

    is_field    tells that a name before a colon is a measure, and no speaker

    Lines count as a conversation when they carry times and names, when the names are words for customer and shop, or
    when of two names one asks and the other answers. Text before the first turn belongs to none.

    >>> [(turn.speaker, turn.author.value) for turn in find_turns("Me: how tall?\\nThem: 12 in")]
    [('Me', 'shop'), ('Them', 'customer')]
    """
    words = words or standard_speaker_words()
    marks = _marks(text, words, is_field or (lambda _: False))
    if not marks:
        return ()
    ends = [start for start, _, _ in marks[1:]] + [len(text)]
    authors = _authors(_pieces(text, marks), words)
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


def _marks(text: str, words: SpeakerWords, is_field: Callable[[str], bool]) -> list[_Start]:
    """Give where each turn begins."""
    stamped = _found(words.stamped, text) if _CLOCK.search(text) else []
    if len(stamped) >= 2 and _are_speakers(text, stamped, words):
        return stamped
    named = _found(_NAMED, text) if ":" in text or ">" in text else []
    if not named:
        return []
    roles = [mark for mark in named if _author(fold(mark[2]), words)]
    authors = {fold(name): _author(fold(name), words) for _, _, name in roles}
    if len(authors) > 1 and Author.SHOP in authors.values():
        turns = roles
    else:
        turns = _asking_and_answering(text, named, words, is_field)
    before = text[: turns[0][0]] if turns else ""
    introduced = len(turns) > 2 and before.endswith("\n\n")
    return [] if before.strip() and not introduced else turns


def _are_speakers(text: str, stamped: Sequence[_Start], words: SpeakerWords) -> bool:
    """Do the names beside times speak: behind them stands a sign, one speaks twice, or one is called as a shop is."""
    names = [fold(name) for _, _, name in stamped]
    signed = any(text[start:said].rstrip().endswith((":", ">")) for start, said, _ in stamped)
    return signed or len(set(names)) < len(names) or any(_author(name, words) for name in names)


def _found(pattern: re.Pattern[str], text: str) -> list[_Start]:
    return [(match.start(), match.end(), match.group(match.lastgroup or 0).strip()) for match in pattern.finditer(text)]


def _asking_and_answering(
    text: str, named: Sequence[_Start], words: SpeakerWords, is_field: Callable[[str], bool]
) -> list[_Start]:
    """Give the turns of two names: one is called as a shop or a customer is, or one asks what the other tells."""
    counts = Counter(fold(name) for _, _, name in named)
    likely = {name for name, count in counts.items() if count > 1 or _author(name, words)}
    if not likely or not 2 <= len(counts) <= _MOST_NAMES:
        return []
    speakers = {name for name in counts if not is_field(name)}
    if len(speakers) > 2:
        speakers &= likely
    turns = [mark for mark in named if fold(mark[2]) in speakers]
    if len(speakers) != 2 or (len(turns) < 3 and not any(_author(name, words) for name in speakers)):
        return []
    pieces = _pieces(text, turns)
    told = _answered(pieces)
    if any(_author(name, words) and name not in words.weak for name in speakers):
        return turns if len(turns) > 2 or told else []
    silent = [name for name in speakers if not any(_amounts(said) for who, said in pieces if fold(who) == name)]
    return turns if len(told) == 1 and len(silent) == 1 else []


def _pieces(text: str, marks: Sequence[_Start]) -> list[tuple[str, str]]:
    """Give each turn as the name and the words."""
    ends = [start for start, _, _ in marks[1:]] + [len(text)]
    return [(name, text[said:end]) for (_, said, name), end in zip(marks, ends, strict=True)]


def _answered(pieces: Sequence[tuple[str, str]]) -> Counter[str]:
    """Count for each name how often it tells an amount right behind another's question."""
    found: Counter[str] = Counter()
    for (one, asked), (other, said) in pairwise(pieces):
        if fold(one) != fold(other) and asked.rstrip(" \n.!)").endswith("?") and _amounts(said):
            found[fold(other)] += 1
    return found


def _authors(pieces: Sequence[tuple[str, str]], words: SpeakerWords) -> dict[str, Author]:
    """Say who each speaker is: by name, else who tells what was asked is the customer, or who tells more, or begins."""
    names = list(dict.fromkeys(fold(name) for name, _ in pieces))
    known = _settle({name: _author(name, words) for name in names}, pieces, words)
    if Author.SHOP in known.values():
        return {name: author or Author.CUSTOMER for name, author in known.items()}
    if Author.CUSTOMER in known.values() and len(names) == 2:
        return {name: author or Author.SHOP for name, author in known.items()}
    told, measured = _answered(pieces), Counter[str]()
    for name, said in pieces:
        measured[fold(name)] += len(_amounts(said))
    if len(names) != 2:
        asking = [name for name in names if told and not measured[name]]
        return {name: Author.SHOP if asking == [name] else author or Author.CUSTOMER for name, author in known.items()}
    first, second = names
    customer = second if (told[second], measured[second]) > (told[first], measured[first]) else first
    return {name: Author.CUSTOMER if name == customer else Author.SHOP for name in names}


def _settle(
    known: dict[str, Author | None], pieces: Sequence[tuple[str, str]], words: SpeakerWords
) -> dict[str, Author | None]:
    """Turn to the customer who is called as the shop might be: "Me" beside "Shop", and who answers with measures."""
    surer = known.keys() - words.either
    if len(surer) == 1 == len(known) - 1 and any(known[name] is Author.SHOP for name in surer):
        return {name: Author.SHOP if name in surer else Author.CUSTOMER for name in known}
    if _told_by_either(known, pieces, words) and known.keys() - words.either <= words.weak:
        return {name: Author.CUSTOMER if name in words.either else Author.SHOP for name in known}
    if _told_by_either(known, pieces, words):
        return {name: None if name in words.either else author for name, author in known.items()}
    answering = known.keys() & words.answers
    if len(known) != 2 or len(answering) != 1:
        return known
    measured = [fold(name) in answering for name, said in pieces if _amounts(said)]
    if len(measured) < _ROW or not all(measured):
        return known
    return {name: Author.CUSTOMER if name in answering else Author.SHOP for name in known}


def _told_by_either(known: dict[str, Author | None], pieces: Sequence[tuple[str, str]], words: SpeakerWords) -> bool:
    """Does only the one who is called "Me" tell amounts, so that she may well be the customer."""
    telling = {fold(name) for name, said in pieces if _amounts(said)}
    return len(known) == 2 and len(telling) == 1 and telling <= words.either


def _author(name: str, words: SpeakerWords) -> Author | None:
    if _is_one_of(name, words.shop):
        return Author.SHOP
    return Author.CUSTOMER if _is_one_of(name, words.customer) else None


def _amounts(words: str) -> list[float]:
    if not any(map(str.isdigit, words)):
        return []
    tidied = Tidied(text=words, folded=fold(words), original=words)
    return [one.low for one in find_quantities(tidied) if one.shape == Shape.AMOUNT]


def _is_one_of(name: str, words: frozenset[str]) -> bool:
    return name in words or any(word in words for word in name.split() if len(word) > 3)
