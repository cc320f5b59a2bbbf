"""How a measure is off: the distribution of the true value behind the number that a customer gives."""

import math
from dataclasses import dataclass
from functools import cache

from sizing.measures import Measure, Taken
from sizing.tables import table

_SQRT_2 = math.sqrt(2.0)
_SQRT_2PI = math.sqrt(2.0 * math.pi)

REACH = 8.5
"""Standard deviations beyond which a normal distribution has nothing left: 2e-17."""


@dataclass(frozen=True, slots=True)
class Normal:
    """A number as a tape gave it: normal about it. Inches."""

    mean: float
    deviation: float

    def below(self, value: float) -> float:
        """Give the probability of at most `value`."""
        return 0.5 * math.erfc((self.mean - value) / (self.deviation * _SQRT_2))

    def density(self, value: float) -> float:
        """Give the density at `value`, per inch."""
        z = (value - self.mean) / self.deviation
        return math.exp(-0.5 * z * z) / (self.deviation * _SQRT_2PI)

    @property
    def low(self) -> float:
        """The least value that counts."""
        return self.mean - REACH * self.deviation

    @property
    def high(self) -> float:
        """The largest value that counts."""
        return self.mean + REACH * self.deviation


@dataclass(frozen=True, slots=True)
class Even:
    """A range as a customer gave it: every value in it is as likely. Inches, low < high."""

    low: float
    high: float

    @property
    def mean(self) -> float:
        """The middle of the range."""
        return (self.low + self.high) / 2

    def below(self, value: float) -> float:
        """Give the probability of at most `value`."""
        return min(1.0, max(0.0, (value - self.low) / (self.high - self.low)))

    def density(self, value: float) -> float:
        """Give the density at `value`, per inch."""
        return 1.0 / (self.high - self.low) if self.low <= value <= self.high else 0.0


Error = Normal | Even


def error_of(measure: Measure, taken: Taken) -> Error:
    """Give the distribution of the true value behind what was told.

    measure   length, height, width or throat height
    """
    if taken.amount.low < taken.amount.high:
        return Even(taken.amount.low, taken.amount.high)
    deviation, hedged = _tape()[measure], _tape()["hedged"]
    return Normal(taken.amount.low, deviation * hedged if taken.hedged else deviation)


@cache
def _tape() -> dict[str, float]:
    return {key: float(value) for key, value in table("sure.toml")["tape"].items()}
