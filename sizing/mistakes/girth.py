"""A width that was measured around the body instead of straight across."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

# Per hundred dogs; judgement, no rate is published.
_RATE = 1.4
_PARTS = ((1, 0.85), (2, 0.15))
"""The whole girth, or half of it as sewers lay garments flat, with how often each is meant; judgement."""
_SAME = 0.08
"""Spread of the logarithm of two girths of one dog, taken twice and perhaps not at one place; judgement."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the width as a girth: the model knows how a girth goes with the other measures."""
    if told.given(Measure.WIDTH):
        ways = tuple(_way(told, told.log(Measure.WIDTH) + math.log(parts), share) for parts, share in _PARTS)
        yield Mistake(why=Why.GIRTH, measures=(Measure.WIDTH,), rate=_RATE, ways=ways)


def _way(told: Told, around: float, share: float) -> Way:
    if not told.given(Measure.GIRTH):
        return Way(share=math.log(share), logs=told.but({Measure.WIDTH: None, Measure.GIRTH: around}))
    off = (around - told.log(Measure.GIRTH)) / _SAME
    density = math.log(share) - 0.5 * off * off - math.log(_SAME * math.sqrt(2 * math.pi))
    return Way(share=density, logs=told.but({Measure.WIDTH: None}))
