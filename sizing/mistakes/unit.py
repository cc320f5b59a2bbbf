"""Centimetres given as inches, kilograms as pounds, or the other way round: all of them, or one."""

import math
from collections.abc import Iterator
from functools import cache

from sizing.measures import Measure
from sizing.mistakes.told import LENGTHS, Mistake, Told, Way
from sizing.reasons import Why
from sizing.units import to_inches, to_pounds

# Per hundred dogs whose units were said. Owners' entries: unit wrong in 2.16 % of heights and 0.2 % of weights
# (PLOS ONE 15(1):e0228154, table 7); a single length and a weight in a customer's message: judgement.
_ALL, _ONE, _WIDTH, _WEIGHT = 3.0, 0.9, 0.65, 1.2
_BARE = 2.5
"""A number without a unit is this much likelier to be in another one than a number with its unit; judgement."""
_MILLIMETRES = 0.1
_INCHES_AS_CM, _INCHES_AS_CM_BARE = 0.004, 0.05
"""Inches taken for centimetres, against the opposite: customers who say cm hold a tape that shows them; judgement."""
_HEED_BARE_ONE, _HEED_BARE_ALL, _HEED_INCHES_AS_CM = 1.2, 2.5, 0.1
_HEED_WEIGHT, _HEED_WEIGHT_SHAPELESS, _HEED_WEIGHTLESS = 0.7, 0.4, 0.1
"""Less is asked about a light dog, which is real, and the more so where neither length nor width tells a leggy one; and
about inches that were said while no weight tells a giant from a small dog; judgement."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the ways in which the units may be wrong."""
    lengths = tuple(measure for measure in LENGTHS if told.given(measure))
    weight = (Measure.WEIGHT,) if told.given(Measure.WEIGHT) else ()
    for group in _groups(told, lengths):
        alone = _WIDTH if group == (Measure.WIDTH,) else _ONE
        yield from _both_ways(told, group, _ALL if len(group) > 1 else alone)
    if len(lengths) > 1:
        yield _millimetres(told, lengths)
    if weight:
        yield from _both_ways(told, weight, _WEIGHT)
    if weight and lengths:
        # Who measures in centimetres weighs in kilograms, a little less often where the pounds were said.
        metric = 1.5 if Measure.WEIGHT in told.unstated else 0.9
        yield _mistake(told, lengths + weight, _ALL * metric, metric=True)


def _millimetres(told: Told, lengths: tuple[Measure, ...]) -> Mistake:
    """Give centimetres that were written as millimetres."""
    right = told.but({measure: told.log(measure) + math.log(10) for measure in lengths})
    return Mistake(why=Why.UNIT, measures=lengths, rate=_MILLIMETRES, ways=(Way(share=0.0, logs=right),))


def _groups(told: Told, lengths: tuple[Measure, ...]) -> list[tuple[Measure, ...]]:
    """Give the sets of lengths that may share a wrong unit: all, those without a unit, each alone."""
    bare = tuple(measure for measure in lengths if measure in told.unstated)
    singles = [(measure,) for measure in lengths]
    return list(dict.fromkeys(group for group in (lengths, bare, *singles) if group))


def _both_ways(told: Told, group: tuple[Measure, ...], rate: float) -> Iterator[Mistake]:
    yield _mistake(told, group, rate, metric=True)
    if len(group) > 1 or group[0] is Measure.WEIGHT:
        bare = told.unstated.issuperset(group) and not _in_inches(told, group)
        yield _mistake(told, group, rate * (_INCHES_AS_CM_BARE if bare else _INCHES_AS_CM), metric=False)


def _in_inches(told: Told, group: tuple[Measure, ...]) -> bool:
    """Tell whether the numbers stand as they were typed: then the shop reads a bare number as inches, not as cm."""
    return all(_is_plain(math.exp(told.log(measure))) for measure in group)


def _is_plain(value: float) -> bool:
    return any(abs(value * parts - round(value * parts)) < 1e-6 for parts in (8, 10))


def _mistake(told: Told, group: tuple[Measure, ...], rate: float, *, metric: bool) -> Mistake:
    bare = told.unstated.issuperset(group)
    sign = 1 if metric else -1
    right = told.but({measure: told.log(measure) + sign * _factor(measure is Measure.WEIGHT) for measure in group})
    return Mistake(
        why=Why.UNIT,
        measures=group,
        rate=rate * (_BARE if bare else 1.0),
        heed=_heed(told, group) * (1.0 if metric else _HEED_INCHES_AS_CM),
        ways=(Way(share=0.0, logs=right),),
    )


def _heed(told: Told, group: tuple[Measure, ...]) -> float:
    if told.unstated.issuperset(group):
        return _HEED_BARE_ALL if len(group) > 1 else _HEED_BARE_ONE
    if group == (Measure.WEIGHT,):
        shaped = told.given(Measure.LENGTH) or told.given(Measure.WIDTH)
        return _HEED_WEIGHT if shaped else _HEED_WEIGHT_SHAPELESS
    return 1.0 if told.given(Measure.WEIGHT) else _HEED_WEIGHTLESS


@cache
def _factor(weight: bool) -> float:
    return math.log(to_pounds(1, "kg")) if weight else math.log(to_inches(1, "cm"))
