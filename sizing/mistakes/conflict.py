"""Two different values that were given for one measure."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from sizing.doubt import Doubt
from sizing.measures import Amount, Dog, Measure
from sizing.reasons import Why


def said(dog: Dog, matters: Callable[[Dog], bool] | None) -> Iterator[Doubt]:
    """Doubt each measure with several values, where at least one of them would be served differently.

    matters   tells whether another reading of the dog could change what serves it; None: always
    """
    for measure, taken in dog.measures.items():
        if not taken.conflicting or Why.CONFLICT in taken.confirmed:
            continue
        if matters is None or any(matters(_reading(dog, measure, amount)) for amount in taken.conflicting):
            yield Doubt(measure=measure, why=Why.CONFLICT)


def _reading(dog: Dog, measure: Measure, amount: Amount) -> Dog:
    taken = replace(dog.measures[measure], amount=amount, conflicting=())
    return replace(dog, measures={**dog.measures, measure: taken})
