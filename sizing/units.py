"""Inches and centimetres, pounds and kilograms: the only conversion factors in the project.

The factors are exact: NIST SP 811, appendix B.8 (inch, foot), and the Weights and Measures Act 1985, schedule 1
(pound). pint does the conversion; it is imported on first use, with these few units instead of its hundreds.
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from functools import cache
from math import isfinite
from typing import TYPE_CHECKING, Any

from sizing.measures import Measure

if TYPE_CHECKING:
    from pint import UnitRegistry

_DEFINITIONS = (
    "centimetre = [length] = cm",
    "millimetre = 0.1 centimetre = mm",
    "metre = 100 centimetre = m",
    "inch = 2.54 centimetre = in",
    "foot = 12 inch = ft",
    "kilogram = [mass] = kg",
    "gram = 0.001 kilogram = g",
    "pound = 0.45359237 kilogram = lb",
    "ounce = 0.0625 pound = oz",
    "stone = 14 pound = st",
)


class LengthUnit(StrEnum):
    """Units in which people give a length."""

    IN = "in"
    CM = "cm"
    MM = "mm"
    M = "m"
    FT = "ft"


class WeightUnit(StrEnum):
    """Units in which people give a weight."""

    LB = "lb"
    KG = "kg"
    G = "g"
    OZ = "oz"
    ST = "st"


LENGTH_UNITS: frozenset[str] = frozenset(LengthUnit)
WEIGHT_UNITS: frozenset[str] = frozenset(WeightUnit)


@cache
def _registry() -> UnitRegistry[Any]:
    from pint import UnitRegistry

    registry: UnitRegistry[Any] = UnitRegistry(None, non_int_type=Fraction)
    for definition in _DEFINITIONS:
        registry.define(definition)
    return registry


@cache
def _factor(given: str, wanted: str) -> tuple[int, int]:
    return Fraction(_registry().convert(Fraction(1), given, wanted)).as_integer_ratio()


def _convert(value: float, given: str, wanted: str) -> float:
    # In whole numbers made of the decimal that was typed: 33.02 cm are 13 in, not 13.000000000000002.
    if given == wanted:
        return value
    if not isfinite(value):
        raise ValueError(f"{value} is not finite")
    times, parts = _factor(given, wanted)
    over, under = Decimal(repr(float(value))).as_integer_ratio()
    return over * times / (under * parts)


def to_inches(value: float, unit: str) -> float:
    """Give a length in inches.

    value    in `unit`, which is one of LENGTH_UNITS
    Raises   KeyError for another unit, ValueError for what is not finite, OverflowError beyond the largest float

    >>> to_inches(33, "cm")
    12.992125984251969
    """
    return _convert(value, _known(unit, LENGTH_UNITS), "in")


def from_inches(value: float, unit: str) -> float:
    """Give a length of `value` inches in `unit`, which is one of LENGTH_UNITS.

    Raises   KeyError for another unit, ValueError for what is not finite, OverflowError beyond the largest float

    >>> from_inches(14.5, "cm")
    36.83
    """
    return _convert(value, "in", _known(unit, LENGTH_UNITS))


def to_pounds(value: float, unit: str) -> float:
    """Give a weight in pounds.

    value    in `unit`, which is one of WEIGHT_UNITS
    Raises   KeyError for another unit, ValueError for what is not finite, OverflowError beyond the largest float

    >>> to_pounds(8, "oz")
    0.5
    """
    return _convert(value, _known(unit, WEIGHT_UNITS), "lb")


def from_pounds(value: float, unit: str) -> float:
    """Give a weight of `value` pounds in `unit`, which is one of WEIGHT_UNITS.

    Raises   KeyError for another unit, ValueError for what is not finite, OverflowError beyond the largest float

    >>> from_pounds(15, "kg")
    6.80388555
    """
    return _convert(value, "lb", _known(unit, WEIGHT_UNITS))


def is_weight(measure: Measure) -> bool:
    """Tell whether a measure is a weight; all others are lengths."""
    return measure is Measure.WEIGHT


def _known(unit: str, units: frozenset[str]) -> str:
    if unit not in units:
        raise KeyError(f"{unit!r} is none of {', '.join(sorted(units))}")
    return unit
