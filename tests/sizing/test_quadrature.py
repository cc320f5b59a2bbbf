"""Numeric integration."""

import math

import pytest

from sizing.quadrature import integral


@pytest.mark.parametrize("points", [4, 16, 32])
def test_a_polynomial_of_twice_the_points_is_exact(points: int) -> None:
    degree = 2 * points - 1

    assert integral(lambda x: x**degree, 0.0, 1.0, points=points) == pytest.approx(1 / (degree + 1), rel=1e-13)


def test_a_bell_curve_is_integrated_to_nearly_full_precision() -> None:
    def bell(x: float) -> float:
        return math.exp(-x * x / 2) / math.sqrt(2 * math.pi)

    assert integral(bell, -8.5, 1.0, points=32) == pytest.approx(0.5 * math.erfc(-1 / math.sqrt(2)), abs=1e-9)


def test_an_integral_over_nothing_is_nought() -> None:
    assert integral(math.exp, 2.0, 2.0, points=8) == 0.0
