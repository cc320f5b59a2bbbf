"""Centimetres given as inches, kilograms as pounds, or the other way round: all of them, or one."""

import math
from collections.abc import Iterable, Iterator
from functools import cache

from sizing.measures import Measure
from sizing.mistakes.told import LENGTHS, Mistake, Told, Way
from sizing.reasons import Why
from sizing.units import to_inches, to_pounds

# Per hundred dogs. Owners' entries of labrador heights: unit 2.16 %, weights 0.2 % (PLOS ONE 15(1):e0228154, table 7).
_ALL, _ONE, _WEIGHT = 2.0, 0.9, 0.6
_OTHER_WAY = 0.015
_UNSTATED = 4.0
"""A number without a unit is this much likelier to be in another one than a number with its unit; judgement."""


def mistakes(told: Told) -> Iterator[Mistake]:
    """Give the ways in which the units may be wrong."""
    lengths = tuple(measure for measure in LENGTHS if told.given(measure))
    groups = [lengths] if lengths else []
    groups += [(measure,) for measure in lengths if len(lengths) > 1]
    bare = tuple(measure for measure in lengths if measure in told.unstated)
    if bare and bare not in groups:
        groups.append(bare)
    weight = (Measure.WEIGHT,) if told.given(Measure.WEIGHT) else ()
    for group in groups:
        rate = _ALL if len(group) > 1 else _ONE
        yield _mistake(told, group, rate)
        if len(group) > 1:
            yield _mistake(told, group, rate * _OTHER_WAY, -1)
    if weight:
        yield _mistake(told, weight, _WEIGHT)
        yield _mistake(told, weight, _WEIGHT * _OTHER_WAY, -1)
        if len(lengths) > 0:
            yield _mistake(told, lengths + weight, _ALL)


def _mistake(told: Told, group: tuple[Measure, ...], rate: float, sign: int = 1) -> Mistake:
    bare = all(measure in told.unstated for measure in group)
    return Mistake(
        why=Why.UNIT,
        measures=group,
        rate=rate * (_UNSTATED if bare else 1.0),
        heed=(2.0 if bare else 1.0) * (1.0 if sign > 0 else 0.1),
        ways=(Way(share=0.0, logs=_converted(told, group, sign)),),
    )


def _converted(told: Told, group: Iterable[Measure], sign: int) -> tuple[float | None, ...]:
    return told.but({measure: told.log(measure) + sign * _factor(measure is Measure.WEIGHT) for measure in group})


@cache
def _factor(weight: bool) -> float:
    return math.log(to_pounds(1, "kg")) if weight else math.log(to_inches(1, "cm"))
