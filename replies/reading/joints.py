"""What may stand between the numbers of a list and around a unit that is said once, as patterns of the known words."""

import re
from dataclasses import dataclass
from typing import Self

from replies.reading.number_words import NumberWords
from replies.reading.patterns import any_of
from replies.reading.unit_words import UnitWords


@dataclass(frozen=True, slots=True, kw_only=True)
class Joints:
    """Patterns made of numbers.toml and unit_words.toml.

    times      joins the sides of a product: "14 x 5", "14L x W5"
    listed     joins the numbers of a list: "14, 11 and 5.5 in"
    stated     before a unit that is said of all: "all in cm"
    restates   before an amount that says the one before it again: "15 lb (6.8 kg)"
    numbered   the number of an item at the beginning of a line: "1. 14", "zu 1: 31 cm"
    """

    times: re.Pattern[str]
    listed: re.Pattern[str]
    stated: re.Pattern[str]
    restates: re.Pattern[str]
    numbered: re.Pattern[str]

    @classmethod
    def of(cls, numbers: NumberWords, units: UnitWords) -> Self:
        """Make the patterns of the words."""
        joined = any_of(numbers.and_)
        return cls(
            times=re.compile(
                r"(?:[lwhtb](?![a-z]))?[ \t]*(?:\(?[a-z]{1,9}\)?\.?[ \t]+|\([a-z]{1,9}\)\.?)?"  # 14L, 14 long, 14 (L)
                rf"(?:{any_of(numbers.times)})(?![a-z]{{2}})[ \t]*"
                r"(?:[a-z]{1,9}[ \t]*[:=]?[ \t]*)?"  # x W5, x width 5
            ),
            listed=re.compile(rf"[ \t]*(?:,[ \t]*(?:{joined})|,|{joined}|/|-|[ \t])[ \t]*"),
            stated=re.compile(rf"\b(?:{any_of(units.before_alone)})[ \t]*$"),
            restates=re.compile(
                rf"[ \t]*(?:\(|/|=|,|{any_of(numbers.restates)})[ \t]*"
                rf"(?:=|~|{any_of(numbers.restates_about)})?[ \t]*"
            ),
            numbered=re.compile(
                rf"(?m)^[ \t>*(]*(?:(?:{any_of(numbers.before_item)})[ \t]*)?"
                r"(\d{1,2})(\.\)|[):]|\.(?![.\d])|/(?=[ \t])|(?=[ \t]))[ \t]*(?=\S)"
            ),
        )
