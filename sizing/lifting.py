"""The revised lifting equation: what two hands may lift in the task that its terms describe.

Source: DHHS (NIOSH) Publication No. 94-110, 1994, revised September 2021, doi 10.26616/NIOSHPUB94110revised092021.
The formula governs, the printed tables are its rounding. It is a reference here and no verdict on a carrier: it leaves
out one-handed lifts, unstable and living loads, carrying more than a step or two, and lifting while seated or kneeling.
"""

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from sizing.errors import DataError, LiftError
from sizing.tables import table

SCOPE = (
    "A reference for a two-handed lift of a stable load. The equation leaves out one-handed lifts, unstable and living "
    "loads, and carrying: it says nothing about a dog in a carrier on one shoulder."
)


class Coupling(StrEnum):
    """How good the grip is."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


class Duration(StrEnum):
    """How long such lifting goes on in a day, with the rest that the manual asks for."""

    ONE_HOUR = "up to 1 hour"
    TWO_HOURS = "up to 2 hours"
    EIGHT_HOURS = "up to 8 hours"


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """One of the two systems of units of the equation. They are not exact conversions: a lift stays within one.

    load_constant   what may be lifted where everything is at its best
    nearest, farthest   of the hands from the body, horizontally
    best, highest   of the hands above the floor
    slope           what each unit of height away from the best takes off
    shortest, longest   of the way up; `travel` the formula's term for it
    reach           how far the hands are from the ankles in front of a load of no depth, for hands low and high
    """

    length_unit: str
    weight_unit: str
    load_constant: float
    nearest: float
    farthest: float
    best: float
    highest: float
    slope: float
    shortest: float
    longest: float
    travel: float
    reach: tuple[float, float]
    low_hands: float


INCHES_POUNDS = System(
    length_unit="in",
    weight_unit="lb",
    load_constant=51.0,
    nearest=10.0,
    farthest=25.0,
    best=30.0,
    highest=70.0,
    slope=0.0075,
    shortest=10.0,
    longest=70.0,
    travel=1.8,
    reach=(10.0, 8.0),
    low_hands=10.0,
)
CENTIMETRES_KILOGRAMS = System(
    length_unit="cm",
    weight_unit="kg",
    load_constant=23.0,
    nearest=25.0,
    farthest=63.0,
    best=75.0,
    highest=175.0,
    slope=0.003,
    shortest=25.0,
    longest=175.0,
    travel=4.5,
    reach=(25.0, 20.0),
    low_hands=25.0,
)

WIDEST_TWIST_DEG = 135.0
OFTENEST_PER_MINUTE = 15.0
SELDOMEST_PER_MINUTE = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """A lifting task, at its origin or at its destination, in the units of `system`.

    horizontal   hands from the middle between the ankles; from 0
    vertical     hands above the floor, 0 to 70 in (175 cm)
    distance     way up or down, 0 to 70 in (175 cm)
    asymmetry    twist of the body, degrees, 0 to 135
    frequency    lifts a minute, 0 to 15; below 0.2 counts as 0.2
    Raises       LiftError for numbers that are negative or not finite
    """

    horizontal: float
    vertical: float
    distance: float
    asymmetry: float = 0.0
    frequency: float = SELDOMEST_PER_MINUTE
    duration: Duration = Duration.ONE_HOUR
    coupling: Coupling = Coupling.FAIR
    system: System = INCHES_POUNDS

    def __post_init__(self) -> None:
        for name in ("horizontal", "vertical", "distance", "asymmetry", "frequency"):
            value = getattr(self, name)
            if not (math.isfinite(value) and value >= 0):
                raise LiftError(f"{name} = {value}: a number from 0 up is needed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Multipliers:
    """The six multipliers, each from 0 (beyond the equation's limits) to 1 (at its best)."""

    horizontal: float
    vertical: float
    distance: float
    asymmetry: float
    frequency: float
    coupling: float


def multipliers(lift: Lift) -> Multipliers:
    """Give the six multipliers at full precision; 0 for a term beyond its limit, as the manual sets it."""
    return Multipliers(
        horizontal=_horizontal(lift),
        vertical=_vertical(lift),
        distance=_distance(lift),
        asymmetry=1.0 - 0.0032 * lift.asymmetry if lift.asymmetry <= WIDEST_TWIST_DEG else 0.0,
        frequency=_frequency(lift),
        coupling=_table().coupling[lift.coupling][_is_high(lift)],
    )


def recommended_weight_limit(lift: Lift) -> float:
    """Give what nearly all healthy workers may lift in this task, in the system's weight unit.

    Raises   LiftError, naming the term, where a term lies beyond the equation's limits
    """
    terms = multipliers(lift)
    limits = {
        "horizontal": f"{lift.system.farthest:g} {lift.system.length_unit}",
        "vertical": f"{lift.system.highest:g} {lift.system.length_unit}",
        "distance": f"{lift.system.longest:g} {lift.system.length_unit}",
        "asymmetry": f"{WIDEST_TWIST_DEG:g} degrees",
        "frequency": f"what {lift.duration} of such lifts allow",
    }
    for name, limit in limits.items():
        if getattr(terms, name) == 0.0:
            raise LiftError(f"{name} = {getattr(lift, name):g} is beyond {limit}: the equation gives no limit")
    return (
        lift.system.load_constant
        * terms.horizontal
        * terms.vertical
        * terms.distance
        * terms.asymmetry
        * terms.frequency
        * terms.coupling
    )


def lifting_index(load: float, lift: Lift) -> float:
    """Give how many times the recommended weight limit a load is; more than 1: raised risk for some.

    load     in the system's weight unit, from 0
    Raises   LiftError as `recommended_weight_limit`, and for a load that is negative or not finite
    """
    if not (math.isfinite(load) and load >= 0):
        raise LiftError(f"load = {load}: a number from 0 up is needed")
    return load / recommended_weight_limit(lift)


def horizontal_from_depth(depth: float, vertical: float, system: System = INCHES_POUNDS) -> float:
    """Estimate how far the hands are from the ankles for a load `depth` deep, where it cannot be measured."""
    low, high = system.reach
    return (high if vertical >= system.low_hands else low) + depth / 2


def _horizontal(lift: Lift) -> float:
    system = lift.system
    if lift.horizontal > system.farthest:
        return 0.0
    return 1.0 if lift.horizontal <= system.nearest else system.nearest / lift.horizontal


def _vertical(lift: Lift) -> float:
    system = lift.system
    return 1.0 - system.slope * abs(lift.vertical - system.best) if lift.vertical <= system.highest else 0.0


def _distance(lift: Lift) -> float:
    system = lift.system
    if lift.distance > system.longest:
        return 0.0
    return 1.0 if lift.distance <= system.shortest else 0.82 + system.travel / lift.distance


def _frequency(lift: Lift) -> float:
    column = list(Duration).index(lift.duration)
    rows = _table().frequency
    row = next((values for per_minute, values in rows if lift.frequency <= per_minute), None)
    return row[_is_high(lift)][column] if row else 0.0


def _is_high(lift: Lift) -> bool:
    return lift.vertical >= lift.system.best


@dataclass(frozen=True, slots=True)
class _Table:
    frequency: tuple[tuple[float, tuple[tuple[float, ...], tuple[float, ...]]], ...]
    coupling: dict[Coupling, tuple[float, float]]


@cache
def _table() -> _Table:
    data = table("lifting.toml")
    try:
        return _Table(
            tuple((row["per_minute"], (tuple(row["below"]), tuple(row["above"]))) for row in data["frequency"]),
            {Coupling(name): (row["below"], row["above"]) for name, row in data["coupling"].items()},
        )
    except (KeyError, TypeError, ValueError) as error:
        raise DataError(f"sizing/lifting.toml lacks {error} or misstates it: mend it") from error
