"""A ladder of median dogs, from small to large, held against the sizes: where they overlap and where none serves.

It shows a maker where her chart leaves a dog between two sizes before a customer does.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from sizing.chart import Shop
from sizing.fit import Body, all_right, drop_slack, fit, room_slacks
from sizing.opening import clears_elbow
from sizing.outcome import Kind
from sizing.sizes import Size

LENGTH, WIDTH, THROAT = 1.10, 0.385, 0.73
"""Back length, width and throat height of the median dog as shares of its shoulder height (photographs of 59 dogs and
the published standards; the width is derived from girths)."""
_WEIGHT, _POWER = 0.10, 2.05
"""Weight in pounds of the median dog: 0.10 x height in inches ^ 2.05 (regression over the breeds of breeds.csv)."""
STEP_IN = 0.125


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Shoulder heights from low to high, inches, of the median dogs that something holds for."""

    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """How the sizes cover the median dogs.

    sizes      each size's name and the shoulder heights that it serves; none: no median dog
    gaps       heights between the smallest and the largest dog served that no size serves, and what the dog gets
    overlaps   neighbouring sizes that both serve, and the heights
    """

    sizes: tuple[tuple[str, Stretch | None], ...]
    gaps: tuple[tuple[Stretch, Kind], ...]
    overlaps: tuple[tuple[str, str, Stretch], ...]


def median_dog(height: float) -> Body:
    """Give the median dog of a shoulder height in inches."""
    return Body(
        length=LENGTH * height,
        width=WIDTH * height,
        height=height,
        throat_height=THROAT * height,
        weight=_WEIGHT * height**_POWER,
    )


def ladder(shop: Shop) -> Ladder:
    """Hold the median dogs against the sizes of a shop."""
    heights = _heights(shop)
    served = [
        (size.name, [height for height in heights if _serves(size, median_dog(height), shop)]) for size in shop.sizes
    ]
    covered = sorted({height for _, of_size in served for height in of_size})
    between = [height for height in heights if covered and covered[0] < height < covered[-1]]
    bare = [height for height in between if height not in set(covered)]
    return Ladder(
        sizes=tuple((name, _span(of_size)) for name, of_size in served),
        gaps=tuple((stretch, fit(median_dog(stretch.low), shop).kind) for stretch in _stretches(bare)),
        overlaps=tuple(_overlaps(served)),
    )


def _heights(shop: Shop) -> list[float]:
    """Heights of the dogs that the smallest and the largest carrier that can be sewn might take."""
    low, high = shop.sewn.least.height / 2, shop.sewn.most.height
    return [step * STEP_IN for step in range(math.ceil(low / STEP_IN), math.floor(high / STEP_IN) + 1)]


def _serves(size: Size, dog: Body, shop: Shop) -> bool:
    slacks = (*room_slacks(dog, size.inside, shop), drop_slack(dog, size.opening, shop))
    return all_right(slacks) and clears_elbow(size.opening, dog.height, shop) and size.holds(dog.weight)


def _span(heights: Sequence[float]) -> Stretch | None:
    return Stretch(low=heights[0], high=heights[-1]) if heights else None


def _stretches(heights: Sequence[float]) -> Iterator[Stretch]:
    start = 0
    for place in range(1, len(heights) + 1):
        if place == len(heights) or heights[place] - heights[place - 1] > 1.5 * STEP_IN:
            yield Stretch(low=heights[start], high=heights[place - 1])
            start = place


def _overlaps(served: Sequence[tuple[str, list[float]]]) -> Iterator[tuple[str, str, Stretch]]:
    for (name, heights), (next_name, next_heights) in pairwise(served):
        both = _span(sorted(set(heights) & set(next_heights)))
        if both is not None:
            yield name, next_name, both
