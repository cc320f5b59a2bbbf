"""The words of speakers.toml, checked and ready to be looked up."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, Self

from replies.reading.patterns import any_of
from replies.reading.tidy import fold
from replies.words import WordList, read_word_list

NAME = r"[^\W\d_][^\n:,\[\]()<>]{0,30}"
"""A speaker's name."""


class _SpeakerList(WordList):
    """speakers.toml."""

    shop: list[str]
    customer: list[str]
    either: list[str]
    answers: list[str]
    weak: list[str]
    months: list[str]
    weekdays: list[str]
    before_hour: list[str]


class SpeakerWords:
    """The words of speakers.toml.

    shop, customer   how either is called
    either           names of these that may be the other one's
    answers          names of whoever answers
    weak             names of people that are no speakers unless one asks and the other answers
    stamped          the beginning of a turn with its time and name, the name in the last group that was met
    """

    def __init__(self, words: _SpeakerList) -> None:
        self.shop = frozenset(map(fold, words.shop))
        self.customer = frozenset(map(fold, words.customer))
        self.either = frozenset(map(fold, words.either))
        self.answers = frozenset(map(fold, words.answers))
        self.weak = frozenset(map(fold, words.weak))
        time, clock = _time(words, "[:.h]"), _time(words, "[:h]")
        self.stamped = re.compile(
            rf"(?m)^[ \t]*(?:[-*>][ \t]+)?(?:"
            rf"[\[(]{time}[\])][ ]?(?:-[ ])?(?P<a>{NAME}):"  # [10:42] Anna:
            rf"|{time}(?:[ ]-)?[ ]{{1,4}}(?P<b>{NAME}):"  # 2.3.2026, 10:42 - Anna:
            rf"|(?P<c>{NAME}),[ ](?:{time}:|{clock}[ \t]*$)"  # Anna, 10:42:
            rf"|(?P<g>{NAME})[ ][-|·][ ]{clock}(?::|[ \t]*$)"  # Anna - 10:42
            rf"|[\[(]?{clock}[\])]?[ ](?:[-|·][ ])?(?P<h>{NAME})[ \t]*$"  # 10:42 Anna
            rf"|{time}[ ]{{1,4}}<(?P<i>{NAME})>"  # 10:42 <Anna>
            rf"|[\[(]{time}[\])][ ]?<(?P<j>{NAME})>"  # [10:42] <Anna>
            rf"|(?P<e>{NAME}),[ ][\[(]{time}[\])](?::|[ \t]*$)"  # Anna, [2.3.2026 10:42]
            rf"|(?P<f>{NAME})[ ]{{1,4}}{time}[ \t]*$"  # Anna  10:42
            rf"|(?P<d>{NAME})[ ][\[(]{time}[\])](?::|[ \t]*$)"  # Anna (10:42):
            rf")[ \t]*",
            re.IGNORECASE,
        )

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read speakers.toml, with the maker's own words added.

        Raises      WordListError
        """
        return cls(read_word_list(Path(__file__).with_name("speakers.toml"), _SpeakerList, own))


@cache
def standard_speaker_words() -> SpeakerWords:
    """Give the words without additions, read once."""
    return SpeakerWords.load()


def _time(words: _SpeakerList, sign: str) -> str:
    """Give the pattern of a time of day, with a weekday and a date beside it or without.

    sign    what may part hours and minutes
    """
    month = rf"(?:{any_of(words.months)})[^\W\d]{{0,6}}\.?"
    day = (
        r"(?:\d{1,4}[./-]\d{1,2}(?:[./-]\d{1,4}|[.]?(?=[, ]))"
        rf"|\d{{1,2}}\.?[ ]{month}(?:[ ]\d{{4}})?|{month}[ ]\d{{1,2}}(?:,?[ ]\d{{4}})?)"
    )
    return (
        rf"(?:(?:{any_of(words.weekdays)})[a-z]{{0,6}}\.?,?[ ])?"
        rf"(?:{day},?[ ]{{1,2}}(?:(?:{any_of(words.before_hour)})[ ])?)?"
        rf"\d{{1,2}}{sign}\d{{2}}(?:[:.]\d{{2}})?(?:[ ]?[ap]\.?m\.?)?"
        r"(?:,?[ ]\d{1,2}[./-]\d{1,2}[./-]\d{2,4})?"
    )
