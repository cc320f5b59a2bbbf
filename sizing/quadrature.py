"""Gauss-Legendre quadrature: the integral of a smooth function to nearly full precision from few points."""

import math
from collections.abc import Callable
from functools import cache


def integral(function: Callable[[float], float], low: float, high: float, *, points: int) -> float:
    """Integrate `function` from `low` to `high` with that many points; exact for polynomials up to twice as many."""
    half, middle = (high - low) / 2, (high + low) / 2
    return half * sum(weight * function(middle + half * node) for node, weight in _rule(points))


@cache
def _rule(points: int) -> tuple[tuple[float, float], ...]:
    """Give nodes in (-1, 1) and weights: the zeros of the Legendre polynomial, by Newton's method."""
    return tuple(_node(index, points) for index in range(points))


def _node(index: int, points: int) -> tuple[float, float]:
    node = math.cos(math.pi * (index + 0.75) / (points + 0.5))
    for _ in range(100):
        value, slope = _legendre(node, points)
        node -= value / slope
        if abs(value / slope) < 1e-15:
            break
    _, slope = _legendre(node, points)
    return node, 2.0 / ((1.0 - node * node) * slope * slope)


def _legendre(x: float, degree: int) -> tuple[float, float]:
    before, value = 1.0, x
    for n in range(2, degree + 1):
        before, value = value, ((2 * n - 1) * x * value - (n - 1) * before) / n
    return value, degree * (x * value - before) / (x * x - 1.0)
