"""The shapes that a number may have, and the words that show them, from shapes.toml, ready to be looked up."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any, Self

from replies.reading.number_words import folded_set
from replies.reading.tidy import fold
from replies.words import WordList, read_word_list


class Shape(StrEnum):
    """What a number is by its look."""

    AMOUNT = "amount"
    """A plain number, with or without a unit of length or weight."""
    HASH = "hash"
    """"#11": eleven pounds, or a reference."""
    DATE = "date"
    TIME = "time"
    DURATION = "duration"
    """So many years, weeks, minutes."""
    MONEY = "money"
    PHONE = "phone"
    PERCENT = "percent"
    ORDINAL = "ordinal"
    CODE = "code"
    """A reference, a size number, letters and figures mixed."""
    ADDRESS = "address"
    """A house number or a postcode."""
    TEMPERATURE = "temperature"
    LINK = "link"
    """In a web or e-mail address."""
    MARKUP = "markup"
    """In markup, a template or a mention."""
    STRUCK = "struck"
    """Struck through by the customer: "~~14~~"."""
    ENUMERATOR = "enumerator"
    """The number of an item in a list: "2. 19 cm"."""
    COUNT = "count"
    """So many pieces: "2 x"."""
    OTHER = "other"
    """So many miles, litres, stars."""


class _Date(WordList):
    months: list[str]
    doubtful: list[str]
    before: list[str]
    before_points: list[str]


class _Time(WordList):
    before: list[str]
    before_points: list[str]
    after: list[str]


class _Money(WordList):
    before: list[str]
    after: list[str]


class _Behind(WordList):
    percent: list[str]
    degrees: list[str]
    weighing: list[str]
    ordinals: list[str]
    durations: list[str]
    others: list[str]
    not_before: dict[str, list[str]]


class _Codes(WordList):
    references: list[str]
    numbered: list[str]
    counted_off: list[str]
    sizes: list[str]
    phones: list[str]


class _Addresses(WordList):
    postcodes: list[str]
    streets: list[str]
    before: list[str]
    endings: list[str]


class ShapeList(WordList):
    """shapes.toml."""

    date: _Date
    time: _Time
    money: _Money
    behind: _Behind
    codes: _Codes
    addresses: _Addresses


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeWords:
    """The words of shapes.toml, ready to be looked up; `behind` gives the shape that a word behind a number shows."""

    months: frozenset[str]
    doubtful_months: frozenset[str]
    date_before: frozenset[str]
    date_before_points: frozenset[str]
    time_before: frozenset[str]
    time_before_points: frozenset[str]
    money_before: frozenset[str]
    weighing: frozenset[str]
    ordinals: frozenset[str]
    behind: Mapping[str, Shape]
    not_before: Mapping[str, frozenset[str]]
    references: frozenset[str]
    numbered: frozenset[str]
    counted_off: frozenset[str]
    sizes: frozenset[str]
    phones: frozenset[str]
    postcodes: frozenset[str]
    streets: frozenset[str]
    house_before: frozenset[str]
    street_endings: tuple[str, ...]

    @classmethod
    def load(cls, own: Mapping[str, Any] | None = None) -> Self:
        """Read shapes.toml, with the maker's own words added.

        Raises      WordListError
        """
        words = read_word_list(Path(__file__).with_name("shapes.toml"), ShapeList, own)
        behind = words.behind
        return cls(
            months=folded_set(words.date.months),
            doubtful_months=folded_set(words.date.doubtful),
            date_before=folded_set(words.date.before),
            date_before_points=folded_set(words.date.before_points),
            time_before=folded_set(words.time.before),
            time_before_points=folded_set(words.time.before_points),
            money_before=folded_set(words.money.before),
            weighing=folded_set(behind.weighing),
            ordinals=folded_set(behind.ordinals),
            behind={
                **dict.fromkeys(folded_set(behind.others), Shape.OTHER),
                **dict.fromkeys(folded_set(behind.durations), Shape.DURATION),
                **dict.fromkeys(folded_set(behind.degrees), Shape.TEMPERATURE),
                **dict.fromkeys(folded_set(behind.percent), Shape.PERCENT),
                **dict.fromkeys(folded_set(words.money.after), Shape.MONEY),
                **dict.fromkeys(folded_set(words.time.after), Shape.TIME),
            },
            not_before={fold(word): folded_set(taken) for word, taken in behind.not_before.items()},
            references=folded_set(words.codes.references),
            numbered=folded_set(words.codes.numbered),
            counted_off=folded_set(words.codes.counted_off),
            sizes=folded_set(words.codes.sizes),
            phones=folded_set(words.codes.phones),
            postcodes=folded_set(words.addresses.postcodes),
            streets=folded_set(words.addresses.streets),
            house_before=folded_set(words.addresses.before),
            street_endings=tuple(folded_set(words.addresses.endings)),
        )
