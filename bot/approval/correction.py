"""Reads a correction as the maker types it: "width 5.5", "throat 20 cm", "Pickle: weight 13 lb". Pure."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from bot.errors import CorrectionError
from sizing.errors import AmountError
from sizing.given import read_length, read_weight
from sizing.measures import Amount, Measure
from sizing.units import is_weight

_CALLED = {
    Measure.LENGTH: ("back length", "length", "back", "long", "l"),
    Measure.HEIGHT: ("shoulder height", "height", "shoulder", "withers", "tall", "h"),
    Measure.WIDTH: ("width", "wide", "w"),
    Measure.THROAT_HEIGHT: ("throat height", "throat_height", "throat", "t"),
    Measure.WEIGHT: ("weight", "weighs"),
    Measure.GIRTH: ("girth", "chest"),
    Measure.NECK: ("neck",),
}
_MEASURE_OF = {name: measure for measure, names in _CALLED.items() for name in names}
_NAMES = sorted(_MEASURE_OF, key=len, reverse=True)
_ONE = re.compile(rf"\s*(?P<name>{'|'.join(map(re.escape, _NAMES))})\b\s*[:=]?\s*(?:is\b)?(?P<amount>.*)", re.I | re.S)
_LONGEST = 200
_WRITE = 'write it like "width 5.5", "throat 20 cm" or, with several dogs, "Pickle: weight 13 lb"'


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """A measure that the maker sets.

    dog      index, in order of first mention
    amount   inches or pounds
    """

    dog: int
    measure: Measure
    amount: Amount


def read_correction(
    text: str, dogs: Sequence[str | None], *, length_unit: str = "in", weight_unit: str = "lb"
) -> tuple[Correction, ...]:
    """Read one correction, or several with a semicolon or a line break between them.

    dogs          the names of the enquiry's dogs, in order; None: not told
    length_unit, weight_unit   of the shop, for a number without one
    Raises        CorrectionError that says what is wrong and how to write it

    >>> read_correction("width 5.5", ["Pickle"])[0].amount.low
    5.5
    """
    if len(text) > _LONGEST:
        raise CorrectionError(f"that is too long for a correction; {_WRITE}")
    lines = [line for line in re.split(r"[;\n]", text) if line.strip()]
    if not lines:
        raise CorrectionError(f"there is nothing in it; {_WRITE}")
    return tuple(_one(line.strip(), dogs, length_unit, weight_unit) for line in lines)


def _one(line: str, dogs: Sequence[str | None], length_unit: str, weight_unit: str) -> Correction:
    dog, rest = _dog(line, dogs)
    found = _ONE.fullmatch(rest)
    if found is None:
        raise CorrectionError(f"{line!r} does not begin with a measure ({', '.join(_WORDS)}); {_WRITE}")
    measure = _MEASURE_OF[" ".join(found["name"].lower().split())]
    heavy = is_weight(measure)
    try:
        written = found["amount"].strip()
        given = read_weight(written, unit=weight_unit) if heavy else read_length(written, unit=length_unit)
    except AmountError as error:
        raise CorrectionError(f"{measure.replace('_', ' ')}: {error}") from error
    return Correction(dog=dog, measure=measure, amount=given.amount)


_WORDS = tuple(measure.replace("_", " ") for measure in Measure)


def _dog(line: str, dogs: Sequence[str | None]) -> tuple[int, str]:
    """Take the dog off the front of a line: its name, or its number from 1."""
    named, colon, rest = line.partition(":")
    if colon and named.strip().lower() not in _MEASURE_OF:
        return _index(named.strip(), dogs), rest.strip()
    for index, name in enumerate(dogs):
        if name and re.match(rf"{re.escape(name)}(?:'s|’s)?\s", line, re.I):
            return index, line[len(name) :].removeprefix("'s").removeprefix("’s").strip()
    if len(dogs) > 1:
        raise CorrectionError(f"which dog? Put it first: {_choices(dogs)}")
    return 0, line


def _index(named: str, dogs: Sequence[str | None]) -> int:
    for index, name in enumerate(dogs):
        if name is not None and name.casefold() == named.casefold():
            return index
    number = named.lower().removeprefix("dog").strip()
    if number.isascii() and number.isdigit() and 1 <= int(number) <= max(1, len(dogs)):
        return int(number) - 1
    raise CorrectionError(f"there is no dog {named!r} in this enquiry; there is {_choices(dogs)}")


def _choices(dogs: Sequence[str | None]) -> str:
    named = [f'"{name}:"' if name else f'"{number}:"' for number, name in enumerate(dogs, start=1)]
    return " or ".join(named) or '"1:"'
