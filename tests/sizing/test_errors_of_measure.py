"""How a measure is off."""

import pytest

from sizing.errors_of_measure import Even, Normal, error_of
from sizing.measures import Amount, Measure, Taken


def taken(low: float, high: float, *, hedged: bool = False) -> Taken:
    return Taken(amount=Amount(low=low, high=high), hedged=hedged)


@pytest.mark.parametrize(
    ("measure", "deviation"),
    [(Measure.LENGTH, 0.5), (Measure.HEIGHT, 0.5), (Measure.THROAT_HEIGHT, 0.5), (Measure.WIDTH, 0.4)],
)
def test_a_plain_number_is_off_by_a_stranger_s_tape(measure: Measure, deviation: float) -> None:
    assert error_of(measure, taken(12, 12)) == Normal(12, deviation)


def test_about_is_off_by_more() -> None:
    assert error_of(Measure.LENGTH, taken(12, 12, hedged=True)) == Normal(12, 0.75)


def test_a_range_is_even_from_end_to_end() -> None:
    error = error_of(Measure.LENGTH, taken(12, 14))

    assert error == Even(12, 14)
    assert [error.below(value) for value in (11, 12, 12.5, 14, 15)] == [0, 0, 0.25, 1, 1]
    assert [error.density(value) for value in (11, 13, 15)] == [0, 0.5, 0]


def test_a_normal_error_has_the_usual_quantiles() -> None:
    assert Normal(10, 2).below(10) == 0.5
    assert Normal(10, 2).below(12) == pytest.approx(0.841344746)
    assert Normal(10, 2).density(10) == pytest.approx(0.199471140)
