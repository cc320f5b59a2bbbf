"""A weight and a size that cannot belong to one dog."""

import math
from collections.abc import Iterator

from sizing.measures import Measure
from sizing.mistakes.size import digits_exchanged
from sizing.mistakes.told import Mistake, Told, Way
from sizing.proportions import figure
from sizing.reasons import Why

# Per hundred dogs. Owners' entries of labrador weights: slipped decimal 0.16 %, jump 0.22 %, digits exchanged 0.03 %
# (PLOS ONE 15(1):e0228154, table 7); another dog's weight: judgement.
_OTHER_DOG, _DECIMAL, _DIGITS = 2.5, 0.2, 0.05
_EVENLY = 1 / math.log(150 / 3)
"""Density of another dog's weight where no height was told: even in the logarithm over 3 to 150 lb."""
_APART = 1.1
"""How far the weights of two dogs of any breeds lie apart, standard deviation of the logarithm; from breeds.csv."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the weight as another dog's, or as a slip of the pen."""
    if not told.given(Measure.WEIGHT):
        return
    weight = told.log(Measure.WEIGHT)
    yield _mistake(_OTHER_DOG, Way(share=_density(told), logs=told.but({Measure.WEIGHT: None})))
    for shift in (math.log(10), -math.log(10)):
        yield _mistake(_DECIMAL, Way(share=0.0, logs=told.but({Measure.WEIGHT: weight + shift})))
    yield from digits_exchanged(told, Measure.WEIGHT, Why.WEIGHT, _DIGITS)


def _density(told: Told) -> float:
    """Give the log density of the weight as that of any dog beside one of this height."""
    if not told.given(Measure.HEIGHT):
        return math.log(_EVENLY)
    usual = math.log(figure("weight_of_one_inch")) + figure("weight_exponent") * told.log(Measure.HEIGHT)
    off = (told.log(Measure.WEIGHT) - usual) / _APART
    return -0.5 * off * off - math.log(_APART * math.sqrt(2 * math.pi))


def _mistake(rate: float, way: Way) -> Mistake:
    return Mistake(why=Why.WEIGHT, measures=(Measure.WEIGHT,), rate=rate, ways=(way,))
