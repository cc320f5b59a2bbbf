"""Two measures that were exchanged."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

# Per hundred dogs, and the weight when it is decided whether to ask; judgement, no rate is published. Length and height
# are exchanged most, since people name them in either order; a width as large as either is seldom an exchange and often
# a round dog.
_PAIRS = {
    (Measure.LENGTH, Measure.HEIGHT): (2.4, 1.8),
    (Measure.HEIGHT, Measure.THROAT_HEIGHT): (1.6, 1.0),
    (Measure.WIDTH, Measure.THROAT_HEIGHT): (1.0, 1.1),
    (Measure.LENGTH, Measure.THROAT_HEIGHT): (0.2, 0.6),
    (Measure.HEIGHT, Measure.WIDTH): (0.4, 0.3),
    (Measure.LENGTH, Measure.WIDTH): (0.15, 0.1),
    (Measure.LENGTH, Measure.WEIGHT): (0.01, 0.03),
    (Measure.HEIGHT, Measure.WEIGHT): (0.01, 0.03),
}
_APART = math.log(1.25)
"""Measures nearer than this are hardly told apart, and to exchange them does little harm: less is asked about them."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the pairs that may have been exchanged."""
    for (one, other), (rate, heed) in _PAIRS.items():
        if told.given(one, other) and told.log(one) != told.log(other):
            apart = abs(told.log(one) - told.log(other))
            way = Way(share=0.0, logs=told.but({one: told.log(other), other: told.log(one)}))
            heed_ = heed * min(1.0, (apart / _APART) ** 4)
            yield Mistake(why=Why.SWAP, measures=(one, other), rate=rate, heed=heed_, ways=(way,))
