"""A throat height that lies at or above the shoulder."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

# Per hundred dogs; judgement, no rate is published.
_RATE = 1.8
_MIDDLE, _SPREAD = math.log(1.08), 0.075
"""Throat over shoulder when the head is up or the jaw was measured: 0.95 to 1.3; judgement."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give a throat height that says nothing of the throat, because it was taken too high."""
    if not told.given(Measure.THROAT_HEIGHT, Measure.HEIGHT):
        return
    off = (told.log(Measure.THROAT_HEIGHT) - told.log(Measure.HEIGHT) - _MIDDLE) / _SPREAD
    share = -0.5 * off * off - math.log(_SPREAD * math.sqrt(2 * math.pi))
    way = Way(share=share, logs=told.but({Measure.THROAT_HEIGHT: None}))
    yield Mistake(why=Why.THROAT, measures=(Measure.THROAT_HEIGHT,), rate=_RATE, heed=0.6, ways=(way,))
