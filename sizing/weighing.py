"""How much likelier each measuring mistake makes what was told of a dog."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from sizing.body import ORDER, Kin, Spread, Subset
from sizing.measures import Amount, Dog, Measure, Taken
from sizing.mistakes.catalogue import possible_mistakes
from sizing.mistakes.told import Logs, Mistake, Told, Way

_MEASURED_AGAIN = 0.2
"""What is left of the odds of other mistakes in a measure that was asked about and confirmed; judgement."""
_GUESS, _HEDGED = 0.2, 0.06
"""Spread of the logarithm of a guess, and of a value said with "about", beside the tape's own; judgement."""
_WILDEST = 14.0
"""Logarithms beyond this, up or down, are taken as this: a million is as far from any dog as a billion."""
_ANY_DOG = ((1.0, 60.0), (0.3, 350.0))
"""Lengths, and weights, between which every dog lies: recorded extremes 3.8 and 44 in at the shoulder, about 1 lb."""
_SUREST = 300.0
"""Logarithms of odds beyond this are given as this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A mistake and how it compares with a sound dog.

    ask       its part in the suspicion that decides whether to ask
    log_odds  logarithm of its odds at the rate at which it is made
    right     the dog without the mistake, the mean over its ways; None where the mistake hides a measure
    """

    mistake: Mistake
    ask: float
    log_odds: float
    right: Logs

    @property
    def odds(self) -> float:
        """Odds of the mistake against a sound dog, above 0 and finite."""
        return math.exp(max(-_SUREST, min(_SUREST, self.log_odds)))


def suspicion(dog: Dog) -> float:
    """Give how suspicious the measures of a dog are: all mistakes together against a sound dog, 0 upwards."""
    return sum(one.ask for one in weigh(dog, told_of(dog)))


def weigh(dog: Dog, told: Told) -> list[Weighed]:
    """Weigh every mistake that may have been made and that nobody has ruled out.

    What speaks for a mistake that was ruled out speaks for an unusual dog instead, so that a question once answered
    does not come back in another guise.

    dog    for its kin, and for what was confirmed
    told   its measures, or what is left of them when other mistakes are mended
    """
    mistakes = possible_mistakes(told)
    found = list(zip(mistakes, _shares(kin_of(dog), told, mistakes), strict=True))
    sound = _log_sum([0.0, *(_log_sum(shares) for mistake, shares in found if _is_ruled_out(dog, mistake))])
    return [_weighed(dog, mistake, shares, sound) for mistake, shares in found if not _is_ruled_out(dog, mistake)]


def _shares(kin: Kin, told: Told, mistakes: Sequence[Mistake]) -> list[list[float]]:
    """Give the logarithm of how much likelier each way of each mistake makes what was told."""
    ways = [(number, way) for number, mistake in enumerate(mistakes) for way in mistake.ways]
    sound, *densities = _densities(kin, [told.logs, *(way.logs for _, way in ways)])
    shares: list[list[float]] = [[] for _ in mistakes]
    for (number, way), density in zip(ways, densities, strict=True):
        shares[number].append(way.share + density - sound)
    return shares


def _is_ruled_out(dog: Dog, mistake: Mistake) -> bool:
    return any(mistake.why in dog.measures[measure].confirmed for measure in mistake.measures)


def _weighed(dog: Dog, mistake: Mistake, shares: Sequence[float], sound: float) -> Weighed:
    looked_at = any(dog.measures[measure].confirmed for measure in mistake.measures)
    evidence = _log_sum(shares) - sound + (math.log(_MEASURED_AGAIN) if looked_at else 0.0)
    return Weighed(
        mistake=mistake,
        ask=mistake.heed * math.exp(min(_SUREST, evidence)),
        log_odds=evidence + math.log(mistake.rate / 100),
        right=_mean(mistake.ways, shares),
    )


def _log_sum(logs: Sequence[float]) -> float:
    top = max(logs)
    return top + math.log(sum(math.exp(log - top) for log in logs)) if len(logs) > 1 else top


def _mean(ways: Sequence[Way], shares: Sequence[float]) -> Logs:
    if len(ways) == 1:
        return ways[0].logs
    total = _log_sum(shares)
    weights = [math.exp(share - total) for share in shares]
    places = zip(*(way.logs for way in ways), strict=True)
    return tuple(
        None if None in values else sum(w * v for w, v in zip(weights, values, strict=True) if v is not None)
        for values in places
    )


def likely_value(weighed: Weighed, measure: Measure, kin: Kin) -> float | None:
    """Give what a measure most likely is without the mistake, inches or pounds; None where nothing sensible tells."""
    log = weighed.right[ORDER.index(measure)]
    subset, row = _row(weighed.right)
    if log is None and not subset:
        return None
    value = kin.expected(ORDER.index(measure), row, subset) if log is None else math.exp(log)
    least, most = _ANY_DOG[measure is Measure.WEIGHT]
    return value if least <= value <= most else None


def told_of(dog: Dog, *, without: Collection[Measure] = ()) -> Told:
    """Give a dog's measures in the form in which mistakes look at them, some left out."""
    known = {measure: taken for measure, taken in dog.measures.items() if measure in ORDER and measure not in without}
    return Told(
        logs=tuple(_log(known[measure].amount) if measure in known else None for measure in ORDER),
        unstated=frozenset(measure for measure, taken in known.items() if not taken.unit_stated),
    )


def _log(amount: Amount) -> float:
    return max(-_WILDEST, min(_WILDEST, math.log(amount.middle)))


def kin_of(dog: Dog) -> Kin:
    """Give the dogs among which a dog is judged."""
    return Kin(age_months=dog.age_months, breeds=tuple(sorted(dog.breeds)), spread=_spread(dog))


def _spread(dog: Dog) -> Spread:
    variances = tuple(_variance(dog.measures.get(measure)) for measure in ORDER)
    return variances if any(variances) else ()


def _variance(taken: Taken | None) -> float:
    if taken is None:
        return 0.0
    low, high = taken.amount.low, taken.amount.high
    range_ = (high - low) / taken.amount.middle
    return range_**2 / 12 + _GUESS**2 * taken.vague + _HEDGED**2 * taken.hedged


def _row(logs: Logs) -> tuple[Subset, list[float]]:
    known = [(place, value) for place, value in enumerate(logs) if value is not None]
    return tuple(place for place, _ in known), [value for _, value in known]


def _densities(kin: Kin, rows: Sequence[Logs]) -> list[float]:
    """Give the log density of each row; the rows of one subset are judged together."""
    by_subset: dict[Subset, list[tuple[int, list[float]]]] = {}
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
