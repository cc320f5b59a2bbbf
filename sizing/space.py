"""Whether a carrier stays within an outer size that a customer names, such as an operator's "under 18 x 14 x 8".

The carrier counts with its walls and a little bulge, its pockets empty, and stays upright. Which side of the limit
stands up is seldom told, so each is tried. No operator's rule is known here: the operator decides.
"""

from dataclasses import dataclass

from sizing.chart import Shop
from sizing.measures import SpaceLimit
from sizing.outcome import Dimensions

BULGE_IN = 1.0
"""Soft sides stand out this much over both, beside the walls; a judgement."""

_NOISE_IN = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """A carrier's outer size against a limit, inches.

    outer        finished outside dimensions, pockets empty
    limit        as the customer named it
    upright      sides of the limit that may stand up for the carrier to stay within it; (): it does not, however turned
    """

    outer: Dimensions
    limit: SpaceLimit
    upright: tuple[float, ...]

    @property
    def fits(self) -> bool:
        """Whether the carrier stays within the limit in some orientation that keeps it upright."""
        return bool(self.upright)

    @property
    def whichever_way(self) -> bool:
        """Whether it does whichever side of the limit stands up."""
        return set(self.upright) == set(self.limit.sides)


def outer_size(inside: Dimensions, shop: Shop) -> Dimensions:
    """Give the outer dimensions of a carrier with its pockets empty, inches."""
    walls = 2.0 * shop.wall
    return Dimensions(
        length=inside.length + walls + BULGE_IN,
        width=inside.width + walls + BULGE_IN,
        height=inside.height + walls,
    )


def space(inside: Dimensions, limit: SpaceLimit, shop: Shop) -> Space:
    """Hold a carrier against a limit."""
    outer = outer_size(inside, shop)
    upright = [side for index, side in enumerate(limit.sides) if _stands(outer, index, limit)]
    return Space(outer=outer, limit=limit, upright=tuple(dict.fromkeys(upright)))


def _stands(outer: Dimensions, index: int, limit: SpaceLimit) -> bool:
    up = limit.sides[index]
    floor = sorted(side for other, side in enumerate(limit.sides) if other != index)
    base = sorted((outer.length, outer.width))
    within = zip((outer.height, *base), (up, *floor), strict=True)
    return all(side <= most + _NOISE_IN for side, most in within)
