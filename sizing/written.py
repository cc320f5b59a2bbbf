"""Numbers as sewers write them: inches in eighths, centimetres in halves, pounds with ounces, kilograms in tenths."""

import math
from fractions import Fraction

from sizing.measures import Amount
from sizing.units import from_inches, from_pounds

_TOO_LONG = 10**9
"""Numbers from here on are no dog's and are written short."""


def length_written(inches: float, unit: str = "in") -> str:
    """Write a length without its unit.

    unit      "in": to the nearest eighth; "cm": to the nearest half; mm, m and ft are written like "cm" (the first
              two) and "in"
    Raises    nothing: a number that is not finite is written as it is

    >>> length_written(13.5), length_written(13.5, "cm"), length_written(0.4)
    ('13 1/2', '34.5', '3/8')
    """
    if not math.isfinite(inches):
        return f"{inches:g}"
    if unit in ("in", "ft"):
        return _in_eighths(inches)
    return _in_decimals(_nearest(from_inches(inches, "cm"), 2))


def length_with_unit(inches: float, unit: str = "in") -> str:
    """Write a length with its unit: "in" for in and ft, "cm" for cm, mm and m.

    >>> length_with_unit(13.5), length_with_unit(13.5, "mm")
    ('13 1/2 in', '34.5 cm')
    """
    return f"{length_written(inches, unit)} {'in' if unit in ('in', 'ft') else 'cm'}"


def weight_with_unit(pounds: float, unit: str = "lb") -> str:
    """Write a weight with its unit: pounds and ounces for lb, oz and st, kilograms for kg and g.

    >>> weight_with_unit(13.25), weight_with_unit(13), weight_with_unit(13.25, "kg")
    ('13 lb 4 oz', '13 lb', '6 kg')
    """
    if not math.isfinite(pounds):
        return f"{pounds:g} {'kg' if unit in ('kg', 'g') else 'lb'}"
    if unit in ("kg", "g"):
        kilograms = from_pounds(pounds, "kg")
        return f"{_in_decimals(_nearest(kilograms, 10 if kilograms >= 1 else 100))} kg"
    ounces = _nearest(pounds, 16)
    if isinstance(ounces, float) or ounces >= _TOO_LONG:
        return f"{float(ounces):g} lb"
    whole, rest = divmod(ounces * 16, 16)
    if rest == 0:
        return f"{whole} lb"
    return f"{whole} lb {rest} oz" if whole else f"{rest} oz"


def amount_with_unit(amount: Amount, unit: str) -> str:
    """Write a length or a weight, or a range of either, with its unit.

    unit   a length unit makes it a length, a weight unit a weight

    >>> amount_with_unit(Amount(low=12, high=13.5), "in")
    '12 to 13 1/2 in'
    """
    write = weight_with_unit if unit in ("lb", "kg", "g", "oz", "st") else length_with_unit
    low, high = write(amount.low, unit), write(amount.high, unit)
    if low == high:
        return low
    number, _, of = low.rpartition(" ")
    alone = high.endswith(f" {of}") and "lb" not in number
    return f"{number if alone else low} to {high}"


def _nearest(value: float, parts: int) -> Fraction | float:
    return Fraction(round(value * parts), parts) if math.isfinite(value * parts) else value


def _in_eighths(inches: float) -> str:
    rounded = _nearest(inches, 8)
    if isinstance(rounded, float) or abs(rounded) >= _TOO_LONG:
        return f"{float(rounded):g}"
    whole, rest = divmod(abs(rounded), 1)
    sign = "-" if rounded < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def _in_decimals(rounded: Fraction | float) -> str:
    if isinstance(rounded, float) or abs(rounded) >= _TOO_LONG:
        return f"{float(rounded):g}"
    return f"{float(rounded):.2f}".rstrip("0").rstrip(".")
