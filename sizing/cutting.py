"""Whole cutting steps: what is cut is a multiple of the shop's step."""

import math

_NOISE = 1e-9
"""Floating point puts exact multiples this much off, in steps."""

_TOO_FAR = 1e12
"""Steps from here on are no cloth's, and floats no longer tell them apart."""


def nearest_within(target: float, low: float, high: float, *, step: float) -> float | None:
    """Give the multiple of `step` nearest to `target` among those from `low` to `high`; of two equally near the larger.

    target, low, high, step   inches
    Returns                   None where no multiple lies from low to high

    >>> nearest_within(14.375, 13, 16, step=0.25), nearest_within(14.4, 14.5, 16, step=0.25)
    (14.5, 14.5)
    >>> nearest_within(5.1, 5.05, 5.2, step=0.25)
    """
    if not max(abs(target), abs(low), abs(high)) < _TOO_FAR * step:
        return target
    first, last = math.ceil(low / step - _NOISE), math.floor(high / step + _NOISE)
    if first > last:
        return None
    return min(max(math.floor(target / step + 0.5 + _NOISE), first), last) * step
