"""Which of a dog's measures an experienced maker would question before cutting cloth, and why."""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import cache

import sizing.tables as tables
from sizing.body import ORDER
from sizing.doubt import Doubt
from sizing.errors import DataError
from sizing.measures import FIVE, Amount, Dog, Measure
from sizing.mistakes import conflict, vague
from sizing.reasons import Why
from sizing.weighing import Weighed, kin_of, likely_value, told_of, weigh

Matters = Callable[[Dog], bool]

_CLOSE = math.log(3.0)
"""Two reasons whose odds are within 3 : 1 of one another are asked about in one question."""
_INCOMPLETE = 1.8
"""While a measure is still to come, one must be this much surer: with it the others can be judged better. Judgement."""
_AGAIN = 1.5
"""A second mistake in one dog must be this much surer than the first; judgement."""
_MOST_MISTAKES = 3
_COUNTS = 0.05
"""A mistake with less than this part of the suspicion that it takes is not looked at singly."""


def judge(dog: Dog, *, matters: Matters | None = None) -> tuple[Doubt, ...]:
    """Give the doubts about a dog's measures, most likely first, at most two reasons for one measure.

    dog       what was told
    matters   tells of the dog without the mistake whether the mistake could change what serves it; None: always
    Returns   () when nothing is doubtful
    Raises    nothing for any measures, however wild
    Source    body.csv and body.toml (see derive.py), mistakes/
    """
    said = list(_said(dog, matters))
    settled = {doubt.measure for doubt in said if doubt.why is not Why.VAGUE}
    doubts = sorted([*said, *_inferred(dog, settled, matters)], key=lambda doubt: -doubt.odds)
    return tuple(_at_most_two(doubts))


def _at_most_two(doubts: Sequence[Doubt]) -> Iterator[Doubt]:
    reasons: dict[Measure, list[Why]] = {}
    for doubt in doubts:
        known = reasons.setdefault(doubt.measure, [])
        if doubt.why not in known and len(known) < 2:
            known.append(doubt.why)
            yield doubt


def _said(dog: Dog, matters: Matters | None) -> Iterator[Doubt]:
    """Give the doubts that the customer's own words raise."""
    yield from conflict.said(dog, matters)
    for measure, taken in dog.measures.items():
        for why in sorted(taken.hints - taken.confirmed):
            yield Doubt(measure=measure, why=why, likely=_likely_without(dog, measure, why))
    yield from vague.said(dog)


def _likely_without(dog: Dog, measure: Measure, why: Why) -> float | None:
    """Give the likelier value of a measure whose mistake was said outright."""
    found = [one for one in weigh(dog, told_of(dog)) if one.mistake.why is why and measure in one.mistake.measures]
    return likely_value(max(found, key=lambda one: one.log_odds), measure, kin_of(dog)) if found else None


def _inferred(dog: Dog, settled: set[Measure], matters: Matters | None) -> Iterator[Doubt]:
    """Give the doubts that the numbers raise: one mistake, then what is still amiss without it."""
    told = told_of(dog, without=settled)
    accused: set[Measure] = set()
    least = _threshold() * (1.0 if dog.measures.keys() >= set(FIVE) else _INCOMPLETE)
    for _ in range(_MOST_MISTAKES):
        found = [one for one in weigh(dog, told) if accused.isdisjoint(one.mistake.measures)]
        if sum(one.ask for one in found) < least:
            return
        found = _that_matter(dog, found, least=least, matters=matters)
        if sum(one.ask for one in found) < least:
            return
        named = _named(found)
        for one in named:
            yield from _doubts(dog, one)
            accused.update(one.mistake.measures)
        told = replace(told, logs=named[0].right).without(measure for measure in ORDER if measure not in dog.measures)
        least *= _AGAIN


def _named(found: Sequence[Weighed]) -> list[Weighed]:
    """Give the likeliest mistake, and the likeliest for another reason where that is about as likely."""
    ranked = sorted(found, key=lambda one: -one.log_odds)
    first = ranked[0]
    second = next((one for one in ranked if one.mistake.why is not first.mistake.why), None)
    return [first, second] if second is not None and second.log_odds + _CLOSE >= first.log_odds else [first]


def _that_matter(dog: Dog, found: list[Weighed], *, least: float, matters: Matters | None) -> list[Weighed]:
    """Leave out the mistakes that could not change what serves the dog; those that weigh nothing are not looked at."""
    if matters is None:
        return found
    likeliest = max(one.log_odds for one in found)
    return [
        one
        for one in found
        if (one.ask < _COUNTS * least and one.log_odds + _CLOSE < likeliest) or matters(_without(dog, one))
    ]


def _without(dog: Dog, found: Weighed) -> Dog:
    """Give the dog as it would be without a mistake."""
    for measure in found.mistake.measures:
        value = likely_value(found, measure, kin_of(dog))
        if value is not None:
            taken = replace(dog.measures[measure], amount=Amount.exactly(value), conflicting=())
            dog = replace(dog, measures={**dog.measures, measure: taken})
    return dog


def _doubts(dog: Dog, found: Weighed) -> Iterator[Doubt]:
    kin, odds = kin_of(dog), found.odds
    for measure in found.mistake.measures:
        yield Doubt(measure=measure, why=found.mistake.why, likely=likely_value(found, measure, kin), odds=odds)


@cache
def _threshold() -> float:
    value = tables.table("body.toml").get("threshold")
    if not isinstance(value, int | float) or not (math.isfinite(value) and value > 0):
        raise DataError(f"sizing/body.toml, threshold is {value!r}: write it anew with python -m sizing.derive")
    return float(value)
