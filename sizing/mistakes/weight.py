"""A weight and a size that cannot belong to one dog."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.size import digits_exchanged
from sizing.mistakes.told import Mistake, Told, Way
from sizing.reasons import Why

# Per hundred dogs. Owners' entries of labrador weights: slipped decimal 0.16 %, jump 0.22 %, digits exchanged 0.03 %
# (PLOS ONE 15(1):e0228154, table 7); another dog's weight: judgement.
_OTHER_DOG, _DECIMAL, _DIGITS = 1.2, 0.3, 0.05
_MIDDLE, _SPREAD = math.log(22), 1.1
"""Weights of dogs of all kinds, pounds: mean of UK pets 35-39 lb (doi 10.1371/journal.pone.0318734), small ones likelier
here."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the weight as another dog's, or as a slip of the pen."""
    if not told.given(Measure.WEIGHT):
        return
    weight = told.log(Measure.WEIGHT)
    off = (weight - _MIDDLE) / _SPREAD
    another = -0.5 * off * off - math.log(_SPREAD * math.sqrt(2 * math.pi))
    yield _mistake(_OTHER_DOG, Way(share=another, logs=told.but({Measure.WEIGHT: None})))
    for shift in (math.log(10), -math.log(10)):
        yield _mistake(_DECIMAL, Way(share=0.0, logs=told.but({Measure.WEIGHT: weight + shift})))
    yield from digits_exchanged(told, Measure.WEIGHT, Why.WEIGHT, _DIGITS)


def _mistake(rate: float, way: Way) -> Mistake:
    return Mistake(why=Why.WEIGHT, measures=(Measure.WEIGHT,), rate=rate, ways=(way,))
