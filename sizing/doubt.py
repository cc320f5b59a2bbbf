"""What a doubt is: the measure, the reason, the likelier value and the odds."""

from dataclasses import dataclass

from sizing.measures import Measure
from sizing.reasons import Why


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """A measure that an experienced maker would question before cutting cloth.

    likely   the value that the measure would have without the mistake, inches or pounds; for the maker's eyes
             alone, never told to a customer; None where the mistake does not suggest one
    odds     posterior odds of this mistake against a sound measure, above 0; infinite where it was said outright
    """

    measure: Measure
    why: Why
    likely: float | None = None
    odds: float = float("inf")
