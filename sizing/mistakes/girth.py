"""A width that was measured around the body instead of straight across."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

# Per hundred dogs; judgement, no rate is published.
_RATE = 1.5
_SAME = 0.08
"""Spread of the logarithm of two girths of one dog, taken twice and perhaps not at one place; judgement."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the width as a girth: the model knows how a girth goes with the other measures."""
    if not told.given(Measure.WIDTH):
        return
    around = told.log(Measure.WIDTH)
    if told.given(Measure.GIRTH):
        off = (around - told.log(Measure.GIRTH)) / _SAME
        share = -0.5 * off * off - math.log(_SAME * math.sqrt(2 * math.pi))
        way = Way(share=share, logs=told.but({Measure.WIDTH: None}))
    else:
        way = Way(share=0.0, logs=told.but({Measure.WIDTH: None, Measure.GIRTH: around}))
    yield Mistake(why=Why.GIRTH, measures=(Measure.WIDTH,), rate=_RATE, ways=(way,))
