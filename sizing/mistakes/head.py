"""A height that goes to the top of the head instead of the shoulder."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

# Per hundred dogs; judgement, no rate is published.
_RATE = 2.0
# Ear base at 1.18 of the shoulder height, middle half 1.14-1.23 (45 photographs); the top of the head and pricked ears
# lie above it.
_HEED, _HEED_SHAPELESS = 1.2, 0.15
"""With neither a length nor a throat height a dog that is tall for its weight is leggy; judgement."""
_SHARES = ((1.14, 0.6), (1.2, 1.0), (1.27, 1.0), (1.34, 0.8), (1.42, 0.4))


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the height at the shoulder that a height of the head may stand for."""
    if not told.given(Measure.HEIGHT):
        return
    top = told.log(Measure.HEIGHT)
    total = sum(weight for _, weight in _SHARES)
    ways = tuple(
        Way(share=math.log(weight / total), logs=told.but({Measure.HEIGHT: top - math.log(share)}))
        for share, weight in _SHARES
    )
    shaped = told.given(Measure.LENGTH) or told.given(Measure.THROAT_HEIGHT)
    yield Mistake(
        why=Why.HEAD, measures=(Measure.HEIGHT,), rate=_RATE, heed=_HEED if shaped else _HEED_SHAPELESS, ways=ways
    )
