"""The load to hang in a proof test for a wanted rating: a yardstick borrowed from other carriers, no standard for this.

No document was found that load-tests a dog's carrier worn on the shoulder. The factors stand in proof_load.toml with
what they were made for. A qualified person and local rules decide.
"""

import math
from dataclasses import dataclass
from functools import cache

from sizing.errors import SizingError
from sizing.tables import table
from sizing.units import from_pounds

LABEL = (
    "A yardstick from carriers of another kind, not a standard for dog carriers. Hang it still and new, look at every "
    "seam, handle and clip, and write down what you did. A qualified person and local rules decide."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Yardstick:
    """A factor between rating and test load, and the document that it comes from."""

    name: str
    factor: float
    made_for: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ProofLoad:
    """What to hang for a rating.

    rating_lb        heaviest dog that the carrier is to be rated for
    load_lb, load_kg total to hang
    yardstick        where the factor comes from
    label            what this is and is not; goes with the figure wherever it is shown
    """

    rating_lb: float
    load_lb: float
    load_kg: float
    yardstick: Yardstick
    label: str = LABEL


def proof_load(rating_lb: float, *, yardstick: str = "frame_carrier") -> ProofLoad:
    """Give the load to hang in a proof test.

    rating_lb   wanted rating, pounds, above 0
    yardstick   a name in proof_load.toml
    Raises      SizingError for a rating that is no weight, or a name that is not there
    """
    if not (math.isfinite(rating_lb) and rating_lb > 0):
        raise SizingError(f"a rating of {rating_lb} lb cannot be tested: give the weight of the heaviest dog")
    if yardstick not in yardsticks():
        raise SizingError(f"{yardstick!r} is none of {', '.join(yardsticks())}")
    used = yardsticks()[yardstick]
    load = rating_lb * used.factor
    return ProofLoad(rating_lb=rating_lb, load_lb=load, load_kg=from_pounds(load, "kg"), yardstick=used)


@cache
def yardsticks() -> dict[str, Yardstick]:
    """Give the yardsticks of proof_load.toml by name."""
    rows = table("proof_load.toml")["yardsticks"]
    return {name: Yardstick(name=name, **row) for name, row in rows.items()}
