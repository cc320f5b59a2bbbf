"""What a customer said, said back: the number as she wrote it and in her own unit."""

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from pathlib import Path

from replies.enquiry import Enquiry, Known
from replies.words import WordList, read_word_list
from replies.writing.plain import one_line
from sizing.measures import Amount, Measure
from sizing.units import WEIGHT_UNITS, from_inches, from_pounds
from sizing.written import amount_with_unit

_LONGEST = 30
_MARKS = frozenset("\"'”″’′")
_TOKEN = re.compile(
    r"""
    \d{1,4} (?: [.,]\d{1,3} )? (?: / \d{1,2} )?   # 14, 14.5, 14,5, 1/2
  | [½¼¾⅛⅜⅝⅞]
  | [^\W\d_]+                                     # a word
  | ["'”″’′]                                       # feet and inches
  | [-–\s]+
    """,
    re.VERBOSE,
)


class SaidWords(WordList):
    """The shape of said.toml."""

    numbers: frozenset[str]
    between: frozenset[str]
    units: frozenset[str]


@cache
def _words() -> SaidWords:
    return read_word_list(Path(__file__).with_name("said.toml"), SaidWords)


def as_said(known: Known) -> str:
    """Give a measure as the customer gave it, never rounded: in her own words where they are an amount and no more.

    A number without a unit stays without one. A value that the maker set is written in the unit in which it is kept.
    """
    about = "about " if known.taken.hedged else ""
    words = one_line(known.source.at.words) if known.source.at else ""
    if _is_an_amount(words, with_unit=known.taken.unit_stated):
        return about + words
    low, high = (_digits(end, known.unit) for end in known.written)
    unit = f" {known.unit}" if known.taken.unit_stated else ""
    return f"{about}{low}{unit}" if low == high else f"{about}{low} to {high}{unit}"


def _is_an_amount(words: str, *, with_unit: bool) -> bool:
    """Tell whether words are numbers, with a unit if there is to be one, and nothing else."""
    tokens = _TOKEN.findall(words)
    if "".join(tokens) != words or len(words) > _LONGEST:
        return False
    letters = {token.lower() for token in tokens if token.isalpha() and not token.isnumeric()}
    units = letters & _words().units or _MARKS.intersection(tokens)
    number = any(token[0].isnumeric() for token in tokens) or bool(letters & _words().numbers)
    known = _words().numbers | _words().between | _words().units
    return number and letters <= known and (bool(units) or not with_unit)


def values_said(enquiry: Enquiry, dog: int, measure: Measure) -> tuple[str, ...]:
    """Give the different values that a customer gave for a measure and that contradict one another, as she wrote them.

    Returns   () where one of them is not hers or is not found as she wrote it
    """
    known = enquiry.dogs[dog].measures[measure]
    if known.source.by_maker:
        return ()
    units = list(dict.fromkeys((known.unit, *_units_used(enquiry, measure))))
    said = tuple(_as_written(amount, units, measure) for amount in known.taken.conflicting)
    return tuple(words for words in said if words) if all(said) else ()


def in_own_units(known: Known, *, length_unit: str, weight_unit: str) -> str:
    """Give a measure as a sewer writes it, in the customer's own unit for it.

    length_unit, weight_unit   hers: for what the maker set, and for what came without a unit
    """
    own = known.unit if known.taken.unit_stated and not known.source.by_maker else None
    weight = known.unit in WEIGHT_UNITS
    return amount_with_unit(known.taken.amount, own or (weight_unit if weight else length_unit))


def _as_written(amount: Amount, units: list[str], measure: Measure) -> str | None:
    """The unit in which a value was written is the one in which it is a short number."""
    convert = from_pounds if measure is Measure.WEIGHT else from_inches
    for unit in units:
        ends = [convert(end, unit) for end in (amount.low, amount.high)]
        short = [_short(end) for end in ends]
        if None not in short:
            numbers = list(dict.fromkeys(_digits(end, unit) for end in short if end is not None))
            return f"{' to '.join(numbers)} {unit}"
    return None


def _short(value: float) -> float | None:
    for parts in (16, 100):
        rounded = round(value * parts) / parts
        if abs(value - rounded) <= 1e-6 * max(1.0, value):
            return rounded
    return None


def _units_used(enquiry: Enquiry, measure: Measure) -> Iterator[str]:
    for reading in enquiry.readings.values():
        for dog in reading.dogs:
            yield from (
                fact.unit for fact in dog.facts if (fact.measure is Measure.WEIGHT) is (measure is Measure.WEIGHT)
            )


def _digits(number: float, unit: str) -> str:
    """Eighths of an inch as a fraction, all else as a decimal; never another number than the one given."""
    eighths = number * 8
    if unit == "in" and eighths == int(eighths) and number != int(number):
        whole, rest = divmod(Fraction(int(eighths), 8), 1)
        return f"{whole} {rest}" if whole else f"{rest}"
    return f"{number:.6f}".rstrip("0").rstrip(".")
