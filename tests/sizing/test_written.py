"""Numbers as sewers write them."""

import pytest

from sizing.measures import Amount
from sizing.written import amount_with_unit, length_with_unit, length_written, weight_with_unit


@pytest.mark.parametrize(
    ("inches", "written"),
    [
        (13.0, "13"),
        (13.5, "13 1/2"),
        (13.25, "13 1/4"),
        (13.875, "13 7/8"),
        (0.375, "3/8"),
        (0.0, "0"),
        (-0.25, "-1/4"),
        (-1.5, "-1 1/2"),
        (13.49, "13 1/2"),
        (13.99, "14"),
    ],
)
def test_inches_are_written_in_eighths(inches: float, written: str) -> None:
    assert length_written(inches) == written


@pytest.mark.parametrize(("inches", "written"), [(13.5, "34.5"), (10.0, "25.5"), (12.992, "33"), (-0.2, "-0.5")])
def test_centimetres_are_written_in_halves(inches: float, written: str) -> None:
    assert length_written(inches, "cm") == written


@pytest.mark.parametrize(("unit", "written"), [("in", "13 in"), ("ft", "13 in"), ("cm", "33 cm"), ("mm", "33 cm")])
def test_a_length_carries_the_unit_that_it_is_written_in(unit: str, written: str) -> None:
    assert length_with_unit(13.0, unit) == written


@pytest.mark.parametrize(
    ("pounds", "unit", "written"),
    [
        (13.0, "lb", "13 lb"),
        (13.25, "lb", "13 lb 4 oz"),
        (0.5, "oz", "8 oz"),
        (15.99, "lb", "16 lb"),
        (11.464037633613634, "kg", "5.2 kg"),
        (1.5, "g", "0.68 kg"),
    ],
)
def test_a_weight_is_written_in_pounds_and_ounces_or_kilograms(pounds: float, unit: str, written: str) -> None:
    assert weight_with_unit(pounds, unit) == written


@pytest.mark.parametrize(
    ("low", "high", "unit", "written"),
    [
        (12.0, 12.0, "in", "12 in"),
        (12.0, 13.5, "in", "12 to 13 1/2 in"),
        (12.0, 13.0, "cm", "30.5 to 33 cm"),
        (12.0, 13.0, "lb", "12 to 13 lb"),
        (12.5, 13.0, "lb", "12 lb 8 oz to 13 lb"),
        (12.0, 13.0, "kg", "5.4 to 5.9 kg"),
        (12.0, 12.01, "in", "12 in"),
    ],
)
def test_a_range_is_written_with_one_unit_where_that_is_clear(low: float, high: float, unit: str, written: str) -> None:
    assert amount_with_unit(Amount(low=low, high=high), unit) == written


@pytest.mark.parametrize("unit", ["in", "cm"])
@pytest.mark.parametrize("inches", [1e9, 1e300, float("inf"), float("nan")])
def test_a_number_that_no_dog_has_is_still_written_short(inches: float, unit: str) -> None:
    assert len(length_written(inches, unit)) <= 12


@pytest.mark.parametrize("unit", ["lb", "kg"])
@pytest.mark.parametrize("pounds", [1e300, float("inf")])
def test_a_weight_that_no_dog_has_is_still_written_short(pounds: float, unit: str) -> None:
    assert len(weight_with_unit(pounds, unit)) <= 15
