"""Two measures that were exchanged."""

from collections.abc import Iterator
from itertools import combinations

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

_FOUR = (Measure.LENGTH, Measure.HEIGHT, Measure.WIDTH, Measure.THROAT_HEIGHT)

# Per hundred dogs; judgement, no rate is published.
_RATE = 0.4
_WITH_WEIGHT = 0.02


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the pairs that may have been exchanged."""
    for one, other in combinations((*_FOUR, Measure.WEIGHT), 2):
        if told.given(one, other) and told.log(one) != told.log(other):
            rare = other is Measure.WEIGHT
            exchanged = told.but({one: told.log(other), other: told.log(one)})
            yield Mistake(
                why=Why.SWAP,
                measures=(one, other),
                rate=_WITH_WEIGHT if rare else _RATE,
                heed=0.1 if rare else 1.0,
                ways=(Way(share=0.0, logs=exchanged),),
            )
