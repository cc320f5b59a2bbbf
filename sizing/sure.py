"""How sure a fit is: the probability, under the measures' errors, that the recommended carrier serves the dog.

It serves when length, width and height leave the room that sure.toml names, and the edge lies at the elbow or above, at
the throat hollow or below, and not too far below it. The errors of the four measures are independent. So length and
width are exact; height and throat height meet in the edge, and one integral over the height joins them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from sizing.chart import Shop
from sizing.errors_of_measure import Error, error_of
from sizing.measures import Dog, Measure
from sizing.outcome import Dimensions
from sizing.quadrature import integral
from sizing.tables import table

ABSOLUTE_ERROR = 1e-7
"""The integral is at most this far off, tested against a rule many times as fine."""

_POINTS = 32
_MEASURES = (Measure.LENGTH, Measure.HEIGHT, Measure.WIDTH, Measure.THROAT_HEIGHT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sure:
    """How sure a fit is.

    serves     probability that the carrier serves the dog, 0 to 1
    measure    the measure that would raise it most if it were known exactly
    """

    serves: float
    measure: Measure


@dataclass(frozen=True, slots=True, kw_only=True)
class _Limits:
    """Largest length, width and height that the carrier serves, and where its edge lies above the floor; inches.

    deepest   how far the edge may lie below the hollow, as a share of the height
    """

    length: float
    width: float
    height: float
    edge: float
    deepest: float


def how_sure(dog: Dog, inside: Dimensions, opening: float, *, shop: Shop) -> Sure:
    """Tell how sure it is that a carrier serves a dog, and which measure could tip it.

    inside, opening   finished, inches, above the board
    Raises            KeyError when one of the four lengths is missing
    """
    errors = {measure: error_of(measure, dog.measures[measure]) for measure in _MEASURES}
    limits = _limits(inside, opening, shop)
    return _sure(errors, limits)


def _limits(inside: Dimensions, opening: float, shop: Shop) -> _Limits:
    needs, edge = _serves(), opening - shop.pad
    return _Limits(
        length=inside.length - needs["length"],
        width=inside.width - needs["width"],
        height=min(inside.height - shop.pad - needs["height"], edge / shop.elbow),
        edge=edge,
        deepest=needs["deepest_edge"],
    )


def _sure(errors: Mapping[Measure, Error], limits: _Limits) -> Sure:
    height, throat = errors[Measure.HEIGHT], errors[Measure.THROAT_HEIGHT]
    length = errors[Measure.LENGTH].below(limits.length)
    width = errors[Measure.WIDTH].below(limits.width)
    edge = _height_and_throat(height, throat, limits)
    known = {
        Measure.LENGTH: (errors[Measure.LENGTH].mean <= limits.length) * width * edge,
        Measure.HEIGHT: length * width * _throat_at(height.mean, throat, limits),
        Measure.WIDTH: length * (errors[Measure.WIDTH].mean <= limits.width) * edge,
        Measure.THROAT_HEIGHT: length * width * _height_at(throat.mean, height, limits),
    }
    return Sure(serves=length * width * edge, measure=max(known, key=lambda measure: known[measure]))


def _throat_at(height: float, throat: Error, limits: _Limits) -> float:
    """Probability that the throat suits the edge, for a height that is known."""
    if height > limits.height:
        return 0.0
    return max(0.0, throat.below(limits.edge + limits.deepest * height) - throat.below(limits.edge))


def _height_at(throat: float, height: Error, limits: _Limits) -> float:
    """Probability that the height suits the carrier and its edge, for a throat height that is known."""
    if throat < limits.edge:
        return 0.0
    return max(0.0, height.below(limits.height) - height.below((throat - limits.edge) / limits.deepest))


def _height_and_throat(height: Error, throat: Error, limits: _Limits) -> float:
    low, high = height.low, min(height.high, limits.height)
    if not low < high:
        return 0.0

    def at(value: float) -> float:
        return height.density(value) * _throat_at(value, throat, limits)

    ends = _pieces(low, high, throat, limits)
    return min(1.0, sum(integral(at, a, b, points=_POINTS) for a, b in pairwise(ends)))


def _pieces(low: float, high: float, throat: Error, limits: _Limits) -> list[float]:
    """Split where the throat's distribution begins and ends, so that every piece is smooth."""
    bends = ((end - limits.edge) / limits.deepest for end in (throat.low, throat.high))
    return [low, *sorted(bend for bend in bends if low < bend < high), high]


@cache
def _serves() -> dict[str, float]:
    return {key: float(value) for key, value in table("sure.toml")["serves"].items()}
