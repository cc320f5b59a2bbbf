"""The measures of a dog: their names, their values with their uncertainty, and the dog that they make up.

Lengths are inches and weights are pounds, everywhere in this package.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from sizing.reasons import Why


class Measure(StrEnum):
    """What is measured on a dog that stands square on a level floor and looks ahead, coat pressed flat, no harness."""

    LENGTH = "length"
    """Base of the neck, where a collar sits snug, along the back to the rump: no head, no tail."""
    HEIGHT = "height"
    """Top of the shoulder (withers) straight down to the floor."""
    WIDTH = "width"
    """Widest part of the body, straight across, not around."""
    THROAT_HEIGHT = "throat_height"
    """Hollow of the throat just above the breastbone, straight down to the floor."""
    WEIGHT = "weight"
    """Body weight."""
    GIRTH = "girth"
    """Around the chest. Read when given, never taken for a width."""
    NECK = "neck"
    """Around the neck. Read when given, never taken for a length."""


FIVE: tuple[Measure, ...] = (
    Measure.LENGTH,
    Measure.HEIGHT,
    Measure.WIDTH,
    Measure.THROAT_HEIGHT,
    Measure.WEIGHT,
)
"""The measures that a carrier needs, in the order in which they are asked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """A value, or the two ends of a range of values.

    low, high   inches or pounds, above 0 and finite, low <= high
    Raises      ValueError when they are not
    """

    low: float
    high: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.low) and math.isfinite(self.high) and 0 < self.low <= self.high):
            raise ValueError(f"an amount runs from a positive low to a high that is not less: {self.low}, {self.high}")

    @classmethod
    def exactly(cls, value: float) -> "Amount":
        """Give the amount whose ends are both `value`."""
        return cls(low=value, high=value)

    @property
    def middle(self) -> float:
        """The middle of the range."""
        return self.low + (self.high - self.low) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """One measure of a dog as somebody took it and told it.

    amount        inches or pounds; for values that contradict one another the span over all of them
    unit_stated   False: the number came without a unit, and the shop's own was taken
    hedged        said with "about" and the like: the tape's error is larger
    vague         a guess instead of a measurement
    conflicting   the different values that were given for it without comment; empty: no conflict
    hints         mistakes that the customer's words themselves give away ("to the top of her head")
    confirmed     reasons for doubt that the customer was asked about and confirmed, or the maker set
    """

    amount: Amount
    unit_stated: bool = True
    hedged: bool = False
    vague: bool = False
    conflicting: tuple[Amount, ...] = ()
    hints: frozenset[Why] = frozenset()
    confirmed: frozenset[Why] = frozenset()


class Posture(StrEnum):
    """How the dog is to ride."""

    STANDS = "stands"
    SITS = "sits"
    CURLS = "curls"


@dataclass(frozen=True, slots=True, kw_only=True)
class SpaceLimit:
    """An outer size that the packed carrier must not exceed, in inches, as a customer quotes it from an operator."""

    sides: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dog:
    """What is known of a dog.

    name         None: not told
    measures     what was given; a measure that is absent was not given
    breeds       breed names as in breeds.csv, two or more for a cross, () where none was named
    age_months   None: not told
    posture      None: not told
    space        None: no limit was named
    """

    name: str | None = None
    measures: Mapping[Measure, Taken] = field(default_factory=dict)
    breeds: tuple[str, ...] = ()
    age_months: float | None = None
    posture: Posture | None = None
    space: SpaceLimit | None = None
