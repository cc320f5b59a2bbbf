"""The words by which an e-mail's quoted history, copied headers, signature and footer are told, as patterns."""

import re
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any, Self

from replies.reading.patterns import any_of
from replies.reading.tidy import fold
from replies.words import WordList, read_word_list


class _Words(WordList):
    wrote: list[str]
    original: list[str]
    forwarded: list[str]
    myself: list[str]
    shop: list[str]
    orders: list[str]


class _Header(WordList):
    sender: list[str]
    date: list[str]
    subject: list[str]
    other: list[str]


class _Closing(WordList):
    words: list[str]
    after: list[str]


class _Footer(WordList):
    begins: list[str]


class EmailList(WordList):
    """email_words.toml."""

    words: _Words
    header: _Header
    closing: _Closing
    footer: _Footer


class EmailWords:
    """The words of email_words.toml as patterns, one for each list there."""

    def __init__(self, words: EmailList) -> None:
        self.wrote = re.compile(rf"(?<!\w)(?:{_any(words.words.wrote)})(?!\w)")
        self.original = re.compile(rf"[\W_]*(?:{_any(words.words.original)})[\W_]*$")
        self.forwarded = re.compile(rf"[\W_]*(?:{_any(words.words.forwarded)})\b.{{0,80}}$")
        self.myself = re.compile(_any(words.words.myself))
        self.shop = re.compile(rf"(?<![^\W\d])(?:{_any(words.words.shop)})(?![^\W\d])")
        self.orders = re.compile(rf"[\W_]*(?:{_any(words.words.orders)})(?![^\W_])")
        kinds = words.header.model_dump()
        keys = "|".join(f"(?P<{kind}>{_any(kinds[kind])})" for kind in kinds)
        self.header = re.compile(rf"[ \t*]{{0,8}}(?:{keys})[ \t*]{{0,8}}:")
        self.closing = re.compile(rf"[\W_]{{0,8}}(?:{_any(words.closing.words)})(?![^\W_])(?P<rest>.{{0,40}})$")
        self.after = re.compile(rf"[ \t]*(?:{_any(words.closing.after)})(?![^\W_])")
        self.footer = re.compile(rf"[\W_]{{0,8}}(?:{_any(words.footer.begins)})(?![^\W_])")

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read email_words.toml, with the maker's own words added.

        Raises      WordListError
        """
        return cls(read_word_list(Path(__file__).with_name("email_words.toml"), EmailList, own))


@cache
def standard_email_words() -> EmailWords:
    """Give the words without additions, read once."""
    return EmailWords.load()


def _any(words: Sequence[str]) -> str:
    return any_of(map(fold, words))
