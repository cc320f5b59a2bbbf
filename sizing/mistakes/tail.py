"""A length that takes in the tail, the head or the nose."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

# Per hundred dogs; judgement, no rate is published.
_RATE = 1.5
_HEED = 0.7
"""Less is asked: long and low dogs would pay for all others; judgement."""
# Tail 0.71 of the height, head 0.38 (Tazi, Kangal; 0.55 Maltese by the standard): too long by 0.35 to 0.85 of the
# height, both together by more.
_SHARES_OF_HEIGHT = ((0.35, 0.8), (0.45, 1.0), (0.55, 1.0), (0.65, 1.0), (0.75, 0.8), (0.85, 0.4), (1.1, 0.3))
_SHARES_OF_LENGTH = ((0.25, 1.0), (0.32, 1.0), (0.39, 1.0), (0.46, 0.5))


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the length without what may have been added to it."""
    if not told.given(Measure.LENGTH):
        return
    length = math.exp(told.log(Measure.LENGTH))
    if told.given(Measure.HEIGHT):
        height = math.exp(told.log(Measure.HEIGHT))
        bodies = [(length - share * height, weight) for share, weight in _SHARES_OF_HEIGHT]
    else:
        bodies = [(length * (1 - share), weight) for share, weight in _SHARES_OF_LENGTH]
    total = sum(weight for _, weight in bodies)
    ways = tuple(
        Way(share=math.log(weight / total * length / body), logs=told.but({Measure.LENGTH: math.log(body)}))
        for body, weight in bodies
        if body > 0.2 * length
    )
    if ways:
        yield Mistake(why=Why.TAIL, measures=(Measure.LENGTH,), rate=_RATE, heed=_HEED, ways=ways)
