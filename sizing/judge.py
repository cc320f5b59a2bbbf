"""Which of a dog's measures an experienced maker would question before cutting cloth, and why."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

import sizing.tables as tables
from sizing.body import ORDER, Kin, Spread
from sizing.doubt import Doubt
from sizing.measures import Amount, Dog, Measure, Taken
from sizing.mistakes.catalogue import possible_mistakes
from sizing.mistakes.told import Logs, Mistake, Told, Way
from sizing.reasons import Why

Matters = Callable[[Dog], bool]

_CLOSE = 3.0
"""Two reasons whose odds are within this of one another are asked about in one question."""
_AGAIN = 1.5
"""A second mistake in one dog must be this much surer than the first."""
_MEASURED_AGAIN = 0.2
"""What is left of the odds of other mistakes in a measure that was asked about and confirmed; judgement."""
_MOST_MISTAKES = 3
_GUESS, _HEDGED = 0.2, 0.06
"""Spread of the logarithm of a guess, and of a value said with "about", beside the tape's own; judgement."""
_BIGGEST = 14.0
"""Logarithms beyond this, up or down, are taken as this: a million is as far from any dog as a billion."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """A mistake with its odds against a sound dog: for asking at all, and for naming the reason."""

    mistake: Mistake
    ask: float
    name: float
    way: Way


def judge(dog: Dog, *, matters: Matters | None = None) -> tuple[Doubt, ...]:
    """Give the doubts about a dog's measures, most likely first, at most two reasons for one measure.

    dog       what was told
    matters   tells of the dog without the mistake whether the mistake could change what serves it; None: always
    Returns   () when nothing is doubtful
    Source    body.csv (see derive.py), mistakes/
    """
    said = list(_said(dog, matters))
    settled = {doubt.measure for doubt in said if doubt.why is not Why.VAGUE}
    doubts = said + list(_inferred(dog, settled, matters))
    ordered = sorted(doubts, key=lambda doubt: -doubt.odds)
    return tuple(_at_most_two(ordered))


def _at_most_two(doubts: Sequence[Doubt]) -> Iterator[Doubt]:
    reasons: dict[Measure, list[Why]] = {}
    for doubt in doubts:
        known = reasons.setdefault(doubt.measure, [])
        if doubt.why not in known and len(known) < 2:
            known.append(doubt.why)
            yield doubt


def _said(dog: Dog, matters: Matters | None) -> Iterator[Doubt]:
    """Give the doubts that the customer's own words raise."""
    for measure, taken in dog.measures.items():
        if taken.conflicting and Why.CONFLICT not in taken.confirmed:
            others = [_with(dog, measure, amount) for amount in taken.conflicting]
            if matters is None or any(matters(other) for other in others):
                yield Doubt(measure=measure, why=Why.CONFLICT)
        for why in sorted(taken.hints - taken.confirmed):
            yield Doubt(measure=measure, why=why, likely=_likely_of(dog, measure, why))
        if taken.vague and Why.VAGUE not in taken.confirmed:
            yield Doubt(measure=measure, why=Why.VAGUE)


def _likely_of(dog: Dog, measure: Measure, why: Why) -> float | None:
    """Give the likelier value where the reason was said outright."""
    told = _told(dog, set())
    kin = _kin(dog)
    found = [
        one
        for one in _weigh(told, kin, possible_mistakes(told))
        if one.mistake.why is why and measure in one.mistake.measures
    ]
    return _likely(max(found, key=lambda one: one.name), measure, kin) if found else None


def _inferred(dog: Dog, settled: set[Measure], matters: Matters | None) -> Iterator[Doubt]:
    """Give the doubts that the numbers raise: one mistake, then what is still amiss without it."""
    told = _told(dog, settled)
    kin = _kin(dog)
    accused: set[Measure] = set()
    least = _threshold()
    for _ in range(_MOST_MISTAKES):
        found = [
            one
            for one in _weigh(told, kin, _open(dog, told))
            if not accused.intersection(one.mistake.measures)
        ]
        if sum(one.ask for one in found) < least:
            return
        groups = _close_groups(found)
        for one in groups:
            yield from _doubts(dog, one, kin, matters)
        accused.update(*(one.mistake.measures for one in groups))
        told = replace(told, logs=groups[0].way.logs)
        least *= _AGAIN


def _open(dog: Dog, told: Told) -> list[Mistake]:
    """Give the mistakes that nobody has ruled out yet, less likely where a measure was confirmed otherwise."""
    left = []
    for mistake in possible_mistakes(told):
        confirmed = [dog.measures[measure].confirmed for measure in mistake.measures if measure in dog.measures]
        if any(mistake.why in reasons for reasons in confirmed):
            continue
        share = _MEASURED_AGAIN if any(confirmed) else 1.0
        left.append(replace(mistake, rate=mistake.rate * share, heed=mistake.heed * share))
    return left


def _close_groups(found: list[_Found]) -> list[_Found]:
    """Give the likeliest mistake, and the likeliest for another reason where that is about as likely."""
    ranked = sorted(found, key=lambda one: -one.name)
    first = ranked[0]
    second = next((one for one in ranked if one.mistake.why is not first.mistake.why), None)
    return [first, second] if second is not None and second.name * _CLOSE >= first.name else [first]


def _doubts(dog: Dog, found: _Found, kin: Kin, matters: Matters | None) -> Iterator[Doubt]:
    likely = {measure: _likely(found, measure, kin) for measure in found.mistake.measures}
    if matters is not None:
        without = dog
        for measure, value in likely.items():
            if value is not None and measure in dog.measures:
                without = _with(without, measure, Amount.exactly(value))
        if not matters(without):
            return
    for measure, value in likely.items():
        if measure in dog.measures:
            yield Doubt(measure=measure, why=found.mistake.why, likely=value, odds=max(found.name, 1e-9))


def _likely(found: _Found, measure: Measure, kin: Kin) -> float | None:
    place = ORDER.index(measure)
    value = found.way.logs[place]
    if value is not None:
        return math.exp(value)
    subset, row = _row(found.way.logs)
    return kin.expected(place, row, subset) if subset else None


def _with(dog: Dog, measure: Measure, amount: Amount) -> Dog:
    taken = replace(dog.measures[measure], amount=amount, conflicting=())
    return replace(dog, measures={**dog.measures, measure: taken})


def _told(dog: Dog, settled: set[Measure]) -> Told:
    known = {measure: taken for measure, taken in dog.measures.items() if measure in ORDER and measure not in settled}
    logs = tuple(_log(known[measure].amount) if measure in known else None for measure in ORDER)
    return Told(logs=logs, unstated=frozenset(m for m, taken in known.items() if not taken.unit_stated))


def _log(amount: Amount) -> float:
    return max(-_BIGGEST, min(_BIGGEST, math.log(amount.middle)))


def _kin(dog: Dog) -> Kin:
    return Kin(age_months=dog.age_months, breeds=tuple(sorted(dog.breeds)), spread=_spread(dog))


def _spread(dog: Dog) -> Spread:
    variances = tuple(_variance(dog.measures.get(measure)) for measure in ORDER)
    return variances if any(variances) else ()


def _variance(taken: Taken | None) -> float:
    if taken is None or taken.conflicting:
        return 0.0
    low, high = taken.amount.low, taken.amount.high
    width = 2 * (high - low) / (high + low) if high > low else 0.0
    return width**2 / 12 + _GUESS**2 * taken.vague + _HEDGED**2 * taken.hedged


def _row(logs: Logs) -> tuple[tuple[int, ...], list[float]]:
    known = [(place, value) for place, value in enumerate(logs) if value is not None]
    return tuple(place for place, _ in known), [value for _, value in known]


def _weigh(told: Told, kin: Kin, mistakes: Sequence[Mistake]) -> list[_Found]:
    """Give each mistake its odds against the dog as told; the rows of one subset are judged together."""
    ways = [(mistake, way) for mistake in mistakes for way in mistake.ways]
    sound, *densities = _densities(kin, [told.logs, *(way.logs for _, way in ways)])
    best: dict[int, list[tuple[float, Way]]] = {}
    for (mistake, way), density in zip(ways, densities, strict=True):
        best.setdefault(id(mistake), []).append((way.share + density - sound, way))
    return [_found(mistake, best[id(mistake)]) for mistake in mistakes]


def _found(mistake: Mistake, weighed: list[tuple[float, Way]]) -> _Found:
    odds = sum(math.exp(min(300.0, share)) for share, _ in weighed)
    _, way = max(weighed, key=lambda pair: pair[0])
    return _Found(mistake=mistake, ask=odds * mistake.heed, name=odds * mistake.rate / 100, way=way)


def _densities(kin: Kin, rows: Sequence[Logs]) -> list[float]:
    by_subset: dict[tuple[int, ...], list[tuple[int, list[float]]]] = {}
    for number, logs in enumerate(rows):
        subset, row = _row(logs)
        by_subset.setdefault(subset, []).append((number, row))
    found = [0.0] * len(rows)
    for subset, members in by_subset.items():
        if subset:
            values = kin.log_density([row for _, row in members], subset).tolist()
            for (number, _), value in zip(members, values, strict=True):
                found[number] = value
    return found


@cache
def _threshold() -> float:
    return float(tables.table("body.toml")["threshold"])
