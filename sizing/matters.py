"""Whether a measuring mistake matters: whether it could change what serves the dog, or hurt somebody.

What is not known yet may still turn out any way. So while a length is missing a mistake in another one matters: the dog
may need a carrier made to measure, where every step counts. A weight always matters: the total load, which the caution
tells, and the loads that the maker has tested for hang on it alone.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace

from sizing.chart import Shop
from sizing.fit import body_of, fit
from sizing.measures import FIVE, Amount, Dog, Measure, Taken
from sizing.missing import missing
from sizing.outcome import Outcome

_THROATS = (0.55, 0.62, 0.68, 0.74, 0.8, 0.88)
"""Throat heights that a dog can turn out to have, as shares of its height: 5 to 95 % of dogs lie in 0.62 to 0.82."""


def matters_for(dog: Dog, shop: Shop) -> Callable[[Dog], bool]:
    """Give the test whether the difference between `dog` as told and another reading of it matters."""
    return lambda other: _matters(dog, other, shop)


def _matters(dog: Dog, other: Dog, shop: Shop) -> bool:
    differing = {
        m for m, taken in dog.measures.items() if m in other.measures and taken.amount != other.measures[m].amount
    }
    if not differing or any(dog.measures[measure].conflicting for measure in differing):
        return True  # what it would be without the mistake is not known; or two values were given for one thing
    counting = differing.intersection(FIVE)
    if Measure.WEIGHT in counting:
        return True
    return bool(counting) and _could_change(dog, other, shop)


def _could_change(dog: Dog, other: Dog, shop: Shop) -> bool:
    unknown = set(missing(dog))
    if not unknown <= {Measure.THROAT_HEIGHT, Measure.WEIGHT}:
        return True
    return any(
        _serving(replace(dog, measures={**dog.measures, **rest}), shop)
        != _serving(replace(other, measures={**other.measures, **rest}), shop)
        for rest in _completions(dog, unknown, shop)
    )


def _serving(dog: Dog, shop: Shop) -> tuple[object, ...]:
    outcome: Outcome = fit(body_of(dog), shop)
    return outcome.kind, outcome.size, outcome.inside, outcome.opening


def _completions(dog: Dog, unknown: set[Measure], shop: Shop) -> Iterator[dict[Measure, Taken]]:
    height = dog.measures[Measure.HEIGHT].amount.middle
    throats = [share * height for share in _THROATS] if Measure.THROAT_HEIGHT in unknown else [None]
    weights = _telling_weights(shop) if Measure.WEIGHT in unknown else [None]
    for throat in throats:
        for weight in weights:
            rest = {Measure.THROAT_HEIGHT: throat, Measure.WEIGHT: weight}
            yield {m: Taken(amount=Amount.exactly(value)) for m, value in rest.items() if value is not None}


def _telling_weights(shop: Shop) -> list[float | None]:
    """Give weights among which every rated load makes a difference once."""
    loads = {size.rated_load for size in shop.sizes if size.rated_load is not None}
    if shop.made_to_measure_rated_load is not None:
        loads.add(shop.made_to_measure_rated_load)
    return [*sorted(loads), max(loads, default=1.0) * 2]
