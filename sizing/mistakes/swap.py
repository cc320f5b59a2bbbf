"""Two measures that were exchanged."""

from collections.abc import Iterator
from itertools import combinations

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

_FOUR = (Measure.LENGTH, Measure.HEIGHT, Measure.WIDTH, Measure.THROAT_HEIGHT)

# Per hundred dogs; judgement, no rate is published.
_RATE = 0.8
_WITH_WEIGHT = 0.01
_HEED, _HEED_WIDE, _HEED_WEIGHT = 1.0, 0.3, 0.03
"""A width as large as the length or the height is seldom an exchange and often a round dog."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the pairs that may have been exchanged."""
    for one, other in combinations((*_FOUR, Measure.WEIGHT), 2):
        if told.given(one, other) and told.log(one) != told.log(other):
            exchanged = told.but({one: told.log(other), other: told.log(one)})
            yield Mistake(
                why=Why.SWAP,
                measures=(one, other),
                rate=_WITH_WEIGHT if other is Measure.WEIGHT else _RATE,
                heed=_heed(one, other),
                ways=(Way(share=0.0, logs=exchanged),),
            )


def _heed(one: Measure, other: Measure) -> float:
    if other is Measure.WEIGHT:
        return _HEED_WEIGHT
    return _HEED_WIDE if other is Measure.WIDTH else _HEED
