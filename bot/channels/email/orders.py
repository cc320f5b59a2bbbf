"""Reads what a maker answers to a draft that she was mailed: one word, a measure, or the new text. Pure."""

import re
from dataclasses import dataclass, field
from enum import StrEnum

from replies.reading.mail import Part
from replies.reading.tidy import tidy
from replies.reading.trim_email import trim_email

_DASHES = re.compile(r"^-- ?$")
_BLANKS = re.compile(r"\s+")


class Word(StrEnum):
    """What a maker asks for."""

    APPROVE = "approve"
    SET_ASIDE = "set aside"
    CORRECT = "correct"
    CHANGE = "change"
    """Her answer is the new text."""
    LET_GO = "let it go out"
    DROP = "drop it"
    WENT = "it arrived"
    SEND_AGAIN = "send it again"
    COPIED = "copied"
    NOTHING = "nothing"
    """Her answer is empty."""
    UNCLEAR = "unclear"
    """It begins with one of these words and goes on: it could be either."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What a maker asks for. text: the new text, the measure, or the unclear word; "": none."""

    word: Word
    text: str = field(default="", repr=False)


_WORDS = {
    "approve": Word.APPROVE,
    "approved": Word.APPROVE,
    "set aside": Word.SET_ASIDE,
    "set it aside": Word.SET_ASIDE,
    "let it go out": Word.LET_GO,
    "let it go": Word.LET_GO,
    "drop it": Word.DROP,
    "drop": Word.DROP,
    "it arrived": Word.WENT,
    "arrived": Word.WENT,
    "send it again": Word.SEND_AGAIN,
    "send again": Word.SEND_AGAIN,
    "copied": Word.COPIED,
    "i have copied it": Word.COPIED,
}


def read_order(text: str, *, signed: frozenset[str] = frozenset()) -> Order:
    """Read a maker's answer. What it quotes, and what stands below "-- ", is left out.

    signed   lines that may stand below a word and mean nothing: her name, her workshop

    >>> read_order("Approve.\\n\\nOn 2 May 2026, Size wrote:\\n> Dear Ada").word
    <Word.APPROVE: 'approve'>
    """
    own = own_words(text)
    if not own:
        return Order(word=Word.NOTHING)
    first, _, rest = own.partition("\n")
    correction = re.match(r"correct\b\s*:?\s*", first, re.IGNORECASE)
    if correction and any(map(str.isdigit, first)):
        return Order(word=Word.CORRECT, text=_without_signature(own[correction.end() :], signed))
    word = _WORDS.get(_BLANKS.sub(" ", first.strip(" .!*_\t")).casefold())
    if word is None:
        return Order(word=Word.CHANGE, text=own)
    return Order(word=word) if not _without_signature(rest, signed) else Order(word=Word.UNCLEAR, text=word)


def own_words(text: str) -> str:
    """Give what she wrote herself, line by line as she wrote it."""
    plain = tidy(text).text
    trimmed = trim_email(plain)
    lines = text.split("\n") if text.count("\n") == plain.count("\n") else plain.split("\n")
    kept: list[str] = []
    for line, raw in zip(trimmed.lines, lines, strict=False):
        if _DASHES.match(raw):
            break
        if line.part in (Part.OWN, Part.SIGNATURE):
            kept.append(raw.rstrip())
    return "\n".join(kept).strip("\n")


def _without_signature(text: str, signed: frozenset[str]) -> str:
    lines = [line for line in text.split("\n") if line.strip().casefold() not in signed]
    return "\n".join(lines).strip()
