"""Reads an amount that is given directly, such as 33cm, 13 1/2 in, 1'2", 5.2kg or 12-13in.

For amounts that somebody types into a form or a command. What customers write in their messages is read elsewhere.
"""

import re
from dataclasses import dataclass

from sizing.errors import AmountError
from sizing.measures import Amount
from sizing.units import LENGTH_UNITS, WEIGHT_UNITS, to_inches, to_pounds

_SPELLINGS = {
    "in": ("in", "ins", "inch", "inches", '"', "''"),
    "cm": ("cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"),
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "m": ("m", "metre", "metres", "meter", "meters"),
    "ft": ("ft", "foot", "feet", "'"),
    "lb": ("lb", "lbs", "pound", "pounds"),
    "kg": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"),
    "g": ("g", "gram", "grams"),
    "oz": ("oz", "ounce", "ounces"),
    "st": ("st", "stone", "stones"),
}
_UNIT_OF = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings}
_BELOW = {"ft": ("in", 12), "lb": ("oz", 16), "st": ("lb", 14), "m": ("cm", 100), "kg": ("g", 1000)}
"""What may be written after a unit, and how many of it make one of the larger."""

_TOO_LARGE = 1e300
_SHOWN, _LONGEST = 40, 100

_TYPED = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "“": '"', "⁄": "/", "–": "-", "—": "-", "−": "-"})
_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}

_NUMBER = r"""
    (?: (?P<whole>\d+) [\s-]+ )? (?P<over>\d+) \s*/\s* (?P<under>\d+)   # 13 1/2, 13-1/2, 3/4
  | (?P<plain> (?: \d+ (?:[.,]\d+)? | [.,]\d+ ) (?: e[+-]?\d+ )? )       # 13, 13.5, 13,5, 1e3
"""
_TERM = re.compile(rf"\s* (?: {_NUMBER} ) \s* (?P<unit> (?!to\b)[a-z]+ | \'\' | [\"\'] )? \.?", re.VERBOSE | re.ASCII)
_BETWEEN = re.compile(r"\s* (?: - | to\b ) \s*", re.VERBOSE)
_THOUSANDS = re.compile(r"\d+,\d{3}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """An amount as it was given.

    amount        inches or pounds
    unit          in which it was given; for feet with inches and the like the smaller
    unit_stated   False: it came without a unit, and the one handed in was taken
    """

    amount: Amount
    unit: str
    unit_stated: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _End:
    """One end of an amount: its value in `unit`, None where none was written; `smaller` the smallest unit written."""

    value: float
    unit: str | None
    smaller: str | None


def read_length(text: str, *, unit: str = "in") -> Given:
    """Read a length, or a range of lengths.

    unit     for a number without one
    Raises   AmountError that says what is wrong and how to write it

    >>> read_length("13 1/2 in").amount.low, read_length("1'2\\"").amount.low, read_length("12-13in").amount.high
    (13.5, 14.0, 13.0)
    """
    return _read(text, unit, LENGTH_UNITS, "33cm, 13.5in, 13 1/2 in, 1'2\" or 12-13in")


def read_weight(text: str, *, unit: str = "lb") -> Given:
    """Read a weight, or a range of weights.

    unit     for a number without one
    Raises   AmountError that says what is wrong and how to write it

    >>> read_weight("13lb 4oz").amount.low
    13.25
    """
    return _read(text, unit, WEIGHT_UNITS, "13lb, 13lb 4oz, 5.2kg or 12-13lb")


def _read(text: str, unit: str, allowed: frozenset[str], examples: str) -> Given:
    try:
        ends = _ends(_tidied(text))
        stated = next((end.unit for end in ends if end.unit), None)
        counts = stated or unit
        values = [_inside(end.value, end.unit or counts, allowed) for end in ends]
        if values[0] > values[-1]:
            raise ValueError("a range goes from the smaller to the larger")
        smaller = ends[-1].smaller or ends[0].smaller or counts
        return Given(amount=Amount(low=values[0], high=values[-1]), unit=smaller, unit_stated=stated is not None)
    except ValueError as error:
        shown = text if len(text) <= _SHOWN else f"{text[:_SHOWN]}..."
        raise AmountError(f"{shown!r}: {error}; write it like {examples}") from error


def _tidied(text: str) -> str:
    if len(text) > _LONGEST:
        raise ValueError("that is too long for one amount")
    tidy = text.translate(_TYPED).lower()
    for sign, fraction in _VULGAR.items():
        tidy = tidy.replace(sign, f" {fraction}")
    return tidy.strip()


def _ends(text: str) -> list[_End]:
    """Give the one end of a plain amount, or the two of a range."""
    first, at = _end(text, 0)
    ends, between = [first], _BETWEEN.match(text, at)
    if between:
        second, at = _end(text, between.end())
        ends.append(second)
    if at < len(text):
        raise ValueError(f"{text[at:].strip()!r} is not understood")
    return ends


def _end(text: str, at: int) -> tuple[_End, int]:
    """Read a number with its unit, and a smaller one of the unit below it where that follows at once."""
    value, unit, at = _term(text, at)
    if unit in _BELOW and _TERM.match(text, at):
        rest, below, after = _term(text, at)
        least, parts = _BELOW[unit]
        if below not in (least, None if unit == "ft" else least):
            raise ValueError(f"after {unit} there may only come {least}")
        return _End(value=value + rest / parts, unit=unit, smaller=least), after
    return _End(value=value, unit=unit, smaller=unit), at


def _term(text: str, at: int) -> tuple[float, str | None, int]:
    found = _TERM.match(text, at)
    if not found:
        raise ValueError("there is no number above 0" if text[at:].startswith("-") else "it must begin with a number")
    written = found["unit"]
    if written is not None and written not in _UNIT_OF:
        raise ValueError(f"{written!r} is no unit that is known")
    return _number(found), _UNIT_OF[written] if written else None, found.end()


def _number(found: re.Match[str]) -> float:
    if found["plain"]:
        if _THOUSANDS.fullmatch(found["plain"]):
            raise ValueError(f"{found['plain']} may be thousands or a decimal comma")
        return float(found["plain"].replace(",", "."))
    if not int(found["under"]):
        raise ValueError("nothing is divided by 0")
    return float(found["whole"] or 0) + int(found["over"]) / int(found["under"])


def _inside(value: float, unit: str, allowed: frozenset[str]) -> float:
    if unit not in allowed:
        raise ValueError(f"{unit} is no unit of {'length' if allowed is LENGTH_UNITS else 'weight'}")
    if not 0 < value < _TOO_LARGE:
        raise ValueError("there is no number above 0" if value <= 0 else "the number is too large")
    return to_inches(value, unit) if allowed is LENGTH_UNITS else to_pounds(value, unit)
