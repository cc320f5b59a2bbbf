"""What an empty carrier weighs: as the chart says for a standard size, from the cloth in it for one made to measure."""

from itertools import pairwise

from sizing.chart import Shop, builtin_shop
from sizing.outcome import Dimensions
from sizing.sizes import Inside


def sewn_area(inside: Inside | Dimensions) -> float:
    """Give the area of base and four walls, square inches: what a carrier's weight goes with."""
    return inside.length * inside.width + 2.0 * (inside.length + inside.width) * inside.height


def estimated_empty_weight(inside: Dimensions, shop: Shop) -> float:
    """Estimate the empty weight of a carrier made to measure, pounds.

    It lies between the standard sizes next to it by sewn area, on a straight line between them; beyond the smallest and
    the largest it goes with the area. A shop without sizes gets the built-in ones for it.
    """
    area = sewn_area(inside)
    known = sorted((sewn_area(size.inside), size.empty_weight) for size in shop.sizes or builtin_shop().sizes)
    for (less, lighter), (more, heavier) in pairwise(known):
        if less <= area <= more and less < more:
            return lighter + (heavier - lighter) * (area - less) / (more - less)
    nearest, weight = known[0] if area < known[0][0] else known[-1]
    return weight * (area / nearest)
