"""Conversion between the units that customers use."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizing.measures import Measure
from sizing.units import LENGTH_UNITS, WEIGHT_UNITS, from_inches, from_pounds, is_weight, to_inches, to_pounds

LENGTHS = st.floats(min_value=1e-3, max_value=1e6)


@pytest.mark.parametrize(("value", "unit", "inches"), [(2.54, "cm", 1.0), (25.4, "mm", 1.0), (1.0, "ft", 12.0)])
def test_a_length_becomes_inches(value: float, unit: str, inches: float) -> None:
    assert to_inches(value, unit) == inches


@pytest.mark.parametrize(("value", "unit", "pounds"), [(0.45359237, "kg", 1.0), (16.0, "oz", 1.0), (1.0, "st", 14.0)])
def test_a_weight_becomes_pounds(value: float, unit: str, pounds: float) -> None:
    assert to_pounds(value, unit) == pounds


@given(LENGTHS, st.sampled_from(sorted(LENGTH_UNITS)))
def test_a_length_comes_back_as_it_went(value: float, unit: str) -> None:
    assert math.isclose(from_inches(to_inches(value, unit), unit), value, rel_tol=4e-16)


@given(LENGTHS, st.sampled_from(sorted(WEIGHT_UNITS)))
def test_a_weight_comes_back_as_it_went(value: float, unit: str) -> None:
    assert math.isclose(from_pounds(to_pounds(value, unit), unit), value, rel_tol=4e-16)


@pytest.mark.parametrize("convert", [to_inches, from_inches])
def test_a_weight_unit_is_no_length_unit(convert: Callable[[float, str], float]) -> None:
    with pytest.raises(KeyError, match="'kg' is none of cm, ft, in, m, mm"):
        convert(1.0, "kg")


@pytest.mark.parametrize("convert", [to_pounds, from_pounds])
def test_a_length_unit_is_no_weight_unit(convert: Callable[[float, str], float]) -> None:
    with pytest.raises(KeyError, match="'in' is none of g, kg, lb, oz, st"):
        convert(1.0, "in")


def test_the_weight_alone_is_a_weight() -> None:
    assert [measure for measure in Measure if is_weight(measure)] == [Measure.WEIGHT]
