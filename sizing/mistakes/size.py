"""A value that no dog of this build has: a slipped decimal point, digits exchanged, half the width, or anything."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.told import LENGTHS, Mistake, Told, Way
from sizing.reasons import Why
from sizing.units import from_inches, from_pounds

# Per hundred dogs. Owners' entries of labrador heights: slipped decimal 0.14 %, digits exchanged 0.38 %, jump 0.6 %
# (PLOS ONE 15(1):e0228154, table 7); half the width: judgement.
_DECIMAL, _DIGITS, _ANYTHING, _HALF = 0.3, 0.3, 0.05, 1.0
_HEED_ANYTHING, _HEED_HALF = 0.3, 0.3
"""Less is asked about half a width: a heavy dog that is measured narrow is real and common; judgement."""
_EVENLY = 1 / math.log(1000)
"""Density of a value of which nothing is known: even over three powers of ten in the logarithm."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give what may be wrong with the number of one length."""
    for measure in LENGTHS:
        if told.given(measure):
            for shift in (math.log(10), -math.log(10)):
                yield _shifted(told, measure, shift, _DECIMAL)
            yield from digits_exchanged(told, measure, Why.SIZE, _DIGITS)
            way = Way(share=math.log(_EVENLY), logs=told.but({measure: None}))
            yield Mistake(why=Why.SIZE, measures=(measure,), rate=_ANYTHING, heed=_HEED_ANYTHING, ways=(way,))
    if told.given(Measure.WIDTH):
        yield _shifted(told, Measure.WIDTH, math.log(2), _HALF, heed=_HEED_HALF)


def _shifted(told: Told, measure: Measure, shift: float, rate: float, heed: float = 1.0) -> Mistake:
    way = Way(share=0.0, logs=told.but({measure: told.log(measure) + shift}))
    return Mistake(why=Why.SIZE, measures=(measure,), rate=rate, heed=heed, ways=(way,))


def digits_exchanged(told: Told, measure: Measure, why: Why, rate: float) -> Iterator[Mistake]:
    """Give the value with its first two digits the other way round, in each unit in which it is a plain number."""
    value = math.exp(told.log(measure))
    weight = measure is Measure.WEIGHT
    for written in (value, from_pounds(value, "kg") if weight else from_inches(value, "cm")):
        if 10 <= written < 100 and abs(written * 8 - round(written * 8)) < 1e-6:
            ones, tens = divmod(int(written + 1e-9), 10)
            other = tens * 10 + ones + written % 1
            if tens and other != written:
                way = Way(share=0.0, logs=told.but({measure: math.log(value * other / written)}))
                yield Mistake(why=why, measures=(measure,), rate=rate, heed=0.5, ways=(way,))
