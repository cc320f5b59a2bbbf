"""The conversion factors against published ones, and against the registry of a reference library.

NIST Special Publication 811, appendix B.8: 1 in = 2.54 cm and 1 ft = 30.48 cm exactly (from memory; the factors are
universal). Weights and Measures Act 1985, schedule 1 (legislation.gov.uk): 1 lb = 0.45359237 kg exactly, 1 oz = 1/16
lb, 1 st = 14 lb.
"""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.units import LENGTH_UNITS, WEIGHT_UNITS, from_inches, from_pounds, to_inches, to_pounds
from sizing.written import length_written

CM = {"in": "2.54", "ft": "30.48", "cm": "1", "mm": "0.1", "m": "100"}
KG = {"lb": "0.45359237", "oz": "0.028349523125", "st": "6.35029318", "kg": "1", "g": "0.001"}

VALUES = st.floats(min_value=0.01, max_value=5000)


@given(VALUES, st.sampled_from(sorted(LENGTH_UNITS)))
def test_a_length_is_the_float_nearest_to_the_exact_one(value: float, unit: str) -> None:
    typed = Fraction(repr(value))

    assert to_inches(value, unit) == float(typed * Fraction(CM[unit]) / Fraction("2.54"))
    assert from_inches(value, unit) == float(typed * Fraction("2.54") / Fraction(CM[unit]))


@given(VALUES, st.sampled_from(sorted(WEIGHT_UNITS)))
def test_a_weight_is_the_float_nearest_to_the_exact_one(value: float, unit: str) -> None:
    typed = Fraction(repr(value))

    assert to_pounds(value, unit) == float(typed * Fraction(KG[unit]) / Fraction("0.45359237"))
    assert from_pounds(value, unit) == float(typed * Fraction("0.45359237") / Fraction(KG[unit]))


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    """The reference library's own units, none of ours."""
    return pint.UnitRegistry(cache_folder=None)


@pytest.mark.parametrize("unit", sorted(LENGTH_UNITS))
def test_lengths_agree_with_the_reference_library(unit: str, registry: pint.UnitRegistry) -> None:
    names = {"in": "inch", "ft": "foot", "cm": "centimeter", "mm": "millimeter", "m": "meter"}

    assert to_inches(33.5, unit) == pytest.approx(registry.convert(33.5, names[unit], "inch"), rel=1e-14)


@pytest.mark.parametrize("unit", sorted(WEIGHT_UNITS))
def test_weights_agree_with_the_reference_library(unit: str, registry: pint.UnitRegistry) -> None:
    names = {"lb": "pound", "oz": "ounce", "st": "stone", "kg": "kilogram", "g": "gram"}

    assert to_pounds(5.2, unit) == pytest.approx(registry.convert(5.2, names[unit], "pound"), rel=1e-14)


@pytest.mark.parametrize(
    ("value", "unit", "other"),
    [
        (30, "cm", 11.811024),  # worked out from the exact factor, to six decimals
        (101.854, "cm", 40.1),  # NIST LC 1137: 40.1 in is 101.854 cm before it is rounded
        (91.44, "cm", 36),  # NIST LC 1137: 36 in is 91.44 cm before it is rounded
        (10.9728, "m", 432),  # NIST SP 811, B.7.2: 36 ft is 10.9728 m
    ],
)
def test_published_examples_of_lengths(value: float, unit: str, other: float) -> None:
    assert round(to_inches(value, unit), 6) == other


@pytest.mark.parametrize(
    ("value", "unit", "pounds"),
    [
        (7, "kg", 15.432358),
        (6.8, "kg", 14.991434),  # just under 15 lb
        (6.80388555, "kg", 15),
        (16.25, "oz", 1.015625),
    ],
)
def test_exact_weights_to_six_decimals(value: float, unit: str, pounds: float) -> None:
    assert round(to_pounds(value, unit), 6) == pounds


@pytest.mark.parametrize(("eighths", "written"), [(1.5, "1/4"), (2.5, "1/4"), (108.5, "13 1/2"), (107.5, "13 1/2")])
def test_halfway_numbers_are_rounded_to_the_even_neighbour(eighths: float, written: str) -> None:
    """NIST SP 811, B.7.1, and ASTM E29: a digit that lies halfway goes to the even one."""
    assert length_written(eighths / 8) == written
